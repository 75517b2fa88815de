// Counts of legal move sequences against published ones. Each line of an EPD of counts is one
// position with its counts by depth; a count is checked when it is within the limit of the run.
#include "kairos/rules/perft.hpp"

#include <catch2/catch.hpp>
#include <cstdint>
#include <fstream>
#include <string>
#include <vector>

#include "kairos/base/text.hpp"
#include "kairos/rules/fen.hpp"

using namespace kairos;

namespace {

std::vector<rules::PerftLine> read_lines(const std::string& path) {
  std::ifstream file(path);
  std::vector<rules::PerftLine> lines;
  for (std::string text; std::getline(file, text);) {
    if (!base::trim(text).empty()) lines.push_back(rules::read_perft_line(text).value());
  }
  return lines;
}

// Checks the counts above `from` and up to `to` nodes; how many there were.
int check_lines(const std::vector<rules::PerftLine>& lines, std::uint64_t from, std::uint64_t to) {
  int checked = 0;
  for (const rules::PerftLine& line : lines) {
    INFO(rules::to_fen(line.position));
    for (const rules::PerftLine::Count& count : line.counts) {
      if (count.nodes <= from || count.nodes > to) continue;
      INFO("depth " << count.depth);
      CHECK(rules::perft(line.position, count.depth) == count.nodes);
      ++checked;
    }
  }
  return checked;
}

constexpr std::uint64_t quick_limit = 10'000'000, no_limit = UINT64_MAX;
const std::string standard = KAIROS_TEST_DIR "/perft/standard.epd";

}  // namespace

TEST_CASE("The published counts of the standard set hold, as far as the quick limit") {
  const auto lines = read_lines(standard);
  CHECK(lines.size() == 174);
  CHECK(check_lines(lines, 0, quick_limit) > 700);
}

TEST_CASE("The published counts of the standard set hold above the quick limit", "[.long]") {
  CHECK(check_lines(read_lines(standard), quick_limit, no_limit) > 0);
}

TEST_CASE("The counts of the random half hold to depth 4", "[.long]") {
  const auto lines = read_lines(KAIROS_SOURCE_DIR "/../shared/data/perft/random-a.epd");
  if (lines.empty()) {
    WARN("skipped: ../shared/data/perft/random-a.epd is not here");
    return;
  }
  CHECK(check_lines(lines, 0, no_limit) > 0);
}

// Counts of the start position: common practice, published in many places (for instance OEIS
// A048987).
TEST_CASE("The start position has 20, 400, 8902, 197281, 4865609, 119060324 sequences") {
  const std::vector<std::uint64_t> counts{1, 20, 400, 8902, 197281, 4865609, 119060324};
  for (std::size_t depth = 0; depth < counts.size(); ++depth) {
    CHECK(rules::perft(rules::Position::start(), static_cast<int>(depth)) == counts[depth]);
  }
}

TEST_CASE("The counts behind the first moves add up to the whole") {
  const auto position =
      rules::parse_fen("r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R w KQkq - 0 1");
  REQUIRE(position);
  std::uint64_t total = 0;
  const auto counts = rules::divide(*position, 3);
  for (const auto& [move, nodes] : counts) total += nodes;
  CHECK(counts.size() == 48);
  CHECK(total == rules::perft(*position, 3));
}
