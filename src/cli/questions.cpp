#include "questions.hpp"

#include <algorithm>

#include "kairos/base/files.hpp"
#include "kairos/base/text.hpp"
#include "kairos/puzzle/exercise_file.hpp"

#include "log.hpp"

namespace kairos::cli {

namespace {

using base::Code;
using base::Fault;

void warn_of(const base::Faults& faults, const std::string& file) {
  constexpr std::size_t most = 5;
  for (std::size_t i = 0; i < std::min(most, faults.size()); ++i) log_warning(faults[i]);
  if (faults.size() > most) {
    log_warning(file + ": " + base::grouped(faults.size() - most) + " more lines cannot be read");
  }
}

}  // namespace

base::Result<std::vector<puzzle::Exercise>> questions_of(const std::string& file) {
  if (file == "-") {
    return Fault{Code::usage, "the answers come from standard input, the puzzles from a file", {}};
  }
  auto read = puzzle::read_exercises(file);
  if (!read) return std::move(read).faults();
  warn_of(read->faults, file);
  const auto without = std::erase_if(
      read->exercises, [](const puzzle::Exercise& asked) { return asked.keys.empty(); });
  if (read->exercises.empty()) {
    return Fault{
        Code::epd_operation, "no line has bm or pv, so there is no answer to any", {.file = file}};
  }
  if (without == 1) log_warning(file + ": a line without bm and pv is left out");
  if (without > 1) {
    log_warning(file + ": " + base::grouped(without) + " lines without bm and pv are left out");
  }
  return std::move(read->exercises);
}

bool can_write_score(const std::string& file) {
  const auto probe = base::WholeFile::open(file);
  if (probe) return true;
  log_error(file + ": the score cannot be kept there: " + probe.fault().detail +
            " (name another file with --score)");
  return false;
}

}  // namespace kairos::cli
