// Plays the invented club tournament of samples/; scripts/make_samples drives it.
//
//   kairos_play_samples OPENINGS SEED > club_open.pgn
//
// OPENINGS holds one opening a line, written by hand, in SAN. Every player is a searcher with few
// nodes and a character: how often a move is taken at a glance (a search of one ply), how far from
// the best a move may be that still looks good to them, how they use their time. The less time on
// the clock, the worse all this gets. Games end by mate, by the draws of the Laws, by resigning
// (now and then too early), by agreement and by the flag. Same seed, same program, same games.
#include <algorithm>
#include <array>
#include <cstdint>
#include <iostream>
#include <string>
#include <vector>

#include "kairos/base/files.hpp"
#include "kairos/base/text.hpp"
#include "kairos/pgn/game.hpp"
#include "kairos/pgn/writer.hpp"
#include "kairos/rules/draws.hpp"
#include "kairos/rules/san.hpp"
#include "kairos/search/searcher.hpp"

using namespace kairos;

namespace {

// A 64-bit linear congruential generator; its upper bits are used. Ours, so that the games are the
// same with every standard library.
class Chance {
 public:
  explicit Chance(std::uint64_t seed) : state_(seed) {}
  // 0 .. below - 1
  int below(int limit) {
    state_ = state_ * 6364136223846793005U + 1442695040888963407U;
    return static_cast<int>((state_ >> 33) % static_cast<std::uint64_t>(limit));
  }
  bool percent(int chance) { return below(100) < chance; }

 private:
  std::uint64_t state_;
};

// Invented people of an invented club.
struct Player {
  const char* name;
  int rating;
  std::uint64_t nodes;  // searched for a careful move
  int glances;          // percent of moves that are made at a glance
  int tolerance;        // centipawns behind the best that may still please
  int pace;             // percent of the usual time
  int despair;          // resigns when so many centipawns behind
};
constexpr std::array players = {
    Player{"Thimblewick, Greta", 2104, 30'000, 3, 25, 110, 900},
    Player{"Marrowby, Silas", 1987, 20'000, 5, 35, 85, 700},
    Player{"Quillfeather, Ada", 1893, 14'000, 6, 40, 130, 800},
    Player{"Hobbledale, Otto", 1756, 9'000, 9, 50, 70, 1200},
    Player{"Fernshaw, Tamsin", 1642, 6'000, 11, 60, 100, 600},
    Player{"Dunnockby, Pell", 1508, 3'500, 14, 80, 60, 1500},
};

// Berger's table for six players: white and black of each game, round by round (FIDE Handbook C.05,
// annex 1).
constexpr std::array<std::array<std::array<int, 2>, 3>, 5> rounds = {{
    {{{0, 5}, {1, 4}, {2, 3}}},
    {{{5, 3}, {4, 2}, {0, 1}}},
    {{{1, 5}, {2, 0}, {3, 4}}},
    {{{5, 4}, {0, 3}, {1, 2}}},
    {{{2, 5}, {3, 1}, {4, 0}}},
}};
constexpr std::array dates = {"2024.09.06", "2024.09.13", "2024.09.20", "2024.09.27", "2024.10.04"};

// 75 minutes and 20 seconds a move.
constexpr int start_seconds = 75 * 60;
constexpr int increment_seconds = 20;

struct Table {
  pgn::Game game = pgn::empty_game();
  rules::Position position = rules::Position::start();
  pgn::NodeId node = 0;
  std::vector<rules::Key> earlier;
  std::array<int, 2> clock = {start_seconds, start_seconds};
  std::array<int, 2> behind = {0, 0};  // moves in a row that looked hopeless
  int level = 0;                       // moves in a row that looked level
};

std::string clock_text(int seconds) {
  const auto two = [](int n) { return std::string(n < 10 ? "0" : "") + std::to_string(n); };
  return "[%clk " + std::to_string(seconds / 3600) + ":" + two(seconds / 60 % 60) + ":" +
         two(seconds % 60) + "]";
}

void play(Table& table, rules::Move move) {
  table.earlier.push_back(table.position.key());
  table.node = table.game.add_child(table.node, move);
  const rules::Color side = table.position.side_to_move();
  table.game.annotate(table.node).comments.push_back(clock_text(table.clock[side]));
  table.position.play(move);
}

// Openings are played from memory, with hardly any time.
void play_opening(Table& table, std::string_view line, Chance& chance) {
  for (const std::string_view san : base::fields(line)) {
    const auto move = rules::parse_san(table.position, san);
    if (!move) {
      std::cerr << base::describe(move.fault()) << '\n';
      std::exit(3);
    }
    table.clock[table.position.side_to_move()] += increment_seconds - 5 - chance.below(40);
    play(table, *move);
  }
}

struct Choice {
  rules::Move move;
  search::Score score = 0;  // what the player believes
};

Choice choose(const Table& table, const Player& player, search::Searcher& searcher,
              Chance& chance) {
  const int seconds = table.clock[table.position.side_to_move()];
  const int hurry = seconds < 120 ? 3 : seconds < 600 ? 2 : 1;
  const bool glance = chance.percent(player.glances * hurry);
  search::Limits limits;
  limits.lines = 4;
  limits.nodes = player.nodes / static_cast<std::uint64_t>(hurry);
  if (glance) limits.depth = 1;
  searcher.clear();
  const search::Verdict verdict = searcher.search(table.position, table.earlier, limits);
  const search::Score best = verdict.lines.front().score;
  std::vector<Choice> pleasing;
  for (const search::Line& line : verdict.lines) {
    const bool pleases = best - line.score <= player.tolerance * hurry;
    if (pleases) pleasing.push_back({line.moves.front(), line.score});
  }
  // The best is taken as often as all others together.
  if (pleasing.size() == 1 || chance.percent(50)) return pleasing.front();
  return pleasing[static_cast<std::size_t>(chance.below(static_cast<int>(pleasing.size())))];
}

void spend_time(Table& table, const Player& player, Chance& chance) {
  int& clock = table.clock[table.position.side_to_move()];
  const int moves_to_go = 30;
  const int usual = clock / moves_to_go + increment_seconds;
  // Mostly quick, sometimes a long think.
  const int share = chance.percent(12) ? 150 + chance.below(350) : 20 + chance.below(110);
  clock += increment_seconds - std::max(2, usual * share / 100 * player.pace / 100);
}

// The result when the game ends before the next move, else nothing.
std::string result_by_law(const Table& table) {
  switch (rules::game_status(table.position, table.earlier)) {
    case rules::GameStatus::open:
      return "";
    case rules::GameStatus::checkmate:
      return table.position.side_to_move() == rules::white ? "0-1" : "1-0";
    default:
      return "1/2-1/2";
  }
}

// Resigning and agreeing, by what the player to move believes.
std::string result_by_people(Table& table, const Choice& choice, const Player& player,
                             Chance& chance) {
  const rules::Color side = table.position.side_to_move();
  const int ply = static_cast<int>(table.earlier.size());
  int& behind = table.behind[side];
  // A sudden shock makes some give up too early.
  const bool shocked = choice.score < -player.despair / 3 && chance.percent(2);
  behind = choice.score < -player.despair ? behind + 1 : 0;
  if (behind >= 3 || (shocked && ply > 40)) return side == rules::white ? "0-1" : "1-0";
  table.level = choice.score > -30 && choice.score < 30 ? table.level + 1 : 0;
  // Tired people agree to a draw, and not only in level positions.
  const bool tired = ply > 70 && chance.percent(2) && choice.score < 120;
  if ((table.level >= 12 && ply > 60 && chance.percent(30)) || tired) return "1/2-1/2";
  return "";
}

// Plays from the end of the opening to the end of the game.
std::string play_out(Table& table, const std::array<Player, 2>& sides, search::Searcher& searcher,
                     Chance& chance) {
  for (;;) {
    if (const std::string result = result_by_law(table); !result.empty()) return result;
    const rules::Color side = table.position.side_to_move();
    const Choice choice = choose(table, sides[side], searcher, chance);
    if (const std::string result = result_by_people(table, choice, sides[side], chance);
        !result.empty()) {
      return result;
    }
    spend_time(table, sides[side], chance);
    if (table.clock[side] <= 0) {
      table.game.set_tag("Termination", "time forfeit");
      return side == rules::white ? "0-1" : "1-0";
    }
    play(table, choice.move);
  }
}

pgn::GameResult result_of(std::string_view text) {
  return text == "1-0"   ? pgn::GameResult::white_wins
         : text == "0-1" ? pgn::GameResult::black_wins
                         : pgn::GameResult::draw;
}

void set_tags(pgn::Game& game, std::size_t round, std::size_t board, const Player& white,
              const Player& black) {
  game.set_tag("Event", "Tellerby Club Open");
  game.set_tag("Site", "Tellerby");
  game.set_tag("Date", dates[round]);
  game.set_tag("Round", std::to_string(round + 1) + "." + std::to_string(board + 1));
  game.set_tag("White", white.name);
  game.set_tag("Black", black.name);
  game.set_tag("Result", "*");
  game.set_tag("WhiteElo", std::to_string(white.rating));
  game.set_tag("BlackElo", std::to_string(black.rating));
  game.set_tag("TimeControl", "4500+20");
  game.set_tag("Termination", "normal");
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3) {
    std::cerr << "usage: kairos_play_samples OPENINGS SEED\n";
    return 2;
  }
  const auto text = base::read_file(argv[1]);
  const auto seed = base::to_integer(argv[2]);
  if (!text || !seed) return 3;
  std::vector<std::string_view> openings;
  for (const std::string_view line : base::split(*text, '\n')) {
    if (!line.empty() && line[0] != '#') openings.push_back(line);
  }
  Chance chance(static_cast<std::uint64_t>(*seed));
  search::Searcher searcher;
  std::size_t played = 0;
  for (std::size_t round = 0; round < rounds.size(); ++round) {
    for (std::size_t board = 0; board < rounds[round].size(); ++board) {
      const auto [w, b] = rounds[round][board];
      const std::array sides = {players[static_cast<std::size_t>(w)],
                                players[static_cast<std::size_t>(b)]};
      Table table;
      set_tags(table.game, round, board, sides[0], sides[1]);
      play_opening(table, openings[played++ % openings.size()], chance);
      const std::string result = play_out(table, sides, searcher, chance);
      table.game.set_tag("Result", result);
      table.game.result = result_of(result);
      std::cout << pgn::to_pgn(table.game) << '\n';
      std::cerr << table.game.tag("White") << " - " << table.game.tag("Black") << " " << result
                << ", " << table.earlier.size() << " plies\n";
    }
  }
  return 0;
}
