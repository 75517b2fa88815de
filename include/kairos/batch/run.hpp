// A run: which games, in which order, studied how, by which part of a split run. Plain data.
//
// A game is known by its key, a fingerprint of its PGN export text, so that results belong to the
// game and not to its place in some file: more games may come later, in any order, and only the new
// ones are studied. `number` counts the games of all input files from 1, skipped ones included, and
// is what people see. A Part is one of several machines that share a run; Focus picks the games and
// decisions of one player.
#pragma once

#include <compare>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "kairos/base/result.hpp"
#include "kairos/rules/piece.hpp"

namespace kairos::batch {

struct GameKey {
  std::uint64_t hash = 0;  // base::hash64 of the export text
  std::uint32_t crc = 0;   // base::crc32 of it

  friend auto operator<=>(const GameKey&, const GameKey&) = default;
};
GameKey key_of(std::string_view export_text);
// 24 hexadecimal digits, and back.
std::string to_text(const GameKey& key);
base::Result<GameKey> parse_key(std::string_view text);

inline constexpr std::int64_t most_parts = 1'000'000;

// Part `number` of `of`, both from 1; games go round the parts in turn.
struct Part {
  int number = 1;
  int of = 1;

  [[nodiscard]] bool whole() const { return of == 1; }
  [[nodiscard]] bool holds(std::size_t index) const {
    return index % static_cast<std::size_t>(of) == static_cast<std::size_t>(number - 1);
  }
  friend bool operator==(const Part&, const Part&) = default;
};
// "2/5".
base::Result<Part> parse_part(std::string_view text);
std::string to_text(const Part& part);

// What all records of one ledger have in common.
struct RunHeader {
  std::string version{};     // of kairos: another one may judge otherwise
  std::string evaluation{};  // search::evaluation_checksum
  int definitions = 0;       // study::definitions
  std::string settings{};    // study::to_text
  Part part{};

  friend bool operator==(const RunHeader&, const RunHeader&) = default;
};
// Results of another evaluation or other definitions never stand beside one another: what is unlike
// in `one`, for people ("evaluation 1a2b3c4d, not 5e6f7a8b"); empty when nothing is.
std::string unlike(const RunHeader& one, const RunHeader& other);

// One game to study.
struct InputGame {
  GameKey key{};
  std::uint64_t number = 0;  // in the run, from 1
  std::uint32_t file = 0;    // index into Input::files
  std::uint64_t line = 0;    // where it starts
  std::string white{}, black{};
  // So many first plies are moves that many games of the input share: nothing is told about them.
  int shared_plies = 0;

  friend bool operator==(const InputGame&, const InputGame&) = default;
};

struct Input {
  std::vector<std::string> files;
  std::vector<InputGame> games;     // in order; every key once
  std::uint64_t games_total = 0;    // read + skipped
  std::vector<base::Fault> faults;  // in order; bounded (intake.hpp)
  bool complete = false;            // every file was read to its end
  std::uint64_t repeats = 0;        // games left out for being the same as an earlier one

  [[nodiscard]] std::uint64_t skipped() const { return games_total - games.size(); }
};
// Of the games and their order alone: the same on every machine, wherever the files lie.
std::string fingerprint(const Input& input);

// Whether a folder that studied `before` may go on with `now`: games may be added, and some may go,
// but when most are gone it is another run. A part of a split run takes no change at all.
base::Status fits(const Input& before, const Input& now, const Part& part,
                  const std::string& folder);

// One player's games and decisions; with no names, everybody's.
struct Focus {
  std::vector<std::string> names;  // as written in the White and Black tags

  [[nodiscard]] bool everybody() const { return names.empty(); }
  [[nodiscard]] bool holds(const InputGame& game) const;
  // Whether the decision of `side` is the player's; `last`: the end of the game, which is both's.
  [[nodiscard]] bool holds(const InputGame& game, rules::Color side, bool last) const;
};

}  // namespace kairos::batch
