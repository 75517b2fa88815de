// The player's own notes: those that do not stand are told by how wrong they are, the worst first.
#include <catch2/catch.hpp>

#include "kairos/report/brief.hpp"

#include "support/report_fakes.hpp"

using namespace kairos;
using study::Assertion;
using study::Moment;

namespace {

// The claim of the fake game with a sign that says so of its move, worth `made` to its side.
Moment claimed(Moment claim, Assertion assertion, std::optional<rules::Color> favours,
               search::Score best, search::Score made) {
  claim.best_score = best;
  claim.played_score = made;
  study::Reason& reason = claim.reasons.front();
  reason.assertion = assertion;
  reason.favours = favours;
  return claim;
}

// The words of each note in the order in which they are told.
std::vector<std::string> told(const std::vector<Moment>& claims) {
  test::FakeCollection collection = test::fake_collection();
  study::Study& study = collection.studies[2];
  study.moments = claims;
  const std::string text = report::brief_text(collection, 2, 1000);
  std::vector<std::string> notes;
  for (std::size_t at = 0; (at = text.find("  * ", at)) != std::string::npos; ++at) {
    const auto from = text.find(" is ", at) + 4;
    notes.push_back(text.substr(from, text.find(" in the notes", from) - from));
  }
  return notes;
}

}  // namespace

TEST_CASE("wrong notes are told by what the verdict holds against them, the largest first") {
  const study::Study game = test::fake_collection().studies[2];
  const Moment* claim = nullptr;
  for (const Moment& m : game.moments) {
    if (m.kind == study::Kind::claim) claim = &m;
  }
  REQUIRE(claim != nullptr);
  const rules::Color side = claim->position.side_to_move();
  const Moment good = claimed(*claim, Assertion::good_move, {}, 60, -60);      // costs 0.29
  const Moment level = claimed(*claim, Assertion::level, {}, 300, 300);        // 0.45 off
  const Moment better = claimed(*claim, Assertion::better, side, -100, -100);  // 0.73 to the other
  const Moment won = claimed(*claim, Assertion::won, ~side, -60, -60);         // 0.36 to this side
  const std::string mine = side == rules::white ? "White" : "Black";
  const std::string other = side == rules::white ? "Black" : "White";
  const std::vector<std::string> wanted = {"called better for " + mine, "called level",
                                           "called won for " + other, "marked as good"};
  CHECK(told({good, level, better, won}) == wanted);
  CHECK(told({won, better, level, good}) == wanted);
}
