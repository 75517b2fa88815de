// The HTML pages: well formed, self-contained, safe against hostile names, and silent about
// answers where they ask. Validity by the HTML standard is checked outside, by scripts/check_pages.
#include <catch2/catch.hpp>
#include <set>

#include "kairos/base/text.hpp"
#include "kairos/report/turning_points.hpp"

#include "outlines.hpp"
#include "support/markup.hpp"
#include "support/report_bytes.hpp"
#include "support/report_fakes.hpp"

using namespace kairos;
using test::Tag, test::tags_of, test::values_of, test::unfolded;

namespace {

constexpr std::string_view pages[] = {"html", "questions", "stage", "sheet", "recap"};

}  // namespace

TEST_CASE("every element is closed in its order") {
  const std::set<std::string> empty_elements = {"!DOCTYPE", "meta", "br", "hr", "input"};
  for (const auto page : pages) {
    CAPTURE(std::string(page));
    for (const auto& collection : {test::fake_collection(), test::empty_collection()}) {
      test::check_closed(test::written(page, collection), empty_elements);
    }
  }
}

TEST_CASE("hostile names and comments show as text") {
  test::FakeCollection collection = test::fake_collection();
  const std::string hostile =
      "</title></style><script>alert(1)</script>--><img src=x onerror='a'>\"&amp;";
  for (study::Study& study : collection.studies) {
    study.facts.white = study.facts.event = study.facts.site = study.facts.result = hostile;
    study.facts.date = study.facts.round = study.facts.file = hostile;
  }
  for (puzzle::Puzzle& puzzle : collection.puzzles_) {
    puzzle.game_label = hostile;
  }
  for (puzzle::Puzzle& why_not : collection.why_nots_) why_not.game_label = hostile;
  collection.facts_.player = collection.facts_.settings = collection.facts_.version = hostile;
  collection.facts_.faults[0].detail = hostile;
  for (const auto page : pages) {
    CAPTURE(std::string(page));
    const std::string html = test::written(page, collection);
    CHECK(html.find("alert(1)") != std::string::npos);
    // The report and the stage have one script, ours, and nothing that comes from games is in it.
    const std::size_t script = html.find("<script");
    CHECK((script != std::string::npos) == (page == "stage" || page == "html"));
    CHECK(html.rfind("<script") == script);
    if (script != std::string::npos) {
      CHECK(html.find("alert(1)", script) > html.find("</script>"));
      CHECK(html.find("</script>") == html.rfind("</script>"));
    }
    CHECK(html.find("<img") == std::string::npos);
    CHECK(html.find("-->") == std::string::npos);
    CHECK(html.find("&amp;amp;") != std::string::npos);
    // As many style ends as there are styles: none came from a name.
    CHECK(html.find("</style>") == html.rfind("</style>"));
  }
}

TEST_CASE("a page needs nothing from elsewhere") {
  for (const auto page : pages) {
    CAPTURE(std::string(page));
    const std::string html = test::written(page, test::fake_collection());
    CHECK(html.find("http") == std::string::npos);
    CHECK(html.find("@import") == std::string::npos);
    CHECK(html.find(" src=") == std::string::npos);
    for (std::size_t at = 0; (at = html.find("url(", at)) != std::string::npos; ++at) {
      CHECK(html[at + 4] == '#');
    }
  }
}

TEST_CASE("anchors are unique and every link leads somewhere") {
  const test::FakeCollection collection = test::fake_collection();
  std::set<std::string> targets;
  const std::pair<std::string_view, std::string> files[] = {{"html", "report.html"},
                                                            {"questions", "questions.html"},
                                                            {"stage", "stage.html"},
                                                            {"sheet", "sheet.html"},
                                                            {"recap", "recap.html"}};
  for (const auto& [page, file] : files) {
    targets.insert(file);
    for (const std::string& id : values_of(test::written(page, collection), "id")) {
      CAPTURE(file, id);
      CHECK(targets.insert(file + "#" + id).second);
    }
  }
  for (const auto& [page, file] : files) {
    for (const std::string& link : values_of(test::written(page, collection), "href")) {
      CAPTURE(file, link);
      CHECK(targets.contains(link.starts_with("#") ? file + link : link));
    }
  }
}

TEST_CASE("each turning point is marked in its graph and shown once, in the report and the recap") {
  const test::FakeCollection collection = test::fake_collection();
  const auto sections_of = [](const std::string& html, std::string_view css) {
    std::size_t sections = 0;
    for (const std::string& name : values_of(html, "class")) sections += name == css;
    return sections;
  };
  std::size_t points = 0;
  for (const study::Study& study : collection.studies) {
    points += report::turning_points(study).size();
  }
  const std::string html = test::written("html", collection);
  CHECK(sections_of(html, "moment") == points);
  CHECK(sections_of(test::written("recap", collection), "moment") == points);
  // Each kind that leads a point of a game also stands in its legend: 2 + 1 + 3.
  CHECK(sections_of(html, "sign") == points + 6);
}

TEST_CASE("holes in the notes stand in a list of their own, behind what does stand") {
  const std::string html = test::written("html", test::fake_collection());
  const auto notes = html.find("id=\"g3-notes\"");
  REQUIRE(notes != std::string::npos);
  CHECK(html.find("In the notes 1 thing to mend", notes) != std::string::npos);
  CHECK(html.find("7. Nf5 is marked as good in the notes", notes) != std::string::npos);
  test::FakeCollection whole = test::fake_collection();
  whole.facts_.candidates_open = 0;
  CHECK(test::written("html", whole).find("The one note (a line or a sign) does not stand.") !=
        std::string::npos);
}

TEST_CASE("the recap has for each point the question, the answer, and the wrong answers") {
  const std::string recap = test::written("recap", test::fake_collection());
  const auto point = recap.find("Move 5, Black");
  REQUIRE(point != std::string::npos);
  const std::string section = recap.substr(point, recap.find("</section>", point) - point);
  for (const std::string_view part :
       {"Black to move: how does Black hold?", "<strong>5... dxe5 6. Qxg4",
        "5... Bxd1 6. Bxf7+ Ke7 7. Nd5#", "A wrong answer, and what refutes it:"}) {
    CAPTURE(std::string(part));
    CHECK(section.find(part) != std::string::npos);
  }
  CHECK(recap.find("Wrong answers, and what refutes them:") != std::string::npos);
}

TEST_CASE(
    "questions.html shows no answer, in words or to a screen reader, before a fold is opened") {
  const std::string html = test::written("questions", test::fake_collection());
  const auto why_nots = html.find("<h2 id=\"why-not\"");
  REQUIRE(why_nots != std::string::npos);
  const std::string seen = unfolded(html.substr(0, why_nots));
  for (const std::string_view answer : {"Bxf7", "Nd5", "c8=", "Ra4", "sacrifice", "promotion",
                                        "Kxd1", "a move of a pawn", "given up first"}) {
    CAPTURE(std::string(answer));
    CHECK(seen.find(answer) == std::string::npos);
    CHECK(html.find(answer) != std::string::npos);
  }
  CHECK(seen.find("Hint 1") != std::string::npos);
  CHECK(seen.find("Hint 2") == std::string::npos);  // inside the first
  CHECK(seen.find("White to move. White: king e1") != std::string::npos);
  const std::string others = unfolded(html.substr(why_nots));
  CHECK(others.find("Why not 6. c8=Q? Black to move") != std::string::npos);
  for (const std::string_view answer : {"Rc4", "Ka2", "c8=R", "stalemate", "a move of a rook"}) {
    CAPTURE(std::string(answer));
    CHECK(others.find(answer) == std::string::npos);
  }
}

TEST_CASE("the move of a trap is never drawn as played") {
  test::FakeCollection collection = test::fake_collection();
  for (study::Study& study : collection.studies) {
    std::erase_if(study.moments, [](const auto& m) { return m.kind != study::Kind::trap; });
  }
  for (const std::string_view page : {"html", "recap"}) {
    const std::string html = test::written(page, collection);
    CHECK(html.find("class=\"avoided\"") != std::string::npos);
    CHECK(html.find("class=\"played\"") == std::string::npos);
  }
}

TEST_CASE("a why-not is shown in the position of the game, its move drawn as not played") {
  const test::FakeCollection collection = test::fake_collection();
  const std::string words = "White to move. White: king c2, pawn c7. Black: king a1, rook d4.";
  for (const std::string_view page : {"questions", "sheet"}) {
    const std::string html = test::written(page, collection);
    CAPTURE(std::string(page));
    const auto at = html.find("id=\"g2-m6b-whynot\"");
    REQUIRE(at != std::string::npos);
    const std::string svg = html.substr(at, html.find("</svg>", at) - at);
    CHECK(svg.find(words) != std::string::npos);
    CHECK(svg.find("class=\"avoided\"") != std::string::npos);
    CHECK(svg.find("class=\"played\"") == std::string::npos);
    CHECK(html.find("class=\"avoided\"") == html.rfind("class=\"avoided\""));
  }
  // The trap's turning point draws it alike, and leads to the question.
  const std::string html = test::written("html", collection);
  const auto trap = html.find("questions.html#g2-m6b-whynot");
  REQUIRE(trap != std::string::npos);
  CHECK(html.rfind("<section class=\"moment\"", trap) > html.find("id=\"g2\""));
}

TEST_CASE("the sheet puts six diagrams on a page and the solutions behind them") {
  test::FakeCollection collection = test::fake_collection();
  for (int i = 0; i < 11; ++i) {
    collection.puzzles_.push_back(collection.puzzles_[1]);
    collection.puzzles_.back().ply = 20 + i;
  }
  const std::string html = test::written("sheet", collection);
  std::size_t sheets = 0;
  for (const std::string& name : values_of(html, "class")) sheets += name == "sheet";
  CHECK(sheets == 3 + 1);  // 13 puzzles and a why-not
  const auto solutions = html.find("class=\"solutions\"");
  REQUIRE(solutions != std::string::npos);
  CHECK(html.find("Bxf7") > solutions);
  CHECK(html.rfind("<figure") < solutions);
}

TEST_CASE("a diagram lists its men for screen readers and draws each of them once") {
  const std::string html = test::written("questions", test::fake_collection());
  // Saavedra's ending: five men on the board.
  const std::string words = "White to move. White: king c2, pawn c7. Black: king a1, rook d4.";
  const auto at = html.find(words);
  REQUIRE(at != std::string::npos);
  const std::string svg = html.substr(at, html.find("</svg>", at) - at);
  for (const std::string_view man : {"class=\"wk\" d=\"M2 6\"", "class=\"wp\" d=\"M2 1\"",
                                     "class=\"bk\" d=\"M0 7\"", "class=\"br\" d=\"M3 4\""}) {
    CHECK(svg.find(man) != std::string::npos);
  }
}

namespace {

// The diagram in the first section that has `heading`.
std::string diagram_of(const std::string& html, std::string_view heading) {
  const auto at = html.find(heading);
  REQUIRE(at != std::string::npos);
  const auto begin = html.rfind("<svg class=\"dia\"", at);
  return html.substr(begin, html.find("</svg>", begin) - begin);
}

}  // namespace

TEST_CASE("what a reason speaks of is ringed where answers are shown, and nowhere else") {
  test::FakeCollection collection = test::fake_collection();
  study::Moment& swing = collection.studies[0].moments.front();
  REQUIRE(swing.kind == study::Kind::swing);
  study::Reason reason;  // "wins the pawn on f7 by a fork of the king and ..."
  reason.role = study::Role::reply;
  reason.kind = study::ReasonKind::wins_material;
  reason.move = swing.refutation.front();
  reason.target = rules::f7;
  reason.squares = {rules::f7, rules::e7};
  reason.men.won[rules::pawn] = 1;
  reason.means = study::Means::fork;
  reason.means_squares = {rules::e8, rules::e6};  // nobody stands on e6
  reason.means_pieces = {rules::king, rules::king};
  swing.reasons = {reason};
  for (const std::string_view page : {"html", "recap"}) {
    const std::string html = test::written(page, collection);
    const std::string svg =
        diagram_of(html, page == "html" ? "<h3>1. Move 5, Black" : "<h3>Move 5, Black");
    CAPTURE(std::string(page), svg);
    CHECK(svg.find("Ringed: f7, e8.</title>") != std::string::npos);
    CHECK(svg.find("class=\"ringed\" d=\"M2 6L3 7\"") != std::string::npos);  // seen from Black
    CHECK(svg.find("class=\"played\"") != std::string::npos);
    CHECK(svg.find("class=\"better\"") != std::string::npos);
    CHECK(html.find("a ring around what the text speaks of") != std::string::npos);
  }
  for (const std::string_view page : {"questions", "sheet"}) {
    const std::string html = test::written(page, collection);
    CHECK(html.find("class=\"ringed\"") == std::string::npos);
    CHECK(html.find("class=\"better\"") == std::string::npos);
  }
}

TEST_CASE("the report opens with event and players and ends with what was read and searched") {
  test::FakeCollection collection = test::fake_collection();
  const auto head_of = [](const std::string& html) {
    const auto begin = html.find("<h1>");
    return html.substr(begin, html.find("<nav", begin) - begin);
  };
  const std::string html = test::written("html", collection);
  const std::string head = head_of(html);
  CHECK(head.find("<h1>4 games</h1>") != std::string::npos);  // of several events
  CHECK(head.find("2026.03.14 to 2026.03.15. 4 games, 6 turning points.") != std::string::npos);
  CHECK(head.find("Aronov, Pavel; Bellini, Gia;") != std::string::npos);
  CHECK(head.find("Not done: 7 places") != std::string::npos);  // not put off to the end
  CHECK(head.find("1 game skipped") != std::string::npos);
  CHECK(head.find("12,345,678") == std::string::npos);
  CHECK(html.find("12,345,678") > html.rfind("</article>"));
  for (study::Study& study : collection.studies) study.facts.event = "Club Open";
  CHECK(head_of(test::written("html", collection)).find("<h1>Club Open</h1>") != std::string::npos);
  collection.studies.resize(3);
  collection.studies.erase(collection.studies.begin(), collection.studies.begin() + 2);
  CHECK(head_of(test::written("html", collection))
            .find("<h1>Bellini, Gia - Aronov, Pavel, 1/2-1/2</h1>") != std::string::npos);
}

TEST_CASE(
    "errors are counted by player, with Wilson's interval of the games, but not of one game") {
  test::FakeCollection collection = test::fake_collection();
  collection.studies[3].facts.white = "Aronov, Pavel";
  const std::string html = test::written("html", collection);
  // Two games, an error in one of them: 9.5 % to 90.5 % (Wilson 1927, z = 1.959964).
  const std::string row = test::between(html, "Aronov, Pavel</td>", "</tr>");
  CHECK(row.find(">2</td>") != std::string::npos);
  CHECK(row.find("1 (9 % to 91 %)") != std::string::npos);
  CHECK(row.find("<svg class=\"bar\"") != std::string::npos);
  const std::string once = test::between(html, "Roe, Jane</td>", "</tr>");
  CHECK(once.find("Games with an error\">0</td>") != std::string::npos);
  CHECK(once.find("<svg") == std::string::npos);
  collection.facts_.player = "Pavel Aronov / Aronov, Pavel";
  const std::string one = test::written("html", collection);
  CHECK(one.find("Aronov, Pavel</td>") != std::string::npos);
  CHECK(one.find("Roe, Jane</td>") == std::string::npos);
}

TEST_CASE("400 games with eight moments each stay under 15 MB") {
  const std::string html = test::written("html", test::large_collection(400, 8));
  CHECK(html.size() < 15'000'000);
  CHECK(html.size() > 1'000'000);
}

TEST_CASE("pages draw the lines of the men as wide as pictures do") {
  const std::string html = test::written("html", test::fake_collection());
  for (const auto& [rule, width] :
       {std::pair(".rim{fill:none;stroke:var(--sheet);", report::rim_width),
        std::pair(".man{stroke:#1d1b1a;", report::line_width),
        std::pair(".det{fill:none;", report::detail_width)}) {
    CAPTURE(rule);
    const auto at = html.find(rule);
    REQUIRE(at != std::string::npos);
    CHECK(html.find("stroke-width:" + std::to_string(width), at) < html.find('}', at));
  }
}
