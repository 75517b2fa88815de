// Several moves in one message, and what must hold of every move of a game however it is typed.
// The ways to type a single move are in typed_test.cpp.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cctype>
#include <string>
#include <vector>

#include "kairos/audience/typed.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"

#include "audience/typed_positions.hpp"
#include "rules/random_games.hpp"

using namespace kairos;
using namespace kairos::audience;
using namespace kairos::rules;
using base::Code;

namespace {

struct Row {
  const char* fen;
  std::string text;
  const char* san;  // the moves meant
};

// Several moves in one message are a line; all phrases lie in one text.
const Row lines[] = {
    {start, "e4 e5", "e4 e5"},
    {start, "e4 e5 Nf3", "e4 e5 Nf3"},
    {start, "1. e4 e5 2. Nf3 Nc6 3. Bb5", "e4 e5 Nf3 Nc6 Bb5"},
    {start, "1.e4 e5 2.Nf3 Nc6 3.Bb5", "e4 e5 Nf3 Nc6 Bb5"},
    {start, "e4, e5, knight f3", "e4 e5 Nf3"},
    {start, "pawn to e4, pawn to e5, knight to f3!", "e4 e5 Nf3"},
    {start, "I say e4 and then e5 and then queen h5", "e4 e5 Qh5"},
    {start, "e2e4 e7e5 g1f3", "e4 e5 Nf3"},
    {start, "e2-e4 e7-e5", "e4 e5"},
    {start, "e2 e4 e7 e5", "e4 e5"},
    {start, "e2 e4", "e4"},
    {start, "e4, nice, d5, exd", "e4 d5 exd5"},
    {start, "e4 d5 e takes d5 queen takes d5", "e4 d5 exd5 Qxd5"},
    {start, "e4 d5 pawn takes pawn, queen takes pawn", "e4 d5 exd5 Qxd5"},
    {start, "e4\ne5\nNf3", "e4 e5 Nf3"},
    {middle, "knight takes d4, h6, knight f3", "Nxd4 h6 Nf3"},
    {castling, "0-0 0-0-0", "O-O O-O-O"},
    {castling, "castles short, castles long", "O-O O-O-O"},
    {promoting, "e8 queen, king f6", "e8=Q Kf6"},
    {promoting, "e8, knight e6", "e8=Q Ne6"},
    {promoting, "e8=N+ Kf8", "e8=N+ Kf8"},
    {taking, "exd5 Kd7", "exd5 Kd7"},
    // "or" ends a line, "not" passes a phrase over
    {start, "Nf3 or Nc3", "Nf3"},
    {start, "Nf3 or e5", "Nf3"},
    {start, "e4 e5 or c5", "e4 e5"},
    {start, "not Nf3, Nc3", "Nc3"},
    {start, "Not e4 but d4", "d4"},
    // what cannot be played begins no line, and ends one
    {start, "rook e4? no, Nf3", "Nf3"},
    {start, "e4 e5 Qe8 Nf3", "e4 e5"},
    {both_b, "bxc3 b4", "b4"},
    {ladder, "Ra5 Rb6", "Ra5"},
};

Position position(const char* fen) {
  INFO(fen);
  const auto read = parse_fen(fen);
  REQUIRE(read);
  return *read;
}

std::string joined(const Position& p, const std::vector<Move>& moves) {
  std::string text;
  for (const std::string& san : to_san(p, moves)) text += (text.empty() ? "" : " ") + san;
  return text;
}

std::string read_line(const char* fen, std::string_view text, std::span<const Move> known = {}) {
  const Position p = position(fen);
  return joined(p, read_typed_line(p, text, known).moves);
}

}  // namespace

TEST_CASE("Several moves in one message are a line") {
  for (const Row& row : lines) {
    INFO(row.fen << ": " << row.text);
    CHECK(read_line(row.fen, row.text) == row.san);
  }
}

TEST_CASE("Of a known line the solver's own moves are enough") {
  const Position p = position(ladder);
  std::vector<Move> known;
  Position next = p;
  for (const char* san : {"Ra5", "Kg6", "Rb6", "Kg7", "Ra7", "Kg8", "Rb8"}) {
    known.push_back(*parse_san(next, san));
    next.play(known.back());
  }
  const std::string whole = "Ra5 Kg6 Rb6+ Kg7 Ra7+ Kg8 Rb8#";
  CHECK(read_line(ladder, "Ra5 Rb6 Ra7 Rb8 mate", known) == whole);
  CHECK(read_line(ladder, "rook a5, then rook b6, rook a7, rook b8", known) == whole);
  CHECK(read_line(ladder, "Ra5 Kg6 Rb6+ Kg7 Ra7+ Kg8 Rb8#", known) == whole);
  CHECK(read_line(ladder, "Ra5 Rb6", known) == "Ra5 Kg6 Rb6+");
  CHECK(read_line(ladder, "Ra5", known) == "Ra5");
  CHECK(read_line(ladder, "Rb5 Ra6", known) == "Rb5");
  CHECK(read_line(ladder, "Rb8", known) == "Rb8");
  CHECK(read_line(ladder, "hello", known).empty());
}

TEST_CASE("Moves of one position are read each for itself") {
  const Position p = position(start);
  const auto told = [&p](const char* text) {
    std::string all;
    for (const TypedMove& typed : read_typed_moves(p, text)) {
      all += (all.empty() ? "" : " ") + (typed.move ? to_san(p, typed.move) : "-" + typed.text);
    }
    return all;
  };
  CHECK(told("e4 d4 Nf3") == "e4 d4 Nf3");
  CHECK(told("e4, d4 and knight to f3") == "e4 d4 Nf3");
  CHECK(told("Nf3 or Nc3") == "Nf3 Nc3");
  CHECK(told("e2 e4 d2 d4") == "e4 d4");
  CHECK(told("Nf3, Ke2, d4") == "Nf3 -Ke2 d4");
  CHECK(told("rook e4") == "-Re4");
  CHECK(told("hello, I like d4") == "d4");
  CHECK(told("hello") == "-");
}

TEST_CASE("What lies behind the longest message is not read") {
  CHECK(read_line(start, "e4 " + std::string(10000, '!')) == "e4");
  CHECK(read_line(start, std::string(longest_typed - 2, ' ') + "e4") == "e4");
  CHECK(read_line(start, std::string(longest_typed, ' ') + "e4").empty());
}

namespace {

const std::string& word_for(PieceType type) {
  static const std::string words[] = {"pawn", "knight", "bishop", "rook", "queen", "king"};
  return words[type - pawn];
}

std::string in_case(std::string text, int (*change)(int)) {
  std::transform(text.begin(), text.end(), text.begin(), [change](char c) {
    return static_cast<char>(change(static_cast<unsigned char>(c)));
  });
  return text;
}

bool is_b_pawn(const Position& p, Move m) {
  return type_of(p.piece_on(m.from())) == pawn && file_of(m.from()) == 1;
}
bool is_bishop(const Position& p, Move m) {
  return type_of(p.piece_on(m.from())) == bishop;
}

// In small letters, without the marks of check.
std::string bare(const std::string& san) {
  std::string text = in_case(san, std::tolower);
  while (text.back() == '+' || text.back() == '#') text.pop_back();
  return text;
}

// What a text with a small b for this move may come to.
enum class Doubt { none, possible, certain };

Doubt doubt_of_b(const Position& p, const MoveList& moves, Move m) {
  const auto any = [&moves](auto fits) { return std::any_of(moves.begin(), moves.end(), fits); };
  const std::string text = bare(to_san(p, m));
  if (any([&](Move other) { return other != m && bare(to_san(p, other)) == text; })) {
    return Doubt::certain;  // "bxc3" by bishop and b-pawn
  }
  if (m.is_promotion()) return Doubt::none;  // a bishop does not promote
  const bool possible = any([&](Move other) {
    return other.to() == m.to() &&
           ((is_b_pawn(p, m) && is_bishop(p, other)) || (is_bishop(p, m) && is_b_pawn(p, other)));
  });
  return possible ? Doubt::possible : Doubt::none;
}

void must_read(const Position& p, const std::string& text, Move m, Doubt doubt = Doubt::none) {
  INFO(text);
  const TypedLine line = read_typed_line(p, text);
  if (line.moves.empty() && doubt != Doubt::none) {
    REQUIRE(line.refused.problem == Code::ambiguous_move);
  } else {
    REQUIRE(doubt != Doubt::certain);
    REQUIRE(line.moves == std::vector<Move>{m});
  }
}

std::string in_words(const Position& p, Move m) {
  if (m.is_castling()) return m.to() > m.from() ? "castles kingside" : "castles queenside";
  return word_for(type_of(p.piece_on(m.from()))) + " from " + to_string(m.from()) +
         (p.is_capture(m) ? " takes " : " to ") + to_string(m.to()) +
         (m.is_promotion() ? " promotes to a " + word_for(m.promoted()) : "");
}

std::string promotion_letter(Move m) {
  return m.is_promotion() ? std::string(1, letter_of(make_piece(black, m.promoted()))) : "";
}

}  // namespace

TEST_CASE("Every legal move is read from its SAN, in any case, with talk around") {
  int certain = 0;
  test::for_each_random_position(41, 16, [&](const Position& p, const auto&, Move, auto&) {
    MoveList moves;
    legal_moves(p, moves);
    for (const Move m : moves) {
      const std::string san = to_san(p, m);
      const Doubt small = doubt_of_b(p, moves, m);
      const Doubt proper = is_bishop(p, m) ? Doubt::none : small;
      must_read(p, san, m, proper);
      must_read(p, "hm, I think " + san + " is good here!", m, proper);
      must_read(p, in_case(san, std::tolower), m, small);
      must_read(p, in_case(san, std::toupper), m, small);
      certain += small == Doubt::certain ? 1 : 0;
    }
  });
  CHECK(certain > 0);
}

TEST_CASE("Every legal move is read from words and from its squares") {
  test::for_each_random_position(42, 16, [](const Position& p, const auto&, Move, auto&) {
    MoveList moves;
    legal_moves(p, moves);
    for (const Move m : moves) {
      const std::string from = to_string(m.from());
      const std::string to = to_string(m.to()) + promotion_letter(m);
      must_read(p, in_words(p, m), m);
      must_read(p, from + to, m);
      must_read(p, from + "-" + to, m);
      must_read(p, from + " " + to, m);
      must_read(p, "from " + from + " to " + to, m);
    }
  });
}

// The twin of the reader's search: the legal moves of such men to that square, counted.
TEST_CASE("A man and a square are the one legal move that fits, or none") {
  test::for_each_random_position(43, 24, [](const Position& p, const auto&, Move, auto& random) {
    if (random() % 4 != 0) return;
    MoveList moves;
    legal_moves(p, moves);
    for (int n = 0; n < square_count; ++n) {
      const auto to = static_cast<Square>(n);
      for (const PieceType type : {knight, bishop, rook, queen, king}) {
        std::vector<Move> fit;
        std::copy_if(moves.begin(), moves.end(), std::back_inserter(fit),
                     [&](Move m) { return m.to() == to && type_of(p.piece_on(m.from())) == type; });
        if (fit.size() == 1 && fit[0].is_castling()) continue;  // has words of its own
        const std::string text =
            word_for(type) + (p.is_empty(to) ? " to " : " takes ") + to_string(to);
        INFO(text);
        const TypedLine line = read_typed_line(p, text);
        if (fit.size() == 1) REQUIRE(line.moves == fit);
        if (fit.size() == 1) continue;
        REQUIRE(line.moves.empty());
        const Code problem = line.refused.problem;
        REQUIRE((problem == Code::ambiguous_move) == (fit.size() > 1));
        REQUIRE(problem != Code::not_a_move);
        REQUIRE_FALSE(line.refused.why.empty());
      }
    }
  });
}

TEST_CASE("The moves of a game are read as the line that they are") {
  Position first = Position::start();
  Position reached = first;
  std::vector<Move> line;
  int read = 0;
  test::for_each_random_position(44, 40, [&](const Position& p, const auto&, Move played, auto&) {
    MoveList moves;
    legal_moves(p, moves);
    if (p != reached || line.empty() || line.size() == 12) {
      line.clear();
      first = p;
    }
    reached = p.after(played);
    line.push_back(played);
    if (is_b_pawn(p, played) && doubt_of_b(p, moves, played) != Doubt::none) return line.clear();
    const std::string text = to_numbered_san(first, line);
    INFO(text);
    REQUIRE(read_typed_line(first, text).moves == line);
    ++read;
  });
  CHECK(read > 1000);
}
