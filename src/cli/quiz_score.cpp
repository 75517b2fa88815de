#include "quiz_score.hpp"

#include <algorithm>
#include <filesystem>
#include <set>
#include <unistd.h>

#include "kairos/base/files.hpp"
#include "kairos/base/json.hpp"
#include "kairos/base/text.hpp"

namespace kairos::cli {

namespace {

using base::Code;
using base::Fault;
using std::chrono::days;

constexpr std::string_view kind_of_file = "quiz scores";
constexpr int version = 1;

constexpr int days_after_miss = 1;
constexpr int days_after_first = 4;
constexpr int most_days = 180;
constexpr Day last_day = std::chrono::year{9999} / std::chrono::December / std::chrono::day{31};

std::optional<Fault> fault_of_header(std::string_view line) {
  const auto header = base::parse_json(line);
  const base::Json* kind = header ? header->find("kairos") : nullptr;
  if (kind == nullptr || kind->text() == nullptr || *kind->text() != kind_of_file) {
    return Fault{Code::not_a_score_file, "", {}};
  }
  const base::Json* number = header->find("version");
  if (number == nullptr || number->integer() != version) {
    return Fault{Code::not_a_score_file, "written by another version of kairos", {}};
  }
  return std::nullopt;
}

std::optional<std::string> text_of(const base::Json& object, std::string_view name) {
  const base::Json* member = object.find(name);
  if (member == nullptr || member->text() == nullptr) return std::nullopt;
  return *member->text();
}

// Within the bounds, both included.
std::optional<int> number_of(const base::Json& object, std::string_view name, int least, int most) {
  const base::Json* member = object.find(name);
  const auto value = member != nullptr ? member->integer() : std::nullopt;
  if (!value || *value < least || *value > most) return std::nullopt;
  return static_cast<int>(*value);
}

base::Result<Scores::value_type> read_line(std::string_view line) {
  constexpr int most_times = 1'000'000'000;
  const auto object = base::parse_json(line);
  if (!object) return object.faults();
  const auto wrong = [](std::string_view name) {
    return Fault{Code::score_damaged, "\"" + std::string(name) + "\" is missing or wrong", {}};
  };
  const auto position = text_of(*object, "position"), id = text_of(*object, "id");
  if (!position || position->empty()) return wrong("position");
  if (!id) return wrong("id");
  const auto asked = number_of(*object, "asked", 1, most_times);
  if (!asked) return wrong("asked");
  const auto right = number_of(*object, "right", 0, *asked);
  if (!right) return wrong("right");
  const auto interval = number_of(*object, "days", 1, most_days);
  if (!interval) return wrong("days");
  const auto due = parse_day(text_of(*object, "due").value_or(""));
  if (!due) return wrong("due");
  return Scores::value_type{*position, PuzzleScore{*id, *asked, *right, *interval, *due}};
}

base::Result<Scores> read_lines(std::string_view text, const std::string& file) {
  Scores scores;
  bool met_header = false;
  std::uint64_t number = 0;
  for (const std::string_view line : base::split(text, '\n')) {
    ++number;
    const auto at_line = [&](Fault fault) {
      fault.place.file = file;
      fault.place.line = number;
      return fault;
    };
    if (!met_header) {
      if (auto fault = fault_of_header(line)) return at_line(std::move(*fault));
      met_header = true;
      continue;
    }
    if (base::trim(line).empty()) continue;
    auto score = read_line(line);
    if (!score) return at_line(score.fault());
    if (!scores.insert(std::move(*score)).second) {
      return at_line({Code::score_damaged, "the same position stands above", {}});
    }
  }
  return scores;
}

base::Status write_scores(const std::string& file, const Scores& scores) {
  base::Json header = base::Json::object();
  header.add("kairos", kind_of_file).add("version", version);
  std::string text = base::to_json(header) + "\n";
  for (const auto& [position, score] : scores) {
    base::Json object = base::Json::object();
    object.add("position", position).add("id", score.id);
    object.add("asked", score.asked).add("right", score.right);
    object.add("days", score.days).add("due", day_text(score.due));
    text += base::to_json(object) + "\n";
  }
  auto whole = base::WholeFile::open(file);
  if (!whole) return std::move(whole).faults();
  if (auto status = whole->write(text); !status) return status;
  return whole->commit();
}

// Closed, and with that unlocked, at the end.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() { ::close(number_); }

 private:
  int number_;
};

}  // namespace

std::optional<Day> parse_day(std::string_view text) {
  const auto parts = base::split(text, '-');
  if (text.size() != 10 || parts.size() != 3 || parts[0].size() != 4 || parts[1].size() != 2) {
    return std::nullopt;
  }
  const auto year = base::to_integer(parts[0]), month = base::to_integer(parts[1]),
             day = base::to_integer(parts[2]);
  if (!year || !month || !day || *year < 1970 || *month < 1 || *day < 1) return std::nullopt;
  const std::chrono::year_month_day date{std::chrono::year{static_cast<int>(*year)},
                                         std::chrono::month{static_cast<unsigned>(*month)},
                                         std::chrono::day{static_cast<unsigned>(*day)}};
  if (!date.ok()) return std::nullopt;
  return Day{date};
}

std::string day_text(Day day) {
  const std::chrono::year_month_day date{day};
  const auto two_digits = [](unsigned value) {
    return (value < 10 ? "-0" : "-") + std::to_string(value);
  };
  return std::to_string(static_cast<int>(date.year())) +
         two_digits(static_cast<unsigned>(date.month())) +
         two_digits(static_cast<unsigned>(date.day()));
}

base::Result<Scores> read_scores(const std::string& file) {
  namespace fs = std::filesystem;
  std::error_code ignored;
  const fs::file_type type = fs::status(file, ignored).type();
  if (type == fs::file_type::not_found) return Scores{};
  const bool is_device = type == fs::file_type::fifo || type == fs::file_type::socket ||
                         type == fs::file_type::character || type == fs::file_type::block;
  if (is_device) return Fault{Code::not_a_score_file, "it is no plain file", {.file = file}};
  const auto bytes = base::read_file(file);
  if (!bytes) return bytes.faults();
  if (bytes->empty()) return Scores{};
  return read_lines(*bytes, file);
}

base::Status add_answer(const std::string& file, const std::string& position, const std::string& id,
                        bool right, Day today) {
  const auto locked = base::open_locked(file, base::IfLocked::wait);
  if (!locked) return locked.faults();
  const Descriptor until_written(**locked);
  auto scores = read_scores(file);
  if (!scores) return std::move(scores).faults();
  PuzzleScore& score = (*scores)[position];
  score.id = id;
  grade(score, right, today);
  return write_scores(file, *scores);
}

void grade(PuzzleScore& score, bool right, Day today) {
  const bool first = score.asked == 0;
  ++score.asked;
  if (right) ++score.right;
  if (!right) {
    score.days = days_after_miss;
  } else if (first) {
    score.days = days_after_first;
  } else {
    score.days = std::min(2 * score.days, most_days);
  }
  score.due = std::min(today + days{score.days}, last_day);
}

Schedule schedule_of(const std::vector<std::string>& positions, const Scores& scores, Day today) {
  Schedule schedule;
  std::vector<std::pair<Day, std::size_t>> due;
  std::vector<std::size_t> unmet;
  std::set<std::string_view> seen;
  for (std::size_t i = 0; i < positions.size(); ++i) {
    if (!seen.insert(positions[i]).second) continue;
    const auto score = scores.find(positions[i]);
    if (score == scores.end()) {
      unmet.push_back(i);
    } else if (score->second.due <= today) {
      due.emplace_back(score->second.due, i);
    } else {
      schedule.next = std::min(schedule.next.value_or(last_day), score->second.due);
    }
  }
  std::sort(due.begin(), due.end());
  for (const auto& [day, i] : due) schedule.asked.push_back(i);
  schedule.asked.insert(schedule.asked.end(), unmet.begin(), unmet.end());
  return schedule;
}

}  // namespace kairos::cli
