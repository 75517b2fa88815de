#include "kairos/pgn/game.hpp"

#include <algorithm>

namespace kairos::pgn {

std::string_view to_string(GameResult r) {
  switch (r) {
    case GameResult::white_wins:
      return "1-0";
    case GameResult::black_wins:
      return "0-1";
    case GameResult::draw:
      return "1/2-1/2";
    case GameResult::unknown:
      break;
  }
  return "*";
}

std::string_view Game::tag(std::string_view name) const {
  const auto found = std::ranges::find(tags, name, &Tag::name);
  return found == tags.end() ? std::string_view{} : found->value;
}

void Game::set_tag(std::string_view name, std::string_view value) {
  const auto found = std::ranges::find(tags, name, &Tag::name);
  if (found == tags.end()) {
    tags.push_back({std::string(name), std::string(value)});
  } else {
    found->value = value;
  }
}

Annotation& Game::annotate(NodeId id) {
  Node& node = nodes[id];
  if (node.annotation == no_annotation) {
    node.annotation = static_cast<std::uint32_t>(annotations.size());
    annotations.emplace_back();
  }
  return annotations[node.annotation];
}

const Annotation* Game::annotation_of(NodeId id) const {
  const std::uint32_t index = nodes[id].annotation;
  return index == no_annotation ? nullptr : &annotations[index];
}

NodeId Game::add_child(NodeId parent, rules::Move move) {
  const auto id = static_cast<NodeId>(nodes.size());
  Node node;
  node.move = move;
  node.parent = parent;
  nodes.push_back(node);
  NodeId* link = &nodes[parent].first_child;
  while (*link != no_node) link = &nodes[*link].next_sibling;
  *link = id;
  return id;
}

std::vector<NodeId> Game::main_line() const {
  std::vector<NodeId> line;
  if (nodes.empty()) return line;
  for (NodeId id = nodes[0].first_child; id != no_node; id = nodes[id].first_child) {
    line.push_back(id);
  }
  return line;
}

rules::Position position_at(const Game& game, NodeId id) {
  std::vector<rules::Move> moves;
  for (; id != 0 && id != no_node; id = game.nodes[id].parent) {
    moves.push_back(game.nodes[id].move);
  }
  rules::Position position = game.start;
  while (!moves.empty()) {
    position.play(moves.back());
    moves.pop_back();
  }
  return position;
}

std::vector<rules::Move> main_line_moves(const Game& game) {
  std::vector<rules::Move> moves;
  for (const NodeId id : game.main_line()) moves.push_back(game.nodes[id].move);
  return moves;
}

Game empty_game() {
  Game game;
  game.nodes.emplace_back();
  return game;
}

}  // namespace kairos::pgn
