// The PGN reader against its slow twin, on files that the fuzzer's bytes describe: a few bytes make
// a file longer than any window.
#include "property.hpp"
#include "support/pgn_made_files.hpp"
#include "support/pgn_twin.hpp"

using namespace kairos;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  test::Choices choices(fuzz::text_of(data, size));
  const std::size_t kind = choices.below(32);
  const std::size_t most = kind == 1 ? 300'000 : kind < 8 ? 20'000 : 3'000;
  const std::string difference = test::twin_difference(test::made_file(choices, most));
  fuzz::must_hold(difference.empty(), difference.c_str());
  return 0;
}
