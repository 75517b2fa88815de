#include "kairos/audience/again.hpp"

#include <algorithm>
#include <set>

#include "kairos/base/text.hpp"
#include "kairos/rules/fen.hpp"

#include "score_lines.hpp"

namespace kairos::audience {

namespace {

using base::Code;
using base::Fault;
using std::chrono::days;

constexpr ScoreKind kind{"quiz scores", 1};

constexpr int days_after_miss = 1;
constexpr int days_after_first = 4;
constexpr int most_days = 180;
constexpr Day last_day = std::chrono::year{9999} / std::chrono::December / std::chrono::day{31};

base::Result<QuizScores::value_type> read_line(std::string_view line) {
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
  const auto whole = [](const auto& number) { return static_cast<int>(*number); };
  return QuizScores::value_type{*position,
                                QuizScore{*id, whole(asked), whole(right), whole(interval), *due}};
}

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

base::Result<QuizScores> parse_scores(std::string_view text, const std::string& file) {
  QuizScores scores;
  const auto read = read_score_lines(text, file, kind, [&scores](std::string_view line) {
    auto score = read_line(line);
    if (!score) return base::Status(std::move(score).faults());
    if (scores.insert(std::move(*score)).second) return base::done();
    return base::Status(Fault{Code::score_damaged, "the same position stands above", {}});
  });
  if (!read) return read.faults();
  return scores;
}

std::string to_text(const QuizScores& scores) {
  std::string text = score_header(kind);
  for (const auto& [position, score] : scores) {
    base::Json object = base::Json::object();
    object.add("position", position).add("id", score.id);
    object.add("asked", score.asked).add("right", score.right);
    object.add("days", score.days).add("due", day_text(score.due));
    text += base::to_json(object) + "\n";
  }
  return text;
}

void grade(QuizScore& score, bool right, Day today) {
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

std::string position_of(const puzzle::Exercise& exercise) {
  return rules::to_epd_fields(exercise.puzzle.position);
}

DuePuzzles due_puzzles(const std::vector<std::string>& positions, const QuizScores& scores,
                       Day today) {
  DuePuzzles found;
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
      found.next = std::min(found.next.value_or(last_day), score->second.due);
    }
  }
  std::sort(due.begin(), due.end());
  for (const auto& [day, i] : due) found.asked.push_back(i);
  found.asked.insert(found.asked.end(), unmet.begin(), unmet.end());
  return found;
}

}  // namespace kairos::audience
