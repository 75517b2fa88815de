// kairos check: reads files and accounts for every game, without any search.
#include <CLI/CLI.hpp>
#include <memory>

#include "kairos/base/checksum.hpp"
#include "kairos/base/json.hpp"
#include "kairos/base/text.hpp"
#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/replay.hpp"
#include "kairos/pgn/same_game.hpp"
#include "kairos/rules/fen.hpp"

#include "command.hpp"
#include "inputs.hpp"
#include "log.hpp"
#include "output.hpp"
#include "progress_line.hpp"
#include "seen_games.hpp"
#include "summary.hpp"

namespace kairos::cli {

namespace {

struct Arguments {
  std::vector<std::string> games;
  bool final_fen = false;
  bool json = false;
  bool strict = false;
};

// What was found in one file, or in all: read + skipped = games.
struct Account {
  std::uint64_t games = 0;
  std::uint64_t read = 0;     // whole, or up to a move that cannot be played
  std::uint64_t cut = 0;      // those of `read` that end at such a move
  std::uint64_t skipped = 0;  // other variants, impossible set-ups
  std::uint64_t plies = 0;    // of the main lines
  std::uint64_t faults = 0;   // all kinds, those of cut and skipped games included

  void add(const Account& other) {
    games += other.games;
    read += other.read;
    cut += other.cut;
    skipped += other.skipped;
    plies += other.plies;
    faults += other.faults;
  }
};

// "90 read + 1 skipped = 91 games; 7,012 plies; 2 cut short; 3 faults"
std::string words(const Account& account) {
  std::string text = base::grouped(account.read) + " read + " + base::grouped(account.skipped) +
                     " skipped = " + base::counted(account.games, "game") + "; " +
                     (account.plies == 1 ? "1 ply" : base::grouped(account.plies) + " plies");
  if (account.cut != 0) text += "; " + base::grouped(account.cut) + " cut short";
  return text += "; " + base::counted(account.faults, "fault");
}

base::Json with_account(base::Json object, const Account& account) {
  object.add("games", account.games).add("read", account.read).add("skipped", account.skipped);
  object.add("cut", account.cut).add("plies", account.plies).add("faults", account.faults);
  return object;
}

// Prints each finding as it comes: of a file the first (base::most_faults) and the number of the
// others, for nobody reads more; for programs (--json) all of them. With --final-fen standard
// output belongs to the FENs, and what is found goes to standard error.
class Findings final : public base::Diagnostics {
 public:
  explicit Findings(const Arguments& arguments) : arguments_(arguments) {}

  void report(base::Fault fault) override {
    ++count;
    if (!arguments_.json) return tell(fault);
    base::Json object = base::Json::object();
    object.add("type", "fault").add("file", fault.place.file).add("line", fault.place.line);
    object.add("column", fault.place.column).add("game", fault.place.game);
    object.add("what", base::words(fault.code)).add("detail", fault.detail);
    object.add("advice", base::advice(fault.code));
    line(base::to_json(object));
  }

  // What comes now belongs together: one file, or the games that stand there twice.
  void begin() { before_ = count; }
  void finish(const std::string& file) {
    if (arguments_.json || count - before_ <= base::most_faults) return;
    base::Fault more = base::more_faults(count - before_ - base::most_faults);
    more.place.file = file;
    line(base::describe(more));
  }

  void line(std::string_view text) {
    arguments_.final_fen ? log_info(text) : Output::get().line(text);
  }

  std::uint64_t count = 0;

 private:
  void tell(const base::Fault& fault) {
    if (count - before_ <= base::most_faults) line(base::describe(fault));
  }

  const Arguments& arguments_;
  std::uint64_t before_ = 0;
};

class Checker {
 public:
  explicit Checker(const Arguments& arguments) : arguments_(arguments), findings_(arguments) {}

  ExitCode run();

 private:
  void check_file(const std::string& path);
  void skip_up_to(std::uint64_t games, Account& account);
  void check_game(Account& account);
  void count_players();
  void print_final(std::string_view fen);
  void tell_failure(const base::Fault& fault);
  void tell_twins();
  void tell_account(const std::string& file, const Account& account);
  void tell_total();
  [[nodiscard]] const std::string& file_of(std::uint32_t game) const;

  const Arguments& arguments_;
  Findings findings_;
  ProgressLine progress_{"games"};
  pgn::Game game_ = pgn::empty_game();  // its storage serves for every game
  Account total_;
  SeenGames seen_;
  HashSet players_;
  std::uint64_t twins_ = 0;
  bool unreadable_ = false;
  // The files read so far, each with the number of games before it.
  std::vector<std::pair<std::uint64_t, std::string>> files_;
};

ExitCode Checker::run() {
  const Inputs inputs = find_inputs(arguments_.games);
  for (const base::Fault& fault : inputs.faults) {
    tell_failure(fault);
    if (fault.code == base::Code::usage) return exit_usage;
  }
  for (const std::string& file : inputs.files) check_file(file);
  tell_twins();
  tell_total();
  if (unreadable_) return exit_unreadable;
  return arguments_.strict && total_.faults + twins_ > 0 ? exit_not_held : exit_done;
}

void Checker::tell_failure(const base::Fault& fault) {
  log_error(fault);
  unreadable_ = true;
}

void Checker::check_file(const std::string& path) {
  const std::string name = path == "-" ? "standard input" : path;
  auto source = pgn::open_games(path);
  if (!source) return tell_failure(source.fault());
  files_.emplace_back(total_.games, name);
  pgn::Reader reader(**source, name, findings_);
  Account account;
  const std::uint64_t faults_before = findings_.count;
  findings_.begin();
  while (reader.next(game_)) {
    skip_up_to(reader.games() - 1, account);
    ++account.games;
    check_game(account);
    progress_.update(total_.games + account.games, 0, name);
  }
  skip_up_to(reader.games(), account);
  account.faults = findings_.count - faults_before;
  findings_.finish(name);
  if (reader.failure()) {
    tell_failure(*reader.failure());
  } else if (account.games == 0) {
    const bool empty = reader.bytes() == 0;
    tell_failure({empty ? base::Code::file_empty : base::Code::no_games, "", {.file = name}});
  }
  total_.add(account);
  tell_account(name, account);
}

// Games that the reader met and could not give.
void Checker::skip_up_to(std::uint64_t games, Account& account) {
  for (; account.games < games; ++account.games) {
    ++account.skipped;
    print_final("-");
  }
}

void Checker::check_game(Account& account) {
  const pgn::Replay replay = pgn::replay(game_, findings_);
  if (replay.fault) findings_.report(*replay.fault);
  if (replay.state == pgn::Replay::State::refused) {
    ++account.skipped;
    return print_final("-");
  }
  ++account.read;
  account.cut += replay.state == pgn::Replay::State::cut ? 1 : 0;
  account.plies += replay.plies;
  if (arguments_.final_fen) print_final(rules::to_fen(replay.last));
  seen_.add(pgn::identity_of(game_), {static_cast<std::uint32_t>(total_.games + account.games),
                                      static_cast<std::uint32_t>(game_.place.line)});
  count_players();
}

void Checker::count_players() {
  for (const char* side : {"White", "Black"}) {
    const std::string_view name = base::trim(game_.tag(side));
    if (!name.empty() && name != "?") players_.add(base::hash64(name));
  }
}

// One line for each game of the input, "-" for a game that was skipped.
void Checker::print_final(std::string_view fen) {
  if (arguments_.final_fen) Output::get().line(fen);
}

const std::string& Checker::file_of(std::uint32_t game) const {
  auto file = files_.rbegin();
  while (file->first >= game) ++file;
  return file->second;
}

void Checker::tell_twins() {
  if (seen_.is_full()) {
    log_warning("the same game twice was looked for among the first " + base::grouped(most_seen) +
                " games");
  }
  findings_.begin();
  seen_.take_twins([this](GameSpot first, GameSpot again) {
    ++twins_;
    const auto number_in_file = [this](GameSpot spot) {
      std::uint64_t before = 0;
      for (const auto& [games, name] : files_) before = games < spot.game ? games : before;
      return spot.game - before;
    };
    findings_.report(
        {base::Code::duplicate_game,
         "as game " + std::to_string(number_in_file(first)) + " at " + file_of(first.game) + ":" +
             std::to_string(first.line),
         {.file = file_of(again.game), .line = again.line, .game = number_in_file(again)}});
  });
  findings_.finish("");
}

void Checker::tell_account(const std::string& file, const Account& account) {
  if (arguments_.json) {
    base::Json object = base::Json::object();
    object.add("type", "file").add("file", file);
    return findings_.line(base::to_json(with_account(std::move(object), account)));
  }
  findings_.line(file + ": " + words(account));
}

void Checker::tell_total() {
  if (arguments_.json) {
    base::Json object = base::Json::object();
    object.add("type", "total").add("files", files_.size());
    object = with_account(std::move(object), total_);
    object.add("players", players_.size()).add("duplicates", twins_);
    return findings_.line(base::to_json(object));
  }
  findings_.line("total: " + words(total_) + "; " + (players_.is_full() ? "more than " : "") +
                 base::counted(players_.size(), "player") + "; " +
                 base::counted(twins_, "duplicate"));
}

ExitCode run_check(const Arguments& arguments) {
  return Checker(arguments).run();
}

}  // namespace

Command register_check(CLI::App& program) {
  CLI::App& command =
      add_command(program, {.name = "check",
                            .purpose = "Read files and account for every game, without any search",
                            .examples = "  kairos check samples\n"
                                        "  kairos check --strict samples/club_open.pgn\n"
                                        "  gzip -dc games.pgn.gz | kairos check --final-fen -\n"});
  auto arguments = std::make_shared<Arguments>();
  command.add_option("GAMES", arguments->games, games_help)->required();
  auto* json = command.add_flag("--json", arguments->json,
                                "One JSON object a line: faults, files, and the total");
  command
      .add_flag("--final-fen", arguments->final_fen,
                "Print the last position of each game, - for a skipped one, and nothing else")
      ->excludes(json);
  command.add_flag("--strict", arguments->strict, "Exit with 1 when anything was found");
  return {&command, [arguments] { return run_check(*arguments); }};
}

}  // namespace kairos::cli
