// One token of the PGN reader's twin (pgn_naive.hpp): what begins at a byte of the file, told by
// looking around there.
#pragma once

#include <algorithm>
#include <optional>

#include "oracles/pgn_naive.hpp"
#include "oracles/pgn_naive_text.hpp"

namespace kairos::oracles {

class Tokenizer {
 public:
  Tokenizer(Text file, std::size_t position) : text_(file), position_(position) {
    if (position_ == 0 && file.starts_with(mark)) position_ = mark.size();
  }
  NaiveToken token();
  [[nodiscard]] std::size_t pass_line(std::size_t i) const;

 private:
  [[nodiscard]] Text rest(std::size_t i) const { return text_.substr(std::min(i, text_.size())); }
  [[nodiscard]] char at(std::size_t i) const { return i < text_.size() ? text_[i] : '\n'; }
  [[nodiscard]] bool is_end(std::size_t i) const { return is_line_end(at(i)); }
  [[nodiscard]] std::size_t line_end(std::size_t i) const {
    return std::min(text_.find_first_of("\n\r", i), text_.size());
  }
  [[nodiscard]] std::size_t blank(std::size_t i) const;
  [[nodiscard]] std::size_t pass_blanks(std::size_t i) const;
  [[nodiscard]] bool in_symbol(std::size_t i) const;
  [[nodiscard]] std::size_t symbol_end(std::size_t i) const;
  [[nodiscard]] std::size_t symbol_begin(std::size_t i) const;
  [[nodiscard]] bool in_first_column(std::size_t i) const;
  [[nodiscard]] bool begins_line(std::size_t i, Text but) const;
  [[nodiscard]] bool after_empty_line(std::size_t i) const;
  [[nodiscard]] bool closes_number(std::size_t i) const;
  [[nodiscard]] bool opens_tag(std::size_t i) const;
  [[nodiscard]] std::size_t tag_close(std::size_t value, std::size_t limit) const;
  [[nodiscard]] std::size_t comment_close(std::size_t first) const;
  [[nodiscard]] bool ends_open_comment(std::size_t i) const;

  void add(pgn::TokenKind kind, std::size_t end, int value = 0, bool damaged = false);
  void next();
  void take_sign();
  bool take_tag();
  void take_braces();
  void take_nag();
  void take_group(char close, std::size_t most);
  void take_symbol();
  bool take_spaced_castling();
  bool take_spaced_result();

  Text text_;
  std::size_t position_;
  std::optional<NaiveToken> token_;
};

}  // namespace kairos::oracles
