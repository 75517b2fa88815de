// Builds the tree of one game from moves, brackets and annotations in the order of the text.
// Private to the reader.
//
// Iterative: open variations are a stack of lines. A variation replaces the last move of the line
// around it; one that stands before any move stands beside the first move to come, which still
// becomes the main continuation. All operations are O(1), whatever the shape of the tree.
#pragma once

#include <cstdint>
#include <cstring>
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

  // The bytes of `san` up to `copied_at_once` must be readable, whatever its size.
  void move(std::string_view san, Spot at) {
    const auto id = static_cast<NodeId>(game_->nodes.size());
    if (text_size_ + san.size() + copied_at_once > game_->text.size()) make_room(san.size());
    char* const to = game_->text.data() + text_size_;
    std::memcpy(to, san.data(), copied_at_once);
    if (san.size() > copied_at_once) std::memcpy(to, san.data(), san.size());
    Node& node = game_->nodes.emplace_back();
    node.parent = line_.current;
    node.san_begin = static_cast<std::uint32_t>(text_size_);
    node.san_size = static_cast<std::uint16_t>(san.size());
    node.line = at.line;
    node.column = at.column;
    text_size_ += san.size();
    if (line_.fresh) {
      link_first(id);
    } else {
      game_->nodes[line_.current].first_child = id;
    }
    line_.current = id;
    main_plies_ += outer_.empty();
  }
  // The moves of a run.
  void moves(const TokenStream::Run& run);
  // Takes the main line's last move back when it reads `san` and nothing came behind it.
  void take_back(std::string_view san);
  // Nothing more will come.
  void finish() { game_->text.resize(text_size_); }
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

  static constexpr std::size_t copied_at_once = 16;
  static constexpr std::size_t run_size = 64;

  void make_room(std::size_t size);
  void append_line(NodeId first, NodeId last);
  void link_first(NodeId id);
  void link_last(NodeId parent, NodeId id);
  void take_pending(NodeId id);

  Game* game_ = nullptr;
  std::size_t text_size_ = 0;  // the game's text is kept longer, so that short copies need no care
  Line line_;
  std::vector<Line> outer_;
  std::vector<NodeId> youngest_;  // by parent, where known: its last child, found without a walk
  std::vector<std::string> pending_;
  std::vector<std::uint8_t> pending_nags_;
  std::size_t main_plies_ = 0;
};

}  // namespace kairos::pgn
