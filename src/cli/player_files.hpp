// The files of one player's page in one folder, and those of an overview of several: opened before
// the work starts, written whole. Files of these names that kairos has written of the same player,
// or as an overview, are written anew; others are somebody else's and refused.
#pragma once

#include <string>
#include <vector>

#include "kairos/base/files.hpp"
#include "kairos/base/result.hpp"
#include "kairos/report/overview.hpp"
#include "kairos/report/player.hpp"
#include "kairos/rules/letters.hpp"

namespace kairos::cli {

inline constexpr const char* training_file = "training.epd";

// The puzzles as lines of EPD.
base::Status write_puzzles(const std::vector<puzzle::Puzzle>& puzzles, base::ByteSink& sink);

class PlayerFiles {
 public:
  // Whether the files may be written; makes nothing.
  static base::Status check(const std::string& folder, const std::vector<std::string>& names);
  // Makes the folder.
  static base::Result<PlayerFiles> open(const std::string& folder,
                                        const std::vector<std::string>& names);

  // Writes and commits all of them; those for people in these letters.
  base::Status write(const report::PlayerPage& page, rules::Letters letters);
  [[nodiscard]] static std::vector<std::string> file_names();

 private:
  PlayerFiles() = default;
  std::vector<base::WholeFile> files_;  // in the order of file_names
};

class OverviewFiles {
 public:
  // Makes the folder.
  static base::Result<OverviewFiles> open(const std::string& folder);

  base::Status write(const report::Overview& overview);
  [[nodiscard]] static std::vector<std::string> file_names();

 private:
  OverviewFiles() = default;
  std::vector<base::WholeFile> files_;  // in the order of file_names
};

}  // namespace kairos::cli
