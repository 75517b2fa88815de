// JSON as RFC 8259 defines it; the strings in the tables are ours, the rules are the RFC's.
#include "kairos/base/json.hpp"

#include <catch2/catch.hpp>
#include <limits>
#include <random>

using namespace kairos::base;

namespace {

struct Case {
  const char* text;
  const char* written;  // how the writer puts it
};

constexpr Case good_cases[] = {
    {"null", "null"},
    {" true ", "true"},
    {"[ ]", "[]"},
    {"{\n}", "{}"},
    {"-0", "0"},
    {"9223372036854775807", "9223372036854775807"},
    {"-9223372036854775808", "-9223372036854775808"},
    {"1.5e3", "1500.0"},
    {"0.1", "0.1"},
    {"-2.5E-3", "-0.0025"},
    {R"("a\"b\\c\/d\n\t\r")", R"("a\"b\\c/d\n\t\r")"},
    {R"("\u00e9")", "\"\xC3\xA9\""},
    {R"("\uD83D\uDE00")", "\"\xF0\x9F\x98\x80\""},
    // Seen by nobody or obeyed by a terminal: escaped, as data the same.
    {R"("\u009B\u202E\ufeff")", R"("\u009b\u202e\ufeff")"},
    {"\"\xC2\x9B\xE2\x80\xAE\"", R"("\u009b\u202e")"},
    {"\"\xF3\xA0\x81\x81\"", R"("\udb40\udc41")"},
    {R"("\b\f\u0000")", R"("\u0008\u000c\u0000")"},
    {R"({"b":1,"a":[2,{"c":null}]})", R"({"b":1,"a":[2,{"c":null}]})"},
};

constexpr const char* bad_cases[] = {
    "",
    " ",
    "nul",
    "truex",
    "1 2",
    "01",
    "-",
    "1.",
    ".5",
    "1e",
    "+1",
    "[1,]",
    "[1 2]",
    "[",
    "{",
    "{\"a\"}",
    "{\"a\":}",
    "{a:1}",
    "{\"a\":1,}",
    "\"",
    "\"\\x\"",
    "\"\\u12\"",
    "\"\\uD800\"",
    "\"\\uDC00\"",
    "\"a\nb\"",
    "\"\xFF\"",
    "'a'",
    "1e999",
    "\"\\uD800\\u0041\"",
};

Json random_json(std::mt19937_64& random, int depth) {
  const auto pick = [&random](std::uint64_t n) { return random() % n; };
  const auto word = [&] {
    std::string text;
    for (auto n = pick(6); n > 0; --n) text += "ab\"\\\n\x01\xC3\xA9"[pick(6)];
    return text;
  };
  switch (pick(depth > 0 ? 7 : 5)) {
    case 0:
      return {};
    case 1:
      return pick(2) == 0;
    case 2:
      return static_cast<std::int64_t>(random());
    case 3:
      return static_cast<double>(static_cast<std::int64_t>(random())) / 1024.5;
    case 4:
      return word();
    case 5: {
      Json array = Json::array();
      for (auto n = pick(4); n > 0; --n) array.push(random_json(random, depth - 1));
      return array;
    }
    default: {
      Json object = Json::object();
      for (auto n = pick(4); n > 0; --n) object.add(word(), random_json(random, depth - 1));
      return object;
    }
  }
}

}  // namespace

TEST_CASE("JSON text is read and written again in its one form") {
  for (const Case& c : good_cases) {
    CAPTURE(c.text);
    const auto json = parse_json(c.text);
    REQUIRE(json.ok());
    CHECK(to_json(*json) == c.written);
    CHECK(parse_json(c.written).value() == *json);
  }
}

TEST_CASE("what is no JSON is refused as damaged") {
  for (const char* text : bad_cases) {
    CAPTURE(text);
    const auto json = parse_json(text);
    REQUIRE_FALSE(json.ok());
    CHECK(json.fault().code == Code::json_damaged);
  }
  CHECK(parse_json("[1, x]").fault().place.column == 5);
}

TEST_CASE("nesting is read to the promised depth and not beyond") {
  const auto nested = [](int depth) {
    return std::string(static_cast<std::size_t>(depth), '[') +
           std::string(static_cast<std::size_t>(depth), ']');
  };
  CHECK(parse_json(nested(json_depth)).ok());
  CHECK_FALSE(parse_json(nested(json_depth + 1)).ok());
  CHECK_FALSE(parse_json(std::string(1'000'000, '[')).ok());
}

TEST_CASE("random values come back as they were, and any cut of their text is refused") {
  const auto seed = 20261125u;
  CAPTURE(seed);
  std::mt19937_64 random(seed);
  for (int i = 0; i < 500; ++i) {
    Json value = Json::array();
    value.push(random_json(random, 4));
    const std::string text = to_json(value);
    CAPTURE(text);
    REQUIRE(text.find('\n') == std::string::npos);
    const auto again = parse_json(text);
    REQUIRE(again.ok());
    REQUIRE(*again == value);
    for (std::size_t cut = 0; cut < text.size(); cut += 1 + text.size() / 40) {
      REQUIRE_FALSE(parse_json(text.substr(0, cut)).ok());
    }
  }
}

TEST_CASE("bytes that are no UTF-8 are written as ISO 8859-1, so that the text is always JSON") {
  CHECK(to_json(Json("M\xFCller")) == "\"M\xC3\xBCller\"");
}

TEST_CASE("numbers that JSON does not have become null") {
  CHECK(to_json(Json(std::numeric_limits<double>::infinity())) == "null");
  CHECK(to_json(Json(std::numeric_limits<double>::quiet_NaN())) == "null");
}

TEST_CASE("values are asked for by kind, and another kind gives nothing") {
  const Json json = Json::object().add("n", 3).add("s", "x").add("n", 4);
  CHECK(json.find("n")->integer() == 3);
  CHECK(json.find("n")->real() == 3.0);
  CHECK(json.find("n")->text() == nullptr);
  CHECK_FALSE(json.find("s")->integer());
  CHECK(json.find("absent") == nullptr);
  CHECK(Json(3).find("n") == nullptr);
  CHECK(Json().is_null());
  CHECK(json.elements() == nullptr);
}

TEST_CASE("a text of more values than any record has is damage") {
  std::string text = "[";
  for (std::size_t i = 1; i < json_values; ++i) text += "0,";
  text.back() = ']';
  CHECK(parse_json(text)->elements()->size() == json_values - 1);
  text.back() = ',';
  CHECK(parse_json(text + "0]").fault().code == Code::json_damaged);
}
