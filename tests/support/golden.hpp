// Bytes against their golden file. What was written lies afterwards under golden/ in the build
// folder; scripts/approve copies it over tests/golden when the difference is meant.
#pragma once

#include <catch2/catch.hpp>
#include <string>
#include <string_view>

#include "kairos/base/files.hpp"
#include "kairos/base/text.hpp"

namespace kairos::test {

// The first line in which the two differ, for the message.
inline std::string first_difference(std::string_view wanted, std::string_view written) {
  const auto a = base::split(wanted, '\n'), b = base::split(written, '\n');
  for (std::size_t i = 0; i < std::max(a.size(), b.size()); ++i) {
    const std::string_view x = i < a.size() ? a[i] : "(end)", y = i < b.size() ? b[i] : "(end)";
    if (x == y) continue;
    return "line " + std::to_string(i + 1) + "\n- " + std::string(x) + "\n+ " + std::string(y);
  }
  return "";
}

inline void check_golden(const std::string& folder, const std::string& file_name,
                         const std::string& text) {
  CAPTURE(folder, file_name);
  const std::string out = std::string(KAIROS_GOLDEN_OUT) + "/" + folder;
  REQUIRE(base::make_folder(out).ok());
  REQUIRE(base::write_whole_file(out + "/" + file_name, text).ok());
  const auto golden =
      base::read_file(std::string(KAIROS_TEST_DIR) + "/golden/" + folder + "/" + file_name);
  CHECK(golden.ok());
  if (!golden.ok()) return;
  INFO(first_difference(*golden, text));
  CHECK(*golden == text);
}

}  // namespace kairos::test
