#include "kairos/audience/typed.hpp"

#include <catch2/catch.hpp>
#include <set>
#include <string>
#include <vector>

#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"

#include "audience/typed_positions.hpp"

using namespace kairos;
using namespace kairos::audience;
using namespace kairos::rules;
using base::Code;

namespace {

constexpr const char* reply = "rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq - 0 1";
constexpr const char* thrice = "4k3/8/8/3p4/2P1P3/2N5/8/4K3 w - - 0 1";  // c, e and N take d5
constexpr const char* twice = "4k3/8/8/3p4/3pP3/4P3/8/4K3 w - - 0 1";    // exd4 and exd5
constexpr const char* backwards = "4k3/8/8/4p3/3P4/8/8/4K3 w - - 0 1";   // only dxe5 takes
constexpr const char* passing = "4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 1";
constexpr const char* prey = "6k1/3r1p1p/6p1/4b3/8/8/5PPP/3QR1K1 w - - 0 1";
constexpr const char* bishops = "6k1/5p1p/6p1/b3b3/8/8/5PPP/R3R1K1 w - - 0 1";
constexpr const char* bishop_b = "4k3/8/8/8/8/2n5/3B4/4K3 w - - 0 1";
constexpr const char* pawn_b = "4k3/8/8/8/8/2n5/1P6/4K3 w - - 0 1";
constexpr const char* rooks = "6k1/8/8/8/8/6K1/8/R6R w - - 0 1";
constexpr const char* castling_black = "r3k2r/8/8/8/8/8/8/R3K2R b KQkq - 0 1";
constexpr const char* short_only = "4k3/8/8/8/8/8/8/4K2R w K - 0 1";
constexpr const char* long_only = "4k3/8/8/8/8/8/8/R3K3 w Q - 0 1";
constexpr const char* queen_mate = "4k3/8/8/7q/8/3b4/8/4K3 b - - 0 1";
constexpr const char* pinned = "4k3/4r3/8/8/8/4N3/8/4K3 w - - 0 1";
constexpr const char* in_check = "4k3/8/8/8/4r3/8/8/4K2R w K - 0 1";

constexpr const char* two_ranks = "5k1r/2p5/2BpPn2/p4p1p/1pP5/b1R1N1p1/1BB1KP2/6N1 w - - 0 51";

const char* const all_fens[] = {
    start,  reply,    middle, taking,   thrice,    twice,          backwards,  passing,
    prey,   bishops,  both_b, pawn_b,   bishop_b,  rooks,          short_only, long_only,
    ladder, castling, pinned, in_check, promoting, castling_black, queen_mate, two_ranks,
};

// The ways to type one move.
struct Ways {
  const char* fen;
  const char* san;
  std::vector<std::string> texts;
};

// One phrase each, with or without talk around it. Readings by the rules of
// kairos/audience/typed.hpp.
const Ways readings[] = {
    // SAN in any case
    {start, "Nf3", {"Nf3", "nf3", "NF3", "nF3"}},
    {start, "e4", {"E4"}},
    {middle, "Nbd2", {"Nbd2", "nbd2", "NBD2"}},
    {middle, "Nfd2", {"Nfd2"}},
    {middle, "Bxd4", {"Bxd4", "bxd4", "BXD4", "Bd4"}},
    {middle, "Re8#", {"re8#"}},
    {rooks, "Rad1", {"rad1"}},
    {start, "Nf3", {"kinght f3", "knigth to f3", "knihgt f3"}},
    {middle, "Bxd4", {"bihsop takes d4", "bishup d4"}},
    {middle, "Qe2", {"quen e2", "qeen e2"}},
    // a bishop of the second rank, though another man stands on b2
    {two_ranks, "B2a4", {"B2a4"}},
    {thrice, "exd5", {"EXD5"}},
    {thrice, "cxd5", {"cd5"}},
    {promoting, "exd8=Q", {"EXD8=Q"}},
    // a man and a square
    {middle,
     "Re4",
     {"rook e4", "Rook to E4", "ROOK E4", "R to e4", "r to e4", "R e4", "r e4", "the rook to e4",
      "rook\te4", "rook  to   e4"}},
    {middle, "Qe2", {"queen e2", "q to e2"}},
    {middle, "Kf1", {"king f1", "K f1"}},
    {start,
     "Nf3",
     {"knight f3", "knight to f3", "the knight goes to f3", "a knight to f3", "N f3"}},
    {start, "Nc3", {"n to c3"}},
    {start, "e4", {"pawn e4", "pawn to e4", "p e4", "Pe4", "e pawn to e4", "the e-pawn to e4"}},
    {middle, "Ba3", {"bishop to a3", "b a3", "ba3"}},
    // where the man comes from
    {middle,
     "Nbd2",
     {"knight b d2", "N b d2", "knight b1 d2", "knight b1 to d2", "knight on b1 to d2",
      "knight from b1 to d2", "Nb1-d2", "Nb1d2", "n1d2"}},
    {middle, "Nfd2", {"knight f to d2"}},
    {middle, "Nxd4", {"the knight on f3 takes d4"}},
    {rooks, "Rad1", {"rook a d1", "rook on a1 to d1", "rook a1 d1"}},
    {rooks, "Rhd1", {"R h d1", "rook from h1 to d1"}},
    // from square to square
    {start,
     "e4",
     {"e2e4", "E2E4", "e2-e4", "e2 to e4", "from e2 to e4", "e2 e4", "pawn e2 to e4",
      "pawn on e2 to e4"}},
    {start, "Nf3", {"g1 to f3", "g1f3", "Ng1-f3"}},
    {taking, "e5", {"e4e5", "e4-e5", "e4 to e5", "from e4 to e5", "e4 e5"}},
    {taking, "exd5", {"e4d5"}},
    {middle, "Bxd4", {"b2xd4", "b2 takes d4"}},
    {both_b, "bxc3", {"b2c3", "B2C3", "b2 to c3", "b2 x c3"}},
    {both_b, "Bxc3", {"d2 takes c3"}},
    {castling, "O-O", {"e1g1"}},
    {castling, "O-O-O", {"e1-c1"}},
    {castling_black, "O-O", {"e8g8"}},
    {promoting, "e8=Q", {"e7e8"}},
    // takes
    {middle,
     "Bxd4",
     {"bishop takes d4", "bishop takes on d4", "bishop take d4", "bishop captures d4",
      "bishop capture d4", "bishop x d4", "B x d4", "B takes d4", "b x d4", "bishop xd4"}},
    {middle, "Nxd4", {"knight takes d4"}},
    {middle, "Qxd4", {"Q x d4"}},
    {prey, "Rxe5", {"R x e5"}},
    {thrice, "exd5", {"e takes d5", "e pawn takes d5", "e4 takes d5"}},
    {thrice, "cxd5", {"c x d5", "c-pawn takes d5"}},
    {taking, "exd5", {"pawn takes d5", "takes d5", "takes on d5", "xd5", "x d5"}},
    {pawn_b, "bxc3", {"captures c3"}},
    // takes a man, or on a file
    {prey, "Rxe5", {"rook takes bishop", "takes bishop"}},
    {prey, "Qxd7", {"queen x rook", "queen takes the rook", "Q takes rook"}},
    {middle, "Bxd4", {"bishop takes knight"}},
    {taking, "exd5", {"pawn takes pawn"}},
    {promoting, "exd8=Q", {"pawn takes knight"}},
    {thrice, "exd5", {"exd", "EXD"}},
    {thrice, "cxd5", {"cxd"}},
    {backwards, "dxe5", {"dxe"}},
    {passing, "exd6", {"exd"}},
    // bishop or b-pawn
    {both_b, "Bxc3", {"Bxc3", "bishop takes c3"}},
    {both_b, "bxc3", {"pawn takes c3", "b-pawn takes c3", "b pawn takes c3"}},
    {bishop_b, "Bxc3", {"bxc3", "BXC3", "takes c3"}},
    {pawn_b, "bxc3", {"bxc3", "BXC3", "Bxc3", "bxc"}},
    // castling
    {castling,
     "O-O",
     {"O-O", "o-o", "0-0", "oo", "00", "castle short", "castles kingside", "castle king side",
      "I would just play 0-0 here"}},
    {castling,
     "O-O-O",
     {"O-O-O", "o-o-o", "0-0-0", "0\342\200\2230\342\200\2230", "OOO", "Castles long!",
      "castles queenside", "castles queen side"}},
    {castling_black, "O-O-O", {"castles long"}},
    {short_only, "O-O", {"castles", "castle"}},
    {long_only, "O-O-O", {"CASTLES!!", "well, castles I guess"}},
    // promotion
    {promoting,
     "e8=Q",
     {"e8", "e8q", "E8Q", "e8=Q", "e8=queen", "e8 queen", "e8 makes a queen", "pawn to e8"}},
    {promoting,
     "e8=N+",
     {"e8=n", "e8=knight", "e8 promotes to a knight", "pawn to e8 knight", "pawn to e8n",
      "pawn e8=N", "e7e8n", "e7 to e8n"}},
    {promoting, "e8=R", {"e8(R)", "e8 rook", "e7-e8=R"}},
    {promoting, "e8=B", {"e8b"}},
    {promoting, "exd8=Q", {"exd", "exd8", "takes d8"}},
    {promoting, "exd8=N", {"exd8 knight", "pawn takes d8n", "exd=N"}},
    {promoting, "exd8=R", {"pawn takes d8 makes a rook", "e takes d8=r"}},
    // marks and numbers
    {start, "e4", {"e4!", "1. e4"}},
    {start, "Nf3", {"Nf3!?", "Nf3??", "12.Nf3"}},
    {middle, "Re8#", {"Re8+", "rook e8 mate", "Re8 checkmate!!", "rook to e8 check"}},
    {middle, "Qe2", {"queen e2 mate"}},
    {queen_mate, "Qe2#", {"queen e2 mate"}},
    {passing,
     "exd6",
     {"exd6 e.p.", "exd6ep", "exd6e.p.", "EXD6E.P.", "EXD6 EN PASSANT", "exd6 en passant",
      "pawn takes d6 en passant", "takes d6"}},
    {reply, "Nf6", {"12...Nf6"}},
    {reply, "e5", {"1... e5", "...e5"}},
    // figures, dashes, quotes and brackets, bytes of any sort
    {start,
     "Nf3",
     {"\342\231\230f3", "\342\231\236f3", "\"Nf3\"", "'knight f3'", "'Nf3'",
      "\342\200\234Nf3\342\200\235", "[knight to f3]", "**Nf3**", "Nf3.",
      "\360\237\230\200 Nf3 \360\237\224\245", "\351\351 Nf3 \377\376"}},
    {start,
     "e4",
     {"\342\231\231 e4", "e2\342\200\223e4", "e2\342\200\224e4", "(e4)", "||e2e4||", "e4,",
      "e4\360\237\224\245", std::string("\0\1 e4 \0\177", 8), "\r\ne4\r\n"}},
    {middle, "Re4", {"\342\231\226 to e4"}},
    // talk around
    {middle, "Bxd4", {"I'd go bishop takes d4!", "bishop takes d4 winning the knight"}},
    {middle,
     "Re4",
     {"hmm maybe rook e4?", "it must be rook e4", "how about rook to e4 here, that looks strong",
      "rook e4 threatening e8"}},
    {start, "Nf3", {"I think it's Nf3", "Nf3 attacking e5", "Nf3 defending d4"}},
    {start,
     "e4",
     {"Must be e4.", "my first idea was e4 because it gives me the centre",
      "'; drop table moves; e4"}},
    {middle, "Qe2", {"Qe2 protecting b2"}},
};

// Two legal moves or more fit. Instead of the move: the phrase in short, where the rules tell it.
const Ways ambiguous[] = {
    {both_b, "bxc3", {"bxc3"}},
    {both_b, "", {"BXC3", "bc3", "takes c3", "xc3", "takes knight"}},
    {middle, "Nd2", {"Nd2", "nd2", "knight d2", "the knight to d2!"}},
    {middle, "", {"takes d4", "xd4", "takes the knight"}},
    {rooks, "Rd1", {"rook d1", "R to d1"}},
    {castling, "", {"castles", "Castle!"}},
    {thrice, "", {"takes d5", "pawn takes d5", "pawn takes pawn"}},
    {twice, "", {"exd", "pawn takes pawn"}},
    {bishops, "", {"rook takes bishop", "takes bishop"}},
};

// No legal move fits; as above.
const Ways illegal[] = {
    {start, "Re4", {"rook e4"}},
    {start, "Ra3", {"Rook to A3"}},
    {start, "Bg5", {"bishop g5"}},
    {start, "Qh5", {"Qh5!"}},
    {start, "Ke2", {"king e2"}},
    {start, "Ne5", {"knight to e5"}},
    {start, "Nfd2", {"knight f d2"}},
    {start, "e5", {"e5", "pawn to e5"}},
    {start, "exd5", {"exd5", "e pawn takes d5"}},
    {start, "Bxd4", {"bishop takes d4"}},
    {start, "e2e5", {"e2e5"}},
    {start, "a1a5", {"from a1 to a5"}},
    {start, "O-O", {"castles short"}},
    {start, "O-O-O", {"0-0-0"}},
    {start, "", {"castles", "rook takes bishop"}},
    {middle, "Rxd4", {"rook takes d4"}},
    {middle, "Nbf3", {"knight b f3"}},
    {middle, "Rh4", {"rook h4"}},
    {short_only, "O-O-O", {"O-O-O"}},
    {long_only, "O-O", {"castles kingside"}},
    {promoting, "Qd4", {"queen d4"}},
    {promoting, "Rxd8", {"rook takes d8"}},
    {pinned, "Nd5", {"knight to d5"}},
    {in_check, "", {"castles"}},
    {in_check, "O-O", {"castle short"}},
    {in_check, "Rh2", {"rook h2"}},
    {in_check, "Ke2", {"king to e2"}},
    {queen_mate, "Bxe1", {"bishop takes e1"}},
};

// Never a move, wherever the men stand.
const std::vector<std::string> not_moves[] = {
    // marks
    {"", " ", "   ", "\t\r\n", "?", "?!", "!!!", "...", "12.", "1...", "1. 2. 3.", "+", "#", "x"},
    // talk
    {"hello", "Hello everybody!", "gg", "GG WP", "lol", "gr8 game", "gr8 m8", "l8r",
     "h8rs will be h8rs", "ok", "no idea", "what is he doing", "look at that"},
    {"ooo that is nice", "boo", "oops", "it is 100 percent", "the score is 0 to 0", "Q&A"},
    // words of the letters a to h
    {"be", "bed", "Bed time", "face", "cafe", "add", "dab", "bad", "ed", "cd", "ab", "feed"},
    {"decade", "baggage", "a", "I", "a bad idea", "he had a bad cab", "we add"},
    // men, files and squares described
    {"queen", "Queen!!", "ROOK", "pawn", "N", "k", "Q", "the knights look good",
     "the queen is strong", "what about the rook?", "I like the bishop on d4", "bishop on d4"},
    {"the knight on f3 is pinned", "the e5 pawn", "the e5 pawn is weak", "the d-pawn", "e-pawn",
     "the pawn on e4", "the e file", "on the d-file", "it attacks e5", "he is threatening e5"},
    {"rook takes", "queen x", "bishop takes!", "takes", "takes takes takes", "captures",
     "mate in two", "check", "checkmate!", "he is winning"},
    // numbers and names
    {"1-0", "0-1", "2-0", "1/2-1/2", "1/2", "12:34", "42", "100%", "3.14", "+0.7", "2nd", "B2B"},
    {"e9", "i4", "e0", "Ni4", "Rk1", "0xe4", "0xdeadbeef", "ff00e5", "a1b2c3d4e5f6a7"},
    {"@e4player hello", "Nf3fan", "https://example.org/page", "https://example.org/e4"},
    // any bytes
    {"\360\237\230\200", "\360\237\221\217\360\237\221\217", "\302\275-\302\275", "\377\376\375",
     "\1\2\3\33", "\33[31m", "%s%n%x", "<br>", "' or 1=1 --", "../../etc/passwd"},
    {std::string(3, '\0'), std::string(10000, 'e'), std::string(10000, '4'),
     std::string(10000, ' '), std::string(10000, '\360')},
};

Position position(const char* fen) {
  INFO(fen);
  const auto read = parse_fen(fen);
  REQUIRE(read);
  return *read;
}

// The phrase that a text of one is read as, by both readers; they must agree.
TypedMove refusal(const Position& p, const std::string& text) {
  const TypedLine line = read_typed_line(p, text);
  const std::vector<TypedMove> phrases = read_typed_moves(p, text);
  CHECK(line.moves.empty());
  CHECK(phrases.size() == 1);
  if (phrases.empty()) return line.refused;
  CHECK_FALSE(phrases[0].move);
  CHECK(phrases[0].problem == line.refused.problem);
  CHECK(phrases[0].text == line.refused.text);
  CHECK(phrases[0].why == line.refused.why);
  return line.refused;
}

// Calls check(position, text, what the row says) on each text of a table.
template <typename Table, typename Check>
void for_each_text(const Table& table, Check check) {
  for (const Ways& row : table) {
    const Position p = position(row.fen);
    for (const std::string& text : row.texts) {
      INFO(row.fen << ": " << text);
      check(p, text, std::string(row.san));
    }
  }
}

}  // namespace

TEST_CASE("Each way to type a move is read as the move meant") {
  int count = 0;
  for_each_text(readings, [&](const Position& p, const std::string& text, const std::string& san) {
    ++count;
    const TypedLine line = read_typed_line(p, text);
    CHECK(to_san(p, line.moves) == std::vector<std::string>{san});
    const std::vector<TypedMove> phrases = read_typed_moves(p, text);
    CHECK(phrases.size() == 1);
    if (phrases.empty()) return;
    CHECK((phrases[0].move ? to_san(p, phrases[0].move) : phrases[0].why) == san);
    CHECK_FALSE(phrases[0].text.empty());
  });
  CHECK(count >= 150);
}

TEST_CASE("A phrase that two moves fit is ambiguous") {
  for_each_text(ambiguous,
                [](const Position& p, const std::string& text, const std::string& in_short) {
                  const TypedMove refused = refusal(p, text);
                  CHECK(refused.problem == Code::ambiguous_move);
                  CHECK_FALSE(refused.why.empty());
                  CHECK_FALSE(refused.text.empty());
                  if (!in_short.empty()) CHECK(refused.text == in_short);
                });
}

TEST_CASE("A phrase that no move fits is refused and says why") {
  for_each_text(illegal,
                [](const Position& p, const std::string& text, const std::string& in_short) {
                  const TypedMove refused = refusal(p, text);
                  CHECK_THAT(std::string(base::words(refused.problem)),
                             Catch::Equals(std::string(base::words(Code::illegal_move))) ||
                                 Catch::Equals(std::string(base::words(Code::no_such_piece))));
                  CHECK_FALSE(refused.why.empty());
                  CHECK_FALSE(refused.text.empty());
                  if (!in_short.empty()) CHECK(refused.text == in_short);
                });
}

TEST_CASE("The reason of a refusal is the one that is on the board") {
  CHECK(refusal(position(start), "rook to a3").why == "the way from a1 to a3 is blocked");
  CHECK(refusal(position(promoting), "queen d4").problem == Code::no_such_piece);
  CHECK(refusal(position(start), "e2e5").problem == Code::illegal_move);
}

TEST_CASE("Talk is no move, wherever the men stand") {
  std::set<std::string> texts;
  for (const auto& group : not_moves) texts.insert(group.begin(), group.end());
  CHECK(texts.size() >= 40);
  for (const char* fen : all_fens) {
    const Position p = position(fen);
    for (const std::string& text : texts) {
      INFO(fen << ": " << text.substr(0, 60));
      const TypedMove refused = refusal(p, text);
      CHECK(refused.problem == Code::not_a_move);
      CHECK(refused.text.empty());
    }
  }
}
