// Forged ledgers: records of a real one with right checksums and wrong contents.
//
// The forger takes the members of the records one by one, each kind of member as often as any
// other, and alters them: left out, of another type, at the limits of numbers, taken from another
// record, twice; moves that cannot be played, positions that cannot be, texts without end. Records
// come in another order, twice, or not at all. The same choices give the same ledger.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdio>
#include <functional>
#include <limits>
#include <map>
#include <random>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "kairos/base/checksum.hpp"
#include "kairos/base/json.hpp"
#include "kairos/base/text.hpp"

namespace kairos::test {

// Numbers from a seed, or from the bytes of a fuzzer: nought when these are used up.
class Choices {
 public:
  explicit Choices(std::uint64_t seed) : random_(seed), from_bytes_(false) {}
  explicit Choices(std::string_view bytes) : bytes_(bytes), from_bytes_(true) {}

  std::size_t below(std::size_t n) {
    if (!from_bytes_) return static_cast<std::size_t>(random_() % n);
    std::size_t number = 0;
    for (std::size_t most = n - 1; most > 0; most >>= 8) {
      const char byte = bytes_.empty() ? '\0' : bytes_.front();
      if (!bytes_.empty()) bytes_.remove_prefix(1);
      number = number << 8 | static_cast<unsigned char>(byte);
    }
    return number % n;
  }
  template <typename List>
  const auto& pick(const List& list) {
    return *std::next(std::begin(list), static_cast<std::ptrdiff_t>(below(std::size(list))));
  }

 private:
  std::mt19937_64 random_;
  std::string_view bytes_;
  bool from_bytes_;
};

inline constexpr std::string_view ledger_version_line = "kairos ledger 2\n";

// A line of a ledger; with `damaged` its checksum is wrong.
inline std::string ledger_line(std::string_view payload, bool damaged = false) {
  std::array<char, 12> checksum{};
  std::snprintf(checksum.data(), checksum.size(), "%08x ",
                base::crc32(payload) ^ (damaged ? 1U : 0));
  return std::string(checksum.data()).append(payload) + '\n';
}

inline std::string ledger_of(const std::vector<std::string>& payloads) {
  std::string ledger(ledger_version_line);
  for (const std::string& payload : payloads) ledger += ledger_line(payload);
  return ledger;
}

// The payloads of a ledger without damage.
inline std::vector<std::string> payloads_of(std::string_view ledger) {
  std::vector<std::string> payloads;
  for (const std::string_view line : base::split(ledger.substr(ledger_version_line.size()), '\n')) {
    if (!line.empty()) payloads.emplace_back(line.substr(9));
  }
  return payloads;
}

class Forger {
 public:
  explicit Forger(std::string_view ledger) {
    for (const std::string& payload : payloads_of(ledger)) {
      records_.push_back(base::parse_json(payload).value());
      visit(records_.back(), "", [this](const std::string& name, const base::Json& value) {
        values_[name].push_back(value);
      });
    }
  }

  // The payloads of a forged ledger.
  [[nodiscard]] std::vector<std::string> forge(Choices& choices) const {
    std::vector<base::Json> records = records_;
    if (choices.below(4) == 0) reorder(records, choices);
    for (auto n = 1 + choices.below(3); n > 0 && !records.empty(); --n) {
      base::Json& record = records[choices.below(records.size())];
      base::Json altered = alter(record, choices);
      if (choices.below(4) == 0) {
        records.push_back(std::move(altered));  // beside the real one
      } else {
        record = std::move(altered);
      }
    }
    std::vector<std::string> payloads;
    for (const base::Json& record : records) payloads.push_back(base::to_json(record));
    return payloads;
  }

 private:
  using Json = base::Json;
  using Visit = std::function<void(const std::string& name, const Json& value)>;

  // All members and elements; elements have the name of their array with [] behind.
  static void visit(const Json& json, const std::string& name, const Visit& each) {
    if (const Json::Array* elements = json.elements()) {
      for (const Json& element : *elements) {
        each(name + "[]", element);
        visit(element, name + "[]", each);
      }
    } else if (const Json::Object* members = json.members()) {
      for (const auto& [member, value] : *members) {
        each(member, value);
        visit(value, member, each);
      }
    }
  }

  static void reorder(std::vector<Json>& records, Choices& choices) {
    const std::size_t one = choices.below(records.size()), other = choices.below(records.size());
    switch (choices.below(5)) {
      case 0:
        std::reverse(records.begin(), records.end());
        return;
      case 1:
        std::swap(records[one], records[other]);
        return;
      case 2:
        records.erase(records.begin() + static_cast<std::ptrdiff_t>(one));
        return;
      case 3:
        records.push_back(records[one]);
        return;
      default:
        for (std::size_t i = records.size(); i > 1; --i) {
          std::swap(records[i - 1], records[choices.below(i)]);
        }
    }
  }

  // One member changed: the kind of member is chosen first, then which of that kind.
  [[nodiscard]] Json alter(const Json& record, Choices& choices) const {
    std::map<std::string, std::size_t> times;
    visit(record, "", [&times](const std::string& name, const Json&) { ++times[name]; });
    if (times.empty()) return record;
    const auto& [name, count] = choices.pick(times);
    std::size_t before = choices.below(count);
    return rebuilt(record, "", name, before, choices);
  }

  // A copy in which the member of that name, with `before` others of it in front, is altered.
  [[nodiscard]] Json rebuilt(const Json& json, const std::string& own, const std::string& name,
                             std::size_t& before, Choices& choices) const {
    constexpr std::size_t done = std::numeric_limits<std::size_t>::max();
    const auto is_it = [&](const std::string& here) {
      return here == name && before != done && before-- == 0;  // 0 becomes `done`
    };
    if (const Json::Array* elements = json.elements()) {
      Json array = Json::array();
      const std::string here = own + "[]";
      for (const Json& element : *elements) {
        if (is_it(here)) {
          for (Json& made : replacements(here, element, choices)) array.push(std::move(made));
        } else {
          array.push(rebuilt(element, here, name, before, choices));
        }
      }
      return array;
    }
    const Json::Object* members = json.members();
    if (members == nullptr) return json;
    Json object = Json::object();
    for (const auto& [member, value] : *members) {
      if (is_it(member)) {
        for (Json& made : replacements(member, value, choices)) object.add(member, std::move(made));
        if (choices.below(8) == 0) object.add("unheard_of", Json::array().push(member));
      } else {
        object.add(member, rebuilt(value, member, name, before, choices));
      }
    }
    return object;
  }

  // None, one or two values in place of one.
  [[nodiscard]] std::vector<Json> replacements(const std::string& name, const Json& value,
                                               Choices& choices) const {
    switch (choices.below(8)) {
      case 0:
        return {};
      case 1:
        return {value, wrong(name, value, choices)};
      case 2:
        return {wrong(name, value, choices), value};
      default:
        return {wrong(name, value, choices)};
    }
  }

  [[nodiscard]] Json wrong(const std::string& name, const Json& value, Choices& choices) const {
    const auto kin = values_.find(name);
    switch (choices.below(5)) {
      case 0:
        return of_any_type(choices);
      case 1:
        return kin == values_.end() ? value : choices.pick(kin->second);
      default:
        break;
    }
    if (const std::string* text = value.text()) return altered_text(*text, choices);
    if (const auto number = value.integer()) return altered_number(*number, choices);
    if (const Json::Array* elements = value.elements()) return altered_array(*elements, choices);
    if (const auto flag = value.boolean()) return !*flag;
    return of_any_type(choices);
  }

  static Json of_any_type(Choices& choices) {
    static const std::vector<Json> values = {Json(),
                                             true,
                                             false,
                                             0,
                                             -1,
                                             "",
                                             "7",
                                             Json::array(),
                                             Json::object(),
                                             0.5,
                                             1e308,
                                             -1e308,
                                             5e-324,
                                             std::int64_t{1} << 53,
                                             Json::array().push(Json::array()),
                                             std::numeric_limits<std::int64_t>::max(),
                                             std::numeric_limits<std::int64_t>::min()};
    return choices.pick(values);
  }

  static Json altered_number(std::int64_t number, Choices& choices) {
    using Int = std::numeric_limits<std::int32_t>;
    constexpr std::array<std::int64_t, 22> limits = {0,
                                                     -1,
                                                     1,
                                                     2,
                                                     5,
                                                     6,
                                                     64,
                                                     127,
                                                     128,
                                                     255,
                                                     256,
                                                     9999,
                                                     10'000,
                                                     31'999,
                                                     32'000,
                                                     32'001,
                                                     -32'000,
                                                     -32'001,
                                                     Int::max(),
                                                     Int::min(),
                                                     std::int64_t{Int::max()} + 1,
                                                     std::int64_t{Int::min()} - 1};
    switch (choices.below(4)) {
      case 0:
        return number + 1;
      case 1:
        return number - 1;
      case 2:
        return -number;
      default:
        return choices.pick(limits);
    }
  }

  static Json altered_text(const std::string& text, Choices& choices) {
    constexpr std::array<std::string_view, 12> hostile = {"",
                                                          "-",
                                                          "0000",
                                                          "e2e4",
                                                          "a7a8q",
                                                          "h9h1",
                                                          "\x1b[2J",
                                                          "<script>&\"'",
                                                          "\xE2\x80\xAE",
                                                          "8/8/8/8/8/8/8/8 w - - 0 1",
                                                          "4k3/8/8/8/8/8/8/4K3 w - - 9999 9999",
                                                          "1. e4 e5 (1. d4) *"};
    std::vector<std::string> words;
    for (const std::string_view word : base::split(text, ' ')) words.emplace_back(word);
    const std::size_t at = choices.below(words.size());
    switch (choices.below(7)) {
      case 0:
        return std::string(choices.pick(hostile));
      case 1:
        words.erase(words.begin() + static_cast<std::ptrdiff_t>(at));
        break;
      case 2:
        words.push_back(words[at]);
        break;
      case 3:
        std::swap(words[at], words[choices.below(words.size())]);
        break;
      case 4:
        words.resize(at);
        break;
      case 5:
        return std::string(std::size_t{1} << (8 + choices.below(10)), 'x');
      default: {
        std::string& word = words[at];
        if (word.empty()) return "x";
        char& c = word[choices.below(word.size())];
        c = static_cast<char>(' ' + choices.below(95));
      }
    }
    return base::join(words, " ");
  }

  static Json altered_array(const Json::Array& elements, Choices& choices) {
    Json::Array altered = elements;
    if (altered.empty()) return Json::array().push(of_any_type(choices));
    switch (choices.below(4)) {
      case 0:
        return Json::array();
      case 1:
        std::reverse(altered.begin(), altered.end());
        break;
      case 2:
        altered.pop_back();
        break;
      default:
        altered.insert(altered.end(), 1 + choices.below(40), choices.pick(elements));
    }
    return altered;
  }

  std::vector<base::Json> records_;
  std::map<std::string, std::vector<base::Json>> values_;  // by name, of all records
};

}  // namespace kairos::test
