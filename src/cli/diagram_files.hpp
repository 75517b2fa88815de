// The folder `diagrams` beside the reports, with one SVG for each turning point and puzzle.
#pragma once

#include <string>

#include "kairos/base/result.hpp"
#include "kairos/report/writer.hpp"

namespace CLI {
class App;
}

namespace kairos::cli {

inline constexpr const char* diagram_folder = "diagrams";

void add_diagrams_option(CLI::App& command, bool& diagrams);

// Makes the folder, so that one that cannot be made is told before the work starts. Only call this,
// and the next, with the output folder's ledger locked.
base::Status make_diagram_folder(const std::string& folder);
// Each file is whole or is not there. Diagrams of an earlier run that this collection has not, and
// what a killed run has left, are taken away; other files stay.
base::Status write_diagrams(const report::Collection& collection, const std::string& folder);

}  // namespace kairos::cli
