#include "inputs.hpp"

#include <algorithm>
#include <cerrno>
#include <filesystem>
#include <set>

#include "kairos/base/files.hpp"
#include "kairos/base/text.hpp"
#include "kairos/batch/ledger.hpp"

#include "log.hpp"
#include "report_files.hpp"

namespace kairos::cli {

namespace {

namespace fs = std::filesystem;

bool is_games_file(const fs::path& path) {
  const std::string name = base::lower_case(path.filename().string());
  return name.ends_with(".pgn") || name.ends_with(".pgn.gz");
}

// What scan has written, as told by the ledger beside it: games that were read already.
bool is_report(const std::string& folder, const std::string& file) {
  std::error_code ignored;
  return is_own_report(folder, file) &&
         fs::is_regular_file(batch::Ledger::path_in(folder), ignored);
}

// One folder and what is below it. Links to folders are followed, but no folder is entered twice,
// so that links in a circle end.
class FolderWalk {
 public:
  explicit FolderWalk(Inputs& inputs) : inputs_(inputs) {}

  void enter(const fs::path& folder) {
    std::error_code error;
    std::vector<fs::path> paths;
    if (!entered_.insert(fs::canonical(folder, error)).second && !error) return;
    for (fs::directory_iterator entry(folder, error), end; !error && entry != end;
         entry.increment(error)) {
      paths.push_back(entry->path());
    }
    if (error) {
      inputs_.faults.push_back(
          base::system_fault(base::Code::cannot_read, folder.string(), error.value()));
    }
    std::sort(paths.begin(), paths.end());
    for (const fs::path& path : paths) {
      std::error_code ignored;
      const fs::file_type type = fs::status(path, ignored).type();
      if (type == fs::file_type::directory) {
        enter(path);
      } else if (is_games_file(path) && !is_report(folder.string(), path.string())) {
        add_file(path.string(), type);
      }
    }
  }

 private:
  // What is waited for when it is read comes in only by its own name.
  void add_file(const std::string& path, fs::file_type type) {
    if (type == fs::file_type::fifo || type == fs::file_type::socket ||
        type == fs::file_type::character || type == fs::file_type::block) {
      log_warning(path + ": is a pipe or a device, not a file (name it by itself to read it)");
    } else {
      inputs_.files.push_back(path);
    }
  }

  Inputs& inputs_;
  std::set<fs::path> entered_;
};

void add_folder(const std::string& folder, Inputs& inputs) {
  const std::size_t before = inputs.files.size() + inputs.faults.size();
  FolderWalk(inputs).enter(folder);
  if (inputs.files.size() + inputs.faults.size() != before) return;
  inputs.faults.push_back({base::Code::is_a_directory,
                           "and holds no *.pgn or *.pgn.gz, reports of earlier scans aside",
                           {.file = folder}});
}

}  // namespace

Inputs find_inputs(const std::vector<std::string>& arguments) {
  Inputs inputs;
  for (const std::string& argument : arguments) {
    std::error_code error;
    if (argument == "-") {
      inputs.files.push_back(argument);
    } else if (fs::is_directory(argument, error)) {
      add_folder(argument, inputs);
    } else if (!fs::exists(argument, error)) {
      const int reason = error ? error.value() : ENOENT;
      inputs.faults.push_back(base::system_fault(base::Code::cannot_open, argument, reason));
    } else {
      inputs.files.push_back(argument);
    }
  }
  if (std::count(inputs.files.begin(), inputs.files.end(), "-") > 1) {
    inputs.faults.push_back({base::Code::usage, "standard input can be read only once", {}});
  }
  return inputs;
}

}  // namespace kairos::cli
