#include "ledger_collection.hpp"

#include <algorithm>

#include "kairos/base/text.hpp"
#include "kairos/batch/schedule.hpp"
#include "kairos/report/words.hpp"
#include "kairos/study/told.hpp"

#include "log.hpp"
#include "output.hpp"

namespace kairos::cli {

namespace {

template <typename T>
T value_or_throw(base::Result<T> result) {
  if (!result) throw OutputFailed{result.fault()};
  return std::move(result).value();
}

}  // namespace

LedgerCollection::LedgerCollection(const batch::Ledger& ledger, const batch::Input& input,
                                   Options options)
    : ledger_(ledger), input_(input), options_(std::move(options)) {
  facts_.version = ledger.header().version;
  facts_.settings = report::settings_words(ledger.header().settings);
  facts_.games_in_input = input.games_total;
  facts_.games_skipped = input.skipped();
  facts_.player = base::join(options_.focus.names, " / ");
  facts_.faults = input.faults;
  facts_.bare_pgn = options_.bare_pgn;
  facts_.level = options_.level > 0 ? options_.level : study::unrated;
  const batch::Schedule::Counts counts = batch::Schedule(input, ledger, options_.focus).counts();
  facts_.games_open = counts.games - counts.surveyed;
  facts_.candidates_open = counts.candidates - counts.verified;
  for (std::size_t i = 0; i < input.games.size(); ++i) {
    const batch::InputGame& game = input.games[i];
    if (!options_.focus.holds(game) || !ledger.has_survey(game.key)) continue;
    games_.push_back(i);
    count(game);
    if (puzzles_.size() > 2 * most_kept) keep_best();
  }
  keep_best();
  for (const auto& [drop, times] : drops_) {
    facts_.puzzle_drops.emplace_back(report::words(drop), times);
  }
  if (puzzles_beyond_ > 0) {
    facts_.puzzle_drops.emplace_back("not among the " + base::grouped(most_kept) + " best",
                                     puzzles_beyond_);
  }
  arrange();
}

void LedgerCollection::arrange() {
  const auto why_nots =
      std::stable_partition(puzzles_.begin(), puzzles_.end(),
                            [](const puzzle::Puzzle& puzzle) { return !puzzle.avoided; });
  why_nots_.assign(std::make_move_iterator(why_nots), std::make_move_iterator(puzzles_.end()));
  puzzles_.erase(why_nots, puzzles_.end());
  puzzles_ = puzzle::arrange(std::move(puzzles_), options_.most_puzzles, facts_.level);
  why_nots_ = puzzle::arrange(std::move(why_nots_), options_.most_puzzles, facts_.level);
}

bool LedgerCollection::is_wanted(const batch::InputGame& game, const puzzle::Puzzle& puzzle) const {
  if (!options_.puzzles_from.holds(game)) return false;
  if (options_.asked == Asked::any) return true;
  return !puzzle.avoided && puzzle.found == (options_.asked == Asked::found);
}

std::vector<batch::Findings> LedgerCollection::findings_of(const batch::InputGame& game) const {
  std::vector<batch::Findings> all;
  for (const int ply : ledger_.plies(game.key)) {
    if (!batch::is_open_to_moments(ledger_, game, options_.focus, ply)) continue;
    all.push_back(value_or_throw(ledger_.findings(game.key, ply)));
  }
  return all;
}

void LedgerCollection::count(const batch::InputGame& game) {
  facts_.nodes += ledger_.survey_nodes(game.key);
  for (batch::Findings& findings : findings_of(game)) {
    facts_.nodes += findings.nodes;
    for (puzzle::Puzzle& puzzle : findings.puzzles) {
      puzzle.game = game.number;
      if (is_wanted(game, puzzle)) puzzles_.push_back(std::move(puzzle));
    }
    for (const puzzle::Drop drop : findings.drops) ++drops_[drop];
  }
  const study::Study study = load(games_.size() - 1);
  for (const study::Moment& moment : study.moments) {
    ++moments_[static_cast<std::size_t>(moment.kind)];
  }
  if (options_.level == 0 && options_.puzzles_from.holds(game)) add_ratings(study.facts);
}

// The level is the mean so far. While games are being read that matters only where there are more
// puzzles than are kept.
void LedgerCollection::add_ratings(const study::GameFacts& facts) {
  for (const int rating : {facts.white_elo, facts.black_elo}) {
    if (rating == 0) continue;
    ratings_ += rating;
    ++rated_;
  }
  if (rated_ > 0) facts_.level = static_cast<int>((ratings_ + rated_ / 2) / rated_);
}

void LedgerCollection::keep_best() {
  if (puzzles_.size() <= most_kept) return;
  puzzles_beyond_ += puzzles_.size() - most_kept;
  puzzle::keep_best(puzzles_, most_kept, facts_.level);
}

study::Study LedgerCollection::load(std::size_t index) const {
  const batch::InputGame& game = input_.games[games_[index]];
  study::Study study = value_or_throw(ledger_.survey(game.key));
  study.facts.file = input_.files[game.file];
  study.facts.line = game.line;
  study.facts.number = game.number;
  for (batch::Findings& findings : findings_of(game)) {
    for (study::Moment& moment : findings.moments) study.moments.push_back(std::move(moment));
  }
  study::tell(study);
  return study;
}

pgn::Game LedgerCollection::game(std::size_t index) const {
  return value_or_throw(ledger_.scoresheet(input_.games[games_[index]].key))->game;
}

std::vector<habits::Source::PuzzlePlace> LedgerCollection::puzzle_places() const {
  std::vector<PuzzlePlace> places;
  for (const puzzle::Puzzle& p : puzzles_) {
    places.push_back({p.game, p.ply, puzzle::id_of(p), p.position});
  }
  return places;
}

std::uint64_t LedgerCollection::open_places(std::size_t index) const {
  const batch::InputGame& game = input_game(index);
  const std::vector<int> done = ledger_.plies(game.key);
  std::uint64_t open = 0;
  for (const study::Candidate& candidate : ledger_.candidates(game.key)) {
    if (!batch::is_open_to_moments(ledger_, game, options_.focus, candidate.ply)) continue;
    if (!std::binary_search(done.begin(), done.end(), candidate.ply)) ++open;
  }
  return open;
}

habits::Habits find_habits(habits::Collector& collector, const std::vector<std::string>& names,
                           const std::string& field) {
  if (collector.is_full()) {
    log_warning("habits are told by the first " + base::counted(collector.games(), "game") +
                " of the player and " + base::grouped(collector.field_decisions()) +
                " decisions of the field: more change nothing");
  }
  const std::string player = base::join(names, " / ");
  return field.empty() ? collector.find_by_expectation(player) : collector.find(player, field);
}

habits::Habits habits_in(const LedgerCollection& ledger, const std::vector<std::string>& names) {
  habits::Collector collector({});
  collector.add(ledger, names, false);
  return find_habits(collector, names, "");
}

}  // namespace kairos::cli
