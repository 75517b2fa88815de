// The points of an evening: several questions in a row, put to the same people.
//
// Who finds a key has a point, who has the whole solution, where more than a move is asked, another
// one; being fast brings none. People are told apart as in a count (count.hpp).
//
// As text an evening is JSON Lines: first {"kairos":"evening","version":1}, then, in the order in
// which they were asked, {"position":...,"id":...} for each question that is over (the position as
// the four fields of EPD), and {"name":...,"points":...} for each person who has any. Plain data
// and pure functions.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "kairos/base/result.hpp"

namespace kairos::audience {

inline constexpr std::size_t most_players = 150'000;  // with points; others are not kept

// Who had a key.
struct Solver {
  std::string name;
  bool has_whole = false;  // the whole solution, and it is more than a move
};

struct Evening {
  struct Question {
    std::string position;
    std::string id;
  };
  struct Player {
    std::string name;  // as it was first written
    std::uint64_t points = 0;
  };
  std::vector<Question> asked;
  std::map<std::string, Player> players;  // by what tells them apart

  [[nodiscard]] bool has_asked(std::string_view position) const;
};

// A question is over; one that was over before counts no more.
void add(Evening& evening, const Evening::Question& question, const std::vector<Solver>& solvers);

// People with equally many points share a place, and the places behind them are left out: 1, 1, 3.
// Within a place names stand in the order of the alphabet, which says nothing of who was first.
struct Place {
  std::uint64_t place = 1;
  std::uint64_t points = 0;
  std::vector<std::string> names;
};
std::vector<Place> places_of(const Evening& evening);

// An empty text is an evening that has not begun. Faults: not_a_score_file, score_damaged or
// json_damaged with `file` and line.
base::Result<Evening> parse_evening(std::string_view text, const std::string& file);
std::string to_text(const Evening& evening);

}  // namespace kairos::audience
