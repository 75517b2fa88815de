// Where a conversation about a position stands: the moves that led to the board, the move last
// asked about, which side sits below. A request (request.hpp) changes that and comes to a turn: a
// question to be answered, something to be shown, or why it cannot be done. No input or output.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "kairos/audience/question.hpp"
#include "kairos/audience/request.hpp"
#include "kairos/rules/draws.hpp"

namespace kairos::audience {

// Moves played one after the other from a position: a game's, all of them, or none.
struct Line {
  rules::Position start = rules::Position::start();
  std::vector<rules::Move> moves{};
};

struct Turn {
  enum class Kind : std::uint8_t {
    nothing,
    asks,      // `question`; the board is shown with it
    shows,     // the board
    explains,  // more of the answer before
    helps,
    ends,
    refuses  // `refusal`
  };
  enum class Refusal : std::uint8_t {
    none,
    not_understood,   // or the moves or the FEN that cannot be read: the request says why
    at_the_start,     // nothing to take back
    no_game,          // none was given
    not_in_the_game,  // it has no such move
    off_the_game,     // the board has left it, or it ends here
    game_is_over,     // by the Laws, on the board
    nothing_to_explain
  };
  Kind kind = Kind::nothing;
  Refusal refusal = Refusal::none;
  Question question{};
};

class Conversation {
 public:
  // Begins after `plies` moves of the line (all of them at the most). `is_game`: its moves may be
  // gone to.
  Conversation(Line line, std::size_t plies, bool is_game);
  // From there on: legal moves, one after the other. They belong to where it begins.
  void begin_after(const std::vector<rules::Move>& moves);

  Turn take(const Request& request);
  // A question about moves of the board, or all of them: as where it is asked on the command line.
  Turn ask(std::vector<rules::Move> moves);

  [[nodiscard]] Scene scene() const { return {.position = position(), .asked = asked_}; }
  // What is to be seen: the board, or what it is after the move last asked about.
  [[nodiscard]] rules::Position shown() const;
  // How the game stands on the board.
  [[nodiscard]] rules::GameStatus status() const;
  [[nodiscard]] rules::Color view() const { return view_; }
  // The move of the game made on the board, where that is a position of the game.
  [[nodiscard]] rules::Move played() const;
  // What is shown now and was something else before the turn last taken; none where all is new.
  [[nodiscard]] std::vector<rules::Square> changed() const;

 private:
  struct Path {
    std::vector<rules::Position> positions;  // one more than moves
    std::vector<rules::Move> moves;
  };
  static Path path_of(const Line& line, std::size_t plies);

  [[nodiscard]] const rules::Position& position() const { return path_.positions.back(); }
  void play(rules::Move move);
  Turn ask_about(Question::Kind kind, std::vector<rules::Move> moves);
  Turn back(int plies);
  Turn play_on(const Request& request);
  Turn go_to(MoveNumber number);
  Turn next();
  Turn played_move();

  Line game_;
  bool is_game_;
  Path path_, start_;
  rules::Move asked_;
  rules::Color view_ = rules::white;
  bool can_explain_ = false;
  std::optional<rules::Position> seen_before_;  // what the changes are measured by
};

}  // namespace kairos::audience
