#include "kairos/base/text.hpp"

#include <catch2/catch.hpp>
#include <limits>
#include <string>
#include <vector>

using namespace kairos::base;

TEST_CASE("numbers are printed with exactly the places asked for") {
  CHECK(fixed(0.126, 2) == "0.13");
  CHECK(fixed(-1.5, 1) == "-1.5");
  CHECK(fixed(3, 0) == "3");
  CHECK(fixed(2, 2) == "2.00");
  CHECK(fixed(-0.001, 2) == "0.00");  // no minus zero
  CHECK(fixed(-0.0, 0) == "0");
  CHECK(number(std::numeric_limits<std::int64_t>::min()) == "-9223372036854775808");
}

TEST_CASE("large numbers are grouped by thousands") {
  CHECK(grouped(0) == "0");
  CHECK(grouped(999) == "999");
  CHECK(grouped(1000) == "1,000");
  CHECK(grouped(1234567) == "1,234,567");
  CHECK(grouped(123456) == "123,456");
}

TEST_CASE("things are counted in words, one of them without an s") {
  CHECK(counted(0, "game") == "0 games");
  CHECK(counted(1, "game") == "1 game");
  CHECK(counted(1000, "game") == "1,000 games");
  CHECK(counted(1, "try", "tries") == "1 try");
  CHECK(counted(2, "try", "tries") == "2 tries");
}

TEST_CASE("only whole text is a number") {
  CHECK(to_integer("-12") == -12);
  CHECK(to_integer("9223372036854775807") == std::numeric_limits<std::int64_t>::max());
  for (const char* text : {"", " 1", "1 ", "+1", "1.5", "x", "9223372036854775808"}) {
    CAPTURE(text);
    CHECK_FALSE(to_integer(text));
  }
}

TEST_CASE("text is trimmed, split and joined") {
  CHECK(trim(" \t a b\r\n") == "a b");
  CHECK(trim(" \n ").empty());
  CHECK(split("a,,b,", ',') == std::vector<std::string_view>{"a", "", "b", ""});
  CHECK(split("", ',') == std::vector<std::string_view>{""});
  CHECK(fields("  a \t b  ") == std::vector<std::string_view>{"a", "b"});
  CHECK(fields(" ").empty());
  CHECK(join({"a", "b", "c"}, ", ") == "a, b, c");
  CHECK(join({}, ", ").empty());
}

TEST_CASE("UTF-8 is told from other bytes by RFC 3629") {
  for (const char* good : {"", "abc", "\xC3\xA9", "\xE2\x82\xAC", "\xF0\x9F\x98\x80"}) {
    CAPTURE(good);
    CHECK(is_valid_utf8(good));
  }
  for (const char* bad : {"\x80", "\xC3", "\xC0\xAF" /* overlong */, "\xE0\x80\x80" /* overlong */,
                          "\xED\xA0\x80" /* surrogate */, "\xF4\x90\x80\x80" /* above 10FFFF */,
                          "\xE2\x82", "\xFF"}) {
    CAPTURE(bad);
    CHECK_FALSE(is_valid_utf8(bad));
  }
}

TEST_CASE("bytes become UTF-8: as they are, or as ISO 8859-1; control characters become blanks") {
  CHECK(to_utf8("J\xC3\xB3zsef") == "J\xC3\xB3zsef");
  CHECK(to_utf8("J\xF3zsef") == "J\xC3\xB3zsef");
  CHECK(to_utf8(std::string_view("a\0b\tc\x7F", 6)) == "a b c ");
  CHECK(to_utf8("a\xC2\x9B[2J") ==
        "a\xEF\xBF\xBD[2J");  // U+009B begins a command on some terminals
  CHECK(to_utf8("\x9B[2J") == "\xEF\xBF\xBD[2J");
  for (int byte = 0; byte < 256; ++byte) {
    CAPTURE(byte);
    const std::string two = {static_cast<char>(byte), 'x'};
    CHECK(is_valid_utf8(to_utf8(two)));
    CHECK(character_count(to_utf8(two)) == 2);
  }
}

TEST_CASE("only ASCII letters change case") {
  CHECK(lower_case("AbZ\xC3\x89-1") == "abz\xC3\x89-1");
}

TEST_CASE("text is cut between characters, not inside one") {
  const std::string text = "a\xC3\xA9\xE2\x82\xAC\xF0\x9F\x99\x82";  // of one to four bytes
  const std::vector<std::size_t> sizes = {0, 1, 1, 3, 3, 3, 6, 6, 6, 6, 10, 10};
  for (std::size_t most = 0; most < sizes.size(); ++most) {
    CAPTURE(most);
    CHECK(cut(text, most) == text.substr(0, sizes[most]));
  }
  CHECK(cut(std::string(10, '\x80'), 8).size() >= 5);  // no UTF-8 at all
}

TEST_CASE("a distance counts letters put in, taken out, changed and swapped") {
  // Worked out by hand.
  struct Case {
    const char* a;
    const char* b;
    std::size_t distance;
  };
  const Case cases[] = {{"", "", 0},        {"scan", "scan", 0},   {"scan", "sacn", 1},
                        {"scan", "can", 1}, {"scan", "scane", 1},  {"scan", "sten", 2},
                        {"check", "", 5},   {"perft", "preft", 1}, {"abcd", "badc", 2}};
  for (const Case& c : cases) {
    INFO(c.a << " " << c.b);
    CHECK(edit_distance(c.a, c.b) == c.distance);
    CHECK(edit_distance(c.b, c.a) == c.distance);
  }
}

TEST_CASE("the nearest word is suggested, and none when all are far") {
  const std::vector<std::string> words = {"scan", "check", "join", "solve", "perft"};
  CHECK(nearest("chekc", words) == "check");
  CHECK(nearest("sovle", words) == "solve");
  CHECK(nearest("scan", words) == "scan");
  CHECK(nearest("frobnicate", words).empty());
  CHECK(nearest("x", words).empty());
  CHECK(nearest("chk", {}).empty());
}

TEST_CASE("a line is cut to the columns there are, whole characters only") {
  CHECK(elided("short", 10) == "short");
  CHECK(elided("exactly10!", 10) == "exactly10!");
  CHECK(elided("more than ten", 10) == "more th...");
  CHECK(elided("\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9", 4) == "\xC3\xA9...");
  CHECK(elided("abcdef", 0) == "...");
}
