#include "ledger_index.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "kairos/batch/schedule.hpp"

namespace kairos::batch {

namespace {

using Entry = LedgerIndex::Entry;

void add(std::vector<Extent>& all, Extent extent) {
  if (!extent.empty()) all.push_back(extent);
}

void add_all_of(std::vector<Extent>& all, const Entry& entry) {
  add(all, entry.game.now);
  add(all, entry.survey.now);
  for (const auto& [ply, slot] : entry.findings) add(all, slot.now);
}

// What came of the stretches of all games, in the order of the schedule; of places that are no
// candidates (any more) behind them.
void add_findings(std::vector<Extent>& all, const std::vector<const Entry*>& games) {
  using Order = std::tuple<double, std::size_t, int>;
  std::vector<std::tuple<Order, int, Extent>> found;
  for (std::size_t game = 0; game < games.size(); ++game) {
    std::map<int, Extent> left;
    for (const auto& [ply, slot] : games[game]->findings) left[ply] = slot.now;
    const auto take = [&](int ply, const Order& order) {
      const auto at = left.extract(ply);
      if (!at.empty()) found.emplace_back(order, ply, at.mapped());
    };
    for (const study::Stretch& stretch : study::stretches(games[game]->candidates)) {
      for (const int ply : stretch.plies) take(ply, order_of(game, stretch));
    }
    while (!left.empty()) take(left.begin()->first, {1, game, left.begin()->first});
  }
  std::ranges::sort(found, {},
                    [](const auto& f) { return std::pair(std::get<0>(f), std::get<1>(f)); });
  for (const auto& f : found) all.push_back(std::get<2>(f));
}

}  // namespace

void LedgerIndex::Slot::put(Extent extent) {
  if (!now.empty()) earlier.push_back(now);
  now = extent;
}

void LedgerIndex::Slot::drop() {
  now = {};
  if (earlier.empty()) return;
  now = earlier.back();
  earlier.pop_back();
}

std::vector<Extent> in_file_order(const LedgerIndex& index) {
  std::vector<Extent> all;
  add(all, index.header);
  add(all, index.input);
  for (const auto& [key, entry] : index.entries) add_all_of(all, entry);
  std::sort(all.begin(), all.end(),
            [](const Extent& a, const Extent& b) { return a.offset < b.offset; });
  return all;
}

std::vector<Extent> in_run_order(const LedgerIndex& index, const Input& input) {
  static const Entry nothing;
  std::set<GameKey> keys;
  std::vector<const Entry*> games;
  for (const InputGame& game : input.games) {
    const auto at = index.entries.find(game.key);
    games.push_back(at == index.entries.end() ? &nothing : &at->second);
    keys.insert(game.key);
  }
  std::vector<Extent> all;
  add(all, index.header);
  for (const Entry* game : games) add(all, game->game.now);
  add(all, index.input);
  for (const Entry* game : games) add(all, game->survey.now);
  add_findings(all, games);
  for (const auto& [key, entry] : index.entries) {
    if (!keys.contains(key)) add_all_of(all, entry);
  }
  return all;
}

}  // namespace kairos::batch
