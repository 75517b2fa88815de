// Moves typed in other tongues, and what must not be taken for one.
#include <catch2/catch.hpp>
#include <random>
#include <set>
#include <string>

#include "kairos/audience/meaning.hpp"
#include "kairos/audience/typed.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"

#include "audience/typed_positions.hpp"

using namespace kairos;
using namespace kairos::audience;
using namespace kairos::rules;
using base::Code;

namespace {

constexpr const char* men = "6k1/5ppp/8/8/8/8/2P3P1/3QKBNR w - - 0 1";
constexpr const char* king_or_rook = "4k3/8/8/8/8/8/8/R3K3 w - - 0 1";
constexpr const char* pawn_or_knight = "4k3/8/8/8/8/8/5P2/4K1N1 w - - 0 1";
constexpr const char* file_or_man = "4k3/8/8/3p4/2P5/2N5/8/4K3 w - - 0 1";
constexpr const char* rooks = "6k1/8/8/8/8/6K1/8/R6R w - - 0 1";

struct Row {
  const char* fen;
  Letters letters;
  std::string text;
  std::string san;  // "": two moves fit; "-": none does
};

const Row rows[] = {
#include "audience/tongues_rows.inc"
};

Position position(const char* fen) {
  const auto read = parse_fen(fen);
  REQUIRE(read);
  return *read;
}

// The move in SAN, or what a row says instead.
std::string read(const Position& p, const TypedLine& line) {
  if (line.moves.size() == 1) return to_san(p, line.moves.front());
  if (!line.moves.empty()) return "several";
  return line.refused.problem == Code::ambiguous_move ? "" : "-";
}

}  // namespace

TEST_CASE("Each move typed in another tongue is read as the move meant") {
  std::set<std::string> texts;
  for (const Row& row : rows) {
    INFO(row.fen << ": " << row.text);
    const Position p = position(row.fen);
    CHECK(read(p, read_typed_line(p, row.text, {}, row.letters)) == row.san);
    CHECK(read(p, read_meant(p, row.text, {}, row.letters).line) == row.san);
    texts.insert(row.text);
  }
  CHECK(texts.size() >= 100);
}

TEST_CASE("What is written in the letters of any tongue is read so in that tongue") {
  constexpr unsigned seed = 24;
  INFO("seed " << seed);
  std::mt19937 random(seed);
  std::vector<Position> positions;
  for (const char* fen : {men, king_or_rook, pawn_or_knight, middle, promoting}) {
    positions.push_back(position(fen));
  }
  // Random games: men of one sort come to stand on all sorts of squares.
  for (int game = 0; game < 6; ++game) {
    Position p = Position::start();
    for (int ply = 0; ply < 140; ++ply) {
      MoveList moves;
      legal_moves(p, moves);
      if (moves.empty()) break;
      p.play(moves[random() % moves.size()]);
      if (ply % 3 == 0) positions.push_back(p);
    }
  }
  for (const Position& p : positions) {
    MoveList moves;
    legal_moves(p, moves);
    for (const Alphabet& alphabet : alphabets()) {
      for (const Move move : moves) {
        const std::string text = in_letters(to_san(p, move), alphabet.letters);
        const TypedLine line = read_typed_line(p, text, {}, alphabet.letters);
        // Of a b-pawn and a bishop, where both can take, only the capital tells.
        if (line.moves.empty() && line.refused.problem == Code::ambiguous_move) {
          CHECK(text.front() == 'b');
          continue;
        }
        INFO(to_fen(p) << ", " << alphabet.name << ": " << text);
        CHECK(line.moves == std::vector<Move>{move});
      }
    }
  }
}

TEST_CASE("Talk in other tongues is no move, wherever the men stand") {
  const std::string texts[] = {
      "Guten Abend zusammen!", "die Dame steht gut", "der K\303\266nig ist schwach",
      "das ist ein sch\303\266ner Zug", "la dame est forte", "le roi est en danger",
      "quelle belle partie", "el rey est\303\241 mal", "la torre de rey", "muy bien jugado",
      "il re \303\250 forte", "che bella partita", "o rei est\303\241 seguro",
      "het paard staat goed", "dobry wiecz\303\263r", "hetman jest silny",
      // "good evening", "the knight stands well", "he is right", "but I do not know", a lone c
      "\320\264\320\276\320\261\321\200\321\213\320\271 \320\262\320\265\321\207\320\265\321\200",
      "\320\272\320\276\320\275\321\214 \321\201\321\202\320\276\320\270\321\202 "
      "\321\205\320\276\321\200\320\276\321\210\320\276",
      "\320\276\320\275 \320\277\321\200\320\260\320\262",
      "\320\275\320\276 \321\217 \320\275\320\265 \320\267\320\275\320\260\321\216", "\321\201",
      "caf\303\251", "na\303\257ve", "\342\231\230", "\342\231\230\342\231\230", "\303", "\320",
      "\342\231", "\320\320\320", "come on", "do you see it"};
  for (const char* fen : {men, king_or_rook, middle, castling, promoting, both_b}) {
    const Position p = position(fen);
    for (const std::string& text : texts) {
      INFO(fen << ": " << text);
      for (const Letters letters : {Letters::english, Letters::german, Letters::russian}) {
        const TypedLine line = read_typed_line(p, text, {}, letters);
        CHECK(line.moves.empty());
        CHECK(line.refused.problem == Code::not_a_move);
      }
    }
  }
}
