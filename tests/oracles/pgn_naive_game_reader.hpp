// Games out of tokens, for the PGN reader's twin (pgn_naive.hpp).
#pragma once

#include <optional>

#include "oracles/pgn_naive.hpp"
#include "oracles/pgn_naive_text.hpp"

namespace kairos::oracles {

class GameReader {
 public:
  GameReader(Text file, const pgn::ReaderLimits& limits)
      : file_(file), limits_(limits), token_(file_.token(0)) {}
  NaiveReading all();

 private:
  // A line of moves: the main line or a variation.
  struct Line {
    std::size_t last = 0;  // what the next move follows
    bool has_moves = false;
    std::vector<std::string> comments;  // before the first move
    std::vector<int> nags;
    std::optional<pgn::GameResult> result;  // behind its last move
  };
  enum class Took { on, game_ends };

  void advance() { token_ = file_.token(token_.end); }
  void skip_line() { token_ = file_.token(file_.pass_line(token_.end)); }
  NaiveGame& game() { return reading_.games.back(); }
  [[nodiscard]] bool in_variation() const { return lines_.size() > 1; }
  void open_difference(Text what) { reading_.open = what; }
  void tell(base::Code code, std::size_t line, std::size_t column, std::size_t game);
  void tell(base::Code code, const NaiveToken& at) {
    tell(code, at.line, at.column, in_game_ ? reading_.games.size() : 0);
  }
  void tell(base::Code code) { tell(code, token_); }
  void tell_game(base::Code code) { tell(code, game().line, game().column, reading_.games.size()); }

  void between_games();
  void stray();
  void tell_stray();
  bool begins_with_number();
  void begin_game(NaiveToken first);
  Took take();
  Took take_tag();
  void add_again(const std::string& name, const std::string& value);
  void tell_repeated(const NaiveToken& tag);
  Took take_number();
  Took take_result();
  Took take_unknown();
  [[nodiscard]] bool is_spaced_result() const;
  void take_move();
  std::string comment_text();
  void take_comment(std::string text);
  void take_nag();
  void open();
  void close();
  void finish();
  void finish_result();

  NaiveFile file_;
  pgn::ReaderLimits limits_;
  NaiveToken token_;
  NaiveReading reading_;
  // Between games.
  std::optional<NaiveToken> stray_;  // the first token that belongs to no game
  bool stray_number_ = false;
  std::vector<NaiveToken> comments_;  // that may belong to the next game
  // Of the game being read.
  bool in_game_ = false;
  std::size_t told_ = 0;
  std::optional<base::Fault> untold_;
  std::vector<Line> lines_;
  std::optional<pgn::GameResult> result_;
  bool spaced_ = false;     // a result with blanks around its hyphen was met
  bool varied_ = false;     // a variation behind the result
  bool ended_ = false;      // by a result that no move number took back
  std::size_t number_ = 0;  // of the last move of the main line
  bool begun_ = false;      // moves or variations
  bool number_seen_ = false;
  bool text_seen_ = false;  // that is no part of the game
  bool repeated_told_ = false;
  bool too_long_told_ = false;
  bool result_closed_ = false;  // the last thing was a result in a variation that is closed
  std::size_t long_end_ = 0;    // of an unknown token as long as tokens can be
  bool again_damaged_ = false;
  std::vector<std::pair<std::string, std::string>>
      again_;  // a tag section that may be the first one again
  NaiveToken again_at_;
  std::size_t first_tags_ = 0;  // how many tags stand before it
};

}  // namespace kairos::oracles
