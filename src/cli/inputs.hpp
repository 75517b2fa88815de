// What the GAMES arguments of a command stand for: files in a fixed order.
//
// A file stands for itself, a folder for the *.pgn and *.pgn.gz files in it and in its subfolders
// (capital letters or small) by order of name, but for the reports of earlier scans among them and
// for pipes and devices, which are warned of; "-" for standard input (once). What cannot be used is
// a fault; the rest still counts.
#pragma once

#include <string>
#include <vector>

#include "kairos/base/result.hpp"

namespace kairos::cli {

inline constexpr const char* games_help =
    "PGN files (plain or gzip), folders with *.pgn or *.pgn.gz in them or in their subfolders, "
    "or - for standard input";

struct Inputs {
  std::vector<std::string> files;
  base::Faults faults;
};

Inputs find_inputs(const std::vector<std::string>& arguments);

}  // namespace kairos::cli
