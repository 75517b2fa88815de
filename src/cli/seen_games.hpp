// Which games were there before, and how many players there are, in little memory.
//
// A game is known by its identity (pgn/same_game.hpp), a player by 64 bits of a hash of the name.
// 16 bytes a game, 8 to 16 a player: a file of gigabytes needs some ten megabytes, and the worst
// one 160 and 100, for beyond `most_seen` games and `most_counted` players none is taken.
#pragma once

#include <cstdint>
#include <deque>
#include <functional>
#include <vector>

namespace kairos::cli {

inline constexpr std::size_t most_seen = 10'000'000;
inline constexpr std::size_t most_counted = 6'000'000;

// A game by its number in the run, from 1, and its line in its file.
struct GameSpot {
  std::uint32_t game = 0;
  std::uint32_t line = 0;
};

class SeenGames {
 public:
  explicit SeenGames(std::size_t most = most_seen) : most_(most) {}
  void add(std::uint64_t hash, GameSpot spot);
  // Whether a game was not taken because there were too many.
  [[nodiscard]] bool is_full() const { return is_full_; }
  // Tells of every later game that is the same as an earlier one, by order of the later, and
  // forgets all. Works in place, for the list may be long.
  void take_twins(const std::function<void(GameSpot first, GameSpot again)>& tell);

 private:
  // `key` is the game's hash, and later, of a twin, the spot of the first such game.
  struct Record {
    std::uint64_t key = 0;
    GameSpot spot;
  };
  void keep_twins();

  std::size_t most_;
  bool is_full_ = false;
  std::deque<Record> records_;  // grows without ever holding everything twice
};

// Counts different hashes.
class HashSet {
 public:
  explicit HashSet(std::size_t most = most_counted) : most_(most) {}
  void add(std::uint64_t hash);
  [[nodiscard]] std::size_t size() const { return size_; }
  // Whether one was not taken because there were too many.
  [[nodiscard]] bool is_full() const { return is_full_; }

 private:
  [[nodiscard]] std::size_t slot_of(std::uint64_t hash) const;
  void grow();

  std::size_t most_;
  bool is_full_ = false;
  std::vector<std::uint64_t> slots_ = std::vector<std::uint64_t>(1024);  // 0 is empty
  std::size_t size_ = 0;
};

}  // namespace kairos::cli
