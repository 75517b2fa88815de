#include "players_run.hpp"

#include <algorithm>
#include <filesystem>
#include <map>
#include <optional>

#include "kairos/base/text.hpp"

#include "command.hpp"
#include "log.hpp"
#include "output.hpp"
#include "player_files.hpp"
#include "player_games.hpp"

namespace kairos::cli {

namespace {

struct FoundPupil {
  const Pupil* pupil = nullptr;
  std::vector<std::string> names;  // as in the tags
};

// Who of the file plays in the ledgers, in the order of the file.
struct FoundPupils {
  std::vector<FoundPupil> pupils;
  std::vector<std::string> left_out;
  base::FaultList told;  // why they are
};

base::Fault at(const Pupil& pupil, base::Fault fault) {
  fault.place = pupil.place;
  return fault;
}

base::Result<FoundPupils> find_pupils(const std::vector<Pupil>& pupils,
                                      const LedgerLibrary& library) {
  FoundPupils found;
  std::map<std::string, const Pupil*> owners;  // of names
  for (const Pupil& pupil : pupils) {
    auto names = find_names(pupil.name, pupil.also, library);
    if (!names) {
      found.left_out.push_back(pupil.name);
      found.told.report(at(pupil, names.fault()));
      continue;
    }
    for (const std::string& name : *names) {
      const auto [owner, is_new] = owners.try_emplace(name, &pupil);
      if (is_new) continue;
      return at(pupil, {base::Code::usage,
                        "\"" + pupil.name + "\" is the player of line " +
                            base::grouped(owner->second->place.line) + " again, \"" + name + "\"",
                        {}});
    }
    found.pupils.push_back({&pupil, std::move(*names)});
  }
  return found;
}

// Where the overview and the pages go.
class Writing {
 public:
  static base::Result<Writing> open(const PlayersRun& run, const FoundPupils& players) {
    Writing writing(run);
    if (run.folder.empty()) return writing;
    for (const FoundPupil& player : players.pupils) {
      auto free = PlayerFiles::check(writing.folder_of(player), player.names);
      if (!free) return std::move(free).faults();
    }
    auto files = OverviewFiles::open(run.folder);
    if (!files) return std::move(files).faults();
    writing.overview_.emplace(std::move(*files));
    return writing;
  }

  base::Status page(const FoundPupil& player, const report::PlayerPage& page) const {
    if (!overview_) return base::done();
    auto files = PlayerFiles::open(folder_of(player), player.names);
    return files ? files->write(page, run_.letters) : std::move(files).faults();
  }
  base::Status overview(const report::Overview& overview) {
    return overview_ ? overview_->write(overview) : base::done();
  }

 private:
  explicit Writing(const PlayersRun& run) : run_(run) {}
  [[nodiscard]] std::string folder_of(const FoundPupil& player) const {
    return (std::filesystem::path(run_.folder) / player.pupil->folder).string();
  }

  PlayersRun run_;
  std::optional<OverviewFiles> overview_;
};

// What is printed of a player, and of all at the end.
void print(const PlayersRun& run, const report::PlayerPage& page) {
  if (run.json) return Output::get().line(report::player_json(page));
  if (!run.folder.empty()) Output::get().line(summary_of(page));
}

void print(const PlayersRun& run, const report::Overview& overview) {
  if (run.json) return;
  if (run.folder.empty()) {
    base::StringSink text;
    (void)report::write_overview_text(overview, text);  // such a sink takes everything
    return Output::get().text(text.text);
  }
  Output::get().line("overview in " + run.folder + ": " +
                     base::join(OverviewFiles::file_names(), ", ") +
                     "; each player's page in a folder there");
}

}  // namespace

ExitCode run_players(const PageSources& sources, const std::vector<Pupil>& pupils,
                     const PlayersRun& run) {
  auto players = find_pupils(pupils, sources.own);
  if (!players) return failed(players.faults());
  const bool all = players->left_out.empty();
  for (const base::Fault& fault : std::move(players->told).all()) log_error(fault);
  if (players->pupils.empty()) return exit_usage;
  auto writing = Writing::open(run, *players);
  if (!writing) return failed(writing.faults());
  report::Overview overview{.left_out = players->left_out, .version = KAIROS_VERSION};
  for (const FoundPupil& player : players->pupils) {
    const report::PlayerPage page = make_page(sources, player.names, !run.folder.empty());
    if (auto written = writing->page(player, page); !written) return failed(written.faults());
    print(run, page);
    overview.efforts = page.efforts;
    overview.rows.push_back(
        report::overview_row(page, run.folder.empty() ? "" : player.pupil->folder));
  }
  if (auto written = writing->overview(overview); !written) return failed(written.faults());
  print(run, overview);
  return all ? exit_done : exit_not_held;
}

}  // namespace kairos::cli
