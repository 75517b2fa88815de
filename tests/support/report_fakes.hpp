// A small collection in memory for the tests of the writers: four games whose moments and puzzles
// cover every kind, with hostile names in one of them.
//
// Figures are invented; moves are legal. Games: Legal's mate (as in textbooks, "common practice"),
// Saavedra's ending (facts C01: 6. c8=R wins, 6. c8=Q? Rc4+ draws), a short agreed draw with the
// annotator's own variation, and a game without moments.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "kairos/report/writer.hpp"

namespace kairos::test {

class FakeCollection final : public report::Collection {
 public:
  [[nodiscard]] const report::RunFacts& facts() const override { return facts_; }
  [[nodiscard]] std::size_t size() const override { return studies.size(); }
  [[nodiscard]] study::Study load(std::size_t index) const override { return studies[index]; }
  [[nodiscard]] pgn::Game game(std::size_t index) const override { return games[index]; }
  [[nodiscard]] const std::vector<puzzle::Puzzle>& puzzles() const override { return puzzles_; }
  [[nodiscard]] const std::vector<puzzle::Puzzle>& why_nots() const override { return why_nots_; }

  [[nodiscard]] const habits::Habits* habits() const override {
    return habits_ ? &*habits_ : nullptr;
  }

  report::RunFacts facts_;
  std::optional<habits::Habits> habits_;
  std::vector<study::Study> studies;
  std::vector<pgn::Game> games;  // of the studies
  std::vector<puzzle::Puzzle> puzzles_;
  std::vector<puzzle::Puzzle> why_nots_;
};

// The four games.
FakeCollection fake_collection();
// Nothing read, nothing found.
FakeCollection empty_collection();
// `count` games with `moments` moments each, for tests of size.
FakeCollection large_collection(std::size_t count, std::size_t moments);

// Moves in SAN, separated by blanks, played from `start`.
std::vector<rules::Move> moves_of(const rules::Position& start, std::string_view san);

}  // namespace kairos::test
