// How pgn_made_files makes a file: piece after piece, each drawn from what files hold.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "kairos/base/text.hpp"

#include "support/pgn_made_files.hpp"

namespace kairos::test {

using Words = std::vector<std::string>;

// The parts between bars.
inline Words list(std::string_view text) {
  Words words;
  for (const std::string_view part : base::split(text, '|')) words.emplace_back(part);
  return words;
}

class FileMaker {
 public:
  FileMaker(Choices& choices, std::size_t size) : choices_(choices), size_(size) {}
  std::string file();

 private:
  std::size_t below(std::size_t n) { return choices_.below(n); }
  bool once_in(std::size_t n) { return choices_.once_in(n); }
  std::string one_of(const Words& words) { return words[below(words.size())]; }
  void add(std::string_view text) { text_ += text; }
  [[nodiscard]] bool at_line_begin() const {
    return text_.empty() || text_.back() == '\n' || text_.back() == '\r';
  }
  [[nodiscard]] bool at_line_begin_but_blanks() const {
    const std::size_t last = text_.find_last_not_of(" \t");
    return last == std::string::npos || text_[last] == '\n' || text_[last] == '\r';
  }
  std::size_t length();
  std::string filled(const Words& units, std::size_t bytes);
  std::string line_end();
  void begin_line();
  void space();

  void between_games();
  void escape_lines();
  void text_line();
  void game();
  void tag_section();
  void tag(const std::string& name);
  std::string tag_value();
  void damaged_tag(const std::string& name);
  void moves(std::size_t depth);
  void number(std::size_t ply);
  void glued(const std::string& move);
  void annotations(std::size_t depth);
  std::string comment_text();
  void comment();
  void variation(std::size_t depth);
  void odd_word();
  void ending(bool needs_result);

  Choices& choices_;
  std::size_t size_;
  std::string text_;
  std::size_t line_ends_ = 0;
  bool nested_ = false;      // braces in comments: nested ones in this file, or lone ones
  bool needs_tags_ = false;  // the next game must begin with tags ...
  bool breaks_off_ = false;  // in a comment, which ends before an Event tag
};

}  // namespace kairos::test
