// The tokenizer alone: what is a token, whatever the piece and the window, and the sets of bits
// that find them against questions byte by byte.
#include "kairos/pgn/tokens.hpp"

#include <algorithm>
#include <bit>
#include <catch2/catch.hpp>
#include <random>
#include <string>
#include <vector>

using namespace kairos;
using namespace kairos::pgn;

namespace {

std::string name_of(TokenKind kind) {
  switch (kind) {
    case TokenKind::end:
      return "end";
    case TokenKind::tag:
      return "tag";
    case TokenKind::number:
      return "number";
    case TokenKind::move:
      return "move";
    case TokenKind::result:
      return "result";
    case TokenKind::nag:
      return "nag";
    case TokenKind::mark:
      return "mark";
    case TokenKind::comment:
      return "comment";
    case TokenKind::open:
      return "open";
    case TokenKind::close:
      return "close";
    case TokenKind::filler:
      return "filler";
    case TokenKind::unknown:
      return "unknown";
  }
  return "";
}

// `kind text;` for each token, with places when asked.
std::string tokens_of(std::string_view text, std::size_t piece, bool with_places = false) {
  base::MemorySource source(text, piece);
  TokenStream stream(source);
  std::string all;
  for (;;) {
    const Token& token = stream.next();
    if (token.kind == TokenKind::end) break;
    all += name_of(token.kind) + ' ';
    if (token.kind == TokenKind::tag) all += std::string(token.name) + '=';
    all += token.text;
    if (token.partial) all += "...";
    if (token.damaged) all += '!';
    if (with_places) {
      all += '@' + std::to_string(stream.spot().line) + ':' + std::to_string(stream.spot().column);
    }
    all += ';';
  }
  return all;
}

}  // namespace

TEST_CASE("a text falls into tokens of the kinds that the standard names") {
  struct Row {
    std::string text;
    std::string tokens;
  };
  const std::vector<Row> rows = {
      {"[Event \"A b\"]\n1.e4 1-0", "tag Event=A b;number 1;move e4;result 1-0;"},
      {"12...Nbxd7+ O-O-O# e8=Q", "number 12;move Nbxd7+;move O-O-O#;move e8=Q;"},
      {"Nf3!?$1(e4){a}", "move Nf3;mark !?;nag $1;open (;move e4;close );comment a;"},
      {"*1/2-1/2;x\n%y\nz", "result *;result 1/2-1/2;comment x;unknown z;"},
      {"{}{ }", "comment ;comment  ;"},
      {"1 - 0 0 : 1 1 - 01 0 - 0",
       "number 1;result - 0;number 0;result : 1;number 1;filler -;number 01;number 0;filler -;"
       "number 0;"},
      {"O - O O - O-O+ O -O 2)e4 22)",
       "move O - O;move O - O-O+;unknown O;unknown -O;number 2;"
       "filler );move e4;number 22;close );"},
      {"e4(=)e8(Q)+(Q)", "move e4;filler (=);move e8(Q)+;open (;unknown Q;close );"},
      {"1e4 10Nf3 2.0-0", "number 1;move e4;number 10;move Nf3;number 2;move 0-0;"},
      {"bad Bad4 badd4 best", "unknown bad;move Bad4;move badd4;unknown best;"},
      {"1998-2000 3rd --- +", "unknown 1998-2000;unknown 3rd;unknown ---;filler +;"},
      {"[%clk 0:01] ]} <a b> \"q\"",
       "unknown [%clk 0:01];unknown ];unknown };unknown <a b>;unknown \"q\";"},
      {"[A \"x\"] [B \"y\"\n[C \"1\"][D \"2\"]", "tag A=x;tag B=y!;tag C=1;tag D=2;"},
      {"{a\n[Event \"B\"]\n", "comment a\n!;tag Event=B;"},
  };
  for (const Row& row : rows) {
    for (const std::size_t piece : {std::size_t{1}, std::size_t{3}, row.text.size()}) {
      CHECK(tokens_of(row.text, piece) == row.tokens);
    }
  }
}

TEST_CASE("tokens and their places do not depend on where a block or the window ends") {
  const std::string text =
      "[Event \"A \\\"b\\\"\"]\r\n[Site \"somewhere with a long name\"]\n\n1. e4 {c\nd} 1... e5 "
      "(1... c5 $12 "
      "2.Nf3!?) 2. Nbxd2+ O-O ; x\n%skip\n3.\xE2\x80\xA6"
      "exd8=Q# <r> 1/2-1/2 4) Kg1 O - O - O 0 - 1\n\n";
  const std::string plain = tokens_of(text, text.size(), true);
  CHECK(plain.find("unknown <r>@7:") != std::string::npos);
  for (std::size_t blanks = 0; blanks <= 140; ++blanks) {
    // Spaces in front shift everything on the first line; the text is given in uneven pieces.
    const std::string shifted = std::string(blanks, '\n') + text;
    std::string expected = tokens_of(shifted, shifted.size(), true);
    CHECK(tokens_of(shifted, 1 + blanks % 7, true) == expected);
    CHECK(tokens_of(shifted, shifted.size()) == tokens_of(text, text.size()));
  }
  // So often that the window slides many times.
  std::string many;
  for (int i = 0; i < 5000; ++i) many += text;
  std::string same;
  for (int i = 0; i < 5000; ++i) same += tokens_of(text, text.size());
  CHECK(tokens_of(many, 5003) == same);
}

TEST_CASE("what a symbol is does not depend on its neighbours") {
  // Random rows of symbols are read as each of them alone is read: the sets of bits that look at
  // all symbols of a block at once against one symbol at a time.
  const std::vector<std::string> symbols = {
      "e4",
      "Nf3",
      "exd5",
      "Nbxd7+",
      "R1a3#",
      "O-O",
      "O-O-O+",
      "e8=Q",
      "1",
      "12",
      "123",
      "1-0",
      "0-1",
      "1/2",
      "a",
      "h9",
      "i4",
      "Nf",
      "N",
      "xe4",
      "e4x",
      "Ng1-f3",
      "0-0",
      "e4e5",
      "++",
      "+-",
      "--",
      "Sf3",
      "\xC3\xA9",
      "e4+#",
      "Bxx",
      "K8",
      "4e",
      "1e4",
      "P",
      "e",
      "abcdefgh1",
      "_",
      "a1b2c3d4e5f6g7h8a1b2c3d4e5f6g7h8a1b2c3d4e5f6g7h8a1b2c3d4e5f6g7h8xe4"};
  const unsigned seed = 7;
  std::mt19937 random(seed);
  for (int round = 0; round < 300; ++round) {
    std::string row;
    std::string expected;
    for (int i = 0; i < 40; ++i) {
      const std::string& symbol = symbols[random() % symbols.size()];
      row += symbol;
      row += std::string_view(" \n.\t")[random() % 4];
      expected += tokens_of(symbol, symbol.size());
    }
    INFO("seed " << seed << ": " << row);
    REQUIRE(tokens_of(row, row.size()) == expected);
  }
}

namespace {

// As `tokens_of` with places, numbers and moves taken from runs wherever there are any.
std::string tokens_by_runs(std::string_view text, std::size_t piece, int& runs) {
  base::MemorySource source(text, piece);
  TokenStream stream(source);
  std::string all;
  for (;;) {
    while (const auto run = stream.run()) {
      std::uint64_t begins = run->begins, ends = run->ends;
      REQUIRE(std::popcount(begins) == std::popcount(ends));
      for (; begins != 0; begins &= begins - 1, ends &= ends - 1) {
        const int begin = std::countr_zero(begins), end = std::countr_zero(ends);
        const bool is_number = (run->number_ends >> end & 1) != 0;
        REQUIRE(is_number == ((run->number_begins >> begin & 1) != 0));
        std::uint32_t line = run->spot.line;
        std::uint32_t column = run->spot.column + static_cast<std::uint32_t>(begin);
        for (int n = 0; n < begin; ++n) {
          if ((run->newlines >> n & 1) == 0) continue;
          ++line;
          column = static_cast<std::uint32_t>(begin - n);
        }
        all += is_number ? "number " : "move ";
        all += std::string(run->bytes + begin, run->bytes + end) + '@' + std::to_string(line) +
               ':' + std::to_string(column) + ';';
      }
      stream.take(*run);
      ++runs;
    }
    const Token& token = stream.next();
    if (token.kind == TokenKind::end) return all;
    all += name_of(token.kind) + ' ' + std::string(token.text) + '@' +
           std::to_string(stream.spot().line) + ':' + std::to_string(stream.spot().column) + ';';
  }
}

}  // namespace

TEST_CASE("runs hold the numbers and moves that would come as tokens") {
  const std::vector<std::string> symbols = {
      "e4",  "12.",   "Nf3+", "1",    "exd5", "{x}",  "O-O",   "e8=Q", "(",      ")",    "$5",
      "1-0", "Qh4#!", "1...", "R1a3", "8",    "word", "10.d4", "Nbd2", "{a\nb}", "\n\n", "B@e4"};
  const unsigned seed = 8;
  std::mt19937 random(seed);
  int runs = 0;
  for (int round = 0; round < 300; ++round) {
    std::string row;
    for (int i = 0; i < 200; ++i) {
      const bool is_plain = random() % 8 != 0;
      row += symbols[random() % (is_plain ? 5 : symbols.size())];
      row += std::string_view(" \n\r ")[random() % 4];
    }
    INFO("seed " << seed << ", round " << round << ": " << row);
    std::string by_runs = tokens_by_runs(row, 1 + random() % row.size(), runs);
    REQUIRE(by_runs == tokens_of(row, row.size(), true));
  }
  CHECK(runs > 300);
}

TEST_CASE("a long comment comes in pieces and a long symbol is cut, in a window of fixed size") {
  const std::string words(100000, 'w');
  for (const std::size_t piece : {std::size_t{777}, words.size()}) {
    const std::string text = words + " {" + words + "} ;" + words + "\ne4";
    base::MemorySource source(text, piece);
    std::size_t in_comments = 0;
    std::size_t in_symbols = 0;
    std::size_t last_pieces = 0;
    TokenStream stream(source);
    TokenKind last = TokenKind::end;
    for (;;) {
      const Token& token = stream.next();
      if (token.kind == TokenKind::end) break;
      last = token.kind;
      CHECK(token.text.size() <= TokenStream::comment_piece);
      if (token.kind == TokenKind::comment) in_comments += token.text.size();
      if (token.kind == TokenKind::comment && !token.partial) ++last_pieces;
      if (token.kind == TokenKind::unknown) in_symbols += token.text.size();
    }
    CHECK(in_symbols == words.size());
    CHECK(in_comments == 2 * words.size());
    CHECK(last_pieces == 2);
    CHECK(last == TokenKind::move);
  }
}

TEST_CASE("skipping a line goes on at the next, also from the middle of what was read ahead") {
  base::MemorySource source("word and more { ; e4\r\ne4 e5 bad Nf3 (\n1. d4 {x\ny} z\r\rlast");
  TokenStream stream(source);
  CHECK(stream.next().text == "word");
  CHECK(stream.rest_of_line() == " and more { ; e4");
  stream.skip_line();
  CHECK(stream.next().text == "e4");
  CHECK((stream.spot().line == 2 && stream.spot().column == 1));
  stream.next();
  CHECK(stream.next().text == "bad");
  stream.skip_line();
  CHECK(stream.next().text == "1");
  CHECK(stream.spot().line == 3);
  stream.next();
  stream.next();
  CHECK(stream.next().text == "z");
  CHECK((stream.spot().line == 4 && stream.spot().column == 4));
  stream.skip_line();
  CHECK(stream.next().text == "last");
  CHECK(stream.after_empty_line());
  stream.skip_line();
  CHECK(stream.next().kind == TokenKind::end);
  CHECK(stream.next().kind == TokenKind::end);
}

TEST_CASE("lines that begin with % are nothing, however many and long they are") {
  // Source: ../shared/data/hostile/escape-lines-*.pgn. The 66th such line wrote behind the tokens
  // made; one longer than the window moved it from under the moves in front of the line.
  std::string many, one = "%";
  for (std::size_t i = 0; i < 1000; ++i) many += '%' + std::string(i % 130, 'a') + '\n';
  for (int i = 0; i < 100'000; ++i) one += "h4 ";
  one += '\n';
  for (const std::string& lines : {many, one, one + many, many + one}) {
    const std::string empty_lines(static_cast<std::size_t>(std::ranges::count(lines, '\n')), '\n');
    for (std::size_t blanks = 0; blanks < 130; blanks += 13) {
      const std::string before = std::string(blanks, ' ') + "1. e4 e5 2. Nf3\n";
      const std::string after = "Nc6 3. Bb5 {a\nb} a6 *";
      const std::string text = before + lines + after;
      const std::string expected = tokens_of(before + empty_lines + after, text.size(), true);
      for (const std::size_t piece : {std::size_t{63}, std::size_t{4096}, text.size()}) {
        CHECK((tokens_of(text, piece, true) == expected));
      }
    }
  }
}

TEST_CASE("a line that is passed over may end with the input") {
  CHECK(tokens_of("*\n%Nf3 Nf6 d4", 5) == "result *;");
  base::MemorySource source("word e4 word d4");
  TokenStream stream(source);
  CHECK(stream.next().text == "word");
  stream.skip_line();
  CHECK(stream.next().kind == TokenKind::end);
}

TEST_CASE("a line begins behind a byte order mark too") {
  const std::string mark = "\xEF\xBB\xBF";
  const std::string line = "%Nf3\n[White A]\n";
  CHECK(tokens_of(mark + line, 7) == "tag White=A!;");
  CHECK(tokens_of(mark + "[White A]\n" + mark + line, 7) == "tag White=A!;filler ;tag White=A!;");
}

TEST_CASE("what a token is does not depend on how far the window reaches") {
  // Each looked as far back or ahead as there were bytes, the first in front of the window.
  std::string quotes(100'000, '>'), rings;
  for (int i = 0; i < 100'000; ++i) rings += "O - ";
  const std::string checks = "e8(Q)" + std::string(100'000, '+');
  for (const std::string& text : {quotes, rings, checks}) {
    INFO(text.substr(0, 8));
    const std::string expected = tokens_of(text, text.size(), true);
    for (const std::size_t piece : {1U, 63U, 4096U}) {
      CHECK((tokens_of(text, piece, true) == expected));
    }
  }
}
