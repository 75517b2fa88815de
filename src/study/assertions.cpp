#include "assertions.hpp"

#include <algorithm>

#include "kairos/base/text.hpp"
#include "kairos/study/expectation.hpp"

namespace kairos::study {

namespace {

// What each sign must keep in expectation of the side it favours to stand uncontradicted.
constexpr double slight_least = 0.35, moderate_least = 0.50, decisive_least = 0.83;
// Level means that neither side expects more than this.
constexpr double level_most = 0.83;
// A move marked poor may cost so much without being a poor move.
constexpr double no_cost = 0.03;
// The second best of an only move stays at least so far behind.
constexpr double only_gap = 0.08;

Reason says(Assertion assertion, std::optional<rules::Color> favours = std::nullopt) {
  Reason reason;
  reason.role = Role::note;
  reason.kind = ReasonKind::assertion;
  reason.assertion = assertion;
  reason.favours = favours;
  return reason;
}

std::optional<Reason> of_nag(std::uint8_t nag) {
  if (nag == 1 || nag == 3) return says(Assertion::good_move);
  if (nag == 2 || nag == 4) return says(Assertion::poor_move);
  if (nag == 7 || nag == 8) return says(Assertion::only_move);
  if (nag >= 10 && nag <= 12) return says(Assertion::level);
  if (nag < 14 || nag > 21) return std::nullopt;
  const rules::Color side = nag % 2 == 0 ? rules::white : rules::black;
  if (nag <= 15) return says(Assertion::slightly_better, side);
  return says(nag <= 17 ? Assertion::better : Assertion::won, side);
}

// The comment as plain words: lower case, no full stop or exclamation mark at its end.
std::string plain_words(std::string_view comment) {
  std::string text = base::lower_case(base::trim(comment));
  while (!text.empty() && (text.back() == '.' || text.back() == '!')) text.pop_back();
  return text;
}

std::optional<Reason> of_mate_words(const std::string& text) {
  for (const std::string_view opening : {"mate in ", "forced mate in ", "mates in "}) {
    if (!text.starts_with(opening)) continue;
    const auto moves = base::to_integer(std::string_view(text).substr(opening.size()));
    if (!moves || *moves < 1 || *moves > 30) return std::nullopt;
    Reason reason = says(Assertion::mate);
    reason.mate_moves = static_cast<int>(*moves);
    return reason;
  }
  return std::nullopt;
}

std::optional<Reason> of_comment(std::string_view comment, rules::Color mover) {
  const std::string text = plain_words(comment);
  if (auto mate = of_mate_words(text)) return mate;
  for (const std::string_view draw : {"draw", "drawn", "equal", "with a draw", "level"}) {
    if (text == draw) return says(Assertion::drawn);
  }
  for (const std::string_view win : {"wins", "winning", "and wins", "with a win", "won"}) {
    if (text == win) return says(Assertion::won, mover);
  }
  for (const std::string_view win : {" wins", " is winning"}) {
    if (text == "white" + std::string(win)) return says(Assertion::won, rules::white);
    if (text == "black" + std::string(win)) return says(Assertion::won, rules::black);
  }
  return std::nullopt;
}

}  // namespace

std::vector<Reason> assertions_of(const pgn::Annotation& annotation, rules::Move move,
                                  rules::Color mover) {
  std::vector<Reason> found;
  for (const std::uint8_t nag : annotation.nags) {
    if (const auto reason = of_nag(nag)) found.push_back(*reason);
  }
  for (const std::string& comment : annotation.comments) {
    if (const auto reason = of_comment(comment, mover)) found.push_back(*reason);
  }
  for (Reason& reason : found) reason.move = move;
  return found;
}

Reason given_in_notes(rules::Move move) {
  Reason reason = says(Assertion::playable);
  reason.move = move;
  return reason;
}

bool is_contradicted(const Reason& a, const NotedFacts& f, double claim_cost, double slack) {
  const double of_side = a.favours == f.mover ? f.made : 1 - f.made;
  // Where nothing helps, a sign that blames or praises a move is a matter of taste.
  const bool is_lost = standing_of(f.best) == Standing::lost;
  switch (a.assertion.value_or(Assertion::playable)) {
    case Assertion::playable:
    case Assertion::good_move:
      return f.best - f.made >= claim_cost - slack;
    case Assertion::poor_move:
      return !is_lost && f.best - f.made <= no_cost + slack;
    case Assertion::only_move:
      if (is_lost) return false;
      return f.is_best ? f.best - f.second <= only_gap + slack
                       : f.best - f.made >= claim_cost - slack;
    case Assertion::level:
    case Assertion::drawn:
      return std::max(f.made, 1 - f.made) >= level_most - slack;
    case Assertion::slightly_better:
      return of_side < slight_least + slack;
    case Assertion::better:
      return of_side < moderate_least + slack;
    case Assertion::won:
      return of_side < decisive_least + slack;
    case Assertion::mate:
      // Counted with or without the move itself: one more is let pass.
      return f.made_score < search::min_mate_score ||
             search::mate_moves(f.made_score) > a.mate_moves + 1;
  }
  return false;
}

bool is_marked_poor(const pgn::Annotation* annotation) {
  if (annotation == nullptr) return false;
  return std::any_of(annotation->nags.begin(), annotation->nags.end(),
                     [](std::uint8_t nag) { return nag == 2 || nag == 4 || nag == 6; });
}

}  // namespace kairos::study
