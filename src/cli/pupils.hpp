// The file of --players: whose pages are asked for.
//
// A player a line, as --player takes a name; behind a semicolon, any number of times, other names
// of the same player, as --also takes them. Empty lines and lines that begin with # are left out;
// a line may end with a carriage return too, and the file may begin with a UTF-8 mark. Bytes that
// are no UTF-8 are read as ISO 8859-1, as in games. At most `most_pupils` players, each line at
// most `longest_pupil` bytes.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "kairos/base/result.hpp"

namespace kairos::cli {

inline constexpr std::size_t most_pupils = 10'000, longest_pupil = 1'000;

struct Pupil {
  std::string name;
  std::vector<std::string> also{};
  std::string folder{};  // for the page, of folder_name
  base::Place place{};   // file and line
};

// "-" is standard input. Faults: the file cannot be read or names nobody; or (usage) a line is too
// long or has no name, a name makes no folder, two players would have one folder, in small letters
// too.
base::Result<std::vector<Pupil>> read_pupils(const std::string& file);

// A name as the name of a folder: "Birch, Jon" as "Birch-Jon". ASCII letters, figures and what is
// not ASCII stay; of all between them one hyphen. So it never leads elsewhere ("../x" is "x"), is
// never hidden, and is at most 100 bytes long. "" where nothing stays.
std::string folder_name(std::string_view name);

}  // namespace kairos::cli
