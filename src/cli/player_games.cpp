#include "player_games.hpp"

#include <algorithm>

#include "kairos/batch/players.hpp"
#include "kairos/pgn/same_game.hpp"
#include "kairos/puzzle/compose.hpp"

namespace kairos::cli {

namespace {

bool holds(const std::vector<std::string>& names, const std::string& name) {
  return std::ranges::find(names, name) != names.end();
}

// Of a game that was studied under two spellings of the player's name the same.
std::uint64_t identity_of(const study::Study& study, rules::Color side, const std::string& name) {
  const bool white = side == rules::white;
  return pgn::identity_of(study.start, study.moves, white ? name : study.facts.white,
                          white ? study.facts.black : name);
}

base::Status check_one_person(const std::vector<std::string>& names, const LedgerLibrary& library) {
  for (const LedgerCollection& ledger : library.collections()) {
    for (const batch::InputGame& game : ledger.input().games) {
      if (game.white == game.black || !holds(names, game.white) || !holds(names, game.black)) {
        continue;
      }
      return base::Fault{base::Code::usage,
                         "\"" + game.white + "\" and \"" + game.black +
                             "\" play each other, so they are two people",
                         {}};
    }
  }
  return base::done();
}

}  // namespace

base::Result<std::vector<std::string>> find_names(const std::string& wanted,
                                                  const std::vector<std::string>& also,
                                                  const LedgerLibrary& library) {
  const std::vector<std::string> all = library.names();
  auto names = batch::find_player(wanted, all);
  for (const std::string& other : also) {
    if (!names) return names;
    auto more = batch::find_player(other, all);
    if (!more) return more;
    names->insert(names->end(), more->begin(), more->end());
  }
  if (!names) return names;
  std::ranges::sort(*names);
  names->erase(std::unique(names->begin(), names->end()), names->end());
  if (auto one = check_one_person(*names, library); !one) return std::move(one).faults();
  return names;
}

PlayerGames::PlayerGames(const LedgerLibrary& library, std::vector<std::string> names)
    : names_(std::move(names)) {
  std::uint64_t offset = 0;
  for (const LedgerCollection& ledger : library.collections()) {
    add(ledger, offset);
    offset += ledger.input().games_total;
  }
  count_open(library);
  arrange();
}

void PlayerGames::add(const LedgerCollection& ledger, std::uint64_t offset) {
  const std::size_t first = games_.size();
  for (std::size_t i = 0; i < ledger.size(); ++i) {
    const batch::InputGame& game = ledger.input_game(i);
    if (!holds(names_, game.white) && !holds(names_, game.black)) continue;
    const study::Study study = ledger.load(i);
    const auto side = habits::side_of(study.facts, names_);
    if (!side || study.moves.empty()) continue;
    studied_.insert(game.key);
    if (!seen_.insert(identity_of(study, *side, names_.front())).second) continue;
    games_.push_back({&ledger, i, offset, game.number + offset, *side});
    if (const int elo = study::elo_of(study.facts, *side); elo > 0) {
      ratings_ += elo;
      ++rated_;
    }
  }
  for (const puzzle::Puzzle& puzzle : ledger.puzzles()) {
    const auto at = std::find_if(games_.begin() + static_cast<std::ptrdiff_t>(first), games_.end(),
                                 [&](const Game& g) { return g.number == puzzle.game + offset; });
    if (at == games_.end()) continue;
    puzzles_.push_back(puzzle);
    puzzles_.back().game = at->number;
  }
}

void PlayerGames::count_open(const LedgerLibrary& library) {
  std::set<batch::GameKey> open;
  for (const LedgerCollection& ledger : library.collections()) {
    std::set<batch::GameKey> here;
    for (std::size_t i = 0; i < ledger.size(); ++i) here.insert(ledger.input_game(i).key);
    for (const batch::InputGame& game : ledger.input().games) {
      const bool own = holds(names_, game.white) != holds(names_, game.black);
      if (own && !here.contains(game.key) && !studied_.contains(game.key)) open.insert(game.key);
    }
  }
  open_games_ = open.size();
}

void PlayerGames::arrange() {
  const int level =
      rated_ > 0 ? static_cast<int>((ratings_ + rated_ / 2) / rated_) : study::unrated;
  puzzles_ = puzzle::arrange(std::move(puzzles_), 0, level);
}

study::Study PlayerGames::load(std::size_t index) const {
  const Game& game = games_[index];
  study::Study study = game.ledger->load(game.index);
  study.facts.number = game.number;
  return study;
}

std::vector<habits::Source::PuzzlePlace> PlayerGames::puzzle_places() const {
  std::vector<PuzzlePlace> places;
  for (const puzzle::Puzzle& p : puzzles_) {
    places.push_back({p.game, p.ply, puzzle::id_of(p), p.position});
  }
  return places;
}

std::uint64_t PlayerGames::open_places(std::size_t index) const {
  return games_[index].ledger->open_places(games_[index].index);
}

bool PlayerGames::is_missed(const puzzle::Puzzle& puzzle) const {
  if (puzzle.found || puzzle.avoided) return false;
  return std::ranges::any_of(games_, [&puzzle](const Game& game) {
    return game.number == puzzle.game && game.side == puzzle.position.side_to_move();
  });
}

}  // namespace kairos::cli
