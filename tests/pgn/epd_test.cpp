// EPD (PGN standard, section 16.2): reading, writing, faults with their column.
#include "kairos/pgn/epd.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <string>
#include <vector>

#include "kairos/base/files.hpp"
#include "kairos/base/text.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"

using namespace kairos;
using namespace kairos::pgn;
using base::Code;

namespace {

const std::string start = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq -";

Epd read(const std::string& line) {
  auto epd = parse_epd(line);
  INFO(line);
  REQUIRE(epd.ok());
  return std::move(epd).value();
}

}  // namespace

TEST_CASE("operations come with their operands, strings without quotes") {
  const Epd epd = read(start + R"( bm e4 d4; id "a; \"b\" \\"; ce -12; noop; c0 "")");
  CHECK(epd.operations.size() == 5);
  CHECK(epd.find("bm")->operands == std::vector<std::string>{"e4", "d4"});
  CHECK_FALSE(epd.find("bm")->is_string);
  CHECK(epd.text("id") == "a; \"b\" \\");
  CHECK(epd.find("id")->is_string);
  CHECK(epd.text("ce") == "-12");
  CHECK(epd.find("noop")->operands.empty());
  CHECK(epd.find("c0")->operands == std::vector<std::string>{""});
  CHECK(epd.find("dm") == nullptr);
  CHECK(epd.text("dm").empty());
}

TEST_CASE("a line of four fields is a position without operations, blanks around it or not") {
  for (const std::string& line : {start, "  " + start + " \r\n", start + ";"}) {
    if (line.ends_with(';')) continue;
    const Epd epd = read(line);
    CHECK(epd.position == rules::Position::start());
    CHECK(epd.operations.empty());
  }
}

TEST_CASE("control characters separate words like blanks, so that writing gives the same words") {
  using namespace std::string_literals;
  const Epd epd = read("8/8/8/8/8/4k3/8/4K2R w - - bm Rh3+\0Rh2; id \"x\""s);
  REQUIRE(epd.find("bm") != nullptr);
  CHECK(epd.find("bm")->operands == std::vector<std::string>{"Rh3+", "Rh2"});
  CHECK(to_epd(read(to_epd(epd))) == to_epd(epd));
}

TEST_CASE("counters come from FEN fields or from hmvc and fmvn, which count more") {
  const Epd fields = read("4k3/8/8/8/8/8/8/4K2R w K - 7 31 id \"x\";");
  CHECK(rules::to_fen(fields.position) == "4k3/8/8/8/8/8/8/4K2R w K - 7 31");
  CHECK(fields.text("hmvc") == "7");
  CHECK(fields.text("fmvn") == "31");
  const Epd both = read("4k3/8/8/8/8/8/8/4K2R w K - 7 31 fmvn 40; hmvc 2;");
  CHECK(rules::to_fen(both.position) == "4k3/8/8/8/8/8/8/4K2R w K - 2 40");
  CHECK(to_epd(both) == "4k3/8/8/8/8/8/8/4K2R w K - fmvn 40; hmvc 2;");
}

TEST_CASE("writing sorts opcodes, quotes strings and ends each operation") {
  Epd epd;
  const auto e4 = rules::Move::normal(rules::e2, rules::e4);
  const auto d4 = rules::Move::normal(rules::d2, rules::d4);
  const auto e5 = rules::Move::normal(rules::e7, rules::e5);
  epd.add_text("id", "a \"b\" \\ c;");
  epd.add_line("pv", std::vector<rules::Move>{e4, e5});
  epd.add_moves("bm", std::vector<rules::Move>{e4, d4});
  epd.add_number("dm", 3);
  const std::string line = to_epd(epd);
  CHECK(line == start + R"( bm d4 e4; dm 3; id "a \"b\" \\ c;"; pv e4 e5;)");
  CHECK(to_epd(read(line)) == line);
  CHECK(epd_moves(epd, "bm").value() == std::vector<rules::Move>{d4, e4});
  CHECK(epd_line(epd, "pv").value() == std::vector<rules::Move>{e4, e5});
}

TEST_CASE("moves of an operation must be legal, a line from one position to the next") {
  const Epd epd = read(start + " bm e4 Ke2; pv e4 e5 Nf3; pm e5;");
  auto moves = epd_moves(epd, "bm");
  REQUIRE_FALSE(moves.ok());
  CHECK(moves.fault().code == Code::illegal_move);
  CHECK(moves.fault().detail.find("bm Ke2") == 0);
  CHECK(epd_line(epd, "pv").value().size() == 3);
  CHECK_FALSE(epd_line(epd, "pm").ok());
  CHECK(epd_moves(epd, "am").value().empty());
  // Found by the fuzzer: a pass is no legal move, though a line may hold one.
  const Epd pass = read(start + " am null; pv --;");
  CHECK(epd_moves(pass, "am").fault().code == Code::illegal_move);
  CHECK(epd_line(pass, "pv").value() == std::vector<rules::Move>{rules::null_move});
}

TEST_CASE("faults tell their column, all of a line at once") {
  struct Row {
    std::string line;
    Code code;
    std::uint64_t column;
  };
  // Columns counted by hand; the four fields of the start position take 52 bytes.
  const std::vector<Row> rows = {
      {start + " 1bm e4;", Code::epd_operation, 54},
      {start + " id \"open;", Code::epd_operation, 57},
      {start + " ; bm e4;", Code::epd_operation, 54},
      {start + " bm e4; bm d4;", Code::epd_operation, 61},
      {start + " averyveryverylongopcode 1;", Code::epd_operation, 54},
      {"8/8/8/8/8/8/8/8 w - - bm e4;", Code::king_count, 1},
      {"nonsense", Code::fen_fields, 1},
      {"", Code::fen_fields, 1},
      {start + " hmvc many;", Code::fen_counter, 1},
  };
  for (const Row& row : rows) {
    auto epd = parse_epd(row.line);
    INFO(row.line);
    REQUIRE_FALSE(epd.ok());
    CHECK(base::words(epd.fault().code) == base::words(row.code));
    CHECK(epd.fault().place.column == row.column);
  }
  CHECK(parse_epd("8/8/8/8/8/8/8/8 w - - 1x e4; 2x;").faults().size() >= 3);
}

TEST_CASE("open suites read, their moves are legal, and they are written as they were") {
  const std::string folder = KAIROS_SOURCE_DIR "/../shared/data/suites";
  if (!std::filesystem::is_directory(folder)) {
    WARN("left out: no open data at " << folder);
    return;
  }
  std::size_t lines = 0;
  for (const std::string name : {"bratko-kopec.epd", "wac-a.epd", "lct2.epd"}) {
    const std::string text = base::read_file(folder + "/" + name).value();
    for (const std::string_view line : base::split(text, '\n')) {
      if (base::trim(line).empty()) continue;
      ++lines;
      const Epd epd = read(std::string(line));
      INFO(line);
      const bool has_moves = epd.find("bm") != nullptr || epd.find("am") != nullptr;
      CHECK((has_moves || epd.find("dm") != nullptr));
      CHECK(epd_moves(epd, "bm").ok());
      CHECK(epd_moves(epd, "am").ok());
      CHECK(to_epd(read(to_epd(epd))) == to_epd(epd));
    }
  }
  CHECK(lines == 24 + 100 + 35);  // shared/data/README.md
}

TEST_CASE("a line of EPD has a longest length, and beyond it is one fault") {
  std::string line = start + " bm e4; c0 \"";
  line += std::string(longest_epd_line - line.size() - 2, 'x') + "\";";
  REQUIRE(line.size() == longest_epd_line);
  CHECK(parse_epd(line).ok());
  const auto longer = parse_epd(line + ' ');
  REQUIRE_FALSE(longer.ok());
  CHECK(longer.faults().size() == 1);
  CHECK(longer.fault().code == Code::line_too_long);
}

TEST_CASE("however many faults a line has, the first are told and the number of the others") {
  for (const std::string& line : {start + std::string(10'000, ';'), std::string(10'000, 'x'),
                                  start + " bm e4;" + std::string(2'000, '?').append(";bm e4;")}) {
    const auto epd = parse_epd(line);
    REQUIRE_FALSE(epd.ok());
    CHECK(epd.faults().size() <= most_epd_faults + 1);
    for (const base::Fault& fault : epd.faults()) CHECK(fault.detail.size() < 1'000);
  }
  CHECK(parse_epd(start + std::string(10'000, ';')).faults().back().code == Code::more_faults);
}
