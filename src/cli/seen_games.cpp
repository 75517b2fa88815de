#include "seen_games.hpp"

#include <algorithm>
#include <bit>

#include "kairos/base/text.hpp"

namespace kairos::cli {

namespace {

// A step of our own hash: rotate, mix in, multiply by an odd number (the golden ratio's 64 bits).
constexpr std::uint64_t mix(std::uint64_t hash, std::uint64_t value) {
  return (std::rotl(hash, 23) ^ value) * 0x9E3779B97F4A7C15;
}
// The multiplication moves bits up only; this brings the upper ones down again.
constexpr std::uint64_t finish(std::uint64_t hash) {
  hash ^= hash >> 32;
  hash = mix(hash, hash >> 29);
  return hash == 0 ? 1 : hash;  // 0 means "none"
}

// "Rosin, Ada" and "rosin,A." alike.
std::uint64_t surname_hash(std::string_view name) {
  return text_hash(base::lower_case(base::trim(name.substr(0, name.find_first_of(", ")))));
}

}  // namespace

std::uint64_t text_hash(std::string_view text) {
  std::uint64_t hash = text.size();
  for (const char c : text) hash = mix(hash, static_cast<unsigned char>(c));
  return finish(hash);
}

std::uint64_t game_hash(const pgn::Game& game) {
  std::uint64_t hash = game.start.key();
  std::size_t plies = 0;
  for (pgn::NodeId id = game.nodes[0].first_child; id != pgn::no_node;
       id = game.nodes[id].first_child) {
    hash = mix(hash, game.nodes[id].move.raw());
    ++plies;
  }
  if (plies == 0) return 0;
  if (plies < telling_plies) {
    hash = mix(hash, surname_hash(game.tag("White")));
    hash = mix(hash, surname_hash(game.tag("Black")));
  }
  return finish(hash);
}

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
