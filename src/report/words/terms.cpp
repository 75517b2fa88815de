#include <algorithm>
#include <array>

#include "kairos/report/words.hpp"

namespace kairos::report {

namespace {

using study::Men;

std::string number_words(int n) {
  constexpr std::array<std::string_view, 9> small = {"no",   "one", "two",   "three", "four",
                                                     "five", "six", "seven", "eight"};
  return std::string(small[static_cast<std::size_t>(std::clamp(n, 0, 8))]);
}

std::string list_of(const Men& men) {
  std::string text;
  for (std::size_t t = rules::king; t-- > 0;) {
    if (men[t] <= 0) continue;
    const auto type = static_cast<rules::PieceType>(t);
    if (!text.empty()) text += " and ";
    text += men[t] == 1 ? with_article(type)
                        : number_words(men[t]) + " " + std::string(words(type)) + "s";
  }
  return text;
}

// A rook for a minor piece, and nothing else.
bool is_exchange(const Men& won, const Men& lost) {
  const auto total = [](const Men& men) {
    int n = 0;
    for (const int x : men) n += x;
    return n;
  };
  return total(won) == 1 && won[rules::rook] == 1 && total(lost) == 1 &&
         lost[rules::knight] + lost[rules::bishop] == 1;
}

}  // namespace

std::string side_words(rules::Color side) {
  return side == rules::white ? "White" : "Black";
}

std::string_view words(study::Kind kind) {
  constexpr std::array<std::string_view, study::kind_count> names = {
      "swing", "only move", "quiet win", "trap", "ended early", "claim", "slide", "turn", "slip"};
  return names[static_cast<std::size_t>(kind)];
}

std::string_view words(study::Standing standing) {
  constexpr std::array<std::string_view, 5> names = {"lost", "worse", "level", "better", "winning"};
  return names[static_cast<std::size_t>(standing)];
}

std::string_view words(rules::PieceType type) {
  constexpr std::array<std::string_view, 7> names = {"pawn",  "knight", "bishop", "rook",
                                                     "queen", "king",   ""};
  return names[type];
}

std::string with_article(rules::PieceType type) {
  if (type == rules::no_piece_type) return "";
  const bool single = type == rules::queen || type == rules::king;
  return (single ? "the " : "a ") + std::string(words(type));
}

std::string men_words(const study::MenWon& men) {
  if (men.promoted != rules::no_piece_type) return "a new " + std::string(words(men.promoted));
  if (is_exchange(men.won, men.lost)) return "the exchange";
  const std::string gains = list_of(men.won), costs = list_of(men.lost);
  return costs.empty() ? gains : gains + " for " + costs;
}

}  // namespace kairos::report
