// What `cmake --install` puts in place: the program and its man page.
#include <catch2/catch.hpp>

#include "support/cli_program.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos::test;

namespace {

// Under a prefix of its own.
void install_into(const TemporaryFolder& folder) {
  const Outcome outcome = run_shell(
      KAIROS_CMAKE " --install " KAIROS_BUILD_DIR " --prefix \"$PWD/usr\"", folder.path());
  INFO(outcome.err);
  REQUIRE(outcome.exit_code == 0);
}

// The first words of the lines that begin as options and commands do.
std::vector<std::string> names_in(const std::string& help) {
  std::vector<std::string> names;
  for (const std::string& line : lines_of(help)) {
    if (!line.starts_with("  ") || line.starts_with("   ")) continue;
    names.push_back(line.substr(2, line.find_first_of(" ,", 2) - 2));
  }
  return names;
}

std::string without_backslashes(std::string text) {
  std::erase(text, '\\');
  return text;
}

}  // namespace

TEST_CASE("installed are the program, its man page, and nothing else") {
  const TemporaryFolder folder;
  install_into(folder);
  const Outcome files = run_shell("cd usr && find . -type f | sort", folder.path());
  CHECK(files.out == "./bin/kairos\n./share/man/man1/kairos.1\n");
  const Outcome version = run_shell("usr/bin/kairos --version", folder.path());
  CHECK(version.exit_code == 0);
  CHECK(version.out == run_program({{"--version"}, ".", "", {}}).out);
}

TEST_CASE("the man page has every command, option and example of --help") {
  const TemporaryFolder folder;
  install_into(folder);
  const std::string page = without_backslashes(folder.read("usr/share/man/man1/kairos.1"));
  const auto check_all_in = [&page](const std::string& help) {
    const std::vector<std::string> names = names_in(help);
    CHECK(names.size() > 5);
    for (const std::string& name : names) {
      CAPTURE(name);
      CHECK(page.find(name) != std::string::npos);
    }
  };
  const std::string help = run_program({{"--help"}, ".", "", {}}).out;
  check_all_in(help);
  std::vector<std::string> commands;
  for (const std::string& line : lines_of(page)) {
    if (!line.starts_with(".SS kairos ")) continue;
    const std::string name = line.substr(11, line.find(' ', 11) - 11);
    commands.push_back(name);
    check_all_in(run_program({{name, "--help"}, ".", "", {}}).out);
  }
  std::vector<std::string> wanted = names_in(help);
  std::erase_if(wanted, [](const std::string& name) { return name[0] < 'a' || name[0] > 'z'; });
  CHECK(commands == wanted);
}

TEST_CASE("the man page is in order for the formatter") {
  const TemporaryFolder folder;
  install_into(folder);
  if (run_shell("command -v groff", folder.path()).exit_code != 0) {
    WARN("groff is not installed: not tried");
    return;
  }
  const Outcome outcome =
      run_shell("groff -man -Tutf8 -ww usr/share/man/man1/kairos.1", folder.path());
  CHECK(outcome.exit_code == 0);
  CHECK(outcome.err.empty());
  CHECK(outcome.out.find("kairos COMMAND --help tells more of each.") != std::string::npos);
}
