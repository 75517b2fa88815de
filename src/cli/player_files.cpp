#include "player_files.hpp"

#include <array>
#include <filesystem>

#include "kairos/report/formats.hpp"
#include "kairos/report/letters.hpp"

namespace kairos::cli {

namespace {

namespace fs = std::filesystem;

// In the order in which they are written.
template <typename Page>
struct PageFile {
  const char* name;
  base::Status (*write)(const Page& page, base::ByteSink& sink);
  bool for_people = true;  // moves in letters of the user's
};

constexpr const char* text_file = "player.txt";
constexpr std::array page_files = {
    PageFile<report::PlayerPage>{"player.html", report::write_player_html},
    PageFile<report::PlayerPage>{text_file, report::write_player_text},
    PageFile<report::PlayerPage>{training_file,
                                 [](const report::PlayerPage& page, base::ByteSink& sink) {
                                   return write_puzzles(page.training, sink);
                                 },
                                 false},
};

// No moves stand in them.
constexpr const char* overview_text_file = "players.txt";
constexpr std::array overview_files = {
    PageFile<report::Overview>{"players.html", report::write_overview_html, false},
    PageFile<report::Overview>{overview_text_file, report::write_overview_text, false},
};

std::string path_in(const std::string& folder, std::string_view name) {
  return (fs::path(folder) / name).string();
}

// Puzzles alone, for the writers.
class PuzzleSet final : public report::Collection {
 public:
  explicit PuzzleSet(const std::vector<puzzle::Puzzle>& puzzles) : puzzles_(puzzles) {}
  [[nodiscard]] const report::RunFacts& facts() const override { return facts_; }
  [[nodiscard]] std::size_t size() const override { return 0; }
  [[nodiscard]] study::Study load(std::size_t) const override { return {}; }
  [[nodiscard]] pgn::Game game(std::size_t) const override { return {}; }
  [[nodiscard]] const std::vector<puzzle::Puzzle>& puzzles() const override { return puzzles_; }
  [[nodiscard]] const std::vector<puzzle::Puzzle>& why_nots() const override { return why_nots_; }

 private:
  report::RunFacts facts_;
  const std::vector<puzzle::Puzzle>& puzzles_;
  std::vector<puzzle::Puzzle> why_nots_;
};

// Only what can be made again is written over: files beside a text that is ours.
template <typename Files, typename IsOurs>
base::Status check_files(const Files& files, const std::string& folder, const char* text_name,
                         const char* whose, const IsOurs& is_ours) {
  std::error_code error;
  const std::string text = path_in(folder, text_name);
  if (fs::is_regular_file(text, error)) {
    const auto read = base::read_file(text);
    if (read && is_ours(*read)) return base::done();
  }
  for (const auto& file : files) {
    if (!fs::exists(path_in(folder, file.name), error)) continue;
    return base::Fault{base::Code::output_belongs_to_other_run,
                       std::string(file.name) + " is not " + whose,
                       {.file = folder}};
  }
  return base::done();
}

template <typename Files>
base::Result<std::vector<base::WholeFile>> open_files(const Files& files,
                                                      const std::string& folder) {
  std::vector<base::WholeFile> opened;
  for (const auto& page_file : files) {
    auto file = base::WholeFile::open(path_in(folder, page_file.name));
    if (!file) return std::move(file).faults();
    opened.push_back(std::move(*file));
  }
  return opened;
}

template <typename Files, typename Page>
base::Status write_files(const Files& files, const Page& page, std::vector<base::WholeFile>& opened,
                         rules::Letters letters) {
  for (std::size_t i = 0; i < files.size(); ++i) {
    report::LettersSink sink(opened[i], files[i].for_people ? letters : rules::Letters::english);
    auto written = files[i].write(page, sink);
    if (written) written = sink.finish();
    if (written) written = opened[i].commit();
    if (!written) return written;
  }
  return base::done();
}

template <typename Files>
std::vector<std::string> names_of(const Files& files) {
  std::vector<std::string> names;
  for (const auto& file : files) names.emplace_back(file.name);
  return names;
}

}  // namespace

base::Status write_puzzles(const std::vector<puzzle::Puzzle>& puzzles, base::ByteSink& sink) {
  const PuzzleSet set(puzzles);
  for (const report::Format& format : report::formats()) {
    if (format.name == "epd") return format.write(set, sink);
  }
  return base::done();
}

base::Status PlayerFiles::check(const std::string& folder, const std::vector<std::string>& names) {
  return check_files(
      page_files, folder, text_file, "of this player",
      [&names](std::string_view text) { return report::is_player_text(text, names); });
}

base::Result<PlayerFiles> PlayerFiles::open(const std::string& folder,
                                            const std::vector<std::string>& names) {
  auto ready = base::make_folder(folder);
  if (ready) ready = check(folder, names);
  if (!ready) return std::move(ready).faults();
  auto opened = open_files(page_files, folder);
  if (!opened) return std::move(opened).faults();
  PlayerFiles files;
  files.files_ = std::move(*opened);
  return files;
}

base::Status PlayerFiles::write(const report::PlayerPage& page, rules::Letters letters) {
  return write_files(page_files, page, files_, letters);
}

std::vector<std::string> PlayerFiles::file_names() {
  return names_of(page_files);
}

base::Result<OverviewFiles> OverviewFiles::open(const std::string& folder) {
  auto ready = base::make_folder(folder);
  if (ready) {
    ready = check_files(overview_files, folder, overview_text_file, "an overview of players",
                        report::is_overview_text);
  }
  if (!ready) return std::move(ready).faults();
  auto opened = open_files(overview_files, folder);
  if (!opened) return std::move(opened).faults();
  OverviewFiles files;
  files.files_ = std::move(*opened);
  return files;
}

base::Status OverviewFiles::write(const report::Overview& overview) {
  return write_files(overview_files, overview, files_, rules::Letters::english);
}

std::vector<std::string> OverviewFiles::file_names() {
  return names_of(overview_files);
}

}  // namespace kairos::cli
