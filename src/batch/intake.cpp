#include "kairos/batch/intake.hpp"

#include <set>

#include "kairos/base/text.hpp"
#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/replay.hpp"
#include "kairos/pgn/writer.hpp"

namespace kairos::batch {

namespace {

class Intake {
 public:
  Intake(Ledger& ledger, const std::atomic<bool>& stop) : ledger_(ledger), stop_(stop) {}

  base::Status take_file(const std::string& file);
  [[nodiscard]] Input& input() { return input_; }

 private:
  base::Status take_game(pgn::Game& game, std::uint64_t number);

  Ledger& ledger_;
  const std::atomic<bool>& stop_;
  Input input_;
  std::set<GameKey> seen_;
};

base::Status Intake::take_file(const std::string& file) {
  auto source = pgn::open_games(file);
  if (!source) return std::move(source).faults();
  const std::string name = file == "-" ? "standard input" : file;
  base::FaultList found;
  pgn::Reader reader(**source, name, found);
  input_.files.push_back(name);
  const std::uint64_t before = input_.games_total;
  pgn::Game game;
  for (bool more = true; more && !stop_.load();) {
    more = reader.next(game);
    input_.faults.insert(input_.faults.end(), found.faults.begin(), found.faults.end());
    found.faults.clear();
    input_.games_total = before + reader.games();
    if (!more) break;
    if (auto taken = take_game(game, before + game.place.game); !taken) return taken;
  }
  if (reader.failure()) {
    input_.faults.push_back(*reader.failure());
  } else if (reader.games() == 0 && !stop_.load()) {
    const auto code = reader.bytes() == 0 ? base::Code::file_empty : base::Code::no_games;
    input_.faults.push_back({code, "", {.file = name}});
  }
  return base::done();
}

base::Status Intake::take_game(pgn::Game& game, std::uint64_t number) {
  base::FaultList found;
  const pgn::Replay replay = pgn::replay(game, found);
  input_.faults.insert(input_.faults.end(), found.faults.begin(), found.faults.end());
  if (replay.fault) input_.faults.push_back(*replay.fault);
  if (replay.state == pgn::Replay::State::refused) return base::done();
  const std::string text = pgn::to_pgn(game);
  const GameKey key = key_of(text);
  if (!seen_.insert(key).second) {
    input_.faults.push_back({base::Code::duplicate_game, "", game.place});
    return base::done();
  }
  const bool mine = ledger_.header().part.holds(input_.games.size());
  input_.games.push_back({.key = key,
                          .number = number,
                          .file = static_cast<std::uint32_t>(input_.files.size() - 1),
                          .line = game.place.line,
                          .white = std::string(game.tag("White")),
                          .black = std::string(game.tag("Black"))});
  return mine && !ledger_.has_game(key) ? ledger_.put_game(key, text) : base::done();
}

}  // namespace

base::Result<Input> take_in(const std::vector<std::string>& files, Ledger& ledger,
                            const std::atomic<bool>& stop) {
  if (files.empty()) return base::Fault{base::Code::no_games, "there is no file to read", {}};
  Intake intake(ledger, stop);
  for (const std::string& file : files) {
    if (auto taken = intake.take_file(file); !taken) return std::move(taken).faults();
  }
  Input& input = intake.input();
  input.complete = !stop.load();
  if (input.games.empty() && input.complete && !input.faults.empty()) {
    return std::move(input.faults);
  }
  return std::move(input);
}

}  // namespace kairos::batch
