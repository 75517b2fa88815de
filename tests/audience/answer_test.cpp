// Lines of answers in all their formats, hostile ones among them.
#include "kairos/audience/answer.hpp"

#include <catch2/catch.hpp>
#include <string>

#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"

using namespace kairos;
using namespace kairos::audience;

TEST_CASE("an answer line is read in each of its formats") {
  struct Case {
    const char* line;
    const char* time;
    const char* name;
    const char* words;
  };
  const Case cases[] = {
      {"anna: Qxh7+", "", "anna", "Qxh7+"},
      {"  anna lou :Qxh7+ !", "", "anna lou", "Qxh7+ !"},
      {"12:34 anna: Nf3", "12:34", "anna", "Nf3"},
      {"[12:34:56] anna: Nf3", "12:34:56", "anna", "Nf3"},
      {"(12:34) anna: 1. Nf3", "12:34", "anna", "1. Nf3"},
      {"2026-11-26T12:34:56Z anna: Nf3", "2026-11-26T12:34:56Z", "anna", "Nf3"},
      {"2026-11-26 12:34:56 anna: Nf3", "2026-11-26 12:34:56", "anna", "Nf3"},
      {"12: Nf3", "", "12", "Nf3"},
      {"anna\tNf3: good", "", "anna", "Nf3: good"},
      {"12:34\tanna\tNf3\tor so", "12:34", "anna", "Nf3\tor so"},
      {R"({"name": "anna", "text": "Nf3"})", "", "anna", "Nf3"},
      {R"({"time": 17, "name": "anna", "text": "Nf3", "more": []})", "17", "anna", "Nf3"},
      {R"({"time": "12:34", "text": "a \"b\"", "name": "\u001b[2Janna"})", "12:34", "[2Janna",
       "a \"b\""},
  };
  for (const Case& c : cases) {
    INFO(c.line);
    const auto read = read_answer_line(c.line);
    REQUIRE(read.has_value());
    CHECK(read->time == c.time);
    CHECK(read->name == c.name);
    CHECK(read->words == c.words);
  }
  for (const char* line :
       {"", "no name", ": Nf3", "anna:", "{\"name\": \"anna\"}", "\t\t", "12:34"}) {
    INFO(line);
    const auto read = read_answer_line(line);
    CHECK((!read || read->words == "34"));
  }
}

TEST_CASE("nothing in a name can command a terminal") {
  const std::string hostile[] = {
      "\x1b[31mred",           "bell\x07",           "\x9b[2Jlatin",
      "c1 \xC2\x9B[2J",        "\xE2\x80\xAEmirror", "\xE2\x81\xA6isolate",
      "\xE2\x80\xA8line",      "\xEF\xBB\xBFmark",   "back\bspace",
      std::string("nul\0", 4), "\x1b]0;title\x07",
  };
  for (const std::string& name : hostile) {
    const std::string shown = base::stripped(name);
    CHECK(base::is_valid_utf8(shown));
    for (const char c : shown) CHECK((static_cast<unsigned char>(c) >= 0x20 && c != 0x7F));
    for (const char* part :
         {"\xC2\x9B", "\xE2\x80\xAE", "\xE2\x81\xA6", "\xE2\x80\xA8", "\xEF\xBB\xBF"}) {
      CHECK(shown.find(part) == std::string::npos);
    }
  }
  const auto read = read_answer_line(std::string(3000, 'n') + ": Nf3");
  REQUIRE(read.has_value());
  CHECK(read->name.size() == longest_name);
  // Cut between characters, not inside one.
  const auto accents = read_answer_line(std::string("a") + [] {
    std::string s;
    for (int i = 0; i < 50; ++i) s += "\xC3\xA9";
    return s;
  }() + ": Nf3");
  REQUIRE(accents.has_value());
  CHECK(base::is_valid_utf8(accents->name));
}
