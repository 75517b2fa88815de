// The words of reasons: what a move does, how and where.
#include <catch2/catch.hpp>

#include "kairos/report/words.hpp"

#include "support/reasons.hpp"

using namespace kairos;
using report::effect_words;
using study::Assertion;
using study::Reason;
using study::ReasonKind;
using study::Role;
using support::back;
using support::mate;
using support::material;
using support::men;
using support::note;

TEST_CASE("men won are named as players name them") {
  CHECK(effect_words(material("q")) == "wins the queen");
  CHECK(effect_words(material("n", "p")) == "wins a knight for a pawn");
  CHECK(effect_words(material("r", "b")) == "wins the exchange");
  CHECK(effect_words(material("r", "n")) == "wins the exchange");
  CHECK(effect_words(material("pp")) == "wins two pawns");
  CHECK(effect_words(material("q", "r")) == "wins the queen for a rook");
  CHECK(effect_words(material("rp")) == "wins a rook and a pawn");
  CHECK(effect_words(material("", "p", rules::queen)) == "queens");
  CHECK(effect_words(material("n", "p", rules::knight)) ==
        "promotes to a knight and wins a knight for a pawn");
  CHECK(effect_words(material("r", "np")) == "wins the exchange for a pawn");
  CHECK(effect_words(material("rp", "b")) == "wins the exchange and a pawn");
  CHECK(effect_words(material("rp", "bpp")) == "wins the exchange and a pawn for two pawns");
  CHECK(effect_words(back(material("b"))) == "wins back a bishop");
  CHECK(effect_words(mate(1)) == "is mate");
  CHECK(effect_words(mate(2)) == "mates in 2");
  CHECK(effect_words(mate(0)) == "leads to mate");
  CHECK(effect_words(note(Assertion::level)).empty());
}

TEST_CASE("a gain is told by what is taken, where, and how it comes about") {
  using study::Means;
  const auto told = [](Reason reason) { return effect_words(reason); };
  Reason knight = material("n");
  knight.target = rules::e5;
  CHECK(told(knight) == "wins the knight on e5");
  knight.men.lost = men("p");
  CHECK(told(knight) == "wins the knight on e5 for a pawn");
  // The move takes a rook, and a knight is what is left of it: issue 13, class 2.
  Reason rook = material("n");
  rook.move = rules::Move::normal(rules::e1, rules::e7);
  rook.squares = {rules::e7};
  rook.pieces = {rules::rook};
  CHECK(told(rook) == "takes the rook and nets a knight");
  rook.men.lost = men("p");
  CHECK(told(rook) == "takes the rook and nets a knight for a pawn");
  rook.means = Means::trade;
  rook.means_squares = {rules::e7};
  rook.means_pieces = {rules::rook};
  CHECK(told(rook) == "wins a knight for a pawn after the trade of rooks");
  const auto by = [&](Means means, std::vector<rules::Square> squares,
                      std::vector<rules::PieceType> pieces) {
    Reason reason = material("b");
    reason.means = means;
    reason.means_squares = std::move(squares);
    reason.means_pieces = std::move(pieces);
    return told(reason);
  };
  using rules::bishop, rules::queen, rules::king, rules::no_piece_type;
  CHECK(by(Means::guard_gone, {rules::c5, rules::b2}, {bishop, queen}) ==
        "wins a bishop, now that the queen no longer guards c5");
  CHECK(by(Means::guard_shut, {rules::c5, rules::a5}, {bishop, queen}) ==
        "wins a bishop, now that the queen on a5 no longer guards c5");
  CHECK(by(Means::square_unguarded, {rules::c7, rules::b6}, {no_piece_type, queen}) ==
        "wins a bishop, now that the queen no longer guards c7");
  CHECK(by(Means::line_opened, {rules::d1, rules::d3, rules::d5}, {queen, no_piece_type, bishop}) ==
        "wins a bishop along the opened d-file");
  CHECK(by(Means::fork, {rules::e8, rules::a8}, {king, bishop}) ==
        "wins a bishop by a fork of the king and the bishop on a8");
  CHECK(by(Means::pin, {rules::c6, rules::e8}, {bishop, king}) ==
        "wins a bishop by pinning the bishop on c6 to the king");
  CHECK(by(Means::trapped, {rules::h2, rules::g1}, {bishop, no_piece_type}) ==
        "wins a bishop: the bishop on h2 has no way out");
  CHECK(by(Means::guard_drawn_off, {rules::d8}, {queen}) ==
        "wins a bishop by drawing off the queen on d8");
}

TEST_CASE("what wins no men is told by its squares") {
  const auto told = [](ReasonKind kind, std::vector<rules::Square> squares,
                       std::vector<rules::PieceType> pieces, int mate_moves = 0) {
    Reason reason;
    reason.kind = kind;
    reason.squares = std::move(squares);
    reason.pieces = std::move(pieces);
    reason.mate_moves = mate_moves;
    return effect_words(reason);
  };
  CHECK(told(ReasonKind::threatens, {rules::g7}, {}, 1) == "threatens mate on g7");
  CHECK(told(ReasonKind::threatens, {rules::g7}, {}, 3) == "threatens mate in 3");
  CHECK(told(ReasonKind::threatens, {rules::d5, rules::a8}, {rules::queen, rules::rook}) ==
        "threatens the queen on d5 and the rook on a8");
  CHECK(told(ReasonKind::prevents, {rules::g2}, {}, 1) == "meets the threat of mate on g2");
  CHECK(told(ReasonKind::prevents, {rules::e5}, {rules::knight}) ==
        "meets the threat to the knight on e5");
  CHECK(told(ReasonKind::attacks_king, {rules::g8, rules::g6, rules::h5, rules::e5},
             {rules::king, rules::queen, rules::rook, rules::bishop}) ==
        "brings 3 men against the king");
  CHECK(told(ReasonKind::attacks_king, {rules::g8}, {rules::king}) ==
        "chases the king with checks");
  CHECK(told(ReasonKind::opens_king, {rules::g8, rules::g7}, {}) == "opens up the king on g8");
  CHECK(told(ReasonKind::pawn_runs, {rules::a5, rules::a8}, {rules::pawn}) ==
        "lets the a-pawn run to a8");
  CHECK(told(ReasonKind::enters_ending, {}, {rules::rook}) == "trades into a drawn rook ending");
  CHECK(told(ReasonKind::zugzwang, {}, {}) == "leaves no good move");
  CHECK(told(ReasonKind::draws, {}, {}) == "leads to a repetition");
}

namespace {

std::string told(ReasonKind kind, std::vector<rules::Square> squares,
                 std::vector<rules::PieceType> pieces = {}, int gain = 0) {
  Reason reason;
  reason.kind = kind;
  reason.move = rules::Move::normal(rules::d4, rules::d5);
  reason.squares = std::move(squares);
  reason.pieces = std::move(pieces);
  reason.gain = gain;
  return effect_words(reason);
}

}  // namespace

TEST_CASE("what a move does on the board is told with its squares") {
  using rules::pawn, rules::knight, rules::rook, rules::queen, rules::king, rules::bishop;
  CHECK(told(ReasonKind::hits, {rules::c6}, {knight}) == "hits the knight on c6");
  CHECK(told(ReasonKind::hits, {rules::d6, rules::a7}, {pawn, pawn}) ==
        "hits the pawns on d6 and a7");
  CHECK(told(ReasonKind::hits, {rules::e8, rules::a8}, {king, rook}) ==
        "hits the rook on a8 with check");
  CHECK(told(ReasonKind::takes, {rules::d7, rules::e7}, {knight, queen}) ==
        "takes the knight and hits the queen on e7");
  CHECK(told(ReasonKind::drives_off, {rules::h3}, {queen}) == "drives the queen from h3");
  CHECK(told(ReasonKind::drives_off, {rules::c6, rules::e5}, {knight, pawn}) ==
        "drives the knight off the guard of e5");
  CHECK(told(ReasonKind::keeps_attack, {rules::d7}, {rook}) == "leaves the rook on d7 hanging");
  CHECK(told(ReasonKind::leads_to_fork, {rules::e6, rules::g7, rules::d8}) ==
        "leads to a fork on e6");
  CHECK(told(ReasonKind::leads_to_threat, {rules::h5}) == "next threatens mate on h5");
  CHECK(told(ReasonKind::trades, {rules::d8}, {rook}) == "trades rooks");
  CHECK(told(ReasonKind::offers_trade, {rules::d8}, {queen}, 200) ==
        "offers to trade queens two pawns up");
  CHECK(told(ReasonKind::offers_trade, {rules::d8}, {queen}, 100) ==
        "offers to trade queens a pawn up");
  CHECK(told(ReasonKind::trades, {rules::d8}, {bishop}, 500) == "trades bishops with more men");
  CHECK(told(ReasonKind::trades, {rules::d8, rules::e5}, {queen, rook}) ==
        "trades queens and takes the rook on e5");
  CHECK(told(ReasonKind::guards, {rules::f4}, {pawn}) == "guards the pawn on f4");
  CHECK(told(ReasonKind::guards, {rules::d4}, {pawn}) == "saves the pawn on d4");
  CHECK(told(ReasonKind::avoids_check, {rules::e6}, {pawn}) == "leaves no check on e6");
  CHECK(told(ReasonKind::sends_back, {rules::h1, rules::h8}, {rook}) ==
        "sends the rook back to h8");
  CHECK(told(ReasonKind::makes_passed, {rules::g6}) == "makes a passed pawn on g6");
  CHECK(told(ReasonKind::stops_pawn, {rules::b3}) == "stops the passed pawn on b3");
  CHECK(told(ReasonKind::behind_pawn, {rules::b5}) == "gets behind the passed pawn on b5");
  CHECK(told(ReasonKind::open_file, {rules::c1}) == "takes the open c-file");
  CHECK(told(ReasonKind::seventh_rank, {rules::c7}) == "comes to the seventh rank");
  CHECK(told(ReasonKind::pins, {rules::c6, rules::e8}, {knight, rules::king}) ==
        "pins the knight on c6 to the king");
  CHECK(told(ReasonKind::settles, {rules::f5}, {knight}) == "settles a knight on f5");
  CHECK(told(ReasonKind::doubles_pawns, {rules::g6}, {pawn}) == "doubles the pawns on the g-file");
  CHECK(told(ReasonKind::stops_castling, {rules::e8}, {king}) == "takes away the right to castle");
  CHECK(told(ReasonKind::keeps_man, {rules::b5}, {pawn}) == "keeps the pawn on b5");
  CHECK(told(ReasonKind::evades, {rules::b4}, {rules::queen}) ==
        "takes the queen out of the attack");
  CHECK(told(ReasonKind::king_comes, {rules::d4, rules::e6}) == "brings the king to e6");
  CHECK(told(ReasonKind::king_comes, {rules::b2, rules::d4}) == "lets the king come to d4");
}

TEST_CASE("what the move before gave up is told with it") {
  using rules::knight, rules::queen, rules::rook, study::Means;
  Reason comes;
  comes.kind = ReasonKind::comes_in;
  comes.squares = {rules::f6};
  comes.means = Means::square_unguarded;
  comes.means_squares = {rules::f6, rules::c7};
  comes.means_pieces = {rules::no_piece_type, knight};
  CHECK(effect_words(comes) == "is possible now that the knight no longer guards f6");
  comes.kind = ReasonKind::guards;
  comes.pieces = {queen};
  CHECK(effect_words(comes) == "keeps the queen on f6 guarded");
  comes.kind = ReasonKind::comes_in;
  comes.means = Means::line_opened;
  comes.means_squares = {rules::d1, rules::d3, rules::d5};
  CHECK(effect_words(comes) == "uses the opened d-file");
  Reason left = comes;
  left.kind = ReasonKind::takes;
  left.squares = {rules::c4};
  left.pieces = {queen};
  left.means = Means::guard_gone;
  left.means_squares = {rules::c4, rules::d1};
  left.means_pieces = {queen, rook};
  CHECK(effect_words(left) == "takes the queen, now that the rook no longer guards c4");
  Reason runs;
  runs.kind = ReasonKind::pawn_runs;
  runs.squares = {rules::c5, rules::b8};
  runs.means = Means::guard_drawn_off;
  runs.means_squares = {rules::h2};
  runs.means_pieces = {queen};
  CHECK(effect_words(runs) == "lets the c-pawn run to b8, drawing off the queen on h2");
}

TEST_CASE("a rook won back for a minor piece is not called the exchange") {
  study::Reason reason;
  reason.kind = ReasonKind::wins_back;
  reason.men.won[rules::rook] = 1;
  CHECK(report::effect_words(reason) == "wins back a rook");
  reason.men.lost[rules::knight] = 1;
  CHECK(report::effect_words(reason) == "wins back material");
}
