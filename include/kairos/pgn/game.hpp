// One game as PGN holds it: tags, a tree of moves, annotations, a result.
//
// Nodes stand in one vector in the order of the text; node 0 is the start position and carries no
// move. `first_child` is the main continuation, further children follow by `next_sibling`. Moves
// are text (`san`) until `replay` (replay.hpp) has made them legal moves. All text is UTF-8.
// Annotations are rare, so nodes refer to them by index. Value type, owns everything, no threads.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "kairos/base/diagnostics.hpp"
#include "kairos/rules/position.hpp"

namespace kairos::pgn {

using NodeId = std::uint32_t;
inline constexpr NodeId no_node = 0xFFFFFFFF;
inline constexpr std::uint32_t no_annotation = 0xFFFFFFFF;

enum class GameResult : std::uint8_t { unknown, white_wins, black_wins, draw };
// "*", "1-0", "0-1", "1/2-1/2".
std::string_view to_string(GameResult r);

struct Tag {
  std::string name;
  std::string value;  // escapes resolved

  friend bool operator==(const Tag&, const Tag&) = default;
};

struct Annotation {
  std::vector<std::uint8_t> nags;     // in the order of the text; `!` and `?` marks become 1..6
  std::vector<std::string> before;    // comments in front of the move (at a variation's start)
  std::vector<std::string> comments;  // comments after it

  friend bool operator==(const Annotation&, const Annotation&) = default;
};

struct Node {
  rules::Move move;            // "no move" until replayed, and at the root
  std::uint16_t san_size = 0;  // of the move as written ...
  NodeId parent = no_node;
  NodeId first_child = no_node;
  NodeId next_sibling = no_node;
  std::uint32_t annotation = no_annotation;
  std::uint32_t san_begin = 0;  // ... and where it stands in Game::text
  std::uint32_t line = 0;       // in the file, from 1
  std::uint32_t column = 0;
};

struct Game {
  std::vector<Tag> tags;  // in the order of the text
  std::vector<Node> nodes;
  std::vector<Annotation> annotations;
  std::string text;  // holds the moves as written, with or without what stands between them
  rules::Position start = rules::Position::start();
  GameResult result = GameResult::unknown;
  base::Place place;  // of its first byte; `game` is its number in the file

  // The value of the first tag of that name, or "".
  [[nodiscard]] std::string_view tag(std::string_view name) const;
  void set_tag(std::string_view name, std::string_view value);
  [[nodiscard]] std::string_view san_text(const Node& n) const {
    return std::string_view(text).substr(n.san_begin, n.san_size);
  }
  // The annotation of a node, made when there is none yet.
  Annotation& annotate(NodeId id);
  [[nodiscard]] const Annotation* annotation_of(NodeId id) const;
  // Adds a child (behind its elder siblings) and returns it.
  NodeId add_child(NodeId parent, rules::Move move);
  // Main line: node ids after the root, in order.
  [[nodiscard]] std::vector<NodeId> main_line() const;
};

// The position at a node of a replayed game.
rules::Position position_at(const Game& game, NodeId id);
// Moves of the main line of a replayed game.
std::vector<rules::Move> main_line_moves(const Game& game);
// A game with a root and nothing else.
Game empty_game();

}  // namespace kairos::pgn
