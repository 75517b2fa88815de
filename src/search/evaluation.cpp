#include "kairos/search/evaluation.hpp"

#include <string_view>

#include "kairos/base/checksum.hpp"
#include "kairos/base/hexadecimal.hpp"
#include "kairos/base/text.hpp"

#include "network.hpp"

namespace kairos::search {

namespace {

// Raised when the code makes other scores of the same numbers.
constexpr int form = 2;

}  // namespace

std::string evaluation_checksum() {
  std::string bytes(reinterpret_cast<const char*>(&network_weights()), sizeof(NetworkWeights));
  bytes += base::number(form);
  constexpr std::size_t digits = 8;
  return base::to_hexadecimal(base::crc32(bytes), digits);
}

}  // namespace kairos::search
