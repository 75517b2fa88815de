#include "ledger_collection.hpp"

#include <algorithm>
#include <map>

#include "kairos/base/text.hpp"
#include "kairos/batch/schedule.hpp"
#include "kairos/report/words.hpp"

#include "output.hpp"

namespace kairos::cli {

namespace {

template <typename T>
T value_or_throw(base::Result<T> result) {
  if (!result) throw OutputFailed{result.fault()};
  return std::move(result).value();
}

std::map<std::string, std::string> values_of(const std::string& settings) {
  std::map<std::string, std::string> values;
  for (const std::string_view word : base::fields(settings)) {
    const auto at = word.find('=');
    if (at == std::string_view::npos) continue;
    values.emplace(word.substr(0, at), word.substr(at + 1));
  }
  return values;
}

std::string nodes_words(const std::string& nodes) {
  return base::grouped(static_cast<std::uint64_t>(base::to_integer(nodes).value_or(0)));
}

std::string effort_words(const std::map<std::string, std::string>& values) {
  using study::EffortName;
  const std::string survey = values.at("survey"), verify = values.at("verify"),
                    puzzle = values.at("puzzle");
  std::string name = "own";
  for (const auto effort : {EffortName::light, EffortName::steady, EffortName::deep}) {
    study::Settings settings;
    settings.effort = study::effort_of(effort);
    const auto usual = values_of(study::to_text(settings));
    if (usual.at("survey") == survey && usual.at("verify") == verify &&
        usual.at("puzzle") == puzzle) {
      name = study::to_string(effort);
    }
  }
  return name + " (" + nodes_words(survey) + " nodes for each position, " + nodes_words(verify) +
         " to verify a moment, " + nodes_words(puzzle) + " to check a puzzle)";
}

}  // namespace

std::string settings_words(const std::string& settings) {
  auto values = values_of(settings);
  if (!values.contains("survey") || !values.contains("verify") || !values.contains("puzzle")) {
    return settings;
  }
  std::string text = effort_words(values);
  const auto usual = values_of(study::to_text({}));
  for (const auto& [name, value] : values) {
    const auto at = usual.find(name);
    if (name == "survey" || name == "verify" || name == "puzzle") continue;
    if (at == usual.end() || at->second != value) text.append("; ").append(name) += " " + value;
  }
  return text;
}

LedgerCollection::LedgerCollection(const batch::Ledger& ledger, const batch::Input& input,
                                   Options options)
    : ledger_(ledger), input_(input), options_(std::move(options)) {
  facts_.version = ledger.header().version;
  facts_.settings = settings_words(ledger.header().settings);
  facts_.games_in_input = input.games_total;
  facts_.games_skipped = input.skipped();
  facts_.player = base::join(options_.focus.names, " / ");
  facts_.faults = input.faults;
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
  puzzles_ = puzzle::arrange(std::move(puzzles_), options_.most_puzzles);
}

bool LedgerCollection::is_wanted(const batch::InputGame& game, const puzzle::Puzzle& puzzle) const {
  if (!options_.puzzles_from.holds(game)) return false;
  if (options_.asked == Asked::any) return true;
  const bool asked = puzzle.kind != study::Kind::trap && puzzle.kind != study::Kind::claim;
  return asked && puzzle.found == (options_.asked == Asked::found);
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
    for (const study::Moment& moment : findings.moments) {
      ++moments_[static_cast<std::size_t>(moment.kind)];
    }
    for (puzzle::Puzzle& puzzle : findings.puzzles) {
      puzzle.game = game.number;
      if (is_wanted(game, puzzle)) puzzles_.push_back(std::move(puzzle));
    }
    for (const puzzle::Drop drop : findings.drops) ++drops_[drop];
  }
}

void LedgerCollection::keep_best() {
  if (puzzles_.size() <= most_kept) return;
  puzzles_beyond_ += puzzles_.size() - most_kept;
  puzzle::keep_best(puzzles_, most_kept);
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
  std::stable_sort(study.moments.begin(), study.moments.end(),
                   [](const study::Moment& a, const study::Moment& b) {
                     return a.ply != b.ply ? a.ply < b.ply : a.kind < b.kind;
                   });
  return study;
}

pgn::Game LedgerCollection::game(std::size_t index) const {
  return value_or_throw(ledger_.scoresheet(input_.games[games_[index]].key))->game;
}

}  // namespace kairos::cli
