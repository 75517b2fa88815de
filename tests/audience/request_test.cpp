#include "kairos/audience/request.hpp"

#include <catch2/catch.hpp>

#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"

using namespace kairos;
using namespace kairos::audience;
using Kind = Request::Kind;

namespace {

// Chigorin-Steinitz, 23rd match game, Havana 1892, before 32. Bb4 (fact sheet, S05).
const rules::Position havana =
    *rules::parse_fen("8/pp2R2p/3BNkb1/3P1p2/7p/8/PP1rr2P/5R1K w - - 1 32");
const rules::Move bb4 = *rules::parse_san(havana, "Bb4");

std::vector<std::string> played(rules::Position p, const std::vector<rules::Move>& moves) {
  return rules::to_san(p, moves);
}

std::vector<std::string> each(const rules::Position& p, const std::vector<rules::Move>& moves) {
  std::vector<std::string> all;
  for (const rules::Move move : moves) all.push_back(rules::to_san(p, move));
  return all;
}

Request read(std::string_view text, rules::Move asked = {}) {
  return read_request({havana, asked}, text);
}

using Words = std::vector<std::string>;

}  // namespace

TEST_CASE("a line's words say what is asked, in any case and with signs behind") {
  const std::pair<const char*, Kind> cases[] = {{"", Kind::nothing},
                                                {"   ", Kind::nothing},
                                                {"best", Kind::best},
                                                {"What's best?", Kind::best},
                                                {"WHY?", Kind::why},
                                                {"why not", Kind::why},
                                                {"all", Kind::all},
                                                {"show", Kind::show},
                                                {"the board", Kind::refused},
                                                {"flip!", Kind::flip},
                                                {"back", Kind::back},
                                                {"Start", Kind::start},
                                                {"next", Kind::next},
                                                {"played?", Kind::played},
                                                {"?", Kind::help},
                                                {"help", Kind::help},
                                                {"quit", Kind::quit},
                                                {" exit ", Kind::quit},
                                                {"hello", Kind::refused},
                                                {"back off", Kind::refused},
                                                {"why does that lose?", Kind::why},
                                                {"so what was best?", Kind::best},
                                                {"back to the game", Kind::start}};
  for (const auto& [text, kind] : cases) {
    INFO(text);
    CHECK(read(text).kind == kind);
  }
  CHECK(read("back 3").plies == 3);
  CHECK(read("back").plies == 1);
}

TEST_CASE("the number of a move goes there, and a move behind it is a move") {
  using rules::black;
  using rules::white;
  const std::pair<const char*, MoveNumber> cases[] = {
      {"27", {27, white}},        {"27w", {27, white}},         {"27.", {27, white}},
      {"27b", {27, black}},       {"27...", {27, black}},       {"move 27", {27, white}},
      {"go to 27b", {27, black}}, {"move 9 black", {9, black}}, {"MOVE 9 W", {9, white}},
      {"to 9999", {9999, white}}};
  for (const auto& [text, number] : cases) {
    INFO(text);
    const Request request = read(text);
    CHECK(request.kind == Kind::go);
    CHECK(request.number == number);
  }
  for (const char* text : {"0", "27x", "27....", "10000", "w27", "27 28", "-3", "27wb"}) {
    INFO(text);
    CHECK_FALSE(read_move_number(text));
  }
  CHECK(read("32. Rxb7").kind == Kind::ask);
}

TEST_CASE("a move is asked about, several of one position each, a line is played") {
  Request request = read("Rxb7");
  CHECK(request.kind == Kind::ask);
  CHECK(each(havana, request.moves) == Words{"Rxb7"});

  for (const char* text : {"Rxb7 or Rc7", "is Rxb7 better than Rc7?", "Rxb7, Rc7", "Rxb7 vs Rc7"}) {
    INFO(text);
    request = read(text);
    CHECK(request.kind == Kind::ask);
    CHECK(each(havana, request.moves) == Words{"Rxb7", "Rc7"});
  }
  for (const char* text : {"Bb4 Rxh2+ Kg1 Rdg2#", "32. Bb4 Rxh2+ 33. Kg1 Rdg2#",
                           "bishop b4, rook takes h2, king g1, rook d to g2"}) {
    INFO(text);
    request = read(text);
    CHECK(request.kind == Kind::play);
    CHECK(played(havana, request.moves) == Words{"Bb4", "Rxh2+", "Kg1", "Rdg2#"});
    CHECK(request.refused.empty());
  }
}

TEST_CASE("what cannot be played is told: alone, beside a move, behind a line, before one") {
  Request request = read("Ke4");
  CHECK(request.kind == Kind::refused);
  REQUIRE(request.refused.size() == 1);
  CHECK(request.refused[0].text == "Ke4");
  CHECK(request.refused[0].problem == base::Code::illegal_move);

  request = read("Rxb7 or Ke4");
  CHECK(request.kind == Kind::ask);
  CHECK(request.moves.size() == 1);
  CHECK(request.refused.size() == 1);

  request = read("Bb4 Rxh2+ Ke4");
  CHECK(request.kind == Kind::play);
  CHECK(played(havana, request.moves) == Words{"Bb4", "Rxh2+"});
  REQUIRE(request.refused.size() == 1);
  CHECK(request.refused[0].text == "Ke4");

  request = read("Ke4 Bb4 Rxh2+");  // not the line without its first move
  CHECK(request.kind != Kind::play);
  REQUIRE(request.refused.size() >= 1);
  CHECK(request.refused[0].text == "Ke4");

  request = read("Bb4 and the man on h2 falls");  // talk
  CHECK(request.kind == Kind::ask);
  CHECK(request.refused.empty());
}

TEST_CASE("a reply is read after the move last asked about") {
  const rules::Position after = havana.after(bb4);
  for (const char* text :
       {"and Rxh2+?", "then rook takes h2", "32... Rxh2+", "Rxh2+", "Rxh2", "but then Rxh2+"}) {
    INFO(text);
    const Request request = read(text, bb4);
    CHECK(request.kind == Kind::ask);
    CHECK(request.after_asked);
    CHECK(each(after, request.moves) == Words{"Rxh2+"});
  }
  Request request = read("and Rxh2+ Kg1 Rdg2#", bb4);
  CHECK(request.kind == Kind::play);
  CHECK(request.after_asked);
  CHECK(played(after, request.moves) == Words{"Rxh2+", "Kg1", "Rdg2#"});

  request = read("Rxb7", bb4);  // another move of the same side
  CHECK(request.kind == Kind::ask);
  CHECK_FALSE(request.after_asked);

  request = read("and Kf1", bb4);  // Black's king stands on f6
  CHECK(request.kind == Kind::refused);
  CHECK(request.after_asked);

  CHECK(read("and now?", bb4).after_asked);
  CHECK(read("and now?", bb4).kind == Kind::best);
  CHECK_FALSE(read("best", bb4).after_asked);
}

TEST_CASE("of moves that both sides could make, the number says whose is meant") {
  const rules::Position start = rules::Position::start();
  const rules::Move nf3 = *rules::parse_san(start, "Nf3");
  const Request own = read_request({start, nf3}, "1. e4");
  CHECK(own.kind == Kind::ask);
  CHECK_FALSE(own.after_asked);
  const Request reply = read_request({start, nf3}, "1... Nf6");
  CHECK(reply.kind == Kind::ask);
  CHECK(reply.after_asked);
  // Both rooks can go to d1 and d8: only the number tells which line is meant.
  const rules::Position rooks = *rules::parse_fen("3r2k1/8/8/8/8/8/8/3RK3 w - - 0 10");
  const rules::Move kf1 = *rules::parse_san(rooks, "Kf1");
  CHECK_FALSE(read_request({rooks, kf1}, "Rd5").after_asked);
  CHECK(read_request({rooks, kf1}, "10... Rd5").after_asked);
}

TEST_CASE("a FEN goes there, and a bad one is told once") {
  Request request = read("8/8/1kP2K2/8/7p/8/8/8 w - - 2 3");
  REQUIRE(request.kind == Kind::place);
  CHECK(rules::to_fen(*request.place) == "8/8/1kP2K2/8/7p/8/8/8 w - - 2 3");
  CHECK(read("fen 8/8/1kP2K2/8/7p/8/8/8 w").kind == Kind::refused);
  request = read("xx/8/yy/8/8/8/8/8 q zz - 0 1");
  CHECK(request.kind == Kind::refused);
  CHECK(request.faults.size() == 1);
}

TEST_CASE("no text breaks the reader, and what is read can be played") {
  std::string text;
  for (int i = 0; i < 256; ++i) text += static_cast<char>(i);
  CHECK(read(text).kind == Kind::refused);
  CHECK(read(std::string(100'000, '/')).kind == Kind::refused);
  CHECK(read(std::string(100'000, '9')).kind == Kind::refused);
  CHECK(read("and").kind == Kind::refused);
  CHECK(read("and and and", bb4).kind == Kind::refused);
}
