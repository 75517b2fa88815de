#include "kairos/audience/conversation.hpp"

#include <catch2/catch.hpp>

#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"

using namespace kairos;
using namespace kairos::audience;
using Refusal = Turn::Refusal;

namespace {

// Scholar's mate, opening theory (from memory).
Line scholars_mate() {
  Line line;
  rules::Position p = line.start;
  for (const char* san : {"e4", "e5", "Qh5", "Nc6", "Bc4", "Nf6", "Qxf7#"}) {
    line.moves.push_back(*rules::parse_san(p, san));
    p.play(line.moves.back());
  }
  return line;
}

Turn say(Conversation& talk, std::string_view text) {
  return talk.take(read_request(talk.scene(), text));
}

std::string fen(const Conversation& talk) {
  return rules::to_epd_fields(talk.shown());
}

}  // namespace

TEST_CASE("a question leaves the board, a line and a reply change it, back and start undo that") {
  Conversation talk(scholars_mate(), 5, true);  // before 3... Nf6
  const std::string begin = fen(talk);
  Turn turn = say(talk, "g6");
  REQUIRE(turn.kind == Turn::Kind::asks);
  CHECK(turn.question.kind == Question::Kind::moves);
  CHECK(turn.question.moves.size() == 1);
  CHECK(turn.question.earlier.size() == 5);
  CHECK(turn.question.last == scholars_mate().moves[4]);
  CHECK(fen(talk) != begin);  // what is shown is after it
  CHECK(talk.scene().position.side_to_move() == rules::black);

  turn = say(talk, "and Qf3");
  REQUIRE(turn.kind == Turn::Kind::asks);
  CHECK(turn.question.position.side_to_move() == rules::white);
  CHECK(turn.question.earlier.size() == 6);

  CHECK(say(talk, "back").kind == Turn::Kind::shows);  // Qf3 was not played
  CHECK(talk.scene().position.side_to_move() == rules::white);
  CHECK(say(talk, "back").kind == Turn::Kind::shows);
  CHECK(fen(talk) == begin);

  turn = say(talk, "g6 Qf3 Nf6");
  REQUIRE(turn.kind == Turn::Kind::asks);
  CHECK(turn.question.kind == Question::Kind::best);
  CHECK(turn.question.earlier.size() == 8);
  CHECK(say(talk, "back 3").kind == Turn::Kind::shows);
  CHECK(fen(talk) == begin);
  say(talk, "g6 Qf3");
  CHECK(say(talk, "start").kind == Turn::Kind::shows);
  CHECK(fen(talk) == begin);
}

TEST_CASE("a conversation goes through its game and knows what was played") {
  Conversation talk(scholars_mate(), 0, true);
  CHECK(say(talk, "back").refusal == Refusal::at_the_start);
  Turn turn = say(talk, "3b");
  REQUIRE(turn.kind == Turn::Kind::asks);
  CHECK(turn.question.position.fullmove_number() == 3);
  CHECK(talk.played() == scholars_mate().moves[5]);
  turn = say(talk, "played");
  REQUIRE(turn.kind == Turn::Kind::asks);
  CHECK(turn.question.moves.front() == scholars_mate().moves[5]);
  CHECK(say(talk, "next").kind == Turn::Kind::asks);
  CHECK(say(talk, "next").kind == Turn::Kind::shows);  // mate: nothing to be asked
  CHECK(say(talk, "next").refusal == Refusal::off_the_game);
  CHECK(say(talk, "best").refusal == Refusal::game_is_over);
  CHECK(say(talk, "9w").refusal == Refusal::not_in_the_game);
  say(talk, "2w");
  say(talk, "Nf3 Nc6");
  CHECK_FALSE(talk.played());
  CHECK(say(talk, "played").refusal == Refusal::off_the_game);
}

TEST_CASE("without a game there is none to go through") {
  Conversation talk({}, 0, false);
  for (const char* text : {"27w", "next", "played"})
    CHECK(say(talk, text).refusal == Refusal::no_game);
  CHECK(say(talk, "why").refusal == Refusal::nothing_to_explain);
  say(talk, "e4");
  CHECK(say(talk, "why").kind == Turn::Kind::explains);
  CHECK(say(talk, "flip").kind == Turn::Kind::shows);
  CHECK(talk.view() == rules::black);
  CHECK(say(talk, "why").kind == Turn::Kind::explains);  // turning the board changes nothing
  say(talk, "all");
  CHECK(say(talk, "why").refusal == Refusal::nothing_to_explain);
}

TEST_CASE("what changed on the board is known, of another position nothing") {
  Conversation talk({}, 0, false);
  CHECK(talk.changed().empty());
  say(talk, "e4");
  CHECK(talk.changed() == std::vector<rules::Square>{rules::e2, rules::e4});
  say(talk, "d4");  // measured by the board, not by what was asked before
  CHECK(talk.changed() == std::vector<rules::Square>{rules::d2, rules::d4});
  say(talk, "Nf3 Nf6");
  CHECK(talk.changed().size() == 6);  // and the pawn that was only asked about
  say(talk, "8/8/1kP2K2/8/7p/8/8/8 w - - 2 3");
  CHECK(talk.changed().empty());
}

TEST_CASE("moves played before it begins belong to the start") {
  const Line game = scholars_mate();
  Conversation talk(game, 4, true);
  talk.begin_after({game.moves[4]});
  say(talk, "g6 Qf3");
  say(talk, "start");
  CHECK(talk.scene().position.side_to_move() == rules::black);
  CHECK(talk.played() == game.moves[5]);
}
