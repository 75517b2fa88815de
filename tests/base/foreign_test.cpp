// Texts of others: nothing in them may command a terminal, hide, or turn what stands beside them.
#include "kairos/base/foreign.hpp"

#include <catch2/catch.hpp>

#include "kairos/base/json.hpp"
#include "kairos/base/text.hpp"

using namespace kairos::base;

namespace {

// Hebrew letters (alef, bet), and the marks of isolation.
constexpr const char* hebrew = "\xD7\x90\xD7\x91";
constexpr const char* begin_mark = "\xE2\x81\xA8";
constexpr const char* end_mark = "\xE2\x81\xA9";

// The UTF-8 of a code point, by way of JSON.
std::string utf8_of(char32_t point) {
  std::string units;
  const auto add = [&units](std::uint32_t unit) {
    constexpr std::string_view digits = "0123456789abcdef";
    units += "\\u";
    for (const int shift : {12, 8, 4, 0}) units += digits[unit >> shift & 15];
  };
  if (point < 0x10000) {
    add(point);
  } else {
    add(0xD800 + ((point - 0x10000) >> 10));
    add(0xDC00 + ((point - 0x10000) & 0x3FF));
  }
  return *parse_json('"' + units + '"')->text();
}

bool is_surrogate(char32_t point) {
  return point >= 0xD800 && point <= 0xDFFF;
}

bool has_harm(std::string_view text, bool marks_are_harm = true) {
  while (!text.empty()) {
    const Character c = first_character(text);
    const bool is_mark = c.point == 0x2068 || c.point == 0x2069;
    if (!c.point || is_control(*c.point)) return true;
    if (is_hidden(*c.point) && (marks_are_harm || !is_mark)) return true;
    text.remove_prefix(c.size);
  }
  return false;
}

}  // namespace

TEST_CASE("characters are taken from the front of a text, bytes that are none one by one") {
  const auto is = [](std::string_view text, std::optional<char32_t> point, std::size_t size) {
    const Character c = first_character(text);
    return c.point == point && c.size == size;
  };
  CHECK(is("ab", U'a', 1));
  CHECK(is("\xC3\xA9x", U'\u00E9', 2));
  CHECK(is("\xE2\x80\xAE", U'\u202E', 3));
  CHECK(is("\xF0\x9F\x98\x80", U'\U0001F600', 4));
  CHECK(is("\xC3x", std::nullopt, 1));
  CHECK(is("\xED\xA0\x80", std::nullopt, 1));
  CHECK(is("\xFF", std::nullopt, 1));
}

TEST_CASE("what is hidden is told by its code point") {
  for (const char32_t point :
       {0xADu, 0x61Cu, 0x180Eu, 0x200Bu, 0x200Du, 0x200Fu, 0x2028u, 0x2029u, 0x202Au, 0x202Eu,
        0x2060u, 0x2066u, 0x2069u, 0x206Fu, 0xFEFFu, 0xFFF9u, 0xFFFBu, 0xE0001u, 0xE007Fu}) {
    CAPTURE(static_cast<std::uint32_t>(point));
    CHECK(is_hidden(point));
    CHECK_FALSE(is_control(point));
  }
  for (const char32_t point :
       {0x20u, 0xA0u, 0xE9u, 0x5D0u, 0x2010u, 0x2027u, 0x202Fu, 0x2070u, 0xFFFCu, 0x1F600u}) {
    CAPTURE(static_cast<std::uint32_t>(point));
    CHECK_FALSE(is_hidden(point));
  }
}

TEST_CASE("visible shows in plain signs what cannot be seen or would command a terminal") {
  CHECK(visible("games/round 1.pgn") == "games/round 1.pgn");
  CHECK(visible("a\x1b[31mb\nc\td\r.pgn\x7f") == "a\\x1b[31mb\\nc\\td\\r.pgn\\x7f");
  CHECK(visible("J\xC3\xB3zsef") == "J\xC3\xB3zsef");
  CHECK(visible("caf\xE9.pgn") == "caf\\xe9.pgn");
  CHECK(visible("c1 \xC2\x9B[2J") == "c1 \\u009b[2J");
  CHECK(visible("\xE2\x80\xAEgnp.exe") == "\\u202egnp.exe");
  CHECK(visible("a\xF3\xA0\x81\x81") == "a\\U000e0041");
  CHECK(visible(std::string("nul\0", 4)) == "nul\\x00");
  CHECK(visible(hebrew) == hebrew);
  CHECK(visible(isolated(hebrew)) == hebrew);
}

TEST_CASE("stripped and isolated texts hide nothing; letters from the right are isolated") {
  CHECK(stripped("a\xE2\x80\xAE"
                 "b\xE2\x80\x8B"
                 "c\x1b[2J") == "abc [2J");
  CHECK(isolated("J\xF3zsef") == "J\xC3\xB3zsef");
  CHECK(isolated("Rosin, Ada") == "Rosin, Ada");
  CHECK(isolated(hebrew) == std::string(begin_mark) + hebrew + end_mark);
  // Marks in the text itself cannot end the isolation.
  CHECK(isolated(std::string(end_mark) + hebrew + begin_mark + end_mark) ==
        std::string(begin_mark) + hebrew + end_mark);
  CHECK(isolated(isolated(hebrew)) == isolated(hebrew));
  for (const char* letter : {"\xD8\xA7" /* Arabic */, "\xEF\xAC\xA0" /* U+FB20 */,
                             "\xEF\xBA\x8D" /* U+FE8D */, "\xF0\x90\xA4\x80" /* U+10900 */}) {
    CAPTURE(letter);
    CHECK(isolated(letter) == std::string(begin_mark) + letter + end_mark);
  }
}

TEST_CASE("a text cut out of isolated ones ends its isolations and begins with none to end") {
  const std::string open = std::string("x ") + begin_mark + hebrew;
  CHECK(balanced(open) == open + end_mark);
  CHECK(balanced(std::string(hebrew) + end_mark + " x") == std::string(hebrew) + " x");
  const std::string whole = "a " + isolated(hebrew) + " b";
  CHECK(balanced(whole) == whole);
  CHECK(balanced("a\xE2\x81\xA7"
                 "b\xE2\x80\xAE") == "ab");  // other turns are no marks of ours
}

TEST_CASE("no character does harm anywhere, whatever it is") {
  for (char32_t point = 0; point < 0x110000; point += point < 0x3000 ? 1 : 13) {
    if (is_surrogate(point)) continue;
    const std::string text = "a" + utf8_of(point) + "b";
    const std::string seen = visible(text), name = stripped(text), shown = isolated(text);
    const std::string json = to_json(Json(text));
    if (has_harm(seen) || has_harm(name) || has_harm(shown, false) || has_harm(json)) {
      CAPTURE(static_cast<std::uint32_t>(point), seen, name, shown, json);
      FAIL("harm");
    }
    // As JSON the text comes back as it was.
    REQUIRE(*parse_json(json)->text() == text);
    REQUIRE(visible(seen) == seen);
  }
}

TEST_CASE("any bytes give valid UTF-8") {
  for (int first = 0; first < 256; ++first) {
    for (int second = 0; second < 256; second += 3) {
      const std::string text = {static_cast<char>(first), static_cast<char>(second), 'x'};
      for (const std::string& shown : {visible(text), stripped(text), isolated(text)}) {
        REQUIRE(is_valid_utf8(shown));
        REQUIRE_FALSE(has_harm(shown, false));
      }
    }
  }
}
