// Reading the members of a JSON object, with the first damage kept.
//
// After a failed read everything goes on with default values, and `status` says at the end what was
// wrong: one check for a whole record instead of one for each member.
#pragma once

#include <concepts>
#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "kairos/base/json.hpp"
#include "kairos/rules/position.hpp"

namespace kairos::batch {

// The damage of one record; shared by all Members that read it.
class Damage {
 public:
  void note(std::string_view where) {
    if (!where_) where_ = std::string(where);
  }
  [[nodiscard]] bool none() const { return !where_; }
  [[nodiscard]] base::Fault fault() const {
    return {base::Code::json_damaged, where_.value_or(""), {}};
  }

 private:
  std::optional<std::string> where_;
};

class Members {
 public:
  Members(const base::Json& object, Damage& damage) : object_(object), damage_(damage) {}

  template <std::integral T>
  void get(std::string_view name, T& value) {
    const auto number = at(name).integer();
    if (number && std::in_range<T>(*number)) {
      value = static_cast<T>(*number);
    } else {
      damage_.note(name);
    }
  }
  void get(std::string_view name, bool& value);
  void get(std::string_view name, double& value);
  void get(std::string_view name, std::string& value);
  void get(std::string_view name, std::vector<std::string>& value);
  void get(std::string_view name, rules::Position& position);  // FEN
  // An enumeration stored as its number, below `count`.
  template <typename E>
  void get_enum(std::string_view name, E& value, int count) {
    int number = 0;
    get(name, number);
    number >= 0 && number < count ? value = static_cast<E>(number) : (damage_.note(name), value);
  }
  // Enumerations stored by their names, as `name_of` gives them for each value below `count`.
  template <typename E>
  void get_names(std::string_view name, std::vector<E>& values, int count) {
    for (const base::Json& element : elements(name)) {
      const auto value = named<E>(element, count);
      value ? values.push_back(*value) : damage_.note(name);
    }
  }
  template <typename E>
  void get_name(std::string_view name, E& value, int count) {
    const auto read = named<E>(at(name), count);
    read ? void(value = *read) : damage_.note(name);
  }
  // Null is nothing.
  template <typename E>
  void get_name(std::string_view name, std::optional<E>& value, int count) {
    value = named<E>(at(name), count);
    const bool is_nothing = object_.find(name) != nullptr && at(name).is_null();
    if (!value && !is_nothing) damage_.note(name);
  }
  // Moves as text, played from `position`.
  void get(std::string_view name, const rules::Position& position, rules::Move& move);
  void get(std::string_view name, const rules::Position& position, std::vector<rules::Move>& line);

  // The member, or null.
  [[nodiscard]] const base::Json& at(std::string_view name) const;
  // The elements of an array member; none when it is not there.
  [[nodiscard]] const base::Json::Array& elements(std::string_view name);
  Damage& damage() { return damage_; }

 private:
  template <typename E>
  static std::optional<E> named(const base::Json& json, int count) {
    const std::string* text = json.text();
    for (int i = 0; text != nullptr && i < count; ++i) {
      if (name_of(static_cast<E>(i)) == *text) return static_cast<E>(i);
    }
    return std::nullopt;
  }

  const base::Json& object_;
  Damage& damage_;
};

}  // namespace kairos::batch
