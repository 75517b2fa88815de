#include "inputs.hpp"

#include <algorithm>
#include <cerrno>
#include <filesystem>

#include "kairos/base/files.hpp"

namespace kairos::cli {

namespace {

namespace fs = std::filesystem;

void add_folder(const std::string& folder, Inputs& inputs) {
  std::vector<std::string> found;
  std::error_code error;
  for (fs::directory_iterator entry(folder, error), end; !error && entry != end;
       entry.increment(error)) {
    const std::string name = entry->path().string();
    if ((name.ends_with(".pgn") || name.ends_with(".pgn.gz")) && !entry->is_directory()) {
      found.push_back(name);
    }
  }
  if (error) {
    inputs.faults.push_back(base::system_fault(base::Code::cannot_read, folder, error.value()));
  } else if (found.empty()) {
    inputs.faults.push_back(
        {base::Code::is_a_directory, "and holds no *.pgn or *.pgn.gz", {.file = folder}});
  }
  std::sort(found.begin(), found.end());
  inputs.files.insert(inputs.files.end(), found.begin(), found.end());
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
