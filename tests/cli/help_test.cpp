// The help pages, and the README that must not tell anything else.
#include <catch2/catch.hpp>
#include <filesystem>
#include <regex>

#include "kairos/base/files.hpp"
#include "kairos/base/text.hpp"

#include "support/cli_program.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos;
using namespace kairos::test;

namespace {

// Names of all commands, from the page of the program itself.
std::vector<std::string> commands() {
  std::vector<std::string> names;
  bool inside = false;
  for (const std::string& line : lines_of(run_program({{"--help"}, ".", "", {}}).out)) {
    if (line.starts_with("Subcommands:")) inside = true;
    if (inside && line.starts_with("  ")) {
      names.push_back(line.substr(2, line.find(' ', 2) - 2));
    }
    if (inside && line.empty()) break;
  }
  return names;
}

std::string help_of(const std::string& command) {
  const Outcome outcome = run_program({{command, "--help"}, ".", "", {}});
  CHECK(outcome.exit_code == 0);
  CHECK(outcome.err.empty());
  return outcome.out;
}

struct OptionLine {
  std::string names, meaning, preset;
};

// The options of a help page, those of every command left out. Long names stand on a line of their
// own, the meaning on the next.
std::vector<OptionLine> options_of(const std::string& help) {
  std::vector<OptionLine> options;
  std::string names;
  for (const std::string& line : lines_of(help)) {
    if (line.starts_with("Options of every command")) break;
    const bool is_option = line.starts_with("  -");
    if (!is_option && names.empty()) continue;
    std::string meaning;
    if (is_option) {
      const auto gap = line.find("  ", 2);
      names = line.substr(2, gap == std::string::npos ? gap : gap - 2);
      if (gap == std::string::npos) continue;
      meaning = base::trim(line.substr(gap));
    } else {
      meaning = base::trim(line);
    }
    OptionLine option{names, meaning, ""};
    names.clear();
    const auto preset = meaning.rfind(" (default: ");
    if (preset != std::string::npos) {
      option.preset = meaning.substr(preset + 11, meaning.size() - preset - 12);
      option.meaning = meaning.substr(0, preset);
    }
    options.push_back(option);
  }
  return options;
}

std::vector<std::string> examples_of(const std::string& help) {
  std::vector<std::string> examples;
  bool inside = false;
  for (const std::string& line : lines_of(help)) {
    if (line == "Examples:")
      inside = true;
    else if (inside && line.empty())
      break;
    else if (inside)
      examples.emplace_back(base::trim(line));
  }
  return examples;
}

std::string readme() {
  auto text = base::read_file(KAIROS_SOURCE_DIR "/README.md");
  REQUIRE(text.ok());
  return *text;
}

// Small files under the names that examples use, so that they run in no time.
void make_stand_ins(const TemporaryFolder& folder) {
  const std::string game =
      "[Event \"Club\"]\n[White \"Marrowby, Silas\"]\n[Black \"Birch, Jon\"]\n[Result \"1-0\"]\n\n"
      "1. e4 e5 2. Qh5 Ke7 3. Qxe5# 1-0\n";
  namespace fs = std::filesystem;
  for (const char* name : {"samples", "season", "tests", "tests/perft", "tests/data"}) {
    fs::create_directory(folder / name);
  }
  fs::create_directory(folder / "tests/data/epd");
  fs::copy(KAIROS_TEST_DIR "/data/epd/mates.epd", folder / "tests/data/epd/mates.epd");
  fs::copy(KAIROS_TEST_DIR "/perft/standard.epd", folder / "tests/perft/standard.epd");
  folder.write("SUITE.epd", "6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - bm Rd8#;\n");
  folder.write("puzzles.epd",
               "6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - bm Rd8#; c1 \"mate in 1\"; "
               "id \"g3-m21w\";\n");
  folder.write("answers.txt", "anna: Rd8\n");
  folder.write("pupils.txt", "Marrowby\n");
  folder.write("questions.txt", "Qxe5\nwhy\n");
  for (const char* name : {"samples/club_open.pgn", "samples/annotated_game.pgn", "games.pgn",
                           "round7.pgn", "season/a.pgn"}) {
    folder.write(name, game);
  }
  REQUIRE(run_shell("gzip -nk games.pgn round7.pgn", folder.path()).exit_code == 0);
  const std::string scan = "kairos scan games.pgn --survey-nodes 500 --verify-nodes 500";
  for (const char* part : {"part1", "part2", "part3"}) {
    REQUIRE(run_shell(scan + " --part " + part[4] + "/3 -o " + part, folder.path()).exit_code == 0);
  }
  for (const std::string whole : {"spring", "autumn"}) {
    REQUIRE(run_shell(scan + " -o " + whole, folder.path()).exit_code == 0);
  }
}

// Lines `kairos ...` and `./build/kairos ...` in the code blocks of the README.
std::vector<std::string> readme_commands() {
  std::vector<std::string> found;
  bool inside = false;
  for (const std::string& line : lines_of(readme())) {
    if (line.starts_with("```"))
      inside = line == "```sh";
    else if (inside && line.starts_with("kairos "))
      found.push_back(line);
  }
  return found;
}

void run_all(const std::vector<std::string>& lines) {
  TemporaryFolder folder;
  make_stand_ins(folder);
  for (const std::string& line : lines) {
    INFO(line);
    const Outcome outcome = run_shell(line, folder.path());
    INFO(outcome.err);
    CHECK((outcome.exit_code == 0 || (outcome.exit_code == 1 && base::trim(outcome.err).empty())));
  }
}

}  // namespace

TEST_CASE("every command's help has an example and the exit codes, on standard output") {
  REQUIRE(commands().size() >= 5);
  for (const std::string& command : commands()) {
    INFO(command);
    const std::string help = help_of(command);
    CHECK(help.find("Usage: kairos " + command) != std::string::npos);
    CHECK_FALSE(examples_of(help).empty());
    for (const char* code : {"  0    ", "  1    ", "  2    ", "  3    ", "  130  "}) {
      CHECK(help.find(code) != std::string::npos);
    }
    for (const OptionLine& option : options_of(help)) {
      INFO(option.names);
      CHECK_FALSE(option.meaning.empty());
    }
  }
}

TEST_CASE("commands that search say that they are for finished games") {
  for (const char* command : {"scan", "weigh", "tally", "quiz", "solve"}) {
    INFO(command);
    CHECK(help_of(command).find("FIDE Laws, article 11.3") != std::string::npos);
  }
}

TEST_CASE("the examples of every help page run", "[slow]") {
  for (const std::string& command : commands()) run_all(examples_of(help_of(command)));
}

TEST_CASE("the commands of the README run", "[slow]") {
  REQUIRE_FALSE(readme_commands().empty());
  run_all(readme_commands());
}

TEST_CASE("the option tables of the README say what --help says, row for row") {
  const std::string text = readme();
  for (const std::string& command : commands()) {
    INFO(command);
    const auto begin = text.find("### `kairos " + command + "`");
    REQUIRE(begin != std::string::npos);
    const std::string section = text.substr(begin, text.find("\n#", begin) - begin);
    std::vector<std::string> rows;
    for (const std::string& line : lines_of(section)) {
      if (line.starts_with("| `-")) rows.push_back(line);
    }
    std::vector<std::string> wanted;
    for (const OptionLine& option : options_of(help_of(command))) {
      wanted.push_back("| `" + option.names + "` | " + option.meaning + " | " + option.preset +
                       " |");
    }
    CHECK(rows == wanted);
  }
}

TEST_CASE("--version prints one line: the version, the evaluation and the definitions") {
  const Outcome outcome = run_program({{"--version"}, ".", "", {}});
  CHECK(outcome.exit_code == 0);
  CHECK(std::regex_match(
      outcome.out,
      std::regex("kairos [0-9]+\\.[0-9]+\\.[0-9]+, evaluation [0-9a-f]{8}, definitions [0-9]+\n")));
}
