// The fitting tool: see scripts/README and scripts/fit_weights, which drives it.

#include <iostream>
#include <string>
#include <vector>

#include "samples.hpp"

int main(int argc, char** argv) {
  const std::vector<std::string> args(argv + 1, argv + argc);
  const auto rest = [&](std::size_t from) {
    return std::vector<std::string>(args.begin() + static_cast<std::ptrdiff_t>(from), args.end());
  };
  if (args.size() >= 4 && args[0] == "collect") {
    return kairos::fit::collect(rest(3), std::stoull(args[2]), args[1]);
  }
  if (args.size() == 5 && args[0] == "play") {
    return kairos::fit::play(std::stoi(args[2]), std::stoull(args[3]), std::stoull(args[4]),
                             args[1]);
  }
  if (args.size() >= 3 && args[0] == "fit") return kairos::fit::fit(rest(2), std::stoi(args[1]));
  std::cerr << "usage: kairos_fit collect OUT NODES GAMES...\n"
               "       kairos_fit play OUT GAMES NODES SEED\n"
               "       kairos_fit fit SHARE SAMPLES...\n";
  return 2;
}
