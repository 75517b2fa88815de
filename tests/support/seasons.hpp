// Small studies with invented figures for tests of a season: a game of ten moves with the moments
// that a test puts into it, and what a season made of such games has at which places.
#pragma once

#include "kairos/habits/look_back.hpp"

#include "support/games.hpp"

namespace kairos::test {

using study::Kind, study::Moment, study::Study;

inline constexpr const char* player = "Amber, Ida";
inline constexpr const char* opponent = "Birch, Jon";

// In centipawns of the side to move; by the curve 93 %, 70 %, 50 %, 30 %, 7 %.
inline constexpr search::Score won = 270, better = 87, level = 0, worse = -87, lost = -270;

// Not played in the games below.
inline rules::Move other_move() {
  return support::line(rules::Position::start(), "a3").front();
}

class FakeSource final : public habits::Source {
 public:
  explicit FakeSource(std::vector<Study> studies) : studies_(std::move(studies)) {}
  [[nodiscard]] std::size_t size() const override { return studies_.size(); }
  [[nodiscard]] Study load(std::size_t index) const override {
    ++loads;
    return studies_[index];
  }
  [[nodiscard]] std::vector<PuzzlePlace> puzzle_places() const override { return {}; }
  [[nodiscard]] std::uint64_t open_places(std::size_t index) const override { return index; }
  mutable std::size_t loads = 0;

 private:
  std::vector<Study> studies_;
};

// Ten moves of each side, the player White.
inline Study game(const std::string& result, std::vector<Moment> moments) {
  Study study;
  study.moves = support::line(study.start,
                              "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7 Re1 b5 Bb3 d6 c3 O-O h3 Nb8 "
                              "d4 Nbd7");
  study.notes.resize(study.moves.size() + 1);
  study.facts.white = player;
  study.facts.black = opponent;
  study.facts.result = result;
  for (Moment& m : moments) {
    const auto ply = static_cast<std::size_t>(m.ply);
    m.position = study::position_after(study, ply);
    if (ply < study.moves.size()) m.played = study.moves[ply];
    if (m.found) m.best = m.played;
  }
  study.moments = std::move(moments);
  return study;
}

inline Moment fell(Kind kind, int ply, search::Score best, search::Score played) {
  Moment m;
  m.kind = kind;
  m.ply = ply;
  m.best_score = m.second_score = best;
  m.played_score = played;
  return m;
}

inline Moment swing(int ply, search::Score best, search::Score played) {
  return fell(Kind::swing, ply, best, played);
}

// Of which the costliest step, the middle one, stands at `ply`.
inline Moment slide(int ply, search::Score from, search::Score best, search::Score played,
                    search::Score to) {
  Moment m = fell(Kind::slide, ply, best, played);
  const rules::Position any = rules::Position::start();
  m.steps = {
      {ply - 2, any, {}, from, best}, {ply, any, {}, best, played}, {ply + 2, any, {}, played, to}};
  return m;
}

inline Moment ask(Kind kind, int ply, bool found, int find_rate) {
  Moment m = fell(kind, ply, level, level);
  m.found = found;
  m.find_rate = find_rate;
  m.second_score = lost;
  return m;
}

inline Moment trap(int ply, search::Score tempting) {
  Moment m = fell(Kind::trap, ply, level, level);
  m.tempting = other_move();
  m.tempting_score = tempting;
  return m;
}

inline habits::Season season_of(std::vector<Study> studies) {
  return habits::look_back(FakeSource(std::move(studies)), {player});
}

// "0:4" for a decision of the first game of the table: in which study, after how many half-moves.
inline std::string places(const habits::Season& season, const habits::List& list) {
  std::string text;
  for (const habits::Entry& entry : list.entries) {
    const Study& study = season.studies.at(entry.study);
    text += (text.empty() ? "" : " ") + std::to_string(study.facts.number) + ":" +
            std::to_string(entry.ply);
    if (entry.answer_ply >= 0) text += "+" + std::to_string(entry.answer_ply);
  }
  return text;
}

inline std::vector<Study> numbered(std::vector<Study> studies) {
  for (std::size_t i = 0; i < studies.size(); ++i) studies[i].facts.number = i;
  return studies;
}

}  // namespace kairos::test
