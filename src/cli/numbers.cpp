#include "numbers.hpp"

#include <CLI/CLI.hpp>
#include <array>
#include <charconv>

#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"

#include "terminal.hpp"

namespace kairos::cli {

namespace {

constexpr std::size_t longest_shown = 40;  // characters of what was given instead

// The whole part may be missing before a point, as people write .25; nothing else may.
bool is_plain(std::string_view text, Digits digits) {
  if (text.starts_with('-')) text.remove_prefix(1);
  const std::size_t point = text.find('.');
  const bool fraction = point != std::string_view::npos;
  const std::string_view front = text.substr(0, point);
  const std::string_view back = fraction ? text.substr(point + 1) : "";
  const auto all_digits = [](std::string_view part) {
    return part.find_first_not_of("0123456789") == std::string_view::npos;
  };
  if (!all_digits(front) || !all_digits(back) || (front.size() > 1 && front[0] == '0'))
    return false;
  if (fraction) return digits == Digits::with_fraction && !back.empty();
  return !front.empty();
}

std::string asked_for(Digits digits, const Numbers& numbers) {
  std::string text = digits == Digits::whole ? "a whole number" : "a number";
  if (!numbers.unit.empty()) text.append(" of ").append(numbers.unit);
  return text + " from " + plain_digits(numbers.least) + " to " + plain_digits(numbers.most) +
         " in plain digits";
}

}  // namespace

std::string plain_digits(double value) {
  std::array<char, 32> room;  // within 10^15
  const auto end =
      std::to_chars(room.data(), room.data() + room.size(), value, std::chars_format::fixed).ptr;
  return {room.data(), end};
}

base::Result<double> read_number(std::string_view text, Digits digits, const Numbers& numbers) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  const bool read =
      is_plain(text, digits) && error == std::errc{} && end == text.data() + text.size();
  if (read && value >= numbers.least && value <= numbers.most) return value;
  return base::Fault{base::Code::usage,
                     asked_for(digits, numbers) + ", not \"" +
                         base::elided(base::visible(text), longest_shown) + "\"",
                     {}};
}

CLI::Option* add_number(CLI::App& command, const std::string& name, const std::string& help,
                        Digits digits, const Numbers& numbers, std::function<void(double)> take) {
  const auto read = [name, digits, numbers, take = std::move(take)](const CLI::results_t& given) {
    const auto number = read_number(given.front(), digits, numbers);
    if (!number) throw CLI::ValidationError(name + " takes " + number.fault().detail);
    take(*number);
    return true;
  };
  return command.add_option(name, CLI::callback_t(read), help);
}

}  // namespace kairos::cli
