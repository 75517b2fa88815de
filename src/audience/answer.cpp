#include "kairos/audience/answer.hpp"

#include "kairos/base/foreign.hpp"
#include "kairos/base/json.hpp"
#include "kairos/base/text.hpp"

namespace kairos::audience {

namespace {

constexpr std::size_t longest_time = 40;

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

std::optional<AnswerLine> answer(std::string_view time, std::string_view name,
                                 std::string_view words) {
  AnswerLine line;
  line.name = base::cut(base::trim(base::stripped(name)), longest_name);
  line.time = base::cut(base::trim(base::stripped(time)), longest_time);
  line.words = std::string(base::trim(words));
  if (line.name.empty() || line.words.empty()) return std::nullopt;
  return line;
}

std::optional<AnswerLine> by_json(const base::Json& json) {
  const auto member = [&json](std::string_view name) {
    const base::Json* value = json.find(name);
    if (value == nullptr) return std::string();
    if (const std::string* written = value->text()) return *written;
    return value->real() ? base::to_json(*value) : std::string();
  };
  return answer(member("time"), member("name"), member("text"));
}

std::optional<AnswerLine> by_tabs(std::string_view text, std::size_t tab) {
  const std::size_t second = text.find('\t', tab + 1);
  if (second == std::string_view::npos)
    return answer("", text.substr(0, tab), text.substr(tab + 1));
  return answer(text.substr(0, tab), text.substr(tab + 1, second - tab - 1),
                text.substr(second + 1));
}

// How much of the text is a time stamp: digits with signs between them and a colon among them, in
// brackets or with a blank behind.
std::size_t time_stamp(std::string_view text) {
  if (text.empty()) return 0;
  if (text[0] == '[' || text[0] == '(') {
    const std::size_t end = text.find(text[0] == '[' ? ']' : ')');
    if (end == std::string_view::npos || !is_digit(text[1])) return 0;
    return text.substr(0, end).find(':') == std::string_view::npos ? 0 : end + 1;
  }
  if (!is_digit(text[0])) return 0;
  std::size_t end = 0;
  bool colon = false;
  for (; end < text.size(); ++end) {
    const char c = text[end];
    const bool digit_next = end + 1 < text.size() && is_digit(text[end + 1]);
    if (c == ':' && !digit_next) return 0;  // "12: e4" is somebody called 12
    colon = colon || c == ':';
    if (c == ' ' && !(digit_next && !colon)) break;  // a date may stand before
    if (!is_digit(c) && std::string_view(":.-/TZ+ ").find(c) == std::string_view::npos) return 0;
  }
  return colon && end < text.size() ? end + 1 : 0;
}

std::optional<AnswerLine> by_colon(std::string_view text) {
  const std::size_t stamp = time_stamp(text);
  const std::string_view rest = text.substr(stamp);
  const std::size_t colon = rest.find(':');
  if (colon == std::string_view::npos) return std::nullopt;
  std::string_view time = base::trim(text.substr(0, stamp));
  if (!time.empty() && (time.front() == '[' || time.front() == '(')) {
    time = time.substr(1, time.size() - 2);
  }
  return answer(time, rest.substr(0, colon), rest.substr(colon + 1));
}

}  // namespace

std::optional<AnswerLine> read_answer_line(std::string_view line) {
  const std::string_view text = base::trim(line);
  if (!text.empty() && text.front() == '{') {
    if (const auto json = base::parse_json(text)) return by_json(*json);
  }
  if (const auto tab = text.find('\t'); tab != std::string_view::npos) return by_tabs(text, tab);
  return by_colon(text);
}

}  // namespace kairos::audience
