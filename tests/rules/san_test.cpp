#include "kairos/rules/san.hpp"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"

#include "oracles/rules_naive.hpp"
#include "rules/random_games.hpp"

using namespace kairos;
using namespace kairos::rules;
using base::Code;

namespace {

Position position(const std::string& fen) {
  INFO(fen);
  auto read = parse_fen(fen);
  REQUIRE(read);
  return *read;
}

struct Lenient {
  int leniency;  // its number in kairos/rules/san.hpp
  const char* fen;
  const char* text;
  const char* san;  // the same move as it should be written
};

constexpr const char* start = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1";
constexpr const char* mate_next = "6k1/5ppp/8/8/8/8/8/R5K1 w - - 0 1";
constexpr const char* castling = "r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1";
constexpr const char* promoting = "3n4/4P1k1/8/8/8/8/8/4K3 w - - 0 1";
constexpr const char* passing = "4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 1";
constexpr const char* pinned = "4k3/4r3/8/8/8/4N3/8/1N2K3 w - - 0 1";  // only Nb1 can reach d2, c3
constexpr const char* taking = "4k3/8/8/3p4/4P3/2N5/8/4K3 w - - 0 1";

// From the FIDE Laws, appendix C (zeros, "++", "e.p.", promotion without "="), and common practice.
const Lenient leniencies[] = {
    {1, mate_next, "Ra8", "Ra8#"},
    {1, mate_next, "Ra8+", "Ra8#"},
    {1, mate_next, "Ra8++", "Ra8#"},
    {1, start, "e4+", "e4"},
    {1, start, "Nf3#", "Nf3"},
    {2, start, "e4!", "e4"},
    {2, start, "e4?", "e4"},
    {2, start, "Nf3!?", "Nf3"},
    {2, mate_next, "Ra8#!!", "Ra8#"},
    {2, mate_next, "Ra8!!#", "Ra8#"},
    {3, castling, "0-0", "O-O"},
    {3, castling, "0-0-0", "O-O-O"},
    {3, castling, "o-o", "O-O"},
    {3, castling, "ooo", "O-O-O"},
    {3, castling, "OO", "O-O"},
    {3, castling, "000+", "O-O-O"},
    {3, castling, "O - O", "O-O"},
    {3, castling, "O - O - O+", "O-O-O"},
    {4, promoting, "e8Q", "e8=Q"},
    {4, promoting, "e8(N)", "e8=N+"},
    {4, promoting, "e8/R+", "e8=R"},
    {4, promoting, "e8=q", "e8=Q"},
    {4, promoting, "e8b", "e8=B"},
    {4, promoting, "exd8=q+", "exd8=Q"},
    {4, promoting, "exd8(Q)", "exd8=Q"},
    {5, start, "e2-e4", "e4"},
    {5, start, "e2e4", "e4"},
    {5, start, "Ng1-f3", "Nf3"},
    {5, start, "g1f3", "Nf3"},
    {5, taking, "e4xd5", "exd5"},
    {5, taking, "Nc3xd5", "Nxd5"},
    {5, promoting, "e7e8q", "e8=Q"},
    {5, promoting, "e7-e8=R", "e8=R"},
    {5, castling, "e1g1", "O-O"},
    {5, castling, "Ke1-c1", "O-O-O"},
    {6, start, "Ngf3", "Nf3"},
    {6, start, "N1f3", "Nf3"},
    {6, start, "Ng1f3", "Nf3"},
    {6, start, "ee4", "e4"},
    {6, pinned, "Nbd2", "Nd2"},
    {6, pinned, "Nd2", "Nd2"},
    {7, taking, "ed5", "exd5"},
    {7, taking, "Nd5", "Nxd5"},
    {7, taking, "N:d5", "Nxd5"},
    {7, start, "Nxf3", "Nf3"},
    {7, passing, "exd6e.p.", "exd6"},
    {7, passing, "exd6 e.p.", "exd6"},
    {7, passing, "ed6ep", "exd6"},
    {8, start, "Pe4", "e4"},
    {8, taking, "Pexd5", "exd5"},
    {8, start, "nf3", "Nf3"},
    {8, taking, "nxd5", "Nxd5"},
    {9, start, "--", "--"},
    {9, start, "Z0", "--"},
    {9, start, "null", "--"},
    {9, start, "@@@@", "--"},
    {10, start,
     "\xE2\x99\x98"
     "f3",
     "Nf3"},
    {10, start,
     "\xE2\x99\x9F"
     "e4",
     "e4"},
    {10, start,
     "e2\xE2\x80\x93"
     "e4",
     "e4"},
    {10, start,
     "Ng1\x96"
     "f3",
     "Nf3"},
};

struct Refusal {
  const char* fen;
  const char* text;
  Code code;
  const char* reason;
};

// FIDE Laws, article 3, in the words of why_not.
const Refusal refusals[] = {
    {start, "", Code::not_a_move, "it cannot be read as a move"},
    {start, "Hello", Code::not_a_move, "it cannot be read as a move"},
    {start, "e9", Code::not_a_move, "it cannot be read as a move"},
    {start, "1-0", Code::not_a_move, "it cannot be read as a move"},
    {start, "Nf3f3f3", Code::not_a_move, "it cannot be read as a move"},
    {start, "O-O-O-O", Code::not_a_move, "it cannot be read as a move"},
    {start, "Ne5", Code::illegal_move, "no knight on b1 and g1 can go to e5"},
    {start, "Ra3", Code::illegal_move, "the way from a1 to a3 is blocked"},
    {start, "Bc1-g5", Code::illegal_move, "the way from c1 to g5 is blocked"},
    {start, "Nd2", Code::illegal_move, "White has a man on d2 already"},
    {start, "Nc3f3", Code::no_such_piece, "White has no knight on c3"},
    {start, "Nhf3", Code::no_such_piece, "White has no knight on the h-file"},
    {start, "N4f3", Code::no_such_piece, "White has no knight on rank 4"},
    {start, "e5e6", Code::no_such_piece, "White has no man on e5"},
    {start, "e7e5", Code::no_such_piece, "White has no man on e7"},
    {start, "e5", Code::illegal_move, "no pawn can step to e5"},
    {start, "exd3", Code::illegal_move, "there is nothing to take on d3"},
    {start, "e4=Q", Code::illegal_move, "a pawn promotes on the last rank only"},
    {start, "Nf3=Q", Code::illegal_move, "only a pawn promotes"},
    {start, "Ke2", Code::illegal_move, "White has a man on e2 already"},
    {start, "Ke3", Code::illegal_move, "the king on e1 cannot go to e3"},
    {start, "O-O", Code::illegal_move, "a man stands between king and rook"},
    {promoting, "e8", Code::illegal_move, "what the pawn becomes is not said"},
    {promoting, "e8=K", Code::not_a_move, "it cannot be read as a move"},
    {promoting, "Qd4", Code::no_such_piece, "White has no queen"},
    {taking, "d5", Code::illegal_move, "d5 is occupied"},
    {taking, "cxd5", Code::illegal_move, "no pawn on the c-file can take on d5"},
    {pinned, "Nc2", Code::illegal_move, "exposes the king to check"},
    {mate_next, "O-O", Code::illegal_move, "White may not castle on this side any more"},
    {"4k3/8/8/8/4r3/8/8/4K2R w K - 0 1", "O-O", Code::illegal_move,
     "the king is in check and may not castle"},
    {"4k3/8/8/8/5r2/8/8/4K2R w K - 0 1", "Kg1", Code::illegal_move,
     "the king would cross or reach an attacked square"},
    {"4k3/8/8/8/4r3/8/8/4K2R w K - 0 1", "Rh2", Code::illegal_move, "leaves the king in check"},
    {"4k3/8/8/8/4r3/8/8/4K2R w K - 0 1", "Ke2", Code::illegal_move,
     "the king would be in check on e2"},
    {"4k3/8/8/8/4r3/8/8/4K2R w K - 0 1", "--", Code::illegal_move,
     "the turn cannot be passed in check"},
    {"8/8/8/K2pP2r/8/8/8/4k3 w - d6 0 1", "exd6", Code::illegal_move,
     "there is nothing to take on d6"},
    {"4k3/8/8/8/8/5N2/8/1N2K3 w - - 0 1", "Nd2", Code::ambiguous_move,
     "knights on b1 and f3 can go to d2"},
};

}  // namespace

TEST_CASE("Each leniency of the SAN reader reads as it says") {
  std::set<int> numbers;
  for (const Lenient& row : leniencies) {
    const Position p = position(row.fen);
    INFO(row.leniency << ": " << row.text);
    const auto read = parse_san(p, row.text);
    REQUIRE(read);
    CHECK(to_san(p, *read) == row.san);
    numbers.insert(row.leniency);
  }
  CHECK(numbers == std::set<int>{1, 2, 3, 4, 5, 6, 7, 8, 9, 10});
}

TEST_CASE("A refusal has its code and says why") {
  for (const Refusal& row : refusals) {
    const Position p = position(row.fen);
    INFO(row.text);
    CHECK(read_san(p, row.text).problem == row.code);
    CHECK(why_not(p, row.text) == row.reason);
    const auto read = parse_san(p, row.text);
    REQUIRE_FALSE(read);
    CHECK(read.fault().code == row.code);
    CHECK(read.fault().detail.find(row.text) != std::string::npos);
  }
}

TEST_CASE("What can be read needs no reason") {
  CHECK(why_not(Position::start(), "e4").empty());
}

// PGN standard, 8.2.3.4: disambiguation among men that can legally go there; file, else rank, else
// both. 8.2.3.3: a capture by a pawn names its file.
TEST_CASE("SAN names a man by as little as tells it apart") {
  const auto san = [](const char* fen, Move m) { return to_san(position(fen), m); };
  CHECK(san("4k3/8/8/8/8/5N2/8/1N2K3 w - - 0 1", Move::normal(b1, d2)) == "Nbd2");
  CHECK(san("4k3/8/8/1N6/8/8/8/1N2K3 w - - 0 1", Move::normal(b1, c3)) == "N1c3");
  CHECK(san("8/8/k7/8/4Q2Q/8/8/K6Q w - - 0 1", Move::normal(h4, e1)) == "Qh4e1");
  CHECK(san(pinned, Move::normal(b1, c3)) == "Nc3");
  CHECK(san("4k3/8/8/8/8/4N3/4r3/1N2K3 w - - 0 1", Move::normal(e1, e2)) == "Kxe2");
  CHECK(san(taking, Move::normal(e4, d5)) == "exd5");
  CHECK(san(passing, Move::en_passant(e5, d6)) == "exd6");
  CHECK(san(promoting, Move::promotion(e7, d8, knight)) == "exd8=N");
  CHECK(san(mate_next, Move::normal(a1, a8)) == "Ra8#");
  CHECK(san(castling, Move::castling(e1, c1)) == "O-O-O");
  CHECK(san(start, null_move) == "--");
}

TEST_CASE("A line is written move by move, with numbers where the standard wants them") {
  const Position p = position(start);
  const std::vector<Move> line{Move::normal(e2, e4), Move::normal(e7, e5), Move::normal(g1, f3)};
  CHECK(to_san(p, line) == std::vector<std::string>{"e4", "e5", "Nf3"});
  CHECK(to_numbered_san(p, line) == "1. e4 e5 2. Nf3");
  Position after_e4 = p;
  after_e4.play(line[0]);
  CHECK(to_numbered_san(after_e4, {line.data() + 1, 2}) == "1... e5 2. Nf3");
  CHECK(to_numbered_san(p, {}).empty());
}

TEST_CASE("What is written is read back as the same move, and is what the oracle writes") {
  test::for_each_random_position(
      31, 120, [](const Position& p, const auto& board, Move played, auto&) {
        MoveList moves;
        legal_moves(p, moves);
        for (const Move m : moves) {
          const std::string text = to_san(p, m);
          INFO(text);
          REQUIRE(read_san(p, text).move == m);
          REQUIRE(read_san(p, oracles::naive_name(test::to_naive(m))).move == m);
        }
        REQUIRE(to_san(p, played) == oracles::naive_san(board, test::to_naive(played)));
      });
}

namespace {

// What the reader must make of a text that names no move, one or several.
void compare(const Position& p, const std::string& text,
             const std::map<std::string, std::vector<oracles::NaiveMove>>& texts) {
  INFO(text);
  const SanReading read = read_san(p, text);
  Position played = p;
  const Move plain = play_plain_san(played, text);
  if (plain) REQUIRE(plain == read.move);
  REQUIRE(played == (plain ? p.after(plain) : p));
  const auto found = texts.find(text);
  if (found == texts.end()) {
    REQUIRE_FALSE(read.move);
    REQUIRE_FALSE(why_not(p, text).empty());
  } else if (found->second.size() > 1) {
    REQUIRE_FALSE(read.move);
    REQUIRE(read.problem == Code::ambiguous_move);
  } else {
    REQUIRE(read.move);
    REQUIRE(test::to_naive(read.move) == found->second.front());
  }
}

std::vector<std::string> all_starts() {
  std::vector<std::string> starts{""};
  for (char file = 'a'; file <= 'h'; ++file) starts.emplace_back(1, file);
  for (char rank = '1'; rank <= '8'; ++rank) starts.emplace_back(1, rank);
  return starts;
}

}  // namespace

TEST_CASE("Of all short texts, the reader takes those that name one legal move") {
  const std::vector<std::string> starts = all_starts();
  test::for_each_random_position(
      32, 24, [&](const Position& p, const auto& board, Move, auto& random) {
        if (random() % 8 != 0) return;
        const auto texts = oracles::naive_texts(board);
        for (int n = 0; n < square_count; ++n) {
          const auto to = static_cast<Square>(n);
          const std::string joint = p.is_empty(to) ? "" : "x";
          for (const char letter : std::string("NBRQK")) {
            for (const std::string& from : starts) {
              compare(p, letter + from + joint + to_string(to), texts);
            }
          }
          compare(p, to_string(to), texts);
          for (char file = 'a'; file <= 'h'; ++file) {
            if (std::abs(file - 'a' - file_of(to)) != 1) continue;
            compare(p, std::string(1, file) + 'x' + to_string(to), texts);
            compare(p, std::string(1, file) + 'x' + to_string(to) + "=N", texts);
          }
          compare(p, to_string(to) + "=Q", texts);
        }
        compare(p, "O-O", texts);
        compare(p, "O-O-O", texts);
      });
}
