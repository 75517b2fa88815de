#include "player_files.hpp"

#include <array>
#include <filesystem>

#include "kairos/report/formats.hpp"
#include "kairos/report/letters.hpp"

namespace kairos::cli {

namespace {

namespace fs = std::filesystem;

constexpr const char* text_file = "player.txt";

// In the order in which they are written.
struct PageFile {
  const char* name;
  base::Status (*write)(const report::PlayerPage& page, base::ByteSink& sink);
  bool for_people = true;
};
constexpr std::array page_files = {
    PageFile{"player.html", report::write_player_html},
    PageFile{text_file, report::write_player_text},
    PageFile{training_file,
             [](const report::PlayerPage& page, base::ByteSink& sink) {
               return write_puzzles(page.training, sink);
             },
             false},
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

// Only what can be made again is written over.
base::Status check_folder(const std::string& folder, const std::vector<std::string>& names) {
  std::error_code error;
  const std::string text = path_in(folder, text_file);
  if (fs::is_regular_file(text, error)) {
    const auto read = base::read_file(text);
    if (read && report::is_player_text(*read, names)) return base::done();
  }
  for (const PageFile& file : page_files) {
    if (!fs::exists(path_in(folder, file.name), error)) continue;
    return base::Fault{base::Code::output_belongs_to_other_run,
                       std::string(file.name) + " is not of this player",
                       {.file = folder}};
  }
  return base::done();
}

}  // namespace

base::Status write_puzzles(const std::vector<puzzle::Puzzle>& puzzles, base::ByteSink& sink) {
  const PuzzleSet set(puzzles);
  for (const report::Format& format : report::formats()) {
    if (format.name == "epd") return format.write(set, sink);
  }
  return base::done();
}

base::Result<PlayerFiles> PlayerFiles::open(const std::string& folder,
                                            const std::vector<std::string>& names) {
  auto ready = base::make_folder(folder);
  if (ready) ready = check_folder(folder, names);
  if (!ready) return std::move(ready).faults();
  PlayerFiles files;
  for (const PageFile& page_file : page_files) {
    auto file = base::WholeFile::open(path_in(folder, page_file.name));
    if (!file) return std::move(file).faults();
    files.files_.push_back(std::move(*file));
  }
  return files;
}

base::Status PlayerFiles::write(const report::PlayerPage& page, rules::Letters letters) {
  for (std::size_t i = 0; i < page_files.size(); ++i) {
    const PageFile& file = page_files[i];
    report::LettersSink sink(files_[i], file.for_people ? letters : rules::Letters::english);
    auto written = file.write(page, sink);
    if (written) written = sink.finish();
    if (written) written = files_[i].commit();
    if (!written) return written;
  }
  return base::done();
}

std::vector<std::string> PlayerFiles::file_names() {
  std::vector<std::string> names;
  for (const PageFile& file : page_files) names.emplace_back(file.name);
  return names;
}

}  // namespace kairos::cli
