#include "kairos/base/json.hpp"

#include <array>
#include <charconv>
#include <cmath>

#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"

namespace kairos::base {

Json& Json::add(std::string_view name, Json value) {
  std::get<Object>(value_).emplace_back(std::string(name), std::move(value));
  return *this;
}

Json& Json::push(Json value) {
  std::get<Array>(value_).push_back(std::move(value));
  return *this;
}

std::optional<bool> Json::boolean() const {
  const bool* value = std::get_if<bool>(&value_);
  return value == nullptr ? std::nullopt : std::optional(*value);
}

std::optional<std::int64_t> Json::integer() const {
  const std::int64_t* value = std::get_if<std::int64_t>(&value_);
  return value == nullptr ? std::nullopt : std::optional(*value);
}

std::optional<double> Json::real() const {
  if (const double* value = std::get_if<double>(&value_)) return *value;
  if (const auto whole = integer()) return static_cast<double>(*whole);
  return std::nullopt;
}

const Json* Json::find(std::string_view name) const {
  const Object* object = members();
  if (object == nullptr) return nullptr;
  for (const auto& [member, value] : *object) {
    if (member == name) return &value;
  }
  return nullptr;
}

namespace {

void append_unit(std::string& text, std::uint32_t unit) {
  constexpr std::string_view digits = "0123456789abcdef";
  text += "\\u";
  for (const int shift : {12, 8, 4, 0}) text += digits[unit >> shift & 15];
}

void append_escaped(std::string& text, char c) {
  switch (c) {
    case '"':
      text += "\\\"";
      return;
    case '\\':
      text += "\\\\";
      return;
    case '\n':
      text += "\\n";
      return;
    case '\r':
      text += "\\r";
      return;
    case '\t':
      text += "\\t";
      return;
    default:
      append_unit(text, static_cast<unsigned char>(c));
  }
}

void append_utf8(std::string& text, std::uint32_t point) {
  const auto tail = [&text, point](int shift) {
    text += static_cast<char>(0x80 | (point >> shift & 0x3F));
  };
  if (point < 0x80) {
    text += static_cast<char>(point);
  } else if (point < 0x800) {
    text += static_cast<char>(0xC0 | point >> 6);
    tail(0);
  } else if (point < 0x10000) {
    text += static_cast<char>(0xE0 | point >> 12);
    tail(6);
    tail(0);
  } else {
    text += static_cast<char>(0xF0 | point >> 18);
    tail(12);
    tail(6);
    tail(0);
  }
}

// Beyond ASCII. What lies beyond U+FFFF is escaped as two surrogates.
void append_point(std::string& text, char32_t point) {
  if (!is_control(point) && !is_hidden(point)) {
    append_utf8(text, point);
  } else if (point < 0x10000) {
    append_unit(text, point);
  } else {
    append_unit(text, 0xD800 + ((point - 0x10000) >> 10));
    append_unit(text, 0xDC00 + ((point - 0x10000) & 0x3FF));
  }
}

template <typename T>
void append_number(std::string& text, T value) {
  std::array<char, 32> room;
  text.append(room.data(), std::to_chars(room.data(), room.data() + room.size(), value).ptr);
}

// A whole double keeps a point, so that it comes back as a double.
void append_real(std::string& text, double value) {
  if (!std::isfinite(value)) {
    text += "null";
    return;
  }
  const std::size_t begin = text.size();
  append_number(text, value);
  if (text.find_first_of(".e", begin) == std::string::npos) text += ".0";
}

}  // namespace

// Control characters and hidden ones are escaped, so that no line of JSON does anything to a
// terminal; the data stays as it is.
void append_json_string(std::string& text, std::string_view value) {
  const bool latin = !is_valid_utf8(value);
  text += '"';
  for (std::size_t i = 0; i < value.size(); ++i) {
    const auto byte = static_cast<unsigned char>(value[i]);
    if (byte < 0x20 || byte == 0x7F || value[i] == '"' || value[i] == '\\') {
      append_escaped(text, value[i]);
    } else if (byte < 0x80) {
      text += value[i];
    } else {
      const Character c = latin ? Character{byte, 1} : first_character(value.substr(i));
      append_point(text, *c.point);
      i += c.size - 1;
    }
  }
  text += '"';
}

void append_json(std::string& text, const Json& value) {
  if (const auto flag = value.boolean()) {
    text += *flag ? "true" : "false";
  } else if (const auto whole = value.integer()) {
    append_number(text, *whole);
  } else if (const auto real = value.real()) {
    append_real(text, *real);
  } else if (const std::string* string = value.text()) {
    append_json_string(text, *string);
  } else if (const Json::Array* elements = value.elements()) {
    text += '[';
    for (const Json& element : *elements) {
      if (&element != &elements->front()) text += ',';
      append_json(text, element);
    }
    text += ']';
  } else if (const Json::Object* members = value.members()) {
    text += '{';
    for (const Json::Member& member : *members) {
      if (&member != &members->front()) text += ',';
      append_json_string(text, member.first);
      text += ':';
      append_json(text, member.second);
    }
    text += '}';
  } else {
    text += "null";
  }
}

std::string to_json(const Json& value) {
  std::string text;
  append_json(text, value);
  return text;
}

namespace {

// Recursive descent with the depth counted. Every function returns false at damage and leaves
// `at_` there.
class Parser {
 public:
  explicit Parser(std::string_view text) : text_(text) {}

  Result<Json> parse() {
    Json value;
    const bool good = parse_value(value, 0);
    skip_blanks();
    if (good && at_ == text_.size()) return value;
    return Fault{Code::json_damaged, "", {.file = "", .line = 1, .column = at_ + 1, .game = 0}};
  }

 private:
  [[nodiscard]] char peek() const { return at_ < text_.size() ? text_[at_] : '\0'; }
  bool take(char c) {
    if (peek() != c || at_ >= text_.size()) return false;
    ++at_;
    return true;
  }
  bool take(std::string_view word) {
    if (text_.substr(at_, word.size()) != word) return false;
    at_ += word.size();
    return true;
  }
  void skip_blanks() {
    while (peek() == ' ' || peek() == '\t' || peek() == '\n' || peek() == '\r') ++at_;
  }

  bool parse_value(Json& value, int depth) {
    skip_blanks();
    if (++values_ > json_values) return false;
    switch (peek()) {
      case '{':
        return depth < json_depth && parse_object(value, depth + 1);
      case '[':
        return depth < json_depth && parse_array(value, depth + 1);
      case '"': {
        std::string string;
        if (!parse_string(string)) return false;
        value = std::move(string);
        return true;
      }
      case 't':
        value = true;
        return take("true");
      case 'f':
        value = false;
        return take("false");
      case 'n':
        value = Json();
        return take("null");
      default:
        return parse_number(value);
    }
  }

  bool parse_object(Json& value, int depth) {
    Json::Object object;
    take('{');
    skip_blanks();
    if (!take('}')) {
      do {
        Json::Member member;
        skip_blanks();
        if (!parse_string(member.first)) return false;
        skip_blanks();
        if (!take(':') || !parse_value(member.second, depth)) return false;
        object.push_back(std::move(member));
        skip_blanks();
      } while (take(','));
      if (!take('}')) return false;
    }
    value = std::move(object);
    return true;
  }

  bool parse_array(Json& value, int depth) {
    Json::Array array;
    take('[');
    skip_blanks();
    if (!take(']')) {
      do {
        if (!parse_value(array.emplace_back(), depth)) return false;
        skip_blanks();
      } while (take(','));
      if (!take(']')) return false;
    }
    value = std::move(array);
    return true;
  }

  bool parse_string(std::string& string) {
    if (!take('"')) return false;
    const std::size_t begin = at_;
    for (;;) {
      const std::size_t end = text_.find_first_of("\"\\", at_);
      if (end == std::string_view::npos) return false;
      const std::string_view plain = text_.substr(at_, end - at_);
      for (const char c : plain) {
        if (static_cast<unsigned char>(c) < 0x20) return false;
      }
      string.append(plain);
      at_ = end + 1;
      if (text_[end] == '"') return is_valid_utf8(text_.substr(begin, end - begin));
      if (!parse_escape(string)) return false;
    }
  }

  bool parse_escape(std::string& string) {
    constexpr std::string_view letters = "\"\\/bfnrt";
    constexpr std::string_view meanings = "\"\\/\b\f\n\r\t";
    if (take('u')) return parse_code_point(string);
    const auto which = letters.find(peek());
    if (at_ >= text_.size() || which == std::string_view::npos) return false;
    string += meanings[which];
    ++at_;
    return true;
  }

  // Four hexadecimal digits, or two such groups for a surrogate pair; half a pair is damage.
  bool parse_code_point(std::string& string) {
    const auto is_between = [](std::uint32_t n, std::uint32_t from, std::uint32_t to) {
      return n >= from && n <= to;
    };
    std::uint32_t point = 0;
    if (!parse_hexadecimal(point) || is_between(point, 0xDC00, 0xDFFF)) return false;
    if (is_between(point, 0xD800, 0xDBFF)) {
      std::uint32_t low = 0;
      if (!take("\\u") || !parse_hexadecimal(low) || !is_between(low, 0xDC00, 0xDFFF)) return false;
      point = 0x10000 + ((point - 0xD800) << 10) + (low - 0xDC00);
    }
    append_utf8(string, point);
    return true;
  }

  bool parse_hexadecimal(std::uint32_t& value) {
    const std::string_view digits = text_.substr(at_, 4);
    const auto [end, error] =
        std::from_chars(digits.data(), digits.data() + digits.size(), value, 16);
    if (digits.size() != 4 || error != std::errc{} || end != digits.data() + 4) return false;
    at_ += 4;
    return true;
  }

  std::size_t take_digits() {
    const std::size_t begin = at_;
    while (peek() >= '0' && peek() <= '9') ++at_;
    return at_ - begin;
  }

  bool parse_number(Json& value) {
    const std::size_t begin = at_;
    take('-');
    const bool leading_zero = peek() == '0';
    const std::size_t digits = take_digits();
    if (digits == 0 || (leading_zero && digits > 1)) return false;
    bool whole = true;
    if (take('.')) {
      whole = false;
      if (take_digits() == 0) return false;
    }
    if (take('e') || take('E')) {
      whole = false;
      if (!take('+')) take('-');
      if (take_digits() == 0) return false;
    }
    const std::string_view number = text_.substr(begin, at_ - begin);
    if (const auto integer = to_integer(number); whole && integer) {
      value = *integer;
      return true;
    }
    double real = 0;
    const auto error = std::from_chars(number.data(), number.data() + number.size(), real).ec;
    value = real;
    return error == std::errc{};
  }

  std::string_view text_;
  std::size_t at_ = 0;
  std::size_t values_ = 0;
};

}  // namespace

Result<Json> parse_json(std::string_view text) {
  return Parser(text).parse();
}

}  // namespace kairos::base
