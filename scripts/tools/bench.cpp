// Measures the speed of the lower parts; scripts/bench drives it.
//
//   kairos_bench GAMES.pgn GAMES.pgn.gz [KAIROS BIG.pgn]
//
// Every figure is CPU time (user and system) of one thread, the median of several runs. A run
// checks what it did: node counts of perft against published ones, games and plies against those of
// the first run. With the last two arguments the program itself is run on a big file and its memory
// is told. The reference figures were measured once on the machine that scripts/README names; a
// ratio means something on that machine only.
#include <algorithm>
#include <array>
#include <cstdlib>
#include <fcntl.h>
#include <functional>
#include <iostream>
#include <string>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>
#include <vector>

#include "kairos/base/files.hpp"
#include "kairos/base/text.hpp"
#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/replay.hpp"
#include "kairos/pgn/tokens.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/perft.hpp"
#include "kairos/search/searcher.hpp"

using namespace kairos;

namespace {

constexpr int runs = 5;
bool all_right = true;

void check(bool right, const std::string& what) {
  if (right) return;
  std::cout << "WRONG: " << what << '\n';
  all_right = false;
}

double seconds_of(int who) {
  rusage use{};
  getrusage(who, &use);
  const auto seconds = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) + static_cast<double>(t.tv_usec) * 1e-6;
  };
  return seconds(use.ru_utime) + seconds(use.ru_stime);
}

// The median CPU time of `work` in seconds.
double median_time(const std::function<void()>& work) {
  std::array<double, runs> times{};
  for (double& time : times) {
    const double start = seconds_of(RUSAGE_SELF);
    work();
    time = seconds_of(RUSAGE_SELF) - start;
  }
  std::sort(times.begin(), times.end());
  return times[runs / 2];
}

// "name   123.4 million nodes/s   1.2 times the reference of 100.0".
void tell(const std::string& name, double amount, double seconds, const std::string& unit,
          double reference = 0) {
  const double million = amount / seconds / 1e6;
  std::cout << "  " << name << std::string(name.size() < 42 ? 42 - name.size() : 1, ' ')
            << base::fixed(million, million < 10 ? 2 : 1) << ' ' << unit;
  if (reference > 0) {
    std::cout << "   (" << base::fixed(million / reference, 2) << " times "
              << base::fixed(reference, reference < 100 ? 1 : 0) << ")";
  }
  std::cout << std::endl;
}

void measure_perft() {
  struct Case {
    const char* name;
    std::string fen;
    int depth;
    std::uint64_t nodes;  // both are in tests/perft/standard.epd with their source
    double library;       // nodes/s of a general-purpose rules library, in millions
  };
  const std::array cases = {
      Case{"start position, depth 6", std::string(rules::start_fen), 6, 119060324, 259},
      Case{"castling position, depth 5",
           "r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R w KQkq - 0 1", 5, 193690690,
           335}};
  std::cout << "perft (reference: a general-purpose rules library)\n";
  for (const Case& c : cases) {
    const rules::Position position = *rules::parse_fen(c.fen);
    const double time = median_time([&] {
      check(rules::perft(position, c.depth) == c.nodes, std::string("count of ") + c.name);
    });
    tell(c.name, static_cast<double>(c.nodes), time, "million nodes/s", c.library);
  }
}

struct Amounts {
  std::uint64_t games = 0;
  std::uint64_t plies = 0;
  friend bool operator==(const Amounts&, const Amounts&) = default;
};

Amounts read_all(base::ByteSource& source, bool with_replay) {
  base::FaultList faults;
  pgn::Reader reader(source, "bench", faults);
  Amounts amounts;
  pgn::Game game;
  while (reader.next(game)) {
    ++amounts.games;
    amounts.plies += with_replay ? pgn::replay(game, faults).plies : game.nodes.size() - 1;
  }
  return amounts;
}

void measure_pgn(const std::string& text) {
  const auto bytes = static_cast<double>(text.size());
  std::cout << "PGN, " << base::fixed(bytes / 1e6, 1) << " MB of games\n";
  std::uint64_t tokens = 0;
  double time = median_time([&] {
    base::MemorySource source(text);
    pgn::TokenStream stream(source);
    std::uint64_t count = 0;
    while (stream.next().kind != pgn::TokenKind::end) ++count;
    check(tokens == 0 || tokens == count, "number of tokens");
    tokens = count;
  });
  tell("tokens alone", bytes, time, "MB/s", 358);
  for (const bool with_replay : {false, true}) {
    Amounts first;
    time = median_time([&] {
      base::MemorySource source(text);
      const Amounts amounts = read_all(source, with_replay);
      check(first.games == 0 || first == amounts, "games and plies");
      first = amounts;
    });
    tell(with_replay ? "games with legal replay" : "games without replay", bytes, time, "MB/s",
         with_replay ? 62 : 0);
    tell("", static_cast<double>(first.plies), time, "million plies/s", with_replay ? 7.9 : 0);
  }
}

void measure_gzip(const std::string& path, std::size_t text_bytes) {
  std::cout << "gzip, as bytes of text\n";
  const auto bytes = static_cast<double>(text_bytes);
  double time = median_time([&] {
    auto source = pgn::open_games(path);
    std::vector<char> room(1 << 16);
    std::size_t all = 0;
    while (const std::size_t n = (*source)->read(room).value()) all += n;
    check(all == text_bytes, "length of the inflated text");
  });
  tell("inflating alone", bytes, time, "MB/s", 340);
  time = median_time([&] {
    auto source = pgn::open_games(path);
    check(read_all(**source, true).games > 0, "games in the gzip file");
  });
  tell("games with legal replay", bytes, time, "MB/s");
}

void measure_search() {
  constexpr std::uint64_t nodes = 1'000'000;
  // Middlegames of the open collections after 15 moves.
  const std::array fens = {"r2qk2r/3nbpp1/p4n1p/4p1P1/Np1BP2P/1b3P2/PPPQ4/R3KBR1 w Qkq - 0 16",
                           "r2qkb1r/3n1pp1/4bn1p/3pp3/pp2P1PP/1N1BBPN1/PPP1Q3/R3K1R1 w Qkq - 0 16",
                           "r2qk2r/1pp1npp1/p2b1n2/3PpP2/2B5/2N1BPp1/PP1Q3P/2KR3R w kq - 0 16",
                           "2r1k2r/2q2ppp/p1nbp3/1p6/4P3/1BQ1BP2/PP3P1P/3R1RK1 w k - 1 16"};
  std::cout << "search (a node is a position entered, quiescence included)\n";
  std::uint64_t first = 0;
  const double time = median_time([&] {
    std::uint64_t all = 0;
    search::Searcher searcher;
    for (const char* fen : fens) {
      searcher.clear();
      search::Limits limits;
      limits.nodes = nodes;
      all += searcher.search(*rules::parse_fen(fen), {}, limits).nodes;
    }
    check(first == 0 || first == all, "nodes of the search");
    first = all;
  });
  tell("middlegames", static_cast<double>(first), time, "million nodes/s");
}

// Runs `kairos check BIG` as its user does and tells its CPU time and memory.
void measure_check(const char* program, const char* big) {
  std::cout << "kairos check on a big file\n";
  const double before = seconds_of(RUSAGE_CHILDREN);
  const pid_t child = fork();
  if (child == 0) {
    const int nowhere = open("/dev/null", O_WRONLY);
    dup2(nowhere, STDOUT_FILENO);
    execl(program, program, "check", "--quiet", big, static_cast<char*>(nullptr));
    _exit(127);
  }
  int status = 0;
  waitpid(child, &status, 0);
  check(WIFEXITED(status) && WEXITSTATUS(status) == 0, "exit code of kairos check");
  rusage use{};
  getrusage(RUSAGE_CHILDREN, &use);
  const off_t size = [&] {
    const int descriptor = open(big, O_RDONLY);
    const off_t end = lseek(descriptor, 0, SEEK_END);
    close(descriptor);
    return end;
  }();
  tell("whole program", static_cast<double>(size), seconds_of(RUSAGE_CHILDREN) - before, "MB/s");
  std::cout << "  peak memory: " << use.ru_maxrss / 1024 << " MiB for "
            << base::fixed(static_cast<double>(size) / 1e6, 0) << " MB\n";
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3 && argc != 5) {
    std::cerr << "usage: kairos_bench GAMES.pgn GAMES.pgn.gz [KAIROS BIG.pgn]\n";
    return 2;
  }
  const auto text = base::read_file(argv[1]);
  if (!text) {
    std::cerr << base::describe(text.fault()) << '\n';
    return 3;
  }
  measure_perft();
  measure_pgn(*text);
  measure_gzip(argv[2], text->size());
  measure_search();
  if (argc == 5) measure_check(argv[3], argv[4]);
  return all_right ? 0 : 1;
}
