// annotated.pgn: valid export format, the game's own notes kept, ours behind them.
#include <catch2/catch.hpp>

#include "kairos/base/text.hpp"
#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/replay.hpp"
#include "kairos/pgn/writer.hpp"
#include "kairos/report/words.hpp"

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

// All comments of a game, in the order of the nodes.
std::vector<std::string> comments_of(const pgn::Game& game) {
  std::vector<std::string> all;
  for (pgn::NodeId id = 0; id < game.nodes.size(); ++id) {
    const pgn::Annotation* const annotation = game.annotation_of(id);
    if (annotation == nullptr) continue;
    for (const auto* list : {&annotation->before, &annotation->comments}) {
      all.insert(all.end(), list->begin(), list->end());
    }
  }
  return all;
}

// Whether every comment of the input stands in the output, at its front ours behind it.
bool keeps_comments(const pgn::Game& written, const pgn::Game& input) {
  std::vector<std::string> all = comments_of(written);
  for (const std::string& comment : comments_of(input)) {
    const auto kept = std::find_if(all.begin(), all.end(), [&](const std::string& there) {
      return there.starts_with(std::string(base::trim(comment)));
    });
    if (kept == all.end()) return false;
    all.erase(kept);
  }
  return true;
}

// What a text says after its first two words and a letter: behind its move a comment leaves them
// out.
std::string said(const std::string& text) {
  return text.substr(text.find(' ', text.find(' ') + 1) + 2);
}

// The texts of the turning points and claims that no comment of the game holds.
std::vector<std::string> untold(const study::Study& study, const pgn::Game& game) {
  std::vector<std::string> texts, missing;
  for (const auto& point : report::turning_points(study)) {
    texts.push_back(report::text_of(study, point));
  }
  for (const study::Moment& m : study.moments) {
    if (m.kind == study::Kind::claim) texts.push_back(report::sentence_of(study, m));
  }
  const std::vector<std::string> comments = comments_of(game);
  for (const std::string& text : texts) {
    const bool is_there = std::any_of(comments.begin(), comments.end(), [&](const auto& comment) {
      return comment.find(said(text)) != std::string::npos;
    });
    if (!is_there) missing.push_back(text);
  }
  return missing;
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
    CHECK(keeps_comments(games[i], collection.games[i]));
    CHECK(untold(study, games[i]).empty());
  }
}

TEST_CASE("comments are those that a person would write: no program's name, no percentages") {
  for (const pgn::Game& game : games_of(test::written("pgn", test::fake_collection()))) {
    for (const std::string& comment : comments_of(game)) {
      CAPTURE(comment);
      CHECK(base::lower_case(comment).find("kairos") == std::string::npos);
      CHECK(comment.find(" %") == std::string::npos);
    }
  }
}

TEST_CASE("a comment behind a move does not name it again") {
  const auto games = games_of(test::written("pgn", test::fake_collection()));
  const pgn::NodeId swing = games[0].main_line()[9];  // 5... Bxd1
  CHECK(games[0].annotation_of(swing)->comments ==
        std::vector<std::string>{
            "Loses: 6. Bxf7+ mates in 2. White played it. Better was 5... dxe5."});
}

TEST_CASE("variations are at most twelve half-moves long") {
  test::FakeCollection collection = test::fake_collection();
  // Knights to and fro.
  collection.studies[2].moments[2].line =
      test::moves_of(collection.studies[2].moments[2].position,
                     "Nbd7 Qd2 Nb8 Qd1 Nbd7 Qd2 Nb8 Qd1 Nbd7 Qd2 Nb8 Qd1 Nbd7 Qd2 Nb8");
  collection.studies[2].moments[2].best = collection.studies[2].moments[2].line.front();
  const pgn::Game draw = games_of(test::written("pgn", collection))[2];
  std::size_t longest = 0;
  for (pgn::NodeId id = 1; id < draw.nodes.size(); ++id) {
    if (draw.nodes[draw.nodes[id].parent].first_child == id) continue;
    std::size_t plies = 1;
    for (pgn::NodeId at = draw.nodes[id].first_child; at != pgn::no_node; ++plies) {
      at = draw.nodes[at].first_child;
    }
    longest = std::max(longest, plies);
  }
  CHECK(longest == 12);
}

TEST_CASE("the bare analysis has the marks and the lines, and no word of ours") {
  test::FakeCollection collection = test::fake_collection();
  const auto full = games_of(test::written("pgn", collection));
  collection.facts_.bare_pgn = true;
  const auto bare = games_of(test::written("pgn", collection));
  REQUIRE(bare.size() == full.size());
  for (std::size_t i = 0; i < bare.size(); ++i) {
    CHECK(comments_of(bare[i]) == comments_of(collection.games[i]));
    CHECK(bare[i].nodes.size() == full[i].nodes.size());
    std::vector<std::uint8_t> bare_signs, full_signs;
    for (const auto& a : bare[i].annotations) {
      bare_signs.insert(bare_signs.end(), a.nags.begin(), a.nags.end());
    }
    for (const auto& a : full[i].annotations) {
      full_signs.insert(full_signs.end(), a.nags.begin(), a.nags.end());
    }
    CHECK(bare_signs == full_signs);
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
    CHECK(keeps_comments(games[i], collection.games[i]));
    CHECK(untold(collection.studies[i], games[i]).empty());
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
