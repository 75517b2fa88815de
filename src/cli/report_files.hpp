// The report files of one output folder: opened before the work starts, written whole at its end.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "kairos/base/files.hpp"
#include "kairos/base/result.hpp"
#include "kairos/report/writer.hpp"
#include "kairos/rules/letters.hpp"

namespace kairos::cli {

class ReportFiles {
 public:
  // Opens all formats' files. What a killed run has left of its own is taken away first; only call
  // this with the folder's ledger locked. With `diagrams` (diagram_files.hpp) their folder is made.
  // Those for people write moves in these letters.
  static base::Result<ReportFiles> open(const std::string& folder, bool diagrams,
                                        rules::Letters letters);

  // Writes and commits all of them.
  base::Status write(const report::Collection& collection);
  [[nodiscard]] std::vector<std::string> names() const;

 private:
  ReportFiles() = default;
  std::vector<std::pair<const report::Format*, base::WholeFile>> files_;
  rules::Letters letters_ = rules::Letters::english;
  std::string folder_of_diagrams_;  // the output folder; empty: none are asked for
};

// Whether a file is one of the reports that kairos writes into `folder`: never an input, although
// some are PGN and may lie in a folder that is scanned.
bool is_own_report(const std::string& folder, const std::string& file);

// A folder that holds a report but no ledger is somebody else's: its files are not written over.
base::Status check_folder(const std::string& folder);

}  // namespace kairos::cli
