#include "player_page.hpp"

#include <algorithm>

#include "kairos/base/text.hpp"
#include "kairos/habits/look_back.hpp"

#include "player_files.hpp"
#include "player_games.hpp"

namespace kairos::cli {

namespace {

// The puzzles of the habits that were named.
std::vector<puzzle::Puzzle> of_habits(const habits::Collector& collector, const PlayerGames& games,
                                      const LedgerLibrary& others) {
  std::vector<puzzle::Puzzle> puzzles;
  for (const auto& [source, index] : collector.training()) {
    puzzles.push_back(source == 0 ? games.puzzles()[index]
                                  : others.collections()[source - 1].puzzles()[index]);
  }
  return puzzles;
}

// The puzzles of habits, then what the player missed, then the rest of the games; each position
// once.
void set_training(report::PlayerPage& page, std::vector<puzzle::Puzzle> of_habits,
                  const PlayerGames& games) {
  page.training = std::move(of_habits);
  page.training_of_habits = page.training.size();
  for (const bool missed : {true, false}) {
    for (const puzzle::Puzzle& puzzle : games.puzzles()) {
      if (games.is_missed(puzzle) != missed) continue;
      const auto same =
          std::ranges::find(page.training, puzzle.position, &puzzle::Puzzle::position);
      if (same != page.training.end()) continue;
      page.training.push_back(puzzle);
      if (missed) ++page.training_missed;
    }
  }
}

// How the ledgers were studied, each way once.
std::vector<std::string> efforts_of(const LedgerLibrary& library) {
  std::vector<std::string> efforts;
  for (const LedgerCollection& ledger : library.collections()) {
    const std::string& effort = ledger.facts().settings;
    if (std::ranges::find(efforts, effort) == efforts.end()) efforts.push_back(effort);
  }
  return efforts;
}

// Of the field that the player is compared with; "" where it is none.
std::string field_words(const std::string& against) {
  if (against == by_expectation) return "";
  return against == opponents_field ? std::string(habits::opponents_words)
                                    : "the players of " + against;
}

}  // namespace

report::PlayerPage make_page(const PageSources& sources, const std::vector<std::string>& names,
                             bool files) {
  const PlayerGames games(sources.own, names);
  habits::Collector collector(sources.rule);
  collector.add(games, names, sources.against == opponents_field);
  for (const LedgerCollection& ledger : sources.others.collections()) collector.add_field(ledger);
  report::PlayerPage page{.names = names, .version = KAIROS_VERSION};
  page.habits = find_habits(collector, names, field_words(sources.against));
  page.season = habits::look_back(games, names, sources.rule);
  page.season.open_games = games.open_games();
  set_training(page, of_habits(collector, games, sources.others), games);
  page.efforts = efforts_of(sources.own);
  if (files) page.training_file = training_file;
  page.for_opponent = sources.for_opponent;
  return page;
}

std::string summary_of(const report::PlayerPage& page) {
  return base::join(page.names, " / ") + ": " + base::counted(page.season.games, "game") + ", " +
         base::counted(page.habits.habits.size(), "habit") + ", " +
         base::counted(page.training.size(), "puzzle") +
         (page.for_opponent ? "" : " to train with");
}

}  // namespace kairos::cli
