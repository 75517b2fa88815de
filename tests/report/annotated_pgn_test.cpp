// annotated.pgn: valid export format, the game's own notes kept, ours told apart.
#include <catch2/catch.hpp>

#include "kairos/base/text.hpp"
#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/replay.hpp"
#include "kairos/pgn/writer.hpp"

#include "support/report_bytes.hpp"
#include "support/report_fakes.hpp"

using namespace kairos;

namespace {

std::vector<pgn::Game> games_of(std::string_view text) {
  base::FaultList faults;
  base::MemorySource source(text);
  pgn::Reader reader(source, "annotated.pgn", faults);
  std::vector<pgn::Game> games;
  while (auto game = reader.next()) {
    CHECK(pgn::replay(*game, faults).state == pgn::Replay::State::playable);
    games.push_back(std::move(*game));
  }
  for (const base::Fault& fault : faults.faults) CHECK(base::describe(fault).empty());
  return games;
}

constexpr std::string_view mark = "kairos: ";

// What the input had of a comment: all before our mark.
std::string own_part(std::string_view comment) {
  return std::string(base::trim(comment.substr(0, comment.find(mark))));
}

// Comments of a game that kairos did not write, in the order of the text.
std::vector<std::string> own_comments(const pgn::Game& game) {
  std::vector<std::string> comments;
  for (pgn::NodeId id = 0; id < game.nodes.size(); ++id) {
    const pgn::Annotation* const annotation = game.annotation_of(id);
    if (annotation == nullptr) continue;
    for (const auto* list : {&annotation->before, &annotation->comments}) {
      for (const std::string& comment : *list) {
        if (!own_part(comment).empty()) comments.push_back(own_part(comment));
      }
    }
  }
  return comments;
}

std::size_t count_ours(const pgn::Game& game) {
  std::size_t count = 0;
  for (const pgn::Annotation& annotation : game.annotations) {
    for (const std::string& comment : annotation.comments) {
      for (std::size_t at = 0; (at = comment.find(mark, at)) != std::string::npos; ++at) ++count;
    }
  }
  return count;
}

}  // namespace

TEST_CASE("annotated games read back with the main line and the comments of the input") {
  const test::FakeCollection collection = test::fake_collection();
  const auto games = games_of(test::written("pgn", collection));
  REQUIRE(games.size() == collection.size());
  for (std::size_t i = 0; i < games.size(); ++i) {
    const study::Study& study = collection.studies[i];
    CHECK(pgn::main_line_moves(games[i]) == study.moves);
    CHECK(games[i].tag("White") == study.facts.white);
    CHECK(own_comments(games[i]) == own_comments(collection.games[i]));
    CHECK(count_ours(games[i]) >= study.moments.size());
  }
}

TEST_CASE("the input's own variations and signs stay in front of ours") {
  const auto games = games_of(test::written("pgn", test::fake_collection()));
  const pgn::Game& draw = games[2];
  const pgn::NodeId played = draw.main_line()[12];
  const pgn::NodeId own = draw.nodes[played].next_sibling;
  REQUIRE(own != pgn::no_node);
  CHECK(draw.san_text(draw.nodes[own]) == "Nf5");
  // $3 is the annotator's; no second judgement of the move beside it (standard, section 10: 1-9
  // judge the move, 10-19 the position).
  std::size_t move_signs = 0;
  for (const std::uint8_t nag : draw.annotation_of(own)->nags) move_signs += nag >= 1 && nag <= 9;
  CHECK(move_signs == 1);
  CHECK(draw.annotation_of(own)->nags.front() == 3);
}

TEST_CASE("no move gets two signs of one sort, and all signs are of the standard") {
  for (const pgn::Game& game : games_of(test::written("pgn", test::fake_collection()))) {
    for (const pgn::Annotation& annotation : game.annotations) {
      int of_move = 0, of_position = 0;
      for (const std::uint8_t nag : annotation.nags) {
        CHECK(nag >= 1);
        CHECK(nag <= 19);
        (nag <= 9 ? of_move : of_position) += 1;
      }
      CHECK(of_move <= 1);
      CHECK(of_position <= 1);
    }
  }
}

TEST_CASE("no move gets two comments from us, since not all software reads two in a row") {
  test::FakeCollection collection = test::fake_collection();
  for (const pgn::Game& game : games_of(test::written("pgn", collection))) {
    for (const pgn::Annotation& annotation : game.annotations) {
      CHECK(annotation.comments.size() <= 1);
    }
  }
}

TEST_CASE("the longest comments that are read stay whole beside ours, and are read again") {
  test::FakeCollection collection = test::fake_collection();
  for (pgn::Game& game : collection.games) {
    for (const pgn::NodeId id : game.main_line()) {
      game.annotate(id).comments = {std::string(pgn::ReaderLimits{}.comment_bytes, 'x')};
    }
  }
  const auto games = games_of(test::written("pgn", collection));  // without a fault
  REQUIRE(games.size() == collection.size());
  for (std::size_t i = 0; i < games.size(); ++i) {
    CHECK((own_comments(games[i]) == own_comments(collection.games[i])));
    CHECK(count_ours(games[i]) >= collection.studies[i].moments.size());
  }
}

TEST_CASE("a variation of ours never repeats the move played or another of ours") {
  for (const pgn::Game& game : games_of(test::written("pgn", test::fake_collection()))) {
    for (const pgn::Node& node : game.nodes) {
      std::vector<rules::Move> seen;
      for (pgn::NodeId id = node.first_child; id != pgn::no_node;
           id = game.nodes[id].next_sibling) {
        for (const rules::Move move : seen) CHECK(move != game.nodes[id].move);
        seen.push_back(game.nodes[id].move);
      }
    }
  }
}

TEST_CASE("export format: fewer than 80 columns, no blanks at either end (standard, 4.3, 8.2.1)") {
  const std::string text = test::written("pgn", test::fake_collection());
  for (const std::string_view line : base::split(text, '\n')) {
    if (line.starts_with("[")) continue;
    CAPTURE(std::string(line));
    CHECK(base::character_count(line) < 80);
    CHECK(line == base::trim(line));
  }
}

TEST_CASE("what annotated.pgn holds is written again byte for byte") {
  const std::string text = test::written("pgn", test::fake_collection());
  std::string again;
  for (const pgn::Game& game : games_of(text)) again += pgn::to_pgn(game);
  CHECK(again == text);
}

TEST_CASE("position signs follow White's expectation (standard, section 10: $14 on, even White)") {
  test::FakeCollection collection = test::fake_collection();
  struct Row {
    search::Score white;
    std::uint8_t nag;
  };
  // Level, slight, moderate and decisive edges, for White and mirrored for Black.
  for (const Row& row : {Row{0, 10}, Row{60, 14}, Row{-60, 15}, Row{200, 16}, Row{-200, 17},
                         Row{900, 18}, Row{-900, 19}}) {
    study::Moment& swing = collection.studies[0].moments[0];  // Black to move
    swing.played_score = -row.white;
    const auto games = games_of(test::written("pgn", collection));
    const pgn::NodeId node = games[0].main_line()[9];
    CAPTURE(row.white);
    CHECK(games[0].annotation_of(node)->nags.back() == row.nag);
  }
}
