#include "report_files.hpp"

#include <algorithm>
#include <filesystem>

#include "kairos/batch/ledger.hpp"
#include "kairos/report/formats.hpp"
#include "kairos/report/letters.hpp"

#include "diagram_files.hpp"

namespace kairos::cli {

namespace {

namespace fs = std::filesystem;

std::string path_in(const std::string& folder, std::string_view name) {
  return (fs::path(folder) / name).string();
}

// "report.txt.4711.tmp", "ledger.4711.tmp"
bool is_leftover(std::string_view name) {
  constexpr std::string_view tail = ".tmp";
  if (!name.ends_with(tail)) return false;
  name.remove_suffix(tail.size());
  const auto digits = name.find_last_not_of("0123456789");
  if (digits == std::string_view::npos || name[digits] != '.' || digits + 1 == name.size()) {
    return false;
  }
  const std::string_view whole = name.substr(0, digits);
  const auto formats = report::formats();
  return whole == fs::path(batch::Ledger::path_in("")).filename().string() ||
         std::any_of(formats.begin(), formats.end(),
                     [whole](const report::Format& format) { return format.file_name == whole; });
}

void remove_leftovers(const std::string& folder) {
  std::vector<fs::path> found;
  std::error_code error;
  for (fs::directory_iterator entry(folder, error), end; !error && entry != end;
       entry.increment(error)) {
    if (is_leftover(entry->path().filename().string())) found.push_back(entry->path());
  }
  for (const fs::path& path : found) fs::remove(path, error);
}

}  // namespace

base::Result<ReportFiles> ReportFiles::open(const std::string& folder, bool diagrams,
                                            rules::Letters letters) {
  remove_leftovers(folder);
  ReportFiles files;
  files.letters_ = letters;
  for (const report::Format& format : report::formats()) {
    auto file = base::WholeFile::open(path_in(folder, format.file_name));
    if (!file) return std::move(file).faults();
    files.files_.emplace_back(&format, std::move(*file));
  }
  if (!diagrams) return files;
  if (auto made = make_diagram_folder(folder); !made) return std::move(made).faults();
  files.folder_of_diagrams_ = folder;
  return files;
}

base::Status ReportFiles::write(const report::Collection& collection) {
  for (auto& [format, file] : files_) {
    report::LettersSink sink(file, format->for_people ? letters_ : rules::Letters::english);
    auto written = format->write(collection, sink);
    if (written) written = sink.finish();
    if (written) written = file.commit();
    if (!written) return written;
  }
  if (folder_of_diagrams_.empty()) return base::done();
  return write_diagrams(collection, folder_of_diagrams_);
}

std::vector<std::string> ReportFiles::names() const {
  std::vector<std::string> names;
  for (const auto& [format, file] : files_) names.emplace_back(format->file_name);
  if (!folder_of_diagrams_.empty()) names.emplace_back(diagram_folder);
  return names;
}

bool is_own_report(const std::string& folder, const std::string& file) {
  const auto formats = report::formats();
  const std::string name = fs::path(file).filename().string();
  std::error_code error;
  return std::any_of(formats.begin(), formats.end(), [&](const report::Format& format) {
    return format.file_name == name && fs::equivalent(path_in(folder, name), file, error);
  });
}

base::Status check_folder(const std::string& folder) {
  std::error_code error;
  if (fs::exists(batch::Ledger::path_in(folder), error)) return base::done();
  for (const report::Format& format : report::formats()) {
    const std::string path = path_in(folder, format.file_name);
    if (fs::exists(path, error)) {
      return base::Fault{base::Code::output_belongs_to_other_run,
                         "it has no ledger, but " + std::string(format.file_name),
                         {.file = folder}};
    }
  }
  return base::done();
}

}  // namespace kairos::cli
