// One reason, as the part of a sentence that follows its move.
#include <algorithm>

#include "kairos/base/text.hpp"
#include "kairos/report/words.hpp"

#include "phrases.hpp"

namespace kairos::report {

using rules::PieceType;
using study::Means;
using study::Men;
using study::Reason;
using study::ReasonKind;

namespace {

// "the knight on e5"; of a king or a square without a man less.
std::string man_on(PieceType man, rules::Square square) {
  if (man == rules::king) return "the king";
  if (man == rules::no_piece_type) return rules::to_string(square);
  return "the " + std::string(words(man)) + " on " + rules::to_string(square);
}

// "the king, the rook on a8 and the knight on c6", "the pawns on d6 and a7"
std::string men_on(const std::vector<PieceType>& men, const std::vector<rules::Square>& squares) {
  std::vector<std::string> all, places;
  const std::size_t n = std::min(men.size(), squares.size());
  for (std::size_t i = 0; i < n; ++i) {
    all.push_back(man_on(men[i], squares[i]));
    places.push_back(rules::to_string(squares[i]));
  }
  const bool alike = n > 1 && men[0] < rules::king &&
                     std::all_of(men.begin(), men.begin() + static_cast<std::ptrdiff_t>(n),
                                 [&](PieceType man) { return man == men[0]; });
  return alike ? "the " + std::string(words(men[0])) + "s on " + listed(places) : listed(all);
}

int number_of(const Men& men) {
  int n = 0;
  for (const int of_type : men) n += of_type;
  return n;
}

// In pawns, by common practice.
int value_of(const Men& men) {
  return men[rules::pawn] + 3 * (men[rules::knight] + men[rules::bishop]) + 5 * men[rules::rook] +
         9 * men[rules::queen];
}

// A rook for a minor piece, whatever pawns go with them.
bool is_exchange(const study::MenWon& men) {
  return men.won[rules::rook] == 1 && men.lost[rules::knight] + men.lost[rules::bishop] == 1 &&
         number_of(men.won) == 1 + men.won[rules::pawn] &&
         number_of(men.lost) == 1 + men.lost[rules::pawn];
}

// Men won, with the exchange told as such.
std::string gain_words(study::MenWon men) {
  if (!is_exchange(men)) return men_words(men);
  men.won[rules::rook] = 0;
  men.lost[rules::knight] = men.lost[rules::bishop] = 0;
  if (number_of(men.won) > 0) return "the exchange and " + men_words(men);
  men.won[rules::pawn] = men.lost[rules::pawn];
  men.lost[rules::pawn] = 0;
  return number_of(men.won) > 0 ? "the exchange for " + men_words(men) : "the exchange";
}

// The one man won, by its square: "the knight on e5".
std::string target_words(const Reason& r) {
  const Men& won = r.men.won;
  const auto man = std::ranges::find_if(won, [](int n) { return n > 0; });
  return man_on(static_cast<PieceType>(man - won.begin()), r.target);
}

// " for a pawn"; "" where nothing was given.
std::string cost_in_men(const Reason& r) {
  if (number_of(r.men.lost) == 0) return "";
  study::MenWon given;
  given.won = r.men.lost;
  return " for " + men_words(given);
}

std::string file_letter(rules::Square square) {
  return {static_cast<char>('a' + rules::file_of(square))};
}

std::string line_words(rules::Square a, rules::Square b) {
  if (rules::file_of(a) == rules::file_of(b)) return file_letter(a) + "-file";
  return rules::rank_of(a) == rules::rank_of(b) ? "rank" : "diagonal";
}

// Whether the man of the means is the one won, and told by its square.
bool is_named(const Reason& r) {
  return r.means_squares[0] == r.target && !is_exchange(r.men);
}

// " by a fork of the king and the rook on a8", ", which the queen no longer guards": how it does
// it.
std::string means_words(const Reason& r) {
  if (!r.means) return "";
  const auto& squares = r.means_squares;
  const auto& men = r.means_pieces;
  const auto man = [&](std::size_t i) { return std::string(words(men[i])); };
  switch (*r.means) {
    case Means::guard_gone:
      return ", now that the " + man(1) + " no longer guards " + rules::to_string(squares[0]);
    case Means::guard_shut:
      return ", now that " + man_on(men[1], squares[1]) + " no longer guards " +
             rules::to_string(squares[0]);
    case Means::square_unguarded:
      return ", now that the " + man(1) + " no longer guards " + rules::to_string(squares[0]);
    case Means::line_opened:
      return " along the opened " + line_words(squares[0], squares[2]);
    case Means::in_between:
      return " by a move in between";
    case Means::guard_taken:
      return " by taking the guard";
    case Means::guard_drawn_off:
      return " by drawing off " + man_on(men[0], squares[0]);
    case Means::discovered:
      return " by a discovered attack" +
             (squares[1] == r.target ? "" : " on " + man_on(men[1], squares[1]));
    case Means::skewer:
      return " by a skewer of " + men_on(men, squares);
    case Means::fork:
      return " by a fork of " + men_on(men, squares);
    case Means::pin:
      return " by pinning " + (is_named(r) ? "it" : man_on(men[0], squares[0])) + " to " +
             (men[1] == rules::king ? "the king" : "the " + man(1));
    case Means::trade:
      return " after the trade of " + man(0) + "s";
    case Means::trapped:
      return is_named(r) ? ", which has no way out"
                         : ": " + man_on(men[0], squares[0]) + " has no way out";
  }
  return "";
}

std::string promotion_words(const Reason& r) {
  const bool at_once = r.move.is_promotion();
  const std::string becomes =
      at_once ? "makes " + with_article(r.men.promoted)
              : (r.men.promoted == rules::queen ? "queens"
                                                : "promotes to " + with_article(r.men.promoted));
  study::MenWon rest = r.men;
  rest.promoted = rules::no_piece_type;
  const bool wins = value_of(rest.won) > value_of(rest.lost);
  return wins ? becomes + " and wins " + gain_words(rest) : becomes;
}

// What the move takes itself, where the balance at the end is something else: "takes the rook and
// nets a knight".
std::string taking_words(const Reason& r, const std::string& soon) {
  const bool opened = r.means == Means::line_opened;
  const std::string takes =
      "takes the " + std::string(words(r.pieces[0])) + (opened ? means_words(r) : "") + " and ";
  return takes + soon + "nets " + gain_words(r.men) + (opened ? "" : means_words(r));
}

// What the move does to the men, and how.
std::string material_words(const Reason& r) {
  constexpr std::size_t next_move = 3, soon_plies = 7;
  const bool later = r.kind == ReasonKind::soon_wins && r.line.size() > next_move;
  const bool last = later && r.line.size() > soon_plies && value_of(r.men.won) == 1;
  const std::string soon = later && !last ? "soon " : "";
  if (r.men.promoted != rules::no_piece_type) return soon + promotion_words(r) + means_words(r);
  if (takes_another_man(r) && r.pieces[0] != rules::pawn && r.means != Means::trade) {
    return taking_words(r, soon);
  }
  if (last)
    return "wins " + (r.target == rules::no_square ? "a pawn" : target_words(r)) + " in the end";
  if (r.target == rules::no_square || is_exchange(r.men)) {
    return soon + "wins " + gain_words(r.men) + means_words(r);
  }
  const bool trapped = r.means == Means::trapped && is_named(r);
  const std::string cost = cost_in_men(r);
  return soon + "wins " + target_words(r) +
         (trapped && !cost.empty() ? means_words(r) + "," + cost : cost + means_words(r));
}

std::string mate_words(const Reason& r) {
  if (r.kind == ReasonKind::leads_to_mate) return "leads to mate";
  return r.mate_moves == 1 ? "is mate" : "mates in " + base::number(r.mate_moves);
}

std::string threat_words(const Reason& r) {
  if (r.mate_moves == 1) return "mate on " + rules::to_string(r.squares[0]);
  if (r.mate_moves > 1) return "mate in " + base::number(r.mate_moves);
  return men_on(r.pieces, r.squares);
}

// "hits the rook on f7 and the bishop on b7"; of a check and another man "hits the rook on a8 with
// check".
std::string attack_words(const std::vector<PieceType>& men,
                         const std::vector<rules::Square>& squares) {
  if (men.empty() || men[0] != rules::king) return "hits " + men_on(men, squares);
  if (men.size() < 2 || squares.size() < 2) return "gives check";
  return "hits " + men_on({men.begin() + 1, men.end()}, {squares.begin() + 1, squares.end()}) +
         " with check";
}

// "takes the knight and hits the queen on e7", "hits the rook on f7 and the bishop on b7", "takes
// the queen, now that the rook no longer guards c4"
std::string hit_words(const Reason& r) {
  if (r.kind == ReasonKind::hits || r.pieces.empty()) return attack_words(r.pieces, r.squares);
  const std::string takes = "takes the " + std::string(words(r.pieces[0]));
  const bool of_like = r.means == Means::guard_gone && r.means_pieces[1] == r.pieces[0];
  if (of_like) return takes + " on " + rules::to_string(r.squares[0]) + ", which lost its guard";
  if (r.squares.size() < 2) return takes + means_words(r);
  const std::vector<PieceType> pieces(r.pieces.begin() + 1, r.pieces.end());
  const std::vector<rules::Square> squares(r.squares.begin() + 1, r.squares.end());
  return takes + " and " + attack_words(pieces, squares);
}

std::string driving_words(const Reason& r) {
  const std::string man = r.pieces.empty() ? "man" : std::string(words(r.pieces[0]));
  const std::string from = rules::to_string(r.squares[0]);
  if (r.squares.size() < 2) return "drives the " + man + " from " + from;
  return "drives the " + man + " off the guard of " + rules::to_string(r.squares[1]);
}

// "", " a pawn up": where men ahead are a reason to trade.
std::string ahead_words(search::Score balance) {
  constexpr search::Score pawn = 100;
  if (balance < pawn) return "";
  if (balance < 2 * pawn) return " a pawn up";
  return balance < 3 * pawn ? " two pawns up" : " with more men";
}

std::string trade_words(const Reason& r) {
  const std::string men = (r.pieces.empty() ? "piece" : std::string(words(r.pieces[0]))) + "s";
  const std::string does = r.kind == ReasonKind::trades ? "trades " : "offers to trade ";
  if (r.squares.size() > 1 && r.pieces.size() > 1) {
    return does + men + " and takes " + man_on(r.pieces[1], r.squares[1]);
  }
  return does + men + ahead_words(r.gain);
}

std::string guarding_words(const Reason& r) {
  const PieceType man = r.pieces.empty() ? rules::no_piece_type : r.pieces[0];
  if (r.means) return "keeps " + man_on(man, r.squares[0]) + " guarded";
  return (r.squares[0] == r.move.from() ? "saves " : "guards ") + man_on(man, r.squares[0]);
}

std::string coming_words(const Reason& r) {
  if (r.means != Means::square_unguarded) {
    const auto& squares = r.means_squares;
    const bool known = r.means && squares.size() > 2;
    return "uses the opened " + (known ? line_words(squares[0], squares[2]) : "line");
  }
  const PieceType guard = r.means_pieces.size() > 1 ? r.means_pieces[1] : rules::no_piece_type;
  return "is possible now that the " + std::string(words(guard)) + " no longer guards " +
         rules::to_string(r.squares[0]);
}

std::string running_words(const Reason& r) {
  const bool own = r.move.from() == r.squares[0];
  const bool queens = r.pieces.size() > 1 && r.pieces[1] == PieceType::queen;
  if (queens && !own && !r.means) return "lets the " + file_letter(r.squares[0]) + "-pawn queen";
  const std::string pawn = file_letter(r.squares[0]) + "-pawn";
  const std::string runs = own ? "sends the " + pawn + " on to " + rules::to_string(r.squares[1])
                               : "lets the " + pawn + " run to " + rules::to_string(r.squares[1]);
  if (r.means != Means::guard_drawn_off) return runs;
  return runs + ", drawing off " + man_on(r.means_pieces[0], r.means_squares[0]);
}

std::string ending_words(const Reason& r) {
  std::string kind = r.pieces.empty() ? "pawn" : std::string(words(r.pieces[0]));
  return std::string("trades into a ") + (r.favours ? "won " : "drawn ") + kind + " ending";
}

std::string pinning_words(const Reason& r) {
  const bool known = r.pieces.size() > 1;
  const std::string behind = known ? std::string(words(r.pieces[1])) : "king";
  return "pins " + man_on(known ? r.pieces[0] : rules::no_piece_type, r.squares[0]) + " to the " +
         behind;
}

// What a move does on the board.
std::string deed_words(const Reason& reason) {
  switch (reason.kind) {
    case ReasonKind::hits:
    case ReasonKind::takes:
      return hit_words(reason);
    case ReasonKind::drives_off:
      return driving_words(reason);
    case ReasonKind::keeps_attack:
      return "leaves " + men_on(reason.pieces, reason.squares) + " hanging";
    case ReasonKind::leads_to_fork:
      return "leads to a fork on " + rules::to_string(reason.squares[0]);
    case ReasonKind::leads_to_threat:
      return "next threatens mate on " + rules::to_string(reason.squares[0]);
    case ReasonKind::trades:
    case ReasonKind::offers_trade:
      return trade_words(reason);
    case ReasonKind::guards:
      return guarding_words(reason);
    case ReasonKind::comes_in:
      return coming_words(reason);
    case ReasonKind::makes_passed:
      return "makes a passed pawn on " + rules::to_string(reason.squares[0]);
    case ReasonKind::stops_pawn:
      return "stops the passed pawn on " + rules::to_string(reason.squares[0]);
    case ReasonKind::behind_pawn:
      return "gets behind the passed pawn on " + rules::to_string(reason.squares[0]);
    case ReasonKind::open_file:
      return "takes the open " + file_letter(reason.squares[0]) + "-file";
    case ReasonKind::seventh_rank:
      return "comes to the seventh rank";
    case ReasonKind::avoids_check:
      return "leaves no check on " + rules::to_string(reason.squares[0]);
    case ReasonKind::sends_back:
      return "sends the " + (reason.pieces.empty() ? "man" : std::string(words(reason.pieces[0]))) +
             " back to " + rules::to_string(reason.squares[1]);
    case ReasonKind::king_comes:
      return (reason.move.from() == reason.squares[0] ? "brings the king to "
                                                      : "lets the king come to ") +
             rules::to_string(reason.squares[1]);
    case ReasonKind::pins:
      return pinning_words(reason);
    case ReasonKind::settles:
      return "settles a knight on " + rules::to_string(reason.squares[0]);
    case ReasonKind::doubles_pawns:
      return "doubles the pawns on the " + file_letter(reason.squares[0]) + "-file";
    case ReasonKind::stops_castling:
      return "takes away the right to castle";
    case ReasonKind::keeps_man:
      return "keeps " + men_on(reason.pieces, reason.squares);
    case ReasonKind::evades:
      return "takes the " + (reason.pieces.empty() ? "man" : std::string(words(reason.pieces[0]))) +
             " out of the attack";
    default:
      return "";
  }
}

}  // namespace

bool takes_another_man(const Reason& r) {
  const bool takes = !r.squares.empty() && !r.pieces.empty() && r.squares[0] == r.move.to();
  return takes && r.men.won[r.pieces[0]] == 0;
}

std::string effect_words(const Reason& reason) {
  switch (reason.kind) {
    case ReasonKind::mates:
    case ReasonKind::leads_to_mate:
      return mate_words(reason) + means_words(reason);
    case ReasonKind::wins_material:
    case ReasonKind::soon_wins:
      return material_words(reason);
    case ReasonKind::wins_back:
      // What was lost before is not known here: a rook for a minor piece need not be the exchange.
      return "wins back " + (is_exchange(reason.men) ? "material" : gain_words(reason.men));
    case ReasonKind::draws:
      if (!reason.motif) return "leads to a repetition";
      if (reason.motif == study::Motif::perpetual_check && !reason.line.empty()) {
        return "leads to perpetual check";
      }
      return "draws by " + std::string(study::name_of(*reason.motif));
    case ReasonKind::threatens:
      return "threatens " + threat_words(reason);
    case ReasonKind::prevents:
      return "meets the threat " + std::string(reason.mate_moves > 0 ? "of " : "to ") +
             threat_words(reason);
    case ReasonKind::attacks_king:
      if (reason.squares.size() < 2) return "chases the king with checks";
      return "brings " + base::number(static_cast<std::int64_t>(reason.squares.size()) - 1) +
             " men against the king";
    case ReasonKind::opens_king:
      return "opens up the king on " + rules::to_string(reason.squares[0]);
    case ReasonKind::pawn_runs:
      return running_words(reason);
    case ReasonKind::enters_ending:
      return ending_words(reason);
    case ReasonKind::zugzwang:
      return "leaves no good move";
    default:
      return deed_words(reason);
  }
}

}  // namespace kairos::report
