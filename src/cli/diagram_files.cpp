#include "diagram_files.hpp"

#include <CLI/CLI.hpp>
#include <filesystem>
#include <set>
#include <vector>

#include "kairos/base/files.hpp"
#include "kairos/report/diagrams.hpp"

namespace kairos::cli {

namespace {

namespace fs = std::filesystem;

constexpr std::string_view ending = ".svg";

// "g3-p41.svg", or of a killed run "g3-p41.svg.4711.tmp"
bool is_own(std::string_view file) {
  const auto at = file.find(ending);
  if (at == std::string_view::npos || !report::is_diagram_name(file.substr(0, at))) return false;
  std::string_view rest = file.substr(at + ending.size());
  if (rest.empty()) return true;
  if (!rest.starts_with('.') || !rest.ends_with(".tmp") || rest.size() < 6) return false;
  rest = rest.substr(1, rest.size() - 5);
  return rest.find_first_not_of("0123456789") == std::string_view::npos;
}

void remove_others(const fs::path& folder, const std::set<std::string>& kept) {
  std::vector<fs::path> found;
  std::error_code error;
  for (fs::directory_iterator entry(folder, error), end; !error && entry != end;
       entry.increment(error)) {
    const std::string name = entry->path().filename().string();
    if (is_own(name) && !kept.contains(name)) found.push_back(entry->path());
  }
  for (const fs::path& path : found) fs::remove(path, error);
}

}  // namespace

void add_diagrams_option(CLI::App& command, bool& diagrams) {
  command.add_flag("--diagrams", diagrams,
                   "Write an SVG of each turning point and puzzle into the folder diagrams");
}

base::Status make_diagram_folder(const std::string& folder) {
  return base::make_folder((fs::path(folder) / diagram_folder).string());
}

base::Status write_diagrams(const report::Collection& collection, const std::string& folder) {
  const fs::path place = fs::path(folder) / diagram_folder;
  std::set<std::string> written;
  auto status = report::each_diagram(
      collection, [&](const std::string& name, const report::Picture& picture) {
        const std::string file = name + std::string(ending);
        written.insert(file);
        return base::write_whole_file((place / file).string(), report::picture_svg(picture));
      });
  if (status) remove_others(place, written);
  return status;
}

}  // namespace kairos::cli
