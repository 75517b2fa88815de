#include "seen_games.hpp"

#include <algorithm>

namespace kairos::cli {

void SeenGames::add(std::uint64_t hash, GameSpot spot) {
  if (hash == 0) return;
  is_full_ = is_full_ || records_.size() == most_;
  if (!is_full_) records_.push_back({hash, spot});
}

void SeenGames::keep_twins() {
  std::sort(records_.begin(), records_.end(), [](const Record& a, const Record& b) {
    return a.key != b.key ? a.key < b.key : a.spot.game < b.spot.game;
  });
  Record first;
  std::size_t kept = 0;
  for (const Record record : records_) {
    if (record.key == first.key) {
      const std::uint64_t spot = std::uint64_t{first.spot.game} << 32 | first.spot.line;
      records_[kept++] = {spot, record.spot};
    } else {
      first = record;
    }
  }
  records_.resize(kept);
}

void SeenGames::take_twins(const std::function<void(GameSpot, GameSpot)>& tell) {
  keep_twins();
  std::sort(records_.begin(), records_.end(),
            [](const Record& a, const Record& b) { return a.spot.game < b.spot.game; });
  for (const Record& twin : records_) {
    tell({static_cast<std::uint32_t>(twin.key >> 32), static_cast<std::uint32_t>(twin.key)},
         twin.spot);
  }
  records_.clear();
}

std::size_t HashSet::slot_of(std::uint64_t hash) const {
  const std::size_t mask = slots_.size() - 1;
  std::size_t slot = hash & mask;
  while (slots_[slot] != 0 && slots_[slot] != hash) slot = (slot + 1) & mask;
  return slot;
}

void HashSet::add(std::uint64_t hash) {
  std::uint64_t& slot = slots_[slot_of(hash)];
  if (slot == hash) return;
  is_full_ = is_full_ || size_ == most_;
  if (is_full_) return;
  slot = hash;
  if (++size_ * 4 > slots_.size() * 3) grow();
}

void HashSet::grow() {
  std::vector<std::uint64_t> old(slots_.size() * 2);
  old.swap(slots_);
  for (const std::uint64_t hash : old) {
    if (hash != 0) slots_[slot_of(hash)] = hash;
  }
}

}  // namespace kairos::cli
