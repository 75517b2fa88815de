#include "kairos/pgn/nag.hpp"

#include <catch2/catch.hpp>
#include <set>
#include <string>

using namespace kairos::pgn;

TEST_CASE("marks and NAGs 1 to 6 are the same thing (PGN standard, section 10)") {
  const char* const marks[] = {"!", "?", "!!", "??", "!?", "?!"};
  for (std::uint8_t nag = 1; nag <= 6; ++nag) {
    CHECK(nag_of_suffix(marks[nag - 1]) == nag);
    CHECK(suffix_of_nag(nag) == marks[nag - 1]);
  }
  CHECK_FALSE(nag_of_suffix(""));
  CHECK_FALSE(nag_of_suffix("!!!"));
  CHECK(suffix_of_nag(0).empty());
  CHECK(suffix_of_nag(7).empty());
}

TEST_CASE("NAGs 0 to 139 have meanings of their own, the others none") {
  std::set<std::string_view> meanings;
  for (int nag = 0; nag <= 139; ++nag) {
    CHECK(meanings.insert(meaning_of_nag(static_cast<std::uint8_t>(nag))).second);
  }
  CHECK(meanings.count("") == 0);
  for (int nag = 140; nag <= 255; ++nag) {
    CHECK(meaning_of_nag(static_cast<std::uint8_t>(nag)).empty());
  }
}

TEST_CASE("from 14 to 139 even NAGs speak of White and odd ones say the same of Black") {
  const auto with_colours_swapped = [](std::string text) {
    std::string swapped;
    for (std::size_t at = 0; at < text.size();) {
      const bool white = text.compare(at, 5, "White") == 0;
      const bool black = text.compare(at, 5, "Black") == 0;
      swapped += white ? "Black" : black ? "White" : text.substr(at, 1);
      at += white || black ? 5 : 1;
    }
    return swapped;
  };
  for (int nag = 14; nag <= 138; nag += 2) {
    const std::string white(meaning_of_nag(static_cast<std::uint8_t>(nag)));
    const std::string black(meaning_of_nag(static_cast<std::uint8_t>(nag + 1)));
    INFO(nag);
    CHECK(white.find("White") == 0);
    CHECK(with_colours_swapped(white) == black);
  }
}
