// One row at least for each leniency of kairos/pgn/reader.hpp: what is written, the games that come
// of it, and the faults that are told. Sources: "standard" is the PGN standard of 1994, "common
// practice" what files of clubs and tournaments hold (kinds of dirt as counted in
// shared/data/README.md).
#include <catch2/catch.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "pgn/reading.hpp"

using namespace kairos;
using namespace kairos::pgn;
using base::Code;

namespace {

struct Lenient {
  int leniency;  // its number in kairos/pgn/reader.hpp
  std::string_view text;
  std::string_view games;
  std::vector<Code> faults;
};

using namespace std::string_view_literals;

// A tag whose value alone is too long, and one that is too long for a token; moves in it are none.
const std::string long_value = repeated("e4 e5 ", 8192 / 6 + 1);
const std::string long_tag = "[Site \"" + long_value + "\"]\n[Event \"" + repeated("1. e4 ", 9000) +
                             "\"] [White \"A\"]\n\n1. d4 *\n";
const std::string long_tag_read = "Site=" + long_value.substr(0, 8192) +
                                  " Event=" + repeated("1. e4 ", 9000).substr(0, 8192) +
                                  " White=A: d4 *";

const std::vector<Lenient> leniencies = {
    // 1 to 4: bytes. Common practice; the standard wants ISO 8859-1 and LF (sections 3.2.2, 4.1).
    {1, "\xEF\xBB\xBF[White \"A\"]\n\n1. e4 *\n", "White=A: e4 *", {}},
    {1,
     "[White \"A\"]\n\n1. e4 *\n\xEF\xBB\xBF[White \"B\"]\n\n*",
     "White=A: e4 * | White=B: *",
     {}},
    {2, "[White \"A\"]\r\n\r\n1. e4\r\ne5 *\r\n", "White=A: e4 e5 *", {}},
    {2, "[White \"A\"]\r\r1. e4\re5 *\r", "White=A: e4 e5 *", {}},
    {3, "[White \"M\xFCller\"]\n\n1. e4 {\xE9} *", "White=M\xC3\xBCller: e4 {\xC3\xA9} *", {}},
    {3, "[White \"M\xC3\xBCller\"]\n\n1. e4 {\xBD} *", "White=M\xC3\xBCller: e4 {\xC2\xBD} *", {}},
    {4, "[White \"A\0B\"]\n\n1. e4\0e5\x1A *\0\0\x1A"sv, "White=A B: e4 e5 *", {}},
    {4, "1. e4 {\x0E\0} e5 {\0 words \0} *"sv, "e4 e5 {words} *", {}},
    // 5 to 12: tags. Common practice.
    {5,
     "[White \"A\"]\n1. e4 1-0\n[White \"B\"]\n1. d4 0-1",
     "White=A: e4 1-0 | White=B: d4 0-1",
     {}},
    {5,
     "[White \"A\"][Black \"B\"]1. e4 1-0[White \"C\"]*",
     "White=A Black=B: e4 1-0 | White=C: *",
     {}},
    {6, "[White \"A\"]\n\n\n[Black \"B\"]\n\n\n1. e4\n\n\ne5 *", "White=A Black=B: e4 e5 *", {}},
    {7,
     "Spring Cup\n----------\n[White \"A\"]\n\n*\n\n12 Round 3\n\n[White \"B\"]\n*",
     "White=A: * | White=B: *",
     {Code::stray_text, Code::stray_text}},
    {7, "[White \"A\"]\nplayed at night\n1. e4 *\n", "White=A: e4 *", {Code::stray_text}},
    {8,
     "[White \"John \"Jack\" Smith\"]\n[Black \"C:\\games\\\"]\n*",
     "White=John \"Jack\" Smith Black=C:\\games\\: *",
     {}},
    {7, "<pre>[White \"A\"]\n\n1. e4 *", "White=A: e4 *", {Code::stray_text}},
    {7, "[White \"A\"] & 1. e4 *", "White=A: e4 *", {Code::token_unknown}},
    {8, "[White \"a \\\"b\\\" c\\\\d\"]\n*", "White=a \"b\" c\\d: *", {}},
    {9,
     "[White \"A\"\n[Black B]\n[Site \"C]\n[Round]\n*",
     "White=A Black=B Site=C Round=: *",
     {Code::tag_damaged, Code::tag_damaged, Code::tag_damaged, Code::tag_damaged}},
    {9, "[ White  \"A\" ]\n[Black\"B\"]\n*", "White=A Black=B: *", {}},
    {10,
     "[Event \"A\"]\n[Event \"B\"]\n[White \"C\"]\n\n1. e4 *",
     "Event=A White=C: e4 *",
     {Code::tag_repeated}},
    {10,
     "[Wei\xDF \"A\"]\n[Wei\xDF \"B\"]\n\n1. e4 *",
     "Wei\xC3\x9F=A: e4 *",
     {Code::tag_repeated}},
    {10,
     "[Event \"A\"]\n[White \"C\"]\n\n[Event \"A\"]\n[White \"C\"]\n[Black \"D\"]\n\n1. e4 *",
     "Event=A White=C Black=D: e4 *",
     {Code::tag_repeated}},
    {10,
     "[Event \"A\"]\n[White \"C\"]\n\n[Event \"A\"]\n[Event \"B\"]\n[White \"D\"]\n\n1. e4 *",
     "Event=A White=C: * | Event=A White=D: e4 *",
     {Code::tag_repeated, Code::result_missing}},
    {11,
     "[Event \"A\"]\n[White \"C\"]\n\n[Event \"A\"]\n[White \"C\"]\n\n[Event \"A\"]\n[White "
     "\"D\"]\n\n1. e4 *",
     "Event=A White=C: * | Event=A White=D: e4 *",
     {Code::result_missing}},
    {11,
     "[Event \"A\"]\n[White \"C\"]\n[Event \"A\"]\n[White \"D\"]\n\n1. e4 *",
     "Event=A White=C: * | Event=A White=D: e4 *",
     {Code::result_missing}},
    {11,
     "[Event \"A\"]\n[White \"C\"]\n[Result \"1-0\"]\n\n[Event \"B\"]\n[White \"C\"]\n\n1. e4 *",
     "Event=A White=C Result=1-0: 1-0 | Event=B White=C: e4 *",
     {Code::result_missing}},
    {11,
     "[Event \"A\"]\n[White \"C\"]\n\n#1 e4 e5 1-0\n\n[Event \"A\"]\n[White \"C\"]\n\n1. d4 *",
     "Event=A White=C: * | Event=A White=C: d4 *",
     {Code::stray_text, Code::result_missing}},
    {12, "1-0\n\n0-1\n\n1/2-1/2 {short}\n\n*", "1-0 | 0-1 | {short} 1/2-1/2 | *", {}},
    {12,
     "{note} 1. e4 e5 1-0\n\nd4 d5 0-1\n\n[White \"A\"]\n\n*",
     "{note} e4 e5 1-0 | d4 d5 0-1 | White=A: *",
     {}},
    // 13 to 20: movetext. Sections 5 to 8.2; the rest common practice.
    {13,
     "1.e4 e5 2 Nf3 2...Nc6 3Bb5 a6 4 . Ba4 ... Nf6 5.\nO-O 5\xE2\x80\xA6"
     "Be7 *",
     "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7 *",
     {}},
    {13, "1: e4 e5 2- Nf3 01. Nc6 *", "e4 e5 Nf3 Nc6 *", {}},
    {13,
     "1) e4 e5 2) Nf3 (2... d6 3) d4) (5) 2)... Nc6\n3)Bb5 (3. Bc4 Nf6 4) 3... a6 (3... d6 4) *",
     "e4 e5 Nf3 (d6 d4) Nc6 Bb5 (Bc4 Nf6) a6 (d6) *",
     {}},
    {13, "e4 7. e5 99... Nf3 *", "e4 e5 Nf3 *", {}},
    {14,
     "1. e4! e5 ?! 2. Nf3!!Nc6?? 3. Bb5!? a6? *",
     "e4 $1 e5 $6 Nf3 $3 Nc6 $4 Bb5 $5 a6 $2 *",
     {}},
    {15,
     "1. e4 $1$19 e5 $256 $ 2. Nf3 $0 $255 *",
     "e4 $1 $19 e5 Nf3 $0 $255 *",
     {Code::nag_unknown, Code::nag_unknown}},
    {16,
     "1. e4 += e5 = 2. Nf3 +- Nc6 -+ 3. Bb5 +/- a6 -/+ 4. Ba4 =+ *",
     "e4 $14 e5 $10 Nf3 $18 Nc6 $19 Bb5 $16 a6 $17 Ba4 $15 *",
     {}},
    {16,
     "1. e4= e5+/= 2. Nf3+- Nc6-+ 3. Bb5+-/+ *",
     "e4 $10 e5 $14 Nf3 $18 Nc6 $19 Bb5+ $17 *",
     {}},
    {17, "%comment 1. d4\n1. e4\n% { \n e5 {\n% kept} *", "e4 e5 {% kept} *", {}},
    {18,
     "1. e4 ; to {the end\ne5 { a ; b\n  c } 2. Nf3 {one}{two} *",
     "e4 {to {the end} e5 {a ; b c} Nf3 {one} {two} *",
     {}},
    {18, "1. e4 ;a } b\n*", "e4 {a ) b} *", {}},
    {19, "1. e4 { a { b } c } e5 { :-{ } 2. Nf3 *", "e4 {a { b ) c} e5 {:-{} Nf3 *", {}},
    {20,
     "1. e4 { no end\n\n[Event \"B\"]\n\n1. d4 *",
     "e4 {no end} * | Event=B: d4 *",
     {Code::comment_unclosed, Code::result_missing}},
    {20,
     "1. e4 {[White \"x\"] in a line\n[%clk 1:00]} e5 {to the end",
     "e4 {[White \"x\"] in a line [%clk 1:00]} e5 {to the end} *",
     {Code::comment_unclosed, Code::result_missing}},
    // 21 to 24: variations. Section 8.2.5 and common practice.
    {21,
     "1. e4 (1. d4 d5 (1... Nf6) 1-0\n\n[White \"B\"]\n\n*",
     "e4 (d4 d5 (Nf6)) 1-0 | White=B: *",
     {Code::variation_unclosed}},
    {21, "1. e4 (1. d4 1-0) 1... e5 0-1", "e4 (d4) e5 0-1", {}},
    {22, "1. e4 ) e5 ) *", "e4 e5 *", {Code::variation_stray_close, Code::variation_stray_close}},
    {23,
     "[White \"A\"]\n\n(1. d4) 1. e4 (1. c4) e5 (( 1... c5) 1... e6) *",
     "White=A: e4 (d4) (c4) e5 (c5) (e6) *",
     {}},
    {24,
     "1. e4 ({only words}) e5 () ({first} 1... c5 {then}) *",
     "e4 {only words} e5 ({first} c5 {then}) *",
     {}},
    // 25 to 29: results. Section 8.2.6; the rest common practice.
    {25,
     "1. e4 1/2\n[White \"B\"]\n1:0\n[White \"C\"]\n\xC2\xBD-\xC2\xBD\n[White "
     "\"D\"]\n\xBD-\xBD\n[White \"E\"]\n0\xE2\x80\x93"
     "1",
     "e4 1/2-1/2 | White=B: 1-0 | White=C: 1/2-1/2 | White=D: 1/2-1/2 | White=E: 0-1",
     {}},
    {25,
     "1. e4 1-O\n[White \"B\"]\n0\x96"
     "1",
     "e4 1-0 | White=B: 0-1",
     {}},
    {25,
     "1. e4 1 - 0\n[White \"B\"]\n0 - 1\n[White \"C\"]\n1. d4 1/2 - 1/2\n[White \"D\"]\n1. d4 d5 0 "
     ": 1"
     "\n[White \"E\"]\n1. e4 e5 2. d4 1 - 0 {resigns}",
     "e4 1-0 | White=B: 0-1 | White=C: d4 1/2-1/2 | White=D: d4 d5 0-1 | White=E: e4 e5 d4 "
     "{resigns} 1-0",
     {}},
    {26,
     "1. e4 1-0 1-0\n\n[White \"B\"]\n\n1. d4 1-0 0-1",
     "e4 1-0 | White=B: d4 0-1",
     {Code::result_differs}},
    {26, "1. e4 e5 1/2-1/2 2. Nf3 Nc6 *", "e4 e5 Nf3 Nc6 *", {Code::result_differs}},
    {26, "[Result \"0-1\"]\n\n1. e4 1-0", "Result=0-1: e4 1-0", {Code::result_differs}},
    {27,
     "[White \"A\"]\n[Result \"1-0\"]\n\n1. e4\n\n[White \"B\"]\n\n1. d4",
     "White=A Result=1-0: e4 1-0 | White=B: d4 *",
     {Code::result_missing, Code::result_missing}},
    {28,
     "1. e4 e5\n\n1. d4 d5 2. c4\n\n1. c4 *",
     "e4 e5 * | d4 d5 c4 * | c4 *",
     {Code::result_missing, Code::result_missing}},
    {29,
     "1. e4 e5 1-0 {resigns} $20 (1... c5)\n\n[White \"B\"]\n\n*",
     "e4 e5 $20 {resigns} (c5) 1-0 | White=B: *",
     {}},
    // 30 to 35: what is no token. Sections 7.7 and 9; the rest common practice.
    {30, "1. e4, e5 (=) 2. exd6 e.p. Nf3 + 3. d4 ep *", "e4 e5 exd6 Nf3 d4 *", {}},
    {31,
     "1. e4 better <x y> e5 & 2. [one two] Nf3 ]} *",
     "e4 e5 Nf3 *",
     {Code::token_unknown, Code::token_unknown, Code::token_unknown, Code::token_unknown,
      Code::token_unknown, Code::token_unknown}},
    {32,
     "1. e2-e4 e7e5 2. Sf3 0-0-0 3. e8Q e8(Q)+ 4. exd6e.p. N:d4 5. -- Z0 6. B@e4 *",
     "e2-e4 e7e5 Sf3 0-0-0 e8Q e8(Q)+ exd6e.p. N:d4 -- Z0 B@e4 *",
     {}},
    {32,
     "1. \xE2\x99\x98"
     "f3 e2\xE2\x80\x93"
     "e4 nc6 \xD8"
     "f3 O\xE2\x80\x93O *",
     "\xE2\x99\x98"
     "f3 e2\xE2\x80\x93"
     "e4 nc6 \xD8"
     "f3 O\xE2\x80\x93O *",
     {}},
    {32, "5. O - O o - o - o+! 6. O - O-O *", "O - O o - o - o+ $1 O - O-O *", {}},
    {32, "1. P-K4 ed N 2. exd E5 *", "P-K4 ed N exd E5 *", {}},
    {33,
     "1. e4\xC2\xA0"
     "e5\xA0"
     "2.\xE2\x80\x8BNf3 *",
     "e4 e5 Nf3 *",
     {}},
    {34, "> [White \"A\"]\n>\n> > 1. e4\n>e5 *\n", "White=A: e4 e5 *", {}},
    {35,
     "[Result \"0-0\"]\n\n1. e4 e5 0-0\n\n[Result \"0-0\"]\n\n0-0\n\n[Result \"0-0\"]\n\n1. d4 "
     "*\n\n"
     "[Result \"0-0\"]\n\n1. d4 1-0\n\n[Result \"*\"]\n\n1. e4 0-0",
     "Result=0-0: e4 e5 * | Result=0-0: * | Result=0-0: d4 * | Result=0-0: d4 1-0 | Result=*: e4 "
     "0-0 *",
     {Code::result_both_lost, Code::result_both_lost, Code::result_both_lost, Code::result_differs,
      Code::result_missing}},
    {36, long_tag, long_tag_read, {Code::tag_cut, Code::tag_cut}},
};

}  // namespace

TEST_CASE("each leniency of the reader gives the games and faults listed") {
  for (const Lenient& row : leniencies) {
    INFO(row.leniency << ": " << row.text);
    const Reading reading = read_all(row.text);
    CHECK(summary(reading) == row.games);
    std::string expected;
    std::string told;
    for (const Code code : row.faults) expected += std::string(base::words(code)) + '\n';
    for (const base::Fault& fault : reading.faults) {
      told += std::string(base::words(fault.code)) + '\n';
    }
    CHECK(told == expected);
    CHECK_FALSE(reading.failure);
  }
}
