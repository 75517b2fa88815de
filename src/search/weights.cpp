#include "weights.hpp"

#include "kairos/base/checksum.hpp"
#include "kairos/base/hexadecimal.hpp"
#include "kairos/base/text.hpp"
#include "kairos/search/evaluation.hpp"

namespace kairos::search {

namespace {

// Raised when the code makes other scores of the same numbers.
constexpr int form = 1;

void append(std::string& text, int number) {
  (text += ' ') += base::number(number);
}

void append(std::string& text, Taper taper) {
  append(text, taper.middlegame());
  append(text, taper.endgame());
}

}  // namespace

// As text, so that no order of bytes has a say.
std::string checksum_of(const Weights& all) {
  std::string text = "form";
  append(text, form);
  visit_weights(all, [&text](const char* name, const auto& values) {
    (text += '\n') += name;
    for (const auto value : values) append(text, value);
  });
  constexpr std::size_t digits = 8;
  return base::to_hexadecimal(base::crc32(text), digits);
}

std::string evaluation_checksum() {
  return checksum_of(weights);
}

}  // namespace kairos::search
