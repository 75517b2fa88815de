#include "kairos/rules/letters.hpp"

#include <catch2/catch.hpp>
#include <utility>

using namespace kairos::rules;

TEST_CASE("The letters of the men are those of the PGN standard, section 17") {
  // Pawn, knight, bishop, rook, queen, king.
  const std::pair<const char*, const char*> standard[] = {
      {"czech", "PJSVDK"},     {"danish", "BSLTDK"},     {"dutch", "OPLTDK"},
      {"english", "PNBRQK"},   {"estonian", "PROVLK"},   {"finnish", "PRLTDK"},
      {"french", "PCFTDR"},    {"german", "BSLTDK"},     {"hungarian", "GHFBVK"},
      {"icelandic", "PRBHDK"}, {"italian", "PCATDR"},    {"norwegian", "BSLTDK"},
      {"polish", "PSGWHK"},    {"portuguese", "PCBTDR"}, {"romanian", "PCNTDR"},
      {"spanish", "PCATDR"},   {"swedish", "BSLTDK"}};
  for (const auto& [name, letters] : standard) {
    INFO(name);
    const auto found = letters_named(name);
    REQUIRE(found);
    CHECK(alphabet_of(*found).letters == *found);
    std::string together;
    for (const std::string_view man : alphabet_of(*found).men) together += man;
    CHECK(together == letters);
  }
  CHECK(alphabets().size() == std::size(standard) + 2);  // Russian and the figures are ours
  CHECK_FALSE(letters_named("klingon"));
}

TEST_CASE("Every move of a text is written in the letters, and nothing else") {
  const auto german = [](std::string_view text) { return in_letters(text, Letters::german); };
  CHECK(german("12. Nf3 Qxd4+ 13. Rad1 (or Bb5) e8=Q#, then Kf1.") ==
        "12. Sf3 Dxd4+ 13. Tad1 (or Lb5) e8=D#, then Kf1.");
  CHECK(german("N1xf3 Ng1f3 Qa1xb2 exd8=N R8b7?") == "S1xf3 Sg1f3 Da1xb2 exd8=S T8b7?");
  // Names, words, FEN, castling, squares and men alone.
  for (const char* same : {"Nf3fan",
                           "fanNf3",
                           "xNf3",
                           "O-O",
                           "e4",
                           "exd5",
                           "Q",
                           "Be",
                           "R2D2",
                           "Nf9",
                           "Ni4",
                           "e8=K",
                           "Kb6/8/8/8/8/8/8/Kb6",
                           "8/Nf5/8",
                           "N",
                           "",
                           "Bishop",
                           "B e5",
                           "e7=Q",
                           "e8=",
                           "Nxx4"}) {
    CHECK(german(same) == same);
  }
  CHECK(in_letters("Nf3", Letters::english) == "Nf3");
  CHECK(in_letters("Nf3 e8=Q", Letters::figures) == "\342\231\230f3 e8=\342\231\225");
  CHECK(in_letters("Ke2", Letters::russian) == "\320\232\321\200e2");
  CHECK(in_letters("Kd1 Rd1", Letters::french) == "Rd1 Td1");
}

TEST_CASE("A text that comes in parts is written as one that comes whole") {
  const std::string text = "1. Nf3 Qxd4+, e8=Q; 8/Kb6/8 Bb5-a4 Nf3fan (Ra1xa8#)";
  const std::string whole = in_letters(text, Letters::dutch);
  for (std::size_t size = 1; size <= text.size(); ++size) {
    std::string kept, written;
    for (std::size_t at = 0; at < text.size(); at += size) {
      kept += text.substr(at, size);
      const std::size_t rest = unfinished_move(kept);
      written += in_letters(std::string_view(kept).substr(0, kept.size() - rest), Letters::dutch);
      kept.erase(0, kept.size() - rest);
    }
    CHECK(written + in_letters(kept, Letters::dutch) == whole);
  }
}
