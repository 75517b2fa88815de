// kairos habits: what keeps coming back in one player's studied games, from ledgers alone.
#include "kairos/report/habits.hpp"

#include <CLI/CLI.hpp>
#include <deque>
#include <memory>

#include "kairos/base/files.hpp"
#include "kairos/base/json.hpp"
#include "kairos/base/text.hpp"
#include "kairos/batch/players.hpp"
#include "kairos/report/formats.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"

#include "command.hpp"
#include "habits_study.hpp"
#include "log.hpp"
#include "numbers.hpp"
#include "output.hpp"
#include "summary.hpp"

namespace kairos::cli {

namespace {

struct Arguments {
  std::vector<std::string> ledgers;
  std::string player;
  std::string against = "field";
  std::string training;
  double error_cost = habits::Settings{}.error_cost;
  bool json = false;
};

// Ledgers and the collections that look at them; neither may move once read.
class Library {
 public:
  base::Status read(const std::string& path) {
    base::FaultList damage;
    auto ledger = batch::Ledger::read(path, damage);
    warn_of(damage.faults);
    if (!ledger) return std::move(ledger).faults();
    if (!ledger->input()) {
      return base::Fault{base::Code::ledger_damaged, "no games were taken in", {.file = path}};
    }
    const batch::Ledger& kept = ledgers_.emplace_back(std::move(*ledger));
    collections_.emplace_back(kept, *kept.input(), LedgerCollection::Options{});
    return base::done();
  }

  [[nodiscard]] const std::deque<LedgerCollection>& collections() const { return collections_; }
  [[nodiscard]] std::vector<std::string> names() const {
    std::vector<std::string> names;
    for (const batch::Ledger& ledger : ledgers_) {
      const std::vector<std::string> more = batch::names_in(*ledger.input());
      names.insert(names.end(), more.begin(), more.end());
    }
    return names;
  }

 private:
  std::deque<batch::Ledger> ledgers_;
  std::deque<LedgerCollection> collections_;
};

// Puzzles alone, for the writers.
class PuzzleSet final : public report::Collection {
 public:
  explicit PuzzleSet(const std::vector<puzzle::Puzzle>& puzzles) : puzzles_(puzzles) {}
  [[nodiscard]] const report::RunFacts& facts() const override { return facts_; }
  [[nodiscard]] std::size_t size() const override { return 0; }
  [[nodiscard]] study::Study load(std::size_t) const override { return {}; }
  [[nodiscard]] pgn::Game game(std::size_t) const override { return {}; }
  [[nodiscard]] const std::vector<puzzle::Puzzle>& puzzles() const override { return puzzles_; }

 private:
  report::RunFacts facts_;
  const std::vector<puzzle::Puzzle>& puzzles_;
};

base::Status write_training(const std::string& file, const std::vector<puzzle::Puzzle>& puzzles) {
  auto out = base::WholeFile::open(file);
  if (!out) return std::move(out).faults();
  const PuzzleSet set(puzzles);
  for (const report::Format& format : report::formats()) {
    if (format.name != "epd") continue;
    if (auto written = format.write(set, *out); !written) return written;
  }
  return out->commit();
}

base::Json json_of(const habits::Rate& rate) {
  const base::Interval interval = rate.interval();
  base::Json json = base::Json::object();
  json.add("errors", rate.errors).add("decisions", rate.decisions).add("rate", rate.share());
  json.add("low", interval.low).add("high", interval.high);
  return json;
}

base::Json json_of(const habits::Example& e) {
  base::Json json = base::Json::object();
  json.add("game", e.game_label).add("ply", e.place.ply).add("fen", rules::to_fen(e.position));
  json.add("played", rules::to_san(e.position, e.played));
  json.add("best", rules::to_san(e.position, e.best));
  json.add("cost", e.cost).add("verified", e.verified);
  return json;
}

base::Json json_of(const std::vector<habits::Habit>& habits) {
  base::Json array = base::Json::array();
  for (const habits::Habit& habit : habits) {
    base::Json examples = base::Json::array(), puzzles = base::Json::array(),
               years = base::Json::array();
    for (const habits::Example& example : habit.examples) examples.push(json_of(example));
    for (const std::string& puzzle : habit.puzzles) puzzles.push(puzzle);
    for (const habits::Years& span : habit.years) {
      base::Json json = base::Json::object();
      json.add("first", span.first).add("last", span.last).add("rate", json_of(span.rate));
      years.push(std::move(json));
    }
    base::Json json = base::Json::object();
    json.add("habit", habit.words).add("kind_of_error", habit.is_flaw);
    json.add("player", json_of(habit.player)).add("field", json_of(habit.field));
    json.add("adjusted_p", habit.adjusted).add("shrunk_ratio", habit.times);
    json.add("more_games", habit.more_games).add("years", std::move(years));
    json.add("examples", std::move(examples)).add("puzzles", std::move(puzzles));
    array.push(std::move(json));
  }
  return array;
}

base::Json json_of(const habits::Habits& h) {
  base::Json json = base::Json::object();
  json.add("version", 1).add("player", h.player).add("field", h.field).add("games", h.games);
  json.add("circumstances", h.circumstances);
  json.add("all_player", json_of(h.player_rate)).add("all_field", json_of(h.field_rate));
  json.add("habits", json_of(h.habits)).add("strengths", json_of(h.strengths));
  json.add("unsure", json_of(h.unsure)).add("games_for_double", h.games_for_double);
  return json;
}

ExitCode run_habits(const Arguments& arguments) {
  Library own, others;
  for (const std::string& path : arguments.ledgers) {
    if (auto read = own.read(path); !read) return failed(read.faults());
  }
  const bool opponents = arguments.against == "field";
  if (!opponents) {
    if (auto read = others.read(arguments.against); !read) return failed(read.faults());
  }
  const auto names = batch::find_player(arguments.player, own.names());
  if (!names) return failed(names.faults());

  HabitsStudy study({.error_cost = arguments.error_cost});
  for (const LedgerCollection& ledger : own.collections()) study.add(ledger, *names, opponents);
  for (const LedgerCollection& ledger : others.collections()) study.add_field(ledger);
  const habits::Habits found =
      study.find(base::join(*names, " / "),
                 opponents ? std::string(opponents_words) : "the players of " + arguments.against);
  if (arguments.json) {
    Output::get().line(base::to_json(json_of(found)));
  } else {
    Output::get().text(report::habits_text(found));
  }
  if (arguments.training.empty()) return exit_done;
  if (auto written = write_training(arguments.training, study.training()); !written) {
    return failed(written.faults());
  }
  log_info(counted(study.training().size(), "puzzle") + " in " + arguments.training);
  return exit_done;
}

}  // namespace

Command register_habits(CLI::App& program) {
  CLI::App& command = add_command(
      program,
      {.name = "habits",
       .purpose = "What keeps coming back in one player's games, against the field",
       .examples = "  kairos habits spring --player \"Marrowby\"\n"
                   "  kairos habits spring autumn --player \"Marrowby\" --training mine.epd\n"});
  auto arguments = std::make_shared<Arguments>();
  command.add_option("LEDGERS", arguments->ledgers, "Ledgers of scans, or their folders")
      ->required();
  command
      .add_option("--player", arguments->player, "Whose habits; any usual way to write the name")
      ->type_name("NAME")
      ->required();
  command
      .add_option("--against", arguments->against,
                  "Compare with all players of this ledger; field: the opponents in the same games")
      ->type_name("LEDGER")
      ->capture_default_str();
  add_number(command, "--error-cost", arguments->error_cost,
             "Least loss of expectation that is an error", {.least = 0.01, .most = 1})
      ->type_name("0..1")
      ->default_str(plain_digits(arguments->error_cost));
  command
      .add_option("--training", arguments->training,
                  "Write the puzzles of the habits named to this EPD file")
      ->type_name("FILE");
  command.add_flag("--json", arguments->json, "Print one JSON object");
  return {&command, [arguments] { return run_habits(*arguments); }};
}

}  // namespace kairos::cli
