// Export format, to the letter: expected texts written by hand from the PGN standard (1994),
// sections 3.2 and 8.
#include "kairos/pgn/writer.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <string>
#include <tuple>
#include <vector>

#include "kairos/base/text.hpp"
#include "kairos/pgn/replay.hpp"

#include "pgn/reading.hpp"
#include "support/pgn_made_files.hpp"

using namespace kairos;
using namespace kairos::pgn;

namespace {

const std::string roster_of_nothing =
    "[Event \"?\"]\n[Site \"?\"]\n[Date \"????.??.??\"]\n[Round \"?\"]\n[White \"?\"]\n[Black "
    "\"?\"]\n";

std::string rewritten(std::string_view text) {
  Reading reading = read_all(text);
  REQUIRE(reading.games.size() == 1);
  base::FaultList ignored;
  CHECK(replay(reading.games[0], ignored).state != Replay::State::refused);
  return to_pgn(reading.games[0]);
}

// The movetext of what is written for `moves`, behind the seven tags.
std::string movetext(std::string_view moves) {
  const std::string text = rewritten(moves);
  const auto at = text.find("\n\n");
  REQUIRE(at != std::string::npos);
  return text.substr(at + 2);
}

}  // namespace

TEST_CASE("tags: the seven in their order, the others by name, one a line, escaped") {
  CHECK(
      rewritten("[Zeta \"z\"]\n[Black \"B \\\"x\\\" \\\\\"]\n[Annotator \"a\"]\n[White "
                "\"A\"]\n[Result \"*\"]\n\n1-0") ==
      "[Event \"?\"]\n[Site \"?\"]\n[Date \"????.??.??\"]\n[Round \"?\"]\n[White \"A\"]\n"
      "[Black \"B \\\"x\\\" \\\\\"]\n[Result \"1-0\"]\n[Annotator \"a\"]\n[Zeta \"z\"]\n\n1-0\n\n");
}

TEST_CASE("a set-up is written as SetUp and FEN, and its first move number with dots for Black") {
  CHECK(rewritten("[FEN \"4k3/8/8/8/8/8/4p3/K7 b - - 0 40\"]\n\n40... e1Q+ 41. Ka2 *") ==
        roster_of_nothing +
            "[Result \"*\"]\n[FEN \"4k3/8/8/8/8/8/4p3/K7 b - - 0 40\"]\n[SetUp \"1\"]\n\n"
            "40... e1=Q+ 41. Ka2 *\n\n");
}

TEST_CASE("moves are written in canonical SAN with numbers where the standard wants them") {
  CHECK(movetext("1.e2-e4 e5 2.Ng1f3 Nb8c6 3.Bf1-b5 a6 4.0-0?? *") ==
        "1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. O-O $4 *\n\n");
  CHECK(movetext("1. e4 {a} e5 2. Nf3 $1 Nc6 (2... d6 3. d4) 3. Bb5 ({b} 3. Bc4 Bc5) a6 *") ==
        "1. e4 {a} 1... e5 2. Nf3 $1 Nc6 (2... d6 3. d4) 3. Bb5 ({b} 3. Bc4 Bc5) 3... a6\n*\n\n");
  CHECK(movetext("[White \"A\"]\n\n{before} $5 1. e4 *") == "$5 {before} 1. e4 *\n\n");
}

TEST_CASE("commands in comments stay as they were, and a closing brace becomes a bracket") {
  CHECK(movetext("1. e4 {[%clk 1:23:45] [%emt 0:00:03]  two} ; a } b\n*") ==
        "1. e4 {[%clk 1:23:45] [%emt 0:00:03]  two} {a ) b} *\n\n");
}

TEST_CASE("lines have fewer than 80 characters and are filled") {
  std::string words = "1. e4 {";
  for (int i = 0; i < 60; ++i)
    words += "word" + std::to_string(i * 37) + (i % 9 == 0 ? "\xC3\xA4 " : " ");
  words +=
      "[%clk 0:00:01]} e5 (1... c5 {[%a b c d e f g h i j k l m n o p q r s t u v w x y z a b c "
      "d]}) 2. Nf3 *";
  const std::string text = movetext(words);
  const auto lines = base::split(text, '\n');
  for (std::size_t i = 0; i + 1 < lines.size(); ++i) {
    INFO(lines[i]);
    CHECK(base::character_count(lines[i]) < 80);
    CHECK(lines[i] == base::trim(lines[i]));
    if (i + 3 >= lines.size()) continue;
    const std::string_view next = lines[i + 1];
    // Full: the next word would not have fitted. A command counts as one word.
    const std::size_t command_end = next.find(']');
    const std::size_t word = next.starts_with("[%") || next.starts_with("{[%")
                                 ? next.find(' ', command_end)
                                 : next.find(' ');
    CHECK(base::character_count(lines[i]) + 1 + base::character_count(next.substr(0, word)) > 79);
  }
  CHECK(movetext(text) == text);
}

TEST_CASE("no line of a comment begins like an escaped line or a tag") {
  const std::string comment =
      "{" + std::string(70, 'x') + " yyy %not an escape [Event \"no tag\"]}";
  const std::string text = movetext("1. e4 " + comment + " *");
  CHECK(text.find("\n%") == std::string::npos);
  CHECK(text.find("\n[") == std::string::npos);
  CHECK(summary(read_all(text)) == "e4 " + comment + " *");
}

TEST_CASE("a game made in the program is written like one that was read") {
  Game game = empty_game();
  const NodeId e4 = game.add_child(0, rules::Move::normal(rules::e2, rules::e4));
  const NodeId e5 = game.add_child(e4, rules::Move::normal(rules::e7, rules::e5));
  game.add_child(e4, rules::Move::normal(rules::c7, rules::c5));
  game.annotate(e5).nags.push_back(1);
  game.annotate(e4).comments.emplace_back("two\nlines");
  game.annotate(e4).comments.emplace_back("");
  game.set_tag("White", "A");
  game.set_tag("White", "B");
  game.result = GameResult::draw;
  CHECK(to_pgn(game) ==
        "[Event \"?\"]\n[Site \"?\"]\n[Date \"????.??.??\"]\n[Round \"?\"]\n[White \"B\"]\n"
        "[Black \"?\"]\n[Result \"1/2-1/2\"]\n\n"
        "1. e4 {two lines} 1... e5 $1 (1... c5) 1/2-1/2\n\n");
}

namespace {

// Every node with all that it carries, in an order of their own: where a variation stands among
// others is the text's affair (to_pgn).
std::vector<std::tuple<std::uint16_t, std::string, Annotation>> nodes_of(const Game& game) {
  std::vector<std::tuple<std::uint16_t, std::string, Annotation>> nodes;
  for (NodeId id = 0; id < game.nodes.size(); ++id) {
    const Node& node = game.nodes[id];
    const Annotation* const annotation = game.annotation_of(id);
    nodes.emplace_back(node.move.raw(), node.move ? "" : game.san_text(node),
                       annotation == nullptr ? Annotation{} : *annotation);
  }
  std::ranges::sort(nodes, [](const auto& a, const auto& b) {
    const auto key = [](const auto& node) {
      const auto& [move, san, notes] = node;
      return std::tie(move, san, notes.nags, notes.before, notes.comments);
    };
    return key(a) < key(b);
  });
  return nodes;
}

void check_exported(const Game& game) {
  const std::string text = to_pgn(game);
  Reading again = read_all(text);
  REQUIRE(again.games.size() == 1);
  base::FaultList ignored;
  replay(again.games[0], ignored);
  const Game made = exported(game);
  CHECK(to_pgn(made) == text);
  CHECK((made.tags == again.games[0].tags));
  CHECK((nodes_of(made) == nodes_of(again.games[0])));
  CHECK(made.start == again.games[0].start);
  CHECK(made.result == again.games[0].result);
  CHECK(made.place.line == again.games[0].place.line);
  CHECK(made.place.column == again.games[0].place.column);
  CHECK(made.place.game == again.games[0].place.game);
}

}  // namespace

TEST_CASE("a game brought to its export form is the game that its text gives") {
  std::size_t games = 0;
  for (std::uint64_t seed = 0; seed < 1'500; ++seed) {
    INFO("seed " << seed);
    Reading reading = read_all(test::made_file(seed));
    for (Game& game : reading.games) {
      base::FaultList ignored;
      if (replay(game, ignored).state == Replay::State::refused) continue;
      check_exported(game);
      ++games;
    }
  }
  CHECK(games > 1'000);
}

TEST_CASE("the longest tags and comments are written so that they are read again whole") {
  // Bytes that take two or three when they are kept or written: quotes, ISO 8859-1, control bytes
  // of it. 8 KB of such a tag were damaged when they were read again.
  for (const std::string word : {"x", "\"", "\\", "a\xE4", "\x85z ", "\xD0\x96 "}) {
    for (const std::size_t size : {8100U, 20'000U, 65'536U, 200'000U}) {
      const std::string words = repeated(word, size / word.size());
      const std::string name(size, 'N');
      const std::string text =
          "[White \"" + words + "\"]\n[" + name + " \"" + words + "\"]\n\n1. e4 {" + words + "} *";
      Reading reading = read_all(text);
      REQUIRE(reading.games.size() == 1);
      const std::string written = to_pgn(reading.games[0]);
      INFO(size << " bytes of " << word);
      Reading again = read_all(written);
      REQUIRE(again.games.size() == 1);
      CHECK(again.faults.empty());
      CHECK(again.games[0].tag("White") == reading.games[0].tag("White"));
      CHECK(tree_of(again.games[0]) == tree_of(reading.games[0]));
      CHECK(to_pgn(again.games[0]) == written);
    }
  }
}
