// Numbers on the command line: one way to read them, one way to say what is wrong with one.
//
// A number is written in plain digits, with a point where fractions make sense: 12, 0.25, .25, -3.
// No blanks, no plus, no exponent, no unit, neither nan nor inf; and no zeros in front, because 010
// is eight to some programs and ten to others. Whatever else is given, and what lies out of range,
// is told in one sentence:
//   --hours takes a number of hours from 0.000001 to 8784 in plain digits, not "8h"
#pragma once

#include <concepts>
#include <functional>
#include <string>
#include <string_view>

#include "kairos/base/result.hpp"

namespace CLI {
class App;
class Option;
}  // namespace CLI

namespace kairos::cli {

enum class Digits { whole, with_fraction };

// Both ends belong to it. Whole ones lie within 10^15, which a double holds exactly.
struct Numbers {
  double least = 0;
  double most = 0;
  std::string_view unit = "";  // "hours"; empty: a bare number
};

inline constexpr double most_nodes = 1e15;                      // more than anybody can wait for
inline constexpr double least_level = 100, most_level = 4'000;  // ratings of players

// The fault says what was asked for: "a whole number of threads from 0 to 1024 in plain digits, not
// \"010\"".
base::Result<double> read_number(std::string_view text, Digits digits, const Numbers& numbers);
// 0.25 as "0.25", a million as "1000000": as `read_number` reads it.
std::string plain_digits(double value);

// An option or argument (of one name) whose value is such a number; the second form keeps it in a
// variable.
CLI::Option* add_number(CLI::App& command, const std::string& name, const std::string& help,
                        Digits digits, const Numbers& numbers, std::function<void(double)> take);

template <typename T>
CLI::Option* add_number(CLI::App& command, const std::string& name, T& value,
                        const std::string& help, const Numbers& numbers) {
  constexpr Digits digits = std::integral<T> ? Digits::whole : Digits::with_fraction;
  return add_number(command, name, help, digits, numbers,
                    [&value](double number) { value = static_cast<T>(number); });
}

}  // namespace kairos::cli
