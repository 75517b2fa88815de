// What a move wins, in two steps: prove the amount, then name the men.
//
// The proof is settled.hpp's: its line ends when the shooting is over, so the difference in men
// between its ends is what has been won. Equal men cancel (a knight for a bishop is a trade of
// pieces). What is left on both sides is named "W for L", with the trade's word "the exchange" for
// rook against minor piece. A promotion changes men without a capture and is named as such.
#include "kairos/study/spoils.hpp"

#include <algorithm>
#include <array>

#include "kairos/search/mate.hpp"
#include "kairos/search/settled.hpp"

namespace kairos::study {

namespace {

constexpr std::uint64_t mate_nodes = 400'000;
constexpr int longest_mate = 8;
constexpr search::Score least_gain = 100;

// With an even number of plies the other side has the last word, with an odd one its replies are
// followed up; the smaller gain counts.
constexpr std::array<search::SettledLimits, 2> proof_limits = {
    {{.plies = 6, .nodes = 600'000}, {.plies = 7, .nodes = 1'000'000}}};

// How far the searcher's score may lie below the material claimed: the larger of the two.
constexpr search::Score slack = 150;
constexpr int slack_divisor = 2;  // of the gain

using Count = std::array<int, rules::piece_type_count>;

Count men_of(const rules::Position& p, rules::Color side) {
  Count count{};
  for (int t = rules::pawn; t <= rules::king; ++t) {
    count[static_cast<std::size_t>(t)] =
        rules::count(p.pieces(side, static_cast<rules::PieceType>(t)));
  }
  return count;
}

Count lost_by(const rules::Position& from, const rules::Position& to, rules::Color side) {
  Count lost = men_of(from, side);
  const Count left = men_of(to, side);
  for (std::size_t t = 0; t < lost.size(); ++t) lost[t] -= left[t];
  return lost;
}

void cancel(int& a, int& b) {
  const int both = std::min(a, b);
  a -= both;
  b -= both;
}

// Men traded for their like are no gain; knights and bishops count alike.
void cancel_trades(Count& won, Count& lost) {
  for (std::size_t t = 0; t < won.size(); ++t) cancel(won[t], lost[t]);
  cancel(won[rules::knight], lost[rules::bishop]);
  cancel(won[rules::bishop], lost[rules::knight]);
}

std::string number_words(int n) {
  constexpr std::array<std::string_view, 9> small = {"no",   "one", "two",   "three", "four",
                                                     "five", "six", "seven", "eight"};
  return std::string(small[static_cast<std::size_t>(std::clamp(n, 0, 8))]);
}

std::string list_men(const Count& men) {
  std::string text;
  for (std::size_t t = rules::king; t-- > 0;) {
    if (men[t] <= 0) continue;
    const auto type = static_cast<rules::PieceType>(t);
    if (!text.empty()) text += " and ";
    text += men[t] == 1 ? with_article(type)
                        : number_words(men[t]) + " " + std::string(name_of(type)) + "s";
  }
  return text;
}

bool is_exchange(const Count& won, const Count& lost) {
  const auto total = [](const Count& c) {
    int n = 0;
    for (const int x : c) n += x;
    return n;
  };
  return total(won) == 1 && won[rules::rook] == 1 && total(lost) == 1 &&
         lost[rules::knight] + lost[rules::bishop] == 1;
}

// The least score that bears out a balance reached by a gain: far below it, the searcher sees the
// gain given back beyond the proof's horizon.
search::Score bearable(search::Score balance, search::Score gain) {
  return balance - std::max(slack, gain / slack_divisor);
}

// The best of the men that there are more of than before, which only promotion brings about.
rules::PieceType promoted_of(const Count& lost) {
  for (std::size_t t = rules::king; t-- > 0;) {
    if (lost[t] < 0) return static_cast<rules::PieceType>(t);
  }
  return rules::no_piece_type;
}

}  // namespace

std::string_view name_of(rules::PieceType t) {
  constexpr std::array<std::string_view, 7> names = {"pawn",  "knight", "bishop", "rook",
                                                     "queen", "king",   ""};
  return names[t];
}

std::string with_article(rules::PieceType t) {
  if (t == rules::no_piece_type) return "";
  const bool single = t == rules::queen || t == rules::king;
  return (single ? "the " : "a ") + std::string(name_of(t));
}

std::string men_won(const rules::Position& from, const rules::Position& to, rules::Color side) {
  Count won = lost_by(from, to, ~side), lost = lost_by(from, to, side);
  const rules::PieceType promoted = promoted_of(lost);
  if (promoted != rules::no_piece_type) return "a new " + std::string(name_of(promoted));
  if (promoted_of(won) != rules::no_piece_type) return "";
  cancel_trades(won, lost);
  if (is_exchange(won, lost)) return "the exchange";
  const std::string gains = list_men(won), costs = list_men(lost);
  if (gains.empty()) return "";
  return costs.empty() ? gains : gains + " for " + costs;
}

Spoils spoils_of(const rules::Position& position, rules::Move move, search::Score score,
                 const rules::Position* since) {
  Spoils spoils;
  const int moves = search::mate_moves(score);
  if (moves == 1) {
    spoils.mate_moves = 1;
    spoils.line = {move};
    return spoils;
  }
  if (moves > 1 && moves <= longest_mate) {
    const auto proof = search::prove_mate(position, moves, mate_nodes);
    if (proof) spoils.nodes += proof->nodes;
    if (proof && proof->line.front() == move) {
      spoils.mate_moves = proof->moves;
      spoils.line = proof->line;
      return spoils;
    }
  }
  Spoils material = material_of(position, move, score, since);
  material.nodes += spoils.nodes;
  return material;
}

Spoils material_of(const rules::Position& position, rules::Move move, search::Score score,
                   const rules::Position* since) {
  Spoils spoils;
  search::Settled least;
  least.gain = search::mate_score;
  for (const search::SettledLimits& limits : proof_limits) {
    search::Settled settled = search::settle(position, limits, move);
    spoils.nodes += settled.nodes;
    if (!settled.complete) return spoils;
    if (settled.gain < least.gain) least = std::move(settled);
  }
  const rules::Position& from = since != nullptr ? *since : position;
  const rules::Color side = position.side_to_move();
  const search::Score gain =
      least.gain + search::nominal_balance(position, side) - search::nominal_balance(from, side);
  if (gain < least_gain || least.gain >= search::min_mate_score) return spoils;
  if (score < bearable(search::nominal_balance(from, side) + gain, gain)) return spoils;
  rules::Position end = position;
  for (const rules::Move m : least.line) end.play(m);
  spoils.what = men_won(from, end, side);
  if (spoils.what.empty()) return spoils;
  spoils.gain = gain;
  spoils.line = std::move(least.line);
  return spoils;
}

}  // namespace kairos::study
