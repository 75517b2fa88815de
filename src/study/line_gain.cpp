// Men won by best play: the first place of the line from which a gain stays, whatever the side
// itself does later, borne out by the score and by what is left when the exchanges there are over,
// or by a score that tells of more; or a later one from which two pawns more do, where the score
// tells of more than that.
// The men are named from the board: those really taken, a single one by the square where it stood.
#include "line_gain.hpp"

#include <algorithm>

#include "kairos/search/settled.hpp"
#include "kairos/study/forced.hpp"
#include "kairos/study/search_move.hpp"

#include "played_line.hpp"

namespace kairos::study {

namespace {

constexpr std::size_t longest_line = 11;
constexpr std::size_t kept_plies = 8;
constexpr std::size_t latest_pawn = 5;
constexpr search::Score least_gain = 100;
// A short proof that nothing of it is taken back at once.
constexpr search::SettledLimits standing_limits{3, 30'000};
// How far the searcher's score may lie below the material claimed: the larger of the two.
constexpr search::Score slack = 150;
constexpr int slack_divisor = 2;  // of the gain

// The line played out, with the balance of its first side at each place.
class Balances {
 public:
  Balances(const MoveFacts& facts, search::Score from)
      : side_(facts.side()), line_(facts.line), positions_{facts.position} {
    for (const rules::Move m : facts.line) positions_.push_back(positions_.back().after(m));
    for (const rules::Position& p : positions_) {
      gains_.push_back(search::nominal_balance(p, side_) - from);
    }
  }

  [[nodiscard]] std::size_t last() const { return positions_.size() - 1; }
  [[nodiscard]] search::Score gain(std::size_t i) const { return gains_[i]; }
  [[nodiscard]] const rules::Position& at(std::size_t i) const { return positions_[i]; }

  // What is left of the gain at place i when the exchanges under way are over.
  search::Score standing(std::size_t i, std::uint64_t& nodes) const {
    const search::Settled settled = search::settle(positions_[i], standing_limits);
    nodes += settled.nodes;
    if (!settled.complete) return -search::infinite_score;
    return gains_[i] + (positions_[i].side_to_move() == side_ ? settled.gain : -settled.gain);
  }

  // The last place that is looked at for a gain at place i: what goes later goes for other reasons,
  // where the score bears the gain out to the full; else the line's end.
  [[nodiscard]] std::size_t end_for(std::size_t i, bool full) const {
    return full ? std::min(last(), i + kept_plies) : last();
  }

  // Whether all moves of the side itself before place i are captures or checks.
  [[nodiscard]] bool is_forced_until(std::size_t i) const {
    for (std::size_t k = 0; k < i; k += 2) {
      const rules::Position& p = positions_[k];
      if (!p.is_capture(line_[k]) && !p.gives_check(line_[k])) return false;
    }
    return true;
  }

  // Whether no move of the side itself up to `end` leaves it less, and place i is quiet: what the
  // other side takes next is at once taken back where it was taken.
  [[nodiscard]] bool is_kept_from(std::size_t i, std::size_t end) const {
    for (std::size_t k = i; k <= end; ++k) {
      if (positions_[k].side_to_move() != side_ && gains_[k] < gains_[i]) return false;
    }
    const bool loses_next = i < last() && gains_[i + 1] < gains_[i];
    return !loses_next || (i + 1 < last() && line_[i + 1].to() == line_[i].to());
  }

 private:
  rules::Color side_;
  const std::vector<rules::Move>& line_;
  std::vector<rules::Position> positions_;
  std::vector<search::Score> gains_;
};

// The first knight or bishop that the line takes and that is not taken back where it stood; the
// first of all where each is.
rules::PieceType minor_won(const Reason& reason, const rules::Position& position) {
  rules::PieceType first = rules::no_piece_type;
  rules::Position p = position;
  for (std::size_t i = 0; i < reason.line.size(); ++i) {
    const rules::Move m = reason.line[i];
    const bool own = i % 2 == 0 && p.is_capture(m);
    const rules::PieceType man = own ? taken_type(p, m) : rules::no_piece_type;
    p.play(m);
    if (man != rules::knight && man != rules::bishop) continue;
    if (first == rules::no_piece_type) first = man;
    const bool traded = i + 1 < reason.line.size() && reason.line[i + 1].to() == m.to();
    if (!traded) return man;
  }
  return first;
}

// A pawn of no fixed place, taken some moves later, explains little; so does any much later, but
// for one that is won by captures and checks alone.
bool is_soon(const Reason& pawn, const Balances& line) {
  const std::size_t plies = pawn.line.size();
  if (pawn.target == rules::no_square) return plies <= 3;
  return plies <= latest_pawn || line.is_forced_until(plies);
}

}  // namespace

bool MoveFacts::takes_back() const {
  return last && study::takes_back(before, last, move());
}

search::Score MoveFacts::material() const {
  const bool took = last && before.is_capture(last);
  return search::nominal_balance(took ? before : position, side());
}

Reason MoveFacts::reason(ReasonKind kind) const {
  Reason reason;
  reason.role = role;
  reason.kind = kind;
  reason.move = move();
  return reason;
}

search::Score bearable(search::Score balance, search::Score gain) {
  return balance - std::max(slack, gain / slack_divisor);
}

void name_what_is_taken(Reason& reason, const rules::Position& position) {
  rules::Position p = position;
  rules::Bitboard unmoved = p.pieces(~p.side_to_move());  // men that stand where they stood
  Men taken{};
  std::array<std::vector<rules::Square>, rules::piece_type_count> first_taken;
  reason.squares.clear();
  reason.pieces.clear();
  for (const rules::Move m : reason.line) {
    if (p.side_to_move() == position.side_to_move() && p.is_capture(m)) {
      ++taken[taken_type(p, m)];
      if (std::ranges::find(reason.squares, m.to()) == reason.squares.end()) {
        reason.squares.push_back(m.to());
        reason.pieces.push_back(taken_type(p, m));
      }
    }
    if (p.side_to_move() == position.side_to_move()) {
      if (rules::contains(unmoved, m.to())) first_taken[taken_type(p, m)].push_back(m.to());
    } else {
      unmoved &= ~rules::bit(m.from());
    }
    unmoved &= ~rules::bit(m.to());
    p.play(m);
  }
  Men& won = reason.men.won;
  for (const auto& [named, other] :
       {std::pair{rules::knight, rules::bishop}, std::pair{rules::bishop, rules::knight}}) {
    while (won[named] > taken[named] && won[other] < taken[other]) {
      --won[named];
      ++won[other];
    }
  }
  // Of a knight and a bishop taken of which one is won it is the first that was not traded.
  const rules::PieceType minor = minor_won(reason, position);
  if (won[rules::knight] + won[rules::bishop] == 1 && minor != rules::no_piece_type) {
    won[rules::knight] = minor == rules::knight ? 1 : 0;
    won[rules::bishop] = minor == rules::bishop ? 1 : 0;
  }
  int men = 0;
  for (std::size_t t = 0; t < won.size(); ++t) {
    men += won[t];
    // Of several alike it is not told which.
    if (won[t] == 1 && taken[t] == 1 && first_taken[t].size() == 1) {
      reason.target = first_taken[t].front();
    }
  }
  if (men != 1 || reason.target == reason.move.to()) reason.target = rules::no_square;
}

bool offers_a_trade(const Reason& reason, const rules::Position& position) {
  return !position.is_capture(reason.move) && !reason.squares.empty() &&
         reason.squares.front() == reason.move.to();
}

std::optional<Reason> gain_in_line(const MoveFacts& facts, const rules::Position& since,
                                   std::uint64_t& nodes, Pawns pawns) {
  const search::Score before = search::nominal_balance(since, facts.side());
  if (facts.score == search::draw_score || search::is_mate(facts.score)) return std::nullopt;
  if (facts.score < bearable(before + least_gain, least_gain)) return std::nullopt;
  const Balances line(facts, before);
  const std::size_t end = std::min(line.last(), longest_line);
  std::optional<Reason> found;
  for (std::size_t i = 1; i <= end; ++i) {
    const search::Score gain = line.gain(i);
    const search::Score least = found ? found->gain + 2 * least_gain : least_gain;
    if (gain < least || facts.score < bearable(before + gain, gain)) continue;
    const std::size_t kept_to = line.end_for(i, facts.score >= before + gain);
    if (!line.is_kept_from(i, kept_to)) continue;
    const bool tells_of_more = facts.score > before + gain + more_than_men;
    const bool stands = (tells_of_more && kept_to == i + kept_plies) ||
                        (line.standing(i, nodes) >= gain && line.standing(kept_to, nodes) >= gain);
    if (!stands) continue;
    const auto men = men_won(since, line.at(i), facts.side());
    if (!men) continue;
    Reason reason = facts.reason(ReasonKind::soon_wins);
    reason.line.assign(facts.line.begin(), facts.line.begin() + static_cast<std::ptrdiff_t>(i));
    reason.gain = gain;
    reason.men = *men;
    name_what_is_taken(reason, facts.position);
    if (offers_a_trade(reason, facts.position)) return std::nullopt;
    if (gain < 2 * least_gain && pawns == Pawns::soon && !is_soon(reason, line)) continue;
    found = std::move(reason);
    if (facts.score <= before + gain + more_than_men) break;
  }
  return found;
}

bool keeps_to_the_end(const MoveFacts& facts, const rules::Position& since, search::Score gain,
                      std::uint64_t& nodes) {
  const Balances line(facts, search::nominal_balance(since, facts.side()));
  if (line.gain(line.last()) >= gain) return true;
  return line.standing(line.last(), nodes) >= gain;
}

}  // namespace kairos::study
