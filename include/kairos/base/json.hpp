// JSON (RFC 8259): a value, its reader and its writer.
//
// Members of an object keep their order, so the same value always gives the same bytes. Whole
// numbers within 64 bits stay exact; others are doubles and are written in the shortest form that
// reads back the same. The writer puts everything on one line without blanks and makes valid UTF-8
// of any bytes (those that are none are read as ISO 8859-1); control characters and hidden ones
// (foreign.hpp) are escaped. The reader is strict: no comments, no trailing commas, nothing behind
// the value, at most `json_depth` levels and `json_values` values (two bytes of text may be one,
// which takes up to a hundred in memory); it never throws, and its fault (json_damaged) has the
// byte as column.
//
//   Json game = Json::object();
//   game.add("ply", 12).add("fen", fen);
//   std::string line = to_json(game);
#pragma once

#include <concepts>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "kairos/base/result.hpp"

namespace kairos::base {

inline constexpr int json_depth = 64;
inline constexpr std::size_t json_values = 1'000'000;

template <typename T>
concept WholeNumber = std::integral<T> && !std::same_as<T, bool> && !std::same_as<T, char>;

class Json {
 public:
  using Array = std::vector<Json>;
  using Member = std::pair<std::string, Json>;
  using Object = std::vector<Member>;

  Json() = default;  // null
  Json(bool value) : value_(value) {}
  Json(WholeNumber auto value) : value_(static_cast<std::int64_t>(value)) {}
  Json(double value) : value_(value) {}
  Json(std::string value) : value_(std::move(value)) {}
  Json(std::string_view value) : value_(std::string(value)) {}
  Json(const char* value) : value_(std::string(value)) {}
  Json(Array value) : value_(std::move(value)) {}
  Json(Object value) : value_(std::move(value)) {}
  static Json object() { return Object{}; }
  static Json array() { return Array{}; }

  // Appends a member; only to an object.
  Json& add(std::string_view name, Json value);
  // Appends an element; only to an array.
  Json& push(Json value);

  // What the value is, or nothing when it is something else.
  [[nodiscard]] bool is_null() const { return value_.index() == 0; }
  [[nodiscard]] std::optional<bool> boolean() const;
  [[nodiscard]] std::optional<std::int64_t> integer() const;
  [[nodiscard]] std::optional<double> real() const;  // also of whole numbers
  [[nodiscard]] const std::string* text() const { return std::get_if<std::string>(&value_); }
  [[nodiscard]] const Array* elements() const { return std::get_if<Array>(&value_); }
  [[nodiscard]] const Object* members() const { return std::get_if<Object>(&value_); }
  // The first member of that name, or null when there is none or this is no object.
  [[nodiscard]] const Json* find(std::string_view name) const;

  friend bool operator==(const Json&, const Json&) = default;

 private:
  friend void append_json(std::string& text, const Json& value);

  std::variant<std::monostate, bool, std::int64_t, double, std::string, Array, Object> value_;
};

// Infinities and NaN, which JSON does not have, become null.
std::string to_json(const Json& value);
void append_json(std::string& text, const Json& value);
// A string with its quotes.
void append_json_string(std::string& text, std::string_view value);

Result<Json> parse_json(std::string_view text);

}  // namespace kairos::base
