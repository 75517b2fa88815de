#include "assertions.hpp"

#include <algorithm>

#include "kairos/base/text.hpp"
#include "kairos/study/moment.hpp"

namespace kairos::study {

namespace {

using About = Assertion::About;

// What each sign must keep in expectation of the side it favours to stand uncontradicted.
constexpr double slight_least = 0.35, moderate_least = 0.50, decisive_least = 0.83;
// Level means that neither side expects more than this.
constexpr double level_most = 0.83;
// A move marked poor may cost so much without being a poor move.
constexpr double no_cost = 0.03;
// The second best of an only move stays at least so far behind.
constexpr double only_gap = 0.08;

Assertion advantage(rules::Color side, double least, std::string_view degree) {
  Assertion a;
  a.about = About::advantage;
  a.side = side;
  a.least = least;
  a.words = "called " + std::string(degree) + " for " + std::string(side_words(side));
  return a;
}

Assertion about_move(About about, std::string words) {
  Assertion a;
  a.about = about;
  a.words = std::move(words);
  return a;
}

std::optional<Assertion> of_nag(std::uint8_t nag) {
  if (nag == 1 || nag == 3) return about_move(About::good_move, "marked as good");
  if (nag == 2 || nag == 4) return about_move(About::poor_move, "marked as poor");
  if (nag == 7 || nag == 8) return about_move(About::only_move, "marked as the only move");
  if (nag >= 10 && nag <= 12) return about_move(About::level, "called level");
  if (nag < 14 || nag > 21) return std::nullopt;
  const rules::Color side = nag % 2 == 0 ? rules::white : rules::black;
  if (nag <= 15) return advantage(side, slight_least, "slightly better");
  if (nag <= 17) return advantage(side, moderate_least, "better");
  return advantage(side, decisive_least, "won");
}

// The comment as plain words: lower case, no full stop or exclamation mark at its end.
std::string plain_words(std::string_view comment) {
  std::string text = base::lower_case(base::trim(comment));
  while (!text.empty() && (text.back() == '.' || text.back() == '!')) text.pop_back();
  return text;
}

std::optional<Assertion> of_mate_words(const std::string& text) {
  for (const std::string_view opening : {"mate in ", "forced mate in ", "mates in "}) {
    if (!text.starts_with(opening)) continue;
    const auto moves = base::to_integer(std::string_view(text).substr(opening.size()));
    if (!moves || *moves < 1 || *moves > 30) return std::nullopt;
    Assertion a = about_move(About::mate, "called mate in " + base::number(*moves));
    a.moves = static_cast<int>(*moves);
    return a;
  }
  return std::nullopt;
}

std::optional<Assertion> of_comment(std::string_view comment, rules::Color mover) {
  const std::string text = plain_words(comment);
  if (auto mate = of_mate_words(text)) return mate;
  for (const std::string_view draw : {"draw", "drawn", "equal", "with a draw", "level"}) {
    if (text == draw) return about_move(About::level, "called a draw");
  }
  for (const std::string_view win : {"wins", "winning", "and wins", "with a win", "won"}) {
    if (text == win) return advantage(mover, decisive_least, "won");
  }
  for (const rules::Color side : {rules::white, rules::black}) {
    const std::string name = base::lower_case(side_words(side));
    if (text == name + " wins" || text == name + " is winning") {
      return advantage(side, decisive_least, "won");
    }
  }
  return std::nullopt;
}

}  // namespace

std::vector<Assertion> assertions_of(const pgn::Annotation& annotation, rules::Color mover) {
  std::vector<Assertion> found;
  for (const std::uint8_t nag : annotation.nags) {
    if (auto a = of_nag(nag)) found.push_back(std::move(*a));
  }
  for (const std::string& comment : annotation.comments) {
    if (auto a = of_comment(comment, mover)) found.push_back(std::move(*a));
  }
  return found;
}

bool is_contradicted(const Assertion& a, const MoveFacts& f, double claim_cost, double slack) {
  switch (a.about) {
    case About::good_move:
      return f.best - f.made >= claim_cost - slack;
    case About::poor_move:
      return f.best - f.made <= no_cost + slack;
    case About::only_move:
      return f.is_best ? f.best - f.second <= only_gap + slack
                       : f.best - f.made >= claim_cost - slack;
    case About::level:
      return std::max(f.made, 1 - f.made) >= level_most - slack;
    case About::advantage: {
      const double of_side = a.side == f.mover ? f.made : 1 - f.made;
      return of_side < a.least + slack;
    }
    case About::mate:
      // Counted with or without the move itself: one more is let pass.
      return f.made_score < search::min_mate_score ||
             search::mate_moves(f.made_score) > a.moves + 1;
  }
  return false;
}

bool is_marked_poor(const pgn::Annotation* annotation) {
  if (annotation == nullptr) return false;
  return std::any_of(annotation->nags.begin(), annotation->nags.end(),
                     [](std::uint8_t nag) { return nag == 2 || nag == 4 || nag == 6; });
}

}  // namespace kairos::study
