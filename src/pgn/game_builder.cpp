// The tree grows as the text comes. A move hangs on the one before it in its line; a bracket puts
// the line aside and begins another at the place of its last move. Example: in `e4 e5 (c5 Nf3) d4`
// the c5 becomes a sibling of e5, and d4 hangs on e5 again. New nodes go to the end always, so a
// run of plain moves is filled in at once. Covered by tests/pgn/reader_test.cpp.
#include "game_builder.hpp"

#include <algorithm>
#include <bit>
#include <utility>

#include "bits.hpp"

namespace kairos::pgn {

void GameBuilder::start(Game& game) {
  game_ = &game;
  game.nodes.clear();
  game.nodes.emplace_back();
  game.annotations.clear();
  text_size_ = 0;
  line_ = {};
  outer_.clear();
  youngest_.clear();
  pending_.clear();
  pending_nags_.clear();
  main_plies_ = 0;
}

void GameBuilder::make_room(std::size_t size) {
  constexpr std::size_t first_room = 1024;
  game_->text.resize(std::max(first_room, 2 * (text_size_ + size + copied_at_once)));
}

// Each hangs on the one before it; where the first hangs and what the last leads to comes after.
void GameBuilder::moves(const TokenStream::Run& run) {
  if (run.begins == run.number_begins) return;
  const auto text_begin = static_cast<std::uint32_t>(text_size_);
  if (text_size_ + run_size + copied_at_once > game_->text.size()) make_room(run_size);
  std::memcpy(game_->text.data() + text_size_, run.bytes, run_size);
  text_size_ += static_cast<unsigned>(std::bit_width(run.ends)) - 1;

  std::uint64_t begins = run.begins ^ run.number_begins;
  std::uint64_t ends = run.ends ^ run.number_ends;
  std::uint64_t newlines = run.newlines;
  Spot line = run.spot;
  const auto first = static_cast<NodeId>(game_->nodes.size());
  game_->nodes.resize(first + static_cast<unsigned>(std::popcount(begins)));
  NodeId id = first;
  for (Node* node = &game_->nodes[first]; begins != 0; ++node) {
    const auto begin = static_cast<unsigned>(std::countr_zero(begins));
    const auto end = static_cast<unsigned>(std::countr_zero(ends));
    for (; (newlines & below_lowest(begins)) != 0; newlines &= newlines - 1) {
      ++line.line;
      line.column = 0U - static_cast<unsigned>(std::countr_zero(newlines));
    }
    node->parent = id - 1;
    node->first_child = ++id;
    node->san_begin = text_begin + begin;
    node->san_size = static_cast<std::uint16_t>(end - begin);
    node->line = line.line;
    node->column = line.column + begin;
    begins &= begins - 1;
    ends &= ends - 1;
  }
  append_line(first, id - 1);
}

// Hangs nodes that already hang together on the present line.
void GameBuilder::append_line(NodeId first, NodeId last) {
  game_->nodes[last].first_child = no_node;
  game_->nodes[first].parent = line_.current;
  if (line_.fresh) {
    link_first(first);
  } else {
    game_->nodes[line_.current].first_child = first;
  }
  line_.current = last;
  if (outer_.empty()) main_plies_ += last - first + 1;
}

// The first move of a line: the main line's comes before all alternatives, a variation's behind
// those that are there.
void GameBuilder::link_first(NodeId id) {
  line_.fresh = false;
  if (outer_.empty()) {
    NodeId& eldest = game_->nodes[line_.current].first_child;
    game_->nodes[id].next_sibling = eldest;
    eldest = id;
    return;
  }
  link_last(line_.current, id);
  take_pending(id);
}

void GameBuilder::link_last(NodeId parent, NodeId id) {
  if (youngest_.size() <= parent) youngest_.resize(parent + 1, no_node);
  NodeId elder = youngest_[parent];
  if (elder == no_node) elder = game_->nodes[parent].first_child;
  (elder == no_node ? game_->nodes[parent].first_child : game_->nodes[elder].next_sibling) = id;
  youngest_[parent] = id;
}

void GameBuilder::take_pending(NodeId id) {
  if (line_.pending == 0 && pending_nags_.empty()) return;
  Annotation& annotation = game_->annotate(id);
  const auto first = pending_.end() - line_.pending;
  annotation.before.assign(std::make_move_iterator(first), std::make_move_iterator(pending_.end()));
  pending_.erase(first, pending_.end());
  annotation.nags.insert(annotation.nags.end(), pending_nags_.begin(), pending_nags_.end());
  pending_nags_.clear();
  line_.pending = 0;
}

void GameBuilder::take_back(std::string_view san) {
  const Node& last = game_->nodes.back();
  const bool is_last = outer_.empty() && !line_.fresh && line_.current + 1 == game_->nodes.size();
  if (!is_last || last.annotation != no_annotation || game_->san_text(last) != san) return;
  game_->nodes[last.parent].first_child = last.next_sibling;
  line_.current = last.parent;
  text_size_ = last.san_begin;
  game_->nodes.pop_back();
  --main_plies_;
}

void GameBuilder::open() {
  outer_.push_back(line_);
  pending_nags_.clear();
  const NodeId from = line_.fresh ? line_.current : game_->nodes[line_.current].parent;
  line_ = {.current = from};
}

bool GameBuilder::close() {
  if (outer_.empty()) return false;
  const std::uint32_t waiting = line_.pending;  // comments of a variation without moves
  line_ = outer_.back();
  outer_.pop_back();
  if (line_.fresh && !outer_.empty()) {  // so is the one around it
    line_.pending += waiting;
    pending_nags_.clear();
    return true;
  }
  std::vector<std::string> orphans(std::make_move_iterator(pending_.end() - waiting),
                                   std::make_move_iterator(pending_.end()));
  pending_.erase(pending_.end() - waiting, pending_.end());
  pending_nags_.clear();
  for (std::string& orphan : orphans) comment(std::move(orphan));
  return true;
}

void GameBuilder::comment(std::string text) {
  if (line_.fresh && !outer_.empty()) {
    pending_.push_back(std::move(text));
    ++line_.pending;
  } else {
    game_->annotate(line_.current).comments.push_back(std::move(text));
  }
}

void GameBuilder::nag(std::uint8_t nag) {
  if (line_.fresh && !outer_.empty()) {
    pending_nags_.push_back(nag);
  } else {
    game_->annotate(line_.current).nags.push_back(nag);
  }
}

}  // namespace kairos::pgn
