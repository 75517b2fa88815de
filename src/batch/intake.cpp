#include "kairos/batch/intake.hpp"

#include <set>
#include <unordered_map>

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
  // When all is read.
  void find_shared_openings();
  [[nodiscard]] Input& input() { return input_; }

 private:
  base::Status take_game(pgn::Game& game, std::uint64_t number);

  Ledger& ledger_;
  const std::atomic<bool>& stop_;
  Input input_;
  std::set<GameKey> seen_;
  // Of each game the positions that its first moves led to, and in how many games each stood.
  std::vector<std::vector<std::uint32_t>> openings_;
  std::unordered_map<std::uint32_t, int> visits_;
};

std::vector<std::uint32_t> first_positions(const pgn::Game& game) {
  std::vector<std::uint32_t> positions;
  rules::Position p = game.start;
  for (const rules::Move move : pgn::main_line_moves(game)) {
    if (positions.size() == static_cast<std::size_t>(opening_plies)) break;
    p.play(move);
    positions.push_back(static_cast<std::uint32_t>(p.key() >> 32));
  }
  return positions;
}

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
  openings_.push_back(first_positions(game));
  for (const std::uint32_t position : openings_.back()) ++visits_[position];
  return mine && !ledger_.has_game(key) ? ledger_.put_game(key, text) : base::done();
}

void Intake::find_shared_openings() {
  for (std::size_t i = 0; i < openings_.size(); ++i) {
    int& shared = input_.games[i].shared_plies;
    for (const std::uint32_t position : openings_[i]) {
      if (visits_[position] < many_games) break;
      ++shared;
    }
  }
}

}  // namespace

base::Result<Input> take_in(const std::vector<std::string>& files, Ledger& ledger,
                            const std::atomic<bool>& stop) {
  if (files.empty()) return base::Fault{base::Code::no_games, "there is no file to read", {}};
  Intake intake(ledger, stop);
  for (const std::string& file : files) {
    if (auto taken = intake.take_file(file); !taken) return std::move(taken).faults();
  }
  intake.find_shared_openings();
  Input& input = intake.input();
  input.complete = !stop.load();
  if (input.games.empty() && input.complete && !input.faults.empty()) {
    return std::move(input.faults);
  }
  return std::move(input);
}

}  // namespace kairos::batch
