// report.html as a game to play through: the full score, the steps that its script plays, the signs
// on the graph. What the script does is checked outside, in a browser, by scripts/check_pages.
#include <catch2/catch.hpp>

#include "kairos/base/text.hpp"
#include "kairos/report/turning_points.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"

#include "html_line.hpp"
#include "support/markup.hpp"
#include "support/page_steps.hpp"
#include "support/report_bytes.hpp"
#include "support/report_fakes.hpp"

using namespace kairos;
using test::between;

namespace {

// The moves that a line or score names, each with its step: done to `position`, they must agree.
void check_steps(rules::Position position, const std::string& markup) {
  const std::string text = between(markup, " data-moves=\"", "\"");
  const auto steps = base::fields(text);
  std::size_t at = 0;
  for (const std::string_view step : steps) {
    at = markup.find("<span class=\"ply\">", at);
    REQUIRE(at != std::string::npos);
    const std::string move_text = between(markup, ">", "<", at++);
    CAPTURE(move_text, std::string(step));
    const auto move = rules::parse_san(position, base::fields(move_text).back());
    REQUIRE(move.ok());
    const test::Men before = test::men_of(position);
    position.play(*move);
    CHECK(test::stepped(before, step) == test::men_of(position));
  }
  CHECK(markup.find("<span class=\"ply\">", at) == std::string::npos);
}

rules::Position position_of(const std::string& start) {
  const auto parts = base::fields(start);
  REQUIRE(parts.size() == 3);
  // Castling and en passant are the position's own matter: a start may allow both sides' castling.
  for (const char* const rights : {"KQkq", "-"}) {
    const auto position = rules::parse_fen(std::string(parts[0]) + " " + std::string(parts[1]) +
                                           " " + rights + " - 0 " + std::string(parts[2]));
    if (position.ok()) return *position;
  }
  FAIL(start);
  return rules::Position::start();
}

}  // namespace

TEST_CASE("the full score stands with each game, and every step is that of the move it names") {
  const test::FakeCollection collection = test::fake_collection();
  const std::string html = test::written("html", collection);
  std::size_t at = 0, lines = 0;
  for (const study::Study& study : collection.studies) {
    at = html.find("<article", at);
    const std::string article = html.substr(at, html.find("</article>", at) - at);
    ++at;
    const std::string score = between(article, "<p class=\"score\"", "</p>");
    CHECK(score.empty() == study.moves.empty());
    if (score.empty()) continue;
    CHECK(base::fields(between(score, "data-moves=\"", "\"")).size() == study.moves.size());
    CHECK(base::fields(between(score, "data-worth=\"", "\"")).size() == study.moves.size() + 1);
    CHECK(position_of(between(score, "data-start=\"", "\"")).piece_on(rules::e1) ==
          study.start.piece_on(rules::e1));
    check_steps(study.start, score);
    for (const report::TurningPoint& point : report::turning_points(study)) {
      const std::string section =
          between(article, "data-ply=\"" + std::to_string(point.ply) + "\"", "</section>");
      REQUIRE(!section.empty());
      for (std::size_t line = 0;
           (line = section.find("<span class=\"line\"", line)) != std::string::npos; ++line) {
        const std::size_t end = std::min(section.find("</dd>", line), section.find("</li>", line));
        const std::string markup =
            section.substr(line, std::min(end, section.find("</details>", line)) - line);
        const std::string start =
            between(markup.substr(0, markup.find('>')), "data-start=\"", "\"");
        check_steps(start.empty() ? point.lead().position : position_of(start), markup);
        ++lines;
      }
    }
  }
  CHECK(lines >= 12);
}

TEST_CASE("steps tell castling, promotion and what is taken in passing") {
  const auto steps_from = [](std::string_view fen, std::string_view san) {
    const auto position = rules::parse_fen(fen);
    REQUIRE(position.ok());
    return report::steps_of(*position, test::moves_of(*position, san));
  };
  CHECK(steps_from("r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1", "O-O O-O-O") == "e1g1h1f1 e8c8a8d8");
  CHECK(steps_from("r3k2r/8/8/8/8/8/8/R3K2R b KQkq - 0 1", "O-O O-O-O") == "e8g8h8f8 e1c1a1d1");
  CHECK(steps_from("4k3/8/8/8/3p4/8/4P2P/4K3 w - - 0 1", "e4 dxe3") == "e2e4 d4e3e4");
  CHECK(steps_from("1n2k3/P7/8/8/8/8/p7/4K3 w - - 0 1", "axb8=N a1=Q+") == "a7b8N a2a1q");
  const std::vector<rules::Move> pass = {rules::null_move};
  CHECK(report::steps_of(rules::Position::start(), pass) == "--");
}

TEST_CASE("signs on the graph never touch, however many there are") {
  for (const std::size_t moments : std::vector<std::size_t>{1, 3, 8, 24, 40}) {
    const std::string html = test::written("html", test::large_collection(1, moments));
    const std::string graph = between(html, "<svg class=\"graph\"", "</svg>");
    std::vector<std::pair<int, int>> places;
    for (std::size_t at = 0; (at = graph.find("translate(", at)) != std::string::npos; ++at) {
      const std::string text = between(graph, "(", ")", at);
      const auto parts = base::fields(text);
      places.emplace_back(*base::to_integer(parts[0]), *base::to_integer(parts[1]));
    }
    CAPTURE(moments);
    CHECK(!places.empty());
    for (std::size_t i = 0; i < places.size(); ++i) {
      CHECK(places[i].first >= 62);
      CHECK(places[i].first <= 630);
      CHECK(places[i].second < 0);
      for (std::size_t j = 0; j < i; ++j) {
        const int dx = std::abs(places[i].first - places[j].first);
        const int dy = std::abs(places[i].second - places[j].second);
        CHECK((dx >= 22 || dy >= 22));
      }
    }
  }
}

TEST_CASE("the board is seen from the side of the player that the report is of") {
  test::FakeCollection collection = test::fake_collection();
  const auto black_below = [&collection] {
    const std::string html = test::written("html", collection);
    std::size_t boards = 0;
    for (const std::string& below : test::values_of(html, "data-below")) boards += below == "b";
    return boards;
  };
  CHECK(black_below() == 0);
  collection.facts_.player = "P. Aronov / " + collection.studies[0].facts.black;
  CHECK(black_below() == 1);
  collection.facts_.player = collection.studies[0].facts.white;
  CHECK(black_below() == 0);
}
