#include "kairos/puzzle/exercise.hpp"

#include <catch2/catch.hpp>

#include "kairos/puzzle/exercise_file.hpp"

#include "support/temporary_folder.hpp"

using namespace kairos;
using namespace kairos::puzzle;

namespace {

// A back rank (common practice), as kairos writes a puzzle, and two lines with less.
const std::string own =
    "6k1/5ppp/8/8/8/8/5PPP/R5K1 w - - bm Ra8#; pv Ra8#; dm 1; id \"b1\"; c0 \"Anna - Bert\"; "
    "c1 \"mate, Back Rank\"; c2 \"2\"; c3 \"Ra7 h6; Ra9 h6; Kf1 h6\";\n";
const std::string keys_alone = "7k/8/8/8/8/8/R7/1R4K1 w - - bm Ra7 Rb7;\n";
const std::string line_alone = "7k/8/8/8/8/8/R7/1R4K1 w - - pv Rb7 Kg8 Ra8#; id \"ladder\";\n";

ExerciseFile read(const std::string& text) {
  const test::TemporaryFolder folder;
  folder.write("p.epd", text);
  return read_exercises(folder / "p.epd").value();
}

std::string fault_of(const std::string& text, const std::string& id) {
  const test::TemporaryFolder folder;
  folder.write("p.epd", text);
  const auto found = find_exercise(folder / "p.epd", id);
  return found ? "" : found.fault().detail;
}

}  // namespace

TEST_CASE("what an EPD line says of a puzzle is read; a try that is no legal line is left out") {
  const Exercise e = read(own).exercises.at(0);
  CHECK(e.id == "b1");
  CHECK(e.themes == std::vector<std::string>{"mate", "Back Rank"});
  CHECK(e.is_key(rules::Move::normal(rules::a1, rules::a8)));
  CHECK_FALSE(e.is_key(rules::Move::normal(rules::a1, rules::a7)));
  CHECK(e.puzzle.game_label == "Anna - Bert");
  CHECK(e.puzzle.difficulty == 2);
  CHECK(e.puzzle.mate_moves == 1);
  CHECK(e.puzzle.reward == Reward::mate);
  REQUIRE(e.puzzle.tries.size() == 2);
  const rules::Move second = rules::Move::normal(rules::g1, rules::f1);
  CHECK(e.puzzle.tries[1].move == second);
  CHECK(find_try(e.puzzle.tries, second) == &e.puzzle.tries[1]);
  CHECK(find_try(e.puzzle.tries, rules::Move::normal(rules::a1, rules::a8)) == nullptr);
}

TEST_CASE("a line with keys alone, or with a line of moves alone, is an exercise too") {
  const ExerciseFile file = read(keys_alone + line_alone);
  REQUIRE(file.exercises.size() == 2);
  CHECK(file.exercises[0].id == "line 1");
  CHECK(file.exercises[0].keys.size() == 2);
  CHECK(file.exercises[0].puzzle.line.size() == 1);
  CHECK(file.exercises[1].keys ==
        std::vector<rules::Move>{rules::Move::normal(rules::b1, rules::b7)});
  CHECK(file.exercises[1].puzzle.line.size() == 3);
}

TEST_CASE("a line that cannot be read is told with its place, and the others are read") {
  const ExerciseFile file = read(own + "8/8/8 w - - bm e4;\n" + line_alone);
  CHECK(file.exercises.size() == 2);
  REQUIRE(file.faults.size() == 1);
  CHECK(file.faults[0].place.line == 2);
}

TEST_CASE("an unknown id is told with the nearest there is") {
  CHECK(fault_of(own + line_alone, "ladder").empty());
  CHECK_THAT(fault_of(own + line_alone, "lader"), Catch::Contains("ladder"));
}

TEST_CASE("a theme is chosen by a word of it, whatever its case") {
  std::vector<Exercise> exercises = read(own + line_alone).exercises;
  REQUIRE(keep_theme(exercises, "back").ok());
  REQUIRE(exercises.size() == 1);
  CHECK(exercises[0].id == "b1");
  const auto none = keep_theme(exercises, "fork");
  REQUIRE_FALSE(none.ok());
  CHECK_THAT(none.fault().detail, Catch::Contains("Back Rank"));
}

namespace {

// Damiano's defence (from memory): 3... fxe5 4. Qh5+.
const std::string damiano = "rnbqkbnr/pppp2pp/5p2/4N3/4P3/8/PPPP1PPP/RNBQKB1R b KQkq - ";
const rules::Move takes = rules::Move::normal(rules::f6, rules::e5);
const rules::Move check = rules::Move::normal(rules::d1, rules::h5);

Puzzle puzzle_read(const std::string& line) {
  return read(line + "\n").exercises.at(0).puzzle;
}

}  // namespace

TEST_CASE("a move to avoid with what answers it asks for the answer") {
  const Exercise e =
      read(damiano + "am fxe5; pv fxe5 Qh5+ g6 Qxe5+; c3 \"Qf3 Nf6\"; c5 \"1\"; hmvc 0; fmvn 3;\n")
          .exercises.at(0);
  CHECK(e.keys == std::vector<rules::Move>{check});
  CHECK(e.puzzle.avoided == takes);
  CHECK(e.puzzle.position == e.puzzle.before.after(takes));
  CHECK(e.puzzle.before.fullmove_number() == 3);
  CHECK(e.puzzle.line.size() == 3);
  CHECK(e.puzzle.asked == 1);
  REQUIRE(e.puzzle.tries.size() == 1);
  CHECK(e.puzzle.tries[0].move == rules::Move::normal(rules::d1, rules::f3));
}

TEST_CASE("a key, a line that begins elsewhere, or one that does not go on makes no why-not") {
  for (const std::string operations :
       {"am fxe5; bm Qe7; pv fxe5 Qh5+", "am fxe5; pv Qe7 Nf3", "am fxe5; pv fxe5"}) {
    CAPTURE(operations);
    const Puzzle p = puzzle_read(damiano + operations + ";");
    CHECK_FALSE(p.avoided);
    CHECK(p.position.side_to_move() == rules::black);
  }
  CHECK(read(damiano + "am Kxe9; pv fxe5 Qh5+;\n" + own).faults.size() == 1);
}

TEST_CASE("find rates are read back, and what is malformed is ignored") {
  CHECK(read(line_alone).exercises.at(0).puzzle.find_rates == Rates{});
  const std::string line = "7k/8/8/8/8/8/R7/1R4K1 w - - pv Rb7 Kg8 Ra8#; ";
  CHECK(puzzle_read(line + "c4 \"find 1600 0.12, 2000 0.31, 2400 1.00\";").find_rates ==
        Rates{1200, 3100, 10000, 10000});
  CHECK(puzzle_read(line + "c4 \"find 1600 0.12\";").find_rates == Rates{1200, 1200, 1200, 1200});
  const puzzle::Puzzle both = puzzle_read(line + "c4 \"find 1600 0.50\"; c7 \"solve 1600 0.12\";");
  CHECK(both.find_rates == Rates{5000, 5000, 5000, 5000});
  CHECK(both.solve_rates == Rates{1200, 1200, 1200, 1200});
  // Of the key alone where the line says no more.
  CHECK(puzzle_read(line + "c4 \"find 1600 0.50\";").solve_rates == both.find_rates);
  for (const std::string text :
       {"", "1600 0.12", "find ", "find 1600", "find 1600 0.1", "find 1600 1.01", "find 1600 -.12",
        "find 1600 0.-1", "find 1700 0.12", "find 2000 0.31, 1600 0.12", "find 1600 0,12",
        "find 1600 0.1, 2000 0.2, 2400 0.3, 2800 0.4, 3200 0.50"}) {
    CAPTURE(text);
    CHECK(puzzle_read(line + "c4 \"" + text + "\";").find_rates == Rates{});
  }
}

TEST_CASE("those who find both moves are those who find the second, of those who find the first") {
  CHECK(puzzle::both_of({5000, 10'000, 1, 3333}, {5000, 7000, 9000, 10'000}) ==
        Rates{2500, 7000, 1, 3333});  // nobody: told as the least there is
}

TEST_CASE("of a line is asked what the file says, where that can be; else all") {
  const std::string line = "7k/8/8/8/8/8/R7/1R4K1 w - - pv Rb7 Kg8 Ra8#; ";
  CHECK(puzzle_read(line + "c5 \"1\";").asked == 1);
  for (const std::string text : {"", "0", "-1", "2", "5", "one", "99999999999999999999"}) {
    CAPTURE(text);
    CHECK(puzzle_read(line + "c5 \"" + text + "\";").asked == 3);
  }
}

TEST_CASE("what fits a level is put first, and all else stays in its order") {
  const auto exercise = [](const char* id, Rates rates) {
    Exercise e;
    e.id = id;
    e.puzzle.solve_rates = rates;
    return e;
  };
  const std::vector<Exercise> file = {
      exercise("plain", {7100, 8000, 9000, 9500}), exercise("no rates", {}),
      exercise("for strong", {200, 900, 2000, 4000}), exercise("for all", {1000, 2000, 3000, 7000}),
      exercise("for weak", {7000, 7100, 9000, 9500})};
  const auto order = [&file](int level) {
    std::vector<Exercise> exercises = file;
    put_fitting_first(exercises, level);
    std::vector<std::string> ids;
    for (const Exercise& e : exercises) ids.push_back(e.id);
    return ids;
  };
  using Ids = std::vector<std::string>;
  CHECK(order(1600) == Ids{"for all", "for weak", "plain", "no rates", "for strong"});
  CHECK(order(2000) == Ids{"for all", "plain", "no rates", "for strong", "for weak"});
  CHECK(order(2400) == Ids{"for strong", "for all", "plain", "no rates", "for weak"});
  CHECK(order(800) == order(1600));  // the nearest rating known
  std::vector<Exercise> without = {exercise("b", {}), exercise("a", {}), exercise("c", {})};
  put_fitting_first(without, 2000);
  CHECK(without[0].id + without[1].id + without[2].id == "bac");
}
