// The state of a Reader. Private; what it does is in reader.cpp (games and what lies between them)
// and reader_movetext.cpp (one game).
//
// `token_` is always the first token that has not been used up; functions that use it up end with
// `advance`. It and all views of it are gone after that.
#pragma once

#include <algorithm>
#include <array>
#include <cstring>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/tokens.hpp"

#include "game_builder.hpp"
#include "tag_section.hpp"

namespace kairos::pgn {

// A move number as written: kept for each move, and looked at behind a result only.
class MoveNumber {
 public:
  MoveNumber() = default;
  // Eight bytes from the first digit on must be readable.
  explicit MoveNumber(std::string_view digits) : size_(std::min(digits.size(), digits_.size())) {
    std::memcpy(digits_.data(), digits.data(), digits_.size());
  }
  [[nodiscard]] std::uint64_t value() const {
    std::uint64_t value = 0;
    for (std::size_t i = 0; i < size_; ++i) {
      value = value * 10 + static_cast<unsigned>(digits_[i] - '0');
    }
    return value;
  }

 private:
  std::array<char, 8> digits_{};
  std::size_t size_ = 0;
};

class Reader::Implementation {
 public:
  Implementation(base::ByteSource& source, std::string name, base::Diagnostics& diagnostics,
                 ReaderLimits limits)
      : tokens_(source), name_(std::move(name)), diagnostics_(diagnostics), limits_(limits) {}

  bool next(Game& into);

  [[nodiscard]] std::uint64_t games() const { return games_; }
  [[nodiscard]] std::uint64_t bytes() const { return tokens_.bytes(); }
  [[nodiscard]] const std::optional<base::Fault>& failure() const { return failure_; }

 private:
  // What has been seen of the game so far.
  struct Progress {
    bool in_tags = true;           // no movetext yet
    bool numbered = false;         // ... but a move number
    bool after_result = false;     // nothing but a result and its comments behind the moves
    bool full = false;             // main line over its limit, what follows is passed over
    bool variations_full = false;  // the same of variations
    bool inner_result_last = false;
    bool comments_full = false;
    std::optional<GameResult> result;
    std::optional<GameResult> inner_result;  // of a variation, or of the game if ) is missing
    std::size_t too_deep = 0;
    std::size_t comment_bytes = 0;
    std::size_t faults = 0;
    base::Code last_fault = base::Code::token_unknown;
  };

  // A comment in front of a game.
  struct Lead {
    std::string text;
    Spot at;
  };

  void advance() { token_ = &tokens_.next(); }
  [[nodiscard]] Spot spot() const { return tokens_.spot(); }

  // Between games.
  bool find_game();
  bool number_begins_game();
  bool game_without_tags();
  void lead();
  void lead_is_stray();
  void stray();
  void tell_stray();
  void note_stray(std::string_view text, Spot at);
  void begin_game();
  void finish_game();
  void finish_result();
  void report(base::Code code, std::string_view detail, Spot at);

  // Within a game.
  [[nodiscard]] bool in_plain_movetext() const {
    return !progress_.in_tags && !progress_.after_result && !passes_over();
  }
  [[nodiscard]] bool passes_over() const {
    return progress_.full || progress_.too_deep != 0 ||
           (progress_.variations_full && builder_.depth() != 0);
  }
  [[nodiscard]] std::size_t room() const;
  void plain_moves();
  void plain_runs(std::size_t most_nodes);
  bool step();
  bool tag();
  bool number();
  bool move();
  bool result_of_next_game();
  void result();
  void nag();
  void comment();
  std::string read_comment(Spot at);
  void keep_comment(std::string text, Spot at);
  void open();
  void close();
  bool unknown();
  void stray_line();

  TokenStream tokens_;
  std::string name_;
  base::Diagnostics& diagnostics_;
  ReaderLimits limits_;
  std::optional<base::Fault> failure_;

  const Token* token_ = nullptr;  // the first token that is not used up
  std::uint64_t games_ = 0;
  Game* game_ = nullptr;
  GameBuilder builder_;
  TagSection tags_;
  Progress progress_;
  MoveNumber last_number_;
  Spot game_spot_;
  std::vector<Lead> lead_;  // comments in front of a game without tags
  std::string stray_text_;
  Spot stray_spot_;
  std::string raw_comment_;
};

}  // namespace kairos::pgn
