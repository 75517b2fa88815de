// What the PGN tests share: long texts, a text read to its end, and games as one line of text to
// compare.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "kairos/base/bytes.hpp"
#include "kairos/pgn/reader.hpp"

namespace kairos::pgn {

struct Reading {
  std::vector<Game> games;
  std::vector<base::Fault> faults;
  std::optional<base::Fault> failure;
  std::uint64_t games_met = 0;

  [[nodiscard]] std::vector<base::Code> codes() const {
    std::vector<base::Code> list;
    for (const base::Fault& fault : faults) list.push_back(fault.code);
    return list;
  }
};

inline std::string repeated(std::string_view text, std::size_t times) {
  std::string all;
  all.reserve(text.size() * times);
  for (std::size_t i = 0; i < times; ++i) all += text;
  return all;
}

constexpr auto whole = static_cast<std::size_t>(-1);

// `piece`: how many bytes the source gives at a time.
inline Reading read_all(std::string_view text, std::size_t piece = whole,
                        ReaderLimits limits = {}) {
  base::MemorySource source(text, piece);
  base::FaultList faults;
  Reader reader(source, "test.pgn", faults, limits);
  Reading reading;
  while (auto game = reader.next()) reading.games.push_back(std::move(*game));
  reading.faults = std::move(faults.faults);
  reading.failure = reader.failure();
  reading.games_met = reader.games();
  return reading;
}

// The moves as written with their annotations: `e4 $1 {good} (d4 d5) e5`. No recursion, for trees
// may be deep.
inline std::string tree_of(const Game& game) {
  std::string text;
  const auto add = [&text](std::string_view word) {
    if (!text.empty() && text.back() != '(') text += ' ';
    text += word;
  };
  const auto add_comments = [&add](const std::vector<std::string>& comments) {
    for (const std::string& comment : comments) add('{' + comment + '}');
  };
  const auto add_node = [&](NodeId id) {
    const Annotation* const annotation = game.annotation_of(id);
    if (annotation != nullptr) add_comments(annotation->before);
    if (id != 0) add(game.san_text(game.nodes[id]));
    if (annotation == nullptr) return;
    for (const std::uint8_t nag : annotation->nags) add('$' + std::to_string(nag));
    add_comments(annotation->comments);
  };
  struct Task {
    NodeId id;
    bool opens = false;
  };
  add_node(0);
  std::vector<Task> tasks{{game.nodes[0].first_child}};
  while (!tasks.empty()) {
    const auto [id, opens] = tasks.back();
    tasks.pop_back();
    if (id == no_node) {
      if (opens) text += ')';
      continue;
    }
    if (opens) add("(");
    add_node(id);
    const Node& node = game.nodes[id];
    tasks.push_back({node.first_child});
    if (game.nodes[node.parent].first_child != id) continue;
    std::vector<NodeId> siblings;
    for (NodeId s = node.next_sibling; s != no_node; s = game.nodes[s].next_sibling) {
      siblings.push_back(s);
    }
    for (auto s = siblings.rbegin(); s != siblings.rend(); ++s) {
      tasks.push_back({no_node, true});
      tasks.push_back({*s, true});
    }
  }
  return text;
}

// `White=Smith: e4 e5 1-0`, without the tags when there are none.
inline std::string summary(const Game& game) {
  std::string text;
  for (const Tag& tag : game.tags) text += tag.name + '=' + tag.value + ' ';
  if (!text.empty()) text.back() = ':';
  if (!text.empty()) text += ' ';
  const std::string tree = tree_of(game);
  if (!tree.empty()) text += tree + ' ';
  return text += to_string(game.result);
}

// The summaries of all games, ` | ` between them.
inline std::string summary(const Reading& reading) {
  std::string text;
  for (const Game& game : reading.games) {
    if (!text.empty()) text += " | ";
    text += summary(game);
  }
  return text;
}

}  // namespace kairos::pgn
