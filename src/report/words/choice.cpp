// Why a puzzle was chosen: what is worth saying of it to those who pick one for players of a level.
//
// First what kind of answer it has (a quiet key, a proved mate), then what makes it hard to see:
// few find it, many choose a certain try, the player in the game did not play it. Where nothing of
// that holds, how many find it. Two things at most; shares are those of the nearest ratings known.
#include <algorithm>
#include <cmath>

#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"
#include "kairos/report/words.hpp"

namespace kairos::report {

namespace {

using puzzle::Puzzle;

// One in four of the players would choose the try.
constexpr double tempting_share = 0.25;
// Fewer than 15 in 100 would find the key.
constexpr double rarely_found = 0.15;
constexpr double nearly_all = 0.95;
constexpr std::size_t longest_name = 30;  // bytes: of more it would be no short text

std::string answer_words(const Puzzle& p) {
  if (study::is_quiet(p.position, p.line.front())) return "quiet";
  return p.mate_moves > 0 ? "mate" : "";
}

bool has_tempting_try(const Puzzle& p, int level) {
  return std::ranges::any_of(p.tries, [level](const puzzle::Try& tried) {
    return puzzle::rate_at(tried.shares, level) >= tempting_share;
  });
}

// Of a swing's answer nobody knows here whether the game went on to a move at all, and a game that
// was ended had none: "missed" is said only where the player chose another.
std::string not_found_words(const Puzzle& p) {
  if (p.found || p.avoided) return "";
  const bool chose = p.kind == study::Kind::only_move || p.kind == study::Kind::quiet_win;
  const std::string_view name = puzzle::surname_in(p.game_label, p.position.side_to_move());
  const std::string words = chose ? "missed" : "not played";
  if (name.empty() || name.size() > longest_name) return words + " in the game";
  return words + " by " + base::isolated(name);
}

// With the rating, since the words on the difficulty tell of another.
std::string solved_by_words(double rate, int level) {
  const std::string who =
      rate >= nearly_all ? "nearly all" : base::number(std::lround(rate * 10)) + " in 10";
  return who + " at " + base::number(puzzle::nearest_told(level)) + " solve it";
}

std::string reason_words(const Puzzle& p, int level) {
  const bool known = puzzle::are_known(p.solve_rates);
  const double rate = puzzle::rate_at(p.solve_rates, level);
  if (known && rate < rarely_found) return "rarely found";
  if (has_tempting_try(p, level)) return "tempting try";
  if (std::string missed = not_found_words(p); !missed.empty()) return missed;
  return known ? solved_by_words(rate, level) : "";
}

}  // namespace

std::string choice_words(const Puzzle& p, int level) {
  if (p.line.empty()) return "";
  const std::string answer = answer_words(p), reason = reason_words(p, level);
  if (answer.empty() && reason.empty()) return std::string(name_of(p.reward));
  return answer + (answer.empty() || reason.empty() ? "" : ", ") + reason;
}

std::string level_words(int level) {
  return "Chosen for players rated " + base::number(level) + ".";
}

}  // namespace kairos::report
