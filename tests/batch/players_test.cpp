// How people write names: common practice in tournament files. The players are invented.
#include "kairos/batch/players.hpp"

#include <catch2/catch.hpp>

using kairos::base::Code;
using kairos::batch::find_player;
using Names = std::vector<std::string>;

namespace {

const Names field = {"Rosin, Ada",
                     "Rosin, A.",
                     "Ada Rosin",
                     "GM Rosin, Ada",
                     "Marek, Tom\xC3\xA1\xC5\xA1",
                     "Bellini, Gia",
                     "Bellini, Luca",
                     "Or, Y",
                     "van der Berg, Jan",
                     "O'Neil, Sean",
                     "?",
                     ""};

Names found(std::string_view wanted) {
  const auto names = find_player(wanted, field);
  INFO(wanted);
  REQUIRE(names.ok());
  return *names;
}

}  // namespace

TEST_CASE("all usual ways to write one name mean one player") {
  const Names ada = {"Ada Rosin", "GM Rosin, Ada", "Rosin, A.", "Rosin, Ada"};
  for (const char* wanted : {"Rosin, Ada", "ada rosin", "ROSIN", "rosin a", "IM Rosin, Ada"}) {
    CHECK(found(wanted) == ada);
  }
  CHECK(found("Marek, Tomas") == Names{"Marek, Tom\xC3\xA1\xC5\xA1"});
  CHECK(found("tom\xC3\xA1\xC5\xA1 marek") == Names{"Marek, Tom\xC3\xA1\xC5\xA1"});
  CHECK(found("Van Der Berg") == Names{"van der Berg, Jan"});
  CHECK(found("ONeil") == Names{"O'Neil, Sean"});
  CHECK(found("Or, Y") == Names{"Or, Y"});
}

TEST_CASE("two people of one name are listed and none is taken") {
  const auto both = find_player("Bellini", field);
  REQUIRE_FALSE(both.ok());
  CHECK(both.fault().code == Code::usage);
  CHECK(both.fault().detail.find("Bellini, Gia; Bellini, Luca") != std::string::npos);
  CHECK(found("Bellini, L") == Names{"Bellini, Luca"});
}

TEST_CASE("a name asked for exactly is taken even when others are like it") {
  const Names names = {"Bellini", "Bellini, Gia", "Bellini, Luca"};
  CHECK(find_player("Bellini", names).value() == Names{"Bellini"});
}

TEST_CASE("an initial that may be somebody else is left out") {
  const Names names = {"Bellini, Gia", "Bellini, G.", "Bellini, Greta"};
  CHECK(find_player("Bellini, Gia", names).value() == Names{"Bellini, Gia"});
  CHECK(find_player("Bellini, Gia", {"Bellini, Gia", "Bellini, G."}).value() ==
        Names{"Bellini, G.", "Bellini, Gia"});
}

TEST_CASE("part of a word, initials alone and nothing are no name") {
  for (const char* wanted : {"Ros", "A", "a. r.", "", "?", "Rosina", "GM"}) {
    CAPTURE(wanted);
    const auto names = find_player(wanted, {"Rosin, Ada", "Aaron, Rob"});
    REQUIRE_FALSE(names.ok());
    CHECK(names.fault().code == Code::usage);
  }
}

TEST_CASE("a name that stands there in more ways than people write one is not taken for one") {
  Names many;
  for (std::size_t i = 0; i < 150; ++i) many.push_back("Rosin" + std::string(1 + i, ',') + " Ada");
  const auto refused = find_player("rosin", many);
  REQUIRE_FALSE(refused.ok());
  CHECK(refused.fault().code == Code::usage);
  CHECK(find_player(many[7], many).value() == Names{many[7]});
  many.resize(90);
  CHECK(find_player("rosin", many).value().size() == 90);
}
