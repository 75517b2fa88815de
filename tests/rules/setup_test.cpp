#include "kairos/rules/setup.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "kairos/rules/fen.hpp"
#include "kairos/rules/position.hpp"

using namespace kairos;
using namespace kairos::rules;
using base::Code;

namespace {

std::vector<Code> codes(const char* fen) {
  std::vector<Code> found;
  for (const auto& fault : faults_of(parse_setup(fen).value())) found.push_back(fault.code);
  return found;
}

struct Row {
  const char* fen;
  std::vector<Code> codes;
};

// What the Laws say of men and checks: FIDE Laws, articles 2.2, 3.7.3 (pawns), 3.8.2 (castling),
// 3.9.2 (no king left in check).
const Row rows[] = {
    {"4k3/8/8/8/8/8/8/4K3 w - - 0 1", {}},
    {"8/8/8/8/8/8/8/4K3 w - - 0 1", {Code::king_count}},
    {"8/8/8/8/8/8/8/8 w - - 0 1", {Code::king_count, Code::king_count}},
    {"4k3/8/8/8/8/8/8/K3K3 w - - 0 1", {Code::king_count}},
    {"P3k3/8/8/8/8/8/8/4K2p w - - 0 1", {Code::pawn_on_last_rank}},
    {"4k3/pppppppp/p7/8/8/8/8/4K3 w - - 0 1", {Code::too_many_pieces}},
    {"4k3/8/8/8/8/8/PPPPPPPP/QQ2K3 w - - 0 1", {Code::too_many_pieces}},
    {"4k3/8/8/8/8/8/1PPPPPPP/QQ2K3 w - - 0 1", {}},
    {"4k3/8/8/8/8/NNNNNNNN/NNN5/4K3 w - - 0 1", {Code::too_many_pieces}},
    {"4k3/8/8/8/8/NNNNNNNN/NN6/4K3 w - - 0 1", {}},
    {"4k3/8/8/8/8/8/8/4K3 w K - 0 1", {Code::castling_right_impossible}},
    {"r3k2r/8/8/8/8/8/8/R2K3R w KQkq - 0 1", {Code::castling_right_impossible}},
    {"4k3/8/8/8/8/8/8/4K3 w - e3 0 1", {Code::en_passant_impossible}},
    {"4k3/8/8/8/4P3/8/8/4K3 b - e3 0 1", {}},
    {"4k3/8/8/8/4P3/8/4P3/4K3 b - e3 0 1", {Code::en_passant_impossible}},
    {"4k3/8/8/8/4P3/4P3/8/4K3 b - e3 0 1", {Code::en_passant_impossible}},
    {"4k3/4R3/8/8/8/8/8/4K3 w - - 0 1", {Code::opponent_in_check}},
    {"8/8/8/8/8/8/3k4/4K3 w - - 0 1", {Code::opponent_in_check}},
    {"4k3/4r3/8/b7/7b/8/8/4K3 w - - 0 1", {Code::too_many_checkers}},
    {"P3k3/4R3/8/8/8/8/8/4K3 w Q e4 0 1",
     {Code::pawn_on_last_rank, Code::castling_right_impossible, Code::en_passant_impossible,
      Code::opponent_in_check}},
};

}  // namespace

TEST_CASE("Every fault of a setup is named, each once") {
  for (const Row& row : rows) {
    INFO(row.fen);
    CHECK(codes(row.fen) == row.codes);
  }
}

TEST_CASE("A position is made exactly when there is no fault") {
  for (const Row& row : rows) {
    INFO(row.fen);
    const auto made = make_position(parse_setup(row.fen).value());
    CHECK(made.ok() == row.codes.empty());
    if (!made) CHECK(made.faults().size() == row.codes.size());
  }
}

TEST_CASE("A fault tells the particulars") {
  const auto detail = [](const char* fen) { return faults_of(*parse_setup(fen)).at(0).detail; };
  CHECK(detail("8/8/8/8/8/8/8/4K3 w - - 0 1") == "Black has no king");
  CHECK(detail("4k3/8/8/8/8/8/8/K3K3 w - - 0 1") == "White has 2 kings");
  CHECK(detail("P3k3/8/8/8/8/8/8/4K2p w - - 0 1") == "h1 a8");
  CHECK(detail("4k3/pppppppp/p7/8/8/8/8/4K3 w - - 0 1") == "Black has 9 pawns");
  CHECK(detail("4k3/8/8/8/8/8/PPPPPPPP/QQ2K3 w - - 0 1") ==
        "White has 1 promoted men beside 8 pawns");
  CHECK(detail("r3k2r/8/8/8/8/8/8/R2K3R w KQkq - 0 1") == "KQ");
  CHECK(detail("4k3/4R3/8/8/8/8/8/4K3 w - - 0 1") ==
        "White is to move and attacks the king on e8 from e7");
}

TEST_CASE("Counters out of range are faults") {
  Setup setup = Position::start().setup();
  setup.halfmove_clock = -1;
  setup.fullmove_number = 0;
  const auto faults = faults_of(setup);
  REQUIRE(faults.size() == 2);
  CHECK(faults[0].code == Code::fen_counter);
  CHECK(faults[1].code == Code::fen_counter);
}

TEST_CASE("A position goes back to its setup unchanged") {
  const Setup setup = Position::start().setup();
  CHECK(setup.castling == all_castling);
  CHECK(*make_position(setup) == Position::start());
}
