#include "kairos/batch/intake.hpp"

#include <algorithm>
#include <map>

#include "kairos/base/text.hpp"
#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/replay.hpp"
#include "kairos/pgn/same_game.hpp"
#include "kairos/pgn/writer.hpp"

namespace kairos::batch {

namespace {

class Intake {
 public:
  Intake(Ledger& ledger, const std::atomic<bool>& stop) : ledger_(ledger), stop_(stop) {}

  base::Status take_file(const std::string& file);
  // When all is read.
  Input finish();

 private:
  base::Status take_game(pgn::Game& game, std::uint64_t number);
  void fail(base::Fault fault);
  void report_repeat(const base::Place& place, const InputGame& first);
  void find_shared_openings();

  Ledger& ledger_;
  const std::atomic<bool>& stop_;
  Input input_;
  base::FaultList faults_;
  std::optional<base::Fault> late_failure_;
  std::uint64_t beyond_ = 0;  // games behind the last that is kept
  base::Place first_beyond_;
  std::map<std::uint64_t, std::size_t> seen_;  // identities; where in Input::games
  // The positions that the first moves of each game led to, of one game after the other, and where
  // those of each end.
  std::vector<std::uint32_t> openings_;
  std::vector<std::size_t> opening_ends_;
};

void add_first_positions(const pgn::Game& game, std::vector<std::uint32_t>& positions) {
  const std::size_t end = positions.size() + static_cast<std::size_t>(opening_plies);
  rules::Position p = game.start;
  for (const rules::Move move : pgn::main_line_moves(game)) {
    if (positions.size() == end) break;
    p.play(move);
    positions.push_back(static_cast<std::uint32_t>(p.key() >> 32));
  }
}

base::Status Intake::take_file(const std::string& file) {
  auto source = pgn::open_games(file);
  if (!source) return std::move(source).faults();
  const std::string name = file == "-" ? "standard input" : file;
  pgn::Reader reader(**source, name, faults_);
  input_.files.push_back(name);
  const std::uint64_t before = input_.games_total;
  pgn::Game game;
  while (!stop_.load()) {
    const bool more = reader.next(game);
    input_.games_total = before + reader.games();
    if (!more) break;
    if (auto taken = take_game(game, before + game.place.game); !taken) return taken;
  }
  if (reader.failure()) {
    fail(*reader.failure());
  } else if (reader.games() == 0 && !stop_.load()) {
    fail({reader.bytes() == 0 ? base::Code::file_empty : base::Code::no_games, "", {.file = name}});
  }
  return base::done();
}

// How the run ends hangs on it, so one is kept even when the list is full.
void Intake::fail(base::Fault fault) {
  if (faults_.more > 0 && !late_failure_) {
    late_failure_ = std::move(fault);
  } else {
    faults_.report(std::move(fault));
  }
}

void Intake::report_repeat(const base::Place& place, const InputGame& first) {
  ++input_.repeats;
  faults_.report({base::Code::duplicate_game,
                  "as at " + input_.files[first.file] + ":" +
                      base::number(static_cast<std::int64_t>(first.line)) + ", " + first.white +
                      " - " + first.black,
                  place});
}

base::Status Intake::take_game(pgn::Game& game, std::uint64_t number) {
  if (input_.games.size() == most_games) {
    if (beyond_++ == 0) first_beyond_ = game.place;
    return base::done();
  }
  const pgn::Replay replay = pgn::replay(game, faults_);
  if (replay.fault) faults_.report(*replay.fault);
  if (replay.state == pgn::Replay::State::refused) return base::done();
  const std::string text = pgn::to_pgn(game);
  const GameKey key = key_of(text);
  const std::uint64_t identity = pgn::identity_of(game);
  const auto [first, is_new] =
      seen_.emplace(identity == 0 ? key.hash : identity, input_.games.size());
  if (!is_new) {
    report_repeat(game.place, input_.games[first->second]);
    return base::done();
  }
  const bool is_mine = ledger_.header().part.holds(input_.games.size());
  const auto name = [&game](std::string_view side) {
    return std::string(base::cut(game.tag(side), study::longest_fact));
  };
  input_.games.push_back({.key = key,
                          .number = number,
                          .file = static_cast<std::uint32_t>(input_.files.size() - 1),
                          .line = game.place.line,
                          .white = name("White"),
                          .black = name("Black")});
  add_first_positions(game, openings_);
  opening_ends_.push_back(openings_.size());
  if (!is_mine) return base::done();
  ledger_.keep_parsed(key, pgn::exported(std::move(game)));
  return ledger_.has_game(key) ? base::done() : ledger_.put_game(key, text);
}

void Intake::find_shared_openings() {
  std::vector<std::uint32_t> sorted = openings_;
  std::sort(sorted.begin(), sorted.end());
  const auto visits = [&sorted](std::uint32_t position) {
    const auto range = std::equal_range(sorted.begin(), sorted.end(), position);
    return range.second - range.first;
  };
  std::size_t at = 0;
  for (std::size_t i = 0; i < opening_ends_.size(); ++i) {
    int& shared = input_.games[i].shared_plies;
    for (; at < opening_ends_[i] && visits(openings_[at]) >= many_games; ++at) ++shared;
    at = opening_ends_[i];
  }
}

Input Intake::finish() {
  find_shared_openings();
  if (beyond_ > 0) {
    input_.faults.push_back({base::Code::too_many_games,
                             "the first " + base::grouped(most_games) + " are studied, " +
                                 base::grouped(beyond_) + " passed over from here on",
                             first_beyond_});
  }
  for (base::Fault& fault : std::move(faults_).all()) input_.faults.push_back(std::move(fault));
  if (late_failure_) input_.faults.push_back(std::move(*late_failure_));
  return std::move(input_);
}

}  // namespace

base::Result<Input> take_in(const std::vector<std::string>& files, Ledger& ledger,
                            const std::atomic<bool>& stop) {
  if (files.empty()) return base::Fault{base::Code::no_games, "there is no file to read", {}};
  Intake intake(ledger, stop);
  for (const std::string& file : files) {
    if (auto taken = intake.take_file(file); !taken) return std::move(taken).faults();
  }
  Input input = intake.finish();
  input.complete = !stop.load();
  if (input.games.empty() && input.complete && !input.faults.empty()) {
    return std::move(input.faults);
  }
  return input;
}

}  // namespace kairos::batch
