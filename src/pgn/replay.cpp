// Legal replay.
//
// A game without variations is one pass over its nodes with one position. With variations the walk
// goes line by line: at a move with alternatives it plays the move (to know that it can be played),
// then walks each alternative to its end from the position before, then goes on. What waits is a
// stack of positions as deep as the variations are nested, never deeper. Nodes that fell away are
// taken out of the vector in one pass at the end. Covered by tests/pgn/replay_test.cpp.
#include "kairos/pgn/replay.hpp"

#include <algorithm>
#include <array>
#include <span>
#include <utility>
#include <vector>

#include "kairos/base/text.hpp"
#include "kairos/rules/draws.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"

namespace kairos::pgn {

namespace {

using base::Code;
using base::Fault;
using rules::Move;
using rules::Position;

constexpr std::array<std::string_view, 6> standard_names = {
    "standard", "chess", "normal", "regular", "from position", "fromposition"};

bool is_standard(std::string_view variant) {
  const std::string name = base::lower_case(base::trim(variant));
  return name.empty() || name == "?" || name == "-" ||
         std::ranges::find(standard_names, name) != standard_names.end();
}

// All sixteen men on their first two ranks, and a right to castle that no rook in the corner has.
bool starts_without_corner_rook(const rules::Setup& setup, const Position& position,
                                rules::Color color) {
  const rules::Bitboard home = color == rules::white ? rules::rank_1 : rules::rank_8;
  const rules::Bitboard pawns = color == rules::white ? home << 8 : home >> 8;
  const int lost = setup.castling & ~position.castling();
  const int own = color == rules::white ? rules::white_short | rules::white_long
                                        : rules::black_short | rules::black_long;
  return (lost & own) != 0 && (position.pieces(color, rules::pawn) & pawns) == pawns &&
         (position.pieces(color) & home) == home;
}

// Rights for a king that is on its first rank and not on the e-file, or for a rook that is not in
// the corner although nothing has moved yet, belong to shuffled starts.
bool is_shuffled(const rules::Setup& setup, const Position& position) {
  for (const auto& [color, rights] :
       {std::pair{rules::white, rules::white_short | rules::white_long},
        std::pair{rules::black, rules::black_short | rules::black_long}}) {
    const rules::Square king = position.king_square(color);
    const int home_rank = color == rules::white ? 0 : 7;
    if (starts_without_corner_rook(setup, position, color)) return true;
    if ((setup.castling & rights) != 0 && rules::rank_of(king) == home_rank &&
        rules::file_of(king) != rules::file_of(rules::e1)) {
      return true;
    }
  }
  return false;
}

// The start position from the tags into `game`, or why there is none.
std::optional<Fault> set_start(Game& game) {
  const std::string_view variant = game.tag("Variant");
  if (!is_standard(variant)) {
    return Fault{Code::variant_unsupported, std::string(variant), game.place};
  }
  const std::string_view fen = base::trim(game.tag("FEN"));
  if (fen.empty() || fen == "?") {
    if (base::trim(game.tag("SetUp")) == "1") return Fault{Code::setup_missing, {}, game.place};
    game.start = Position::start();
    return std::nullopt;
  }
  const auto position = rules::parse_fen(fen);
  if (!position) {
    const bool other = std::ranges::all_of(
        position.faults(), [](const Fault& f) { return f.code == Code::variant_unsupported; });
    const Fault& first = position.fault();
    if (other) return Fault{Code::variant_unsupported, first.detail, game.place};
    std::string detail(base::words(first.code));
    if (!first.detail.empty()) detail += ": " + first.detail;
    return Fault{Code::setup_bad, std::move(detail), game.place};
  }
  const auto setup = rules::parse_setup(fen);
  if (setup && is_shuffled(*setup, *position)) {
    return Fault{Code::variant_unsupported, "castling from a shuffled start", game.place};
  }
  game.start = *position;
  return std::nullopt;
}

Fault move_fault(const Game& game, const Node& node, const Position& before, Code problem) {
  std::string detail = base::number(before.fullmove_number());
  detail += before.side_to_move() == rules::white ? ". " : "... ";
  detail += base::to_utf8(game.san_text(node));
  if (problem != Code::not_a_move) {
    const std::string reason = rules::why_not(before, game.san_text(node));
    if (!reason.empty()) detail += ": " + reason;
  }
  Fault fault{problem, std::move(detail), game.place};
  fault.place.line = node.line;
  fault.place.column = node.column;
  return fault;
}

class Walk {
 public:
  Walk(Game& game, base::Diagnostics& diagnostics) : game_(game), diagnostics_(diagnostics) {}

  // Gives moves to all nodes that can be reached and cuts off the others. Afterwards `plies` and
  // `fault` tell about the main line, and `last` is its last position.
  bool straight();
  void with_variations();

  std::size_t plies = 0;
  std::optional<Fault> fault;
  Position last = Position::start();

 private:
  // A move with alternatives: they are walked first, then the line goes on behind it.
  struct Fork {
    NodeId eldest;
    NodeId next;      // the alternative to walk
    NodeId previous;  // of its elder siblings the last that stayed
    bool is_main;
    Position before;
  };

  bool play(NodeId id, bool is_main);
  void walk_line(NodeId id, bool is_main);
  void cut_here(NodeId id, NodeId parent);

  Game& game_;
  base::Diagnostics& diagnostics_;
  Position position_ = Position::start();
  std::vector<Fork> forks_;
  bool cut_variation_ = false;
};

// Plays the node's move on `position_`; on failure tells why.
bool Walk::play(NodeId id, bool is_main) {
  Node& node = game_.nodes[id];
  const rules::SanReading reading = rules::read_san(position_, game_.san_text(node));
  if (reading.move && !(is_main && reading.move == rules::null_move)) {
    node.move = reading.move;
    position_.play(reading.move);
    return true;
  }
  const Code problem = reading.move ? Code::illegal_move : reading.problem;
  Fault told = move_fault(game_, node, position_, problem);
  if (is_main) {
    fault = std::move(told);
  } else {
    diagnostics_.report(std::move(told));
  }
  return false;
}

// Whether each node from `id` on follows the one before it.
bool is_straight_from(const Game& game, NodeId id) {
  while (id < game.nodes.size() && game.nodes[id].parent == id - 1) ++id;
  return id >= game.nodes.size();
}

// False, with nothing told, when there are variations.
bool Walk::straight() {
  position_ = game_.start;
  const std::span<Node> nodes = game_.nodes;
  const char* const text = game_.text.data();
  for (NodeId id = 1; id < nodes.size(); ++id) {
    Node& node = nodes[id];
    if (node.parent != id - 1) return false;
    node.move = rules::play_plain_san(position_, {text + node.san_begin, node.san_size});
    if (node.move || play(id, true)) continue;
    if (!is_straight_from(game_, id)) return false;
    game_.nodes[id - 1].first_child = no_node;
    game_.nodes.resize(id);
    break;
  }
  plies = game_.nodes.size() - 1;
  last = position_;
  return true;
}

// Walks from `id` to the end of its line or to its first move with alternatives.
void Walk::walk_line(NodeId id, bool is_main) {
  while (id != no_node) {
    const Node& node = game_.nodes[id];
    const bool is_eldest = game_.nodes[node.parent].first_child == id;
    const bool forks = is_eldest && node.next_sibling != no_node;
    if (forks) forks_.push_back({id, node.next_sibling, id, is_main, position_});
    if (!play(id, is_main)) {
      if (forks) forks_.pop_back();
      if (is_eldest) {
        game_.nodes[node.parent].first_child = no_node;
        cut_variation_ = true;
      }
      return;
    }
    plies += is_main;
    if (is_main) last = position_;
    if (forks) return;
    id = game_.nodes[id].first_child;
  }
}

void Walk::with_variations() {
  fault.reset();
  position_ = last = game_.start;
  walk_line(game_.nodes[0].first_child, true);
  while (!forks_.empty()) {
    Fork& fork = forks_.back();
    position_ = fork.before;
    if (fork.next == no_node) {
      const NodeId eldest = fork.eldest;
      const bool is_main = fork.is_main;
      forks_.pop_back();
      position_.play(game_.nodes[eldest].move);
      walk_line(game_.nodes[eldest].first_child, is_main);
      continue;
    }
    const NodeId id = fork.next;
    fork.next = game_.nodes[id].next_sibling;
    const NodeId previous = fork.previous;
    fork.previous = id;
    const std::size_t level = forks_.size() - 1;
    walk_line(id, false);
    if (!game_.nodes[id].move) {
      game_.nodes[previous].next_sibling = game_.nodes[id].next_sibling;
      forks_[level].previous = previous;
      cut_variation_ = true;
    }
  }
}

}  // namespace

namespace {

// Takes out of the vector what no longer hangs on the tree: the nodes without a move, for whatever
// was played has one and whatever fell away was never reached.
void compact(Game& game) {
  std::vector<NodeId> new_id(game.nodes.size(), no_node);
  NodeId size = 0;
  for (NodeId id = 0; id < game.nodes.size(); ++id) {
    if (id == 0 || game.nodes[id].move) new_id[id] = size++;
  }
  if (size == game.nodes.size()) return;
  const auto renew = [&new_id](NodeId& id) {
    if (id != no_node) id = new_id[id];
  };
  for (NodeId id = 0; id < game.nodes.size(); ++id) {
    if (new_id[id] == no_node) continue;
    Node node = game.nodes[id];
    renew(node.parent);
    renew(node.first_child);
    renew(node.next_sibling);
    game.nodes[new_id[id]] = node;
  }
  game.nodes.resize(size);
}

void check_result(const Game& game, const Position& last, base::Diagnostics& diagnostics) {
  if (game.result == GameResult::unknown || rules::has_legal_move(last)) return;
  const bool in_check = last.in_check();
  const GameResult due = !in_check                             ? GameResult::draw
                         : last.side_to_move() == rules::white ? GameResult::black_wins
                                                               : GameResult::white_wins;
  if (game.result == due) return;
  std::string detail(to_string(game.result));
  detail += in_check ? " and checkmate" : " and stalemate";
  diagnostics.report({Code::result_contradicts_board, std::move(detail), game.place});
}

}  // namespace

Replay replay(Game& game, base::Diagnostics& diagnostics) {
  Replay outcome;
  if (game.nodes.empty()) game.nodes.emplace_back();
  outcome.fault = set_start(game);
  if (outcome.fault) {
    outcome.state = Replay::State::refused;
    return outcome;
  }
  Walk walk(game, diagnostics);
  if (!walk.straight()) {
    for (Node& node : game.nodes) node.move = Move{};
    walk.with_variations();
    compact(game);
  }
  outcome.last = walk.last;
  outcome.plies = walk.plies;
  outcome.fault = std::move(walk.fault);
  outcome.state = outcome.fault ? Replay::State::cut : Replay::State::playable;
  if (!outcome.fault) check_result(game, walk.last, diagnostics);
  return outcome;
}

}  // namespace kairos::pgn
