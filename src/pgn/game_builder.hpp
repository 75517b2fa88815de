// Builds the tree of one game from moves, brackets and annotations in the order of the text.
// Private to the reader.
//
// Iterative: open variations are a stack of lines. A variation replaces the last move of the line
// around it; one that stands before any move stands beside the first move to come, which still
// becomes the main continuation. All operations are O(1), whatever the shape of the tree.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "kairos/pgn/game.hpp"
#include "kairos/pgn/tokens.hpp"

namespace kairos::pgn {

class GameBuilder {
 public:
  // Clears `game` (its storage stays) and begins with the root.
  void start(Game& game);

  void move(std::string_view san, Spot at);
  void open();
  // False when no variation is open.
  bool close();
  void comment(std::string text);
  void nag(std::uint8_t nag);

  [[nodiscard]] std::size_t depth() const { return outer_.size(); }
  [[nodiscard]] std::size_t main_plies() const { return main_plies_; }

 private:
  struct Line {
    NodeId current = 0;         // its last move, or the node it starts from
    bool fresh = true;          // no move yet
    std::uint32_t pending = 0;  // comments waiting for its first move
  };

  void link_first(NodeId id);
  void link_last(NodeId parent, NodeId id);
  void take_pending(NodeId id);

  Game* game_ = nullptr;
  Line line_;
  std::vector<Line> outer_;
  std::vector<NodeId> youngest_;  // by parent, where known: its last child, found without a walk
  std::vector<std::string> pending_;
  std::vector<std::uint8_t> pending_nags_;
  std::size_t main_plies_ = 0;
};

}  // namespace kairos::pgn
