// The members of a record, named once: how they are written, and what they may be when read.
//
// Every struct that stands in a record has one table: a function template that names its members
// line by line, each with its kind and its bounds. Given a FieldWriter it makes the JSON, given a
// FieldReader it fills the struct and checks everything: that the member is there and of its kind,
// within its range, and that moves can be played. What `require` says between members is checked at
// reading. Example:
//
//   template <typename Fields, typename Line>
//   void line_fields(Fields& f, Line& line, const rules::Position& position) {
//     auto& [score, moves] = line;  // does not compile when the struct gets another member
//     f.number("score", score, scores);
//     f.line("moves", position, moves, {1, most_line});
//   }
//
// Reading stops at the first damage, which is told with the way to the member, for instance
// "notes[3].lines[0].score is not a whole number from -32000 to 32000". What was not read keeps its
// value. A tuple is an object whose members stand in an array, in order and without names.
#pragma once

#include <concepts>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "kairos/base/json.hpp"
#include "kairos/batch/run.hpp"
#include "kairos/rules/position.hpp"
#include "kairos/study/reason.hpp"

namespace kairos::batch {

// Both ends are allowed.
struct Range {
  std::int64_t least = 0;
  std::int64_t most = 0;

  [[nodiscard]] bool holds(std::int64_t n) const { return least <= n && n <= most; }
};

// The first damage of one record.
class FirstDamage {
 public:
  void note(std::string what) {
    if (!what_) what_ = std::move(what);
  }
  [[nodiscard]] bool none() const { return !what_; }
  [[nodiscard]] base::Fault fault() const { return {base::Code::json_damaged, *what_, {}}; }

 private:
  std::optional<std::string> what_;
};

class FieldWriter {
 public:
  // `into` is an object, or an array for a tuple.
  explicit FieldWriter(base::Json& into) : into_(into) {}

  template <base::WholeNumber T>
  void number(std::string_view name, T value, Range) {
    put(name, value);
  }
  void real(std::string_view name, double value, double, double) { put(name, value); }
  void flag(std::string_view name, bool value) { put(name, value); }
  void text(std::string_view name, const std::string& value, std::size_t) { put(name, value); }
  void texts(std::string_view name, const std::vector<std::string>& value, Range, std::size_t);
  template <typename E>
  void choice(std::string_view name, E value, int) {
    put(name, static_cast<int>(value));
  }
  template <typename E>
  void choices(std::string_view name, const std::vector<E>& value, Range, int) {
    base::Json array = base::Json::array();
    for (const E element : value) array.push(static_cast<int>(element));
    put(name, std::move(array));
  }
  // An enumeration stored as its `name_of`, which never changes; null for none.
  template <typename E>
  void name(std::string_view name, E value, int) {
    put(name, name_of(value));
  }
  template <typename E>
  void name(std::string_view name, const std::optional<E>& value, int) {
    put(name, value ? base::Json(name_of(*value)) : base::Json());
  }
  template <typename E>
  void names(std::string_view name, const std::vector<E>& value, Range, int) {
    base::Json array = base::Json::array();
    for (const E element : value) array.push(name_of(element));
    put(name, std::move(array));
  }
  // Letters of men, the most valuable first: "qpp".
  void men(std::string_view name, const study::Men& value);
  // 0 White, 1 Black, -1 neither.
  void side(std::string_view name, const std::optional<rules::Color>& value) {
    put(name, value ? static_cast<int>(*value) : -1);
  }
  void key(std::string_view name, const GameKey& value) { put(name, to_text(value)); }
  void move_bits(std::string_view name, rules::Move value) { put(name, int{value.raw()}); }
  void position(std::string_view name, const rules::Position& value);
  void move(std::string_view name, const rules::Position&, rules::Move value);
  void line(std::string_view name, const rules::Position&, const std::vector<rules::Move>& value,
            Range);

  template <typename T, typename Table>
  void object(std::string_view name, const T& value, const Table& table) {
    put(name, made(base::Json::object(), value, table));
  }
  template <typename T, typename Table>
  void tuple(std::string_view name, const T& value, const Table& table) {
    put(name, made(base::Json::array(), value, table));
  }
  template <typename T, typename Table>
  void objects(std::string_view name, const std::vector<T>& value, Range, const Table& table) {
    base::Json array = base::Json::array();
    for (const T& element : value) array.push(made(base::Json::object(), element, table));
    put(name, std::move(array));
  }
  template <typename T, typename Table>
  void tuples(std::string_view name, const std::vector<T>& value, Range, const Table& table) {
    base::Json array = base::Json::array();
    for (const T& element : value) array.push(made(base::Json::array(), element, table));
    put(name, std::move(array));
  }

  void require(bool, std::string_view, std::string_view) {}

 private:
  template <typename T, typename Table>
  static base::Json made(base::Json empty, const T& value, const Table& table) {
    FieldWriter inner(empty);
    table(inner, value);
    return empty;
  }
  void put(std::string_view name, base::Json value);

  base::Json& into_;
};

class FieldReader {
 public:
  FieldReader(const base::Json& from, FirstDamage& damage) : from_(from), damage_(damage) {}

  template <base::WholeNumber T>
  void number(std::string_view name, T& value, Range range) {
    if (const auto read = whole(name, range)) value = static_cast<T>(*read);
  }
  void real(std::string_view name, double& value, double least, double most);
  void flag(std::string_view name, bool& value);
  void text(std::string_view name, std::string& value, std::size_t most_bytes);
  void texts(std::string_view name, std::vector<std::string>& value, Range count,
             std::size_t most_bytes);
  // An enumeration stored as its number, below `count`.
  template <typename E>
  void choice(std::string_view name, E& value, int count) {
    if (const auto read = whole(name, {0, count - 1})) value = static_cast<E>(*read);
  }
  template <typename E>
  void choices(std::string_view name, std::vector<E>& value, Range size, int count) {
    each(name, size, [&](FieldReader& list) { list.choice("", value.emplace_back(), count); });
  }
  template <typename E>
  void name(std::string_view name, E& value, int count) {
    std::string text;
    this->text(name, text, longest_name);
    if (const auto read = named<E>(name, text, count)) value = *read;
  }
  template <typename E>
  void name(std::string_view name, std::optional<E>& value, int count) {
    const base::Json* json = member(name);
    if (json == nullptr || json->is_null()) return;
    if (json->text() == nullptr) return tell(name, "is no text");
    value = named<E>(name, *json->text(), count);
  }
  template <typename E>
  void names(std::string_view name, std::vector<E>& value, Range size, int count) {
    each(name, size, [&](FieldReader& list) { list.name("", value.emplace_back(), count); });
  }
  void men(std::string_view name, study::Men& value);
  void side(std::string_view name, std::optional<rules::Color>& value) {
    const auto read = whole(name, {-1, 1});
    if (read && *read >= 0) value = static_cast<rules::Color>(*read);
  }
  void key(std::string_view name, GameKey& value);
  // The 16 bits of a move that is played from a position that is not in the record: whether it can
  // be is for others to check.
  void move_bits(std::string_view name, rules::Move& value) {
    if (const auto read = whole(name, {0, 0xFFFF})) {
      value = rules::Move::from_raw(static_cast<std::uint16_t>(*read));
    }
  }
  // FEN.
  void position(std::string_view name, rules::Position& value);
  // In coordinates, played from `position`; "no move" and the null move are moves too.
  void move(std::string_view name, const rules::Position& position, rules::Move& value);
  // Legal moves played one after the other.
  void line(std::string_view name, const rules::Position& position, std::vector<rules::Move>& value,
            Range length);

  template <typename T, typename Table>
  void object(std::string_view name, T& value, const Table& table) {
    const base::Json* json = member(name);
    if (json == nullptr) return;
    if (json->members() == nullptr) return tell(name, "is no object");
    FieldReader inner(*json, *this, name);
    table(inner, value);
  }
  template <typename T, typename Table>
  void tuple(std::string_view name, T& value, const Table& table) {
    const base::Json* json = array(name, {0, 16});
    if (json == nullptr) return;
    FieldReader inner(*json, *this, name);
    table(inner, value);
    inner.end();
  }
  template <typename T, typename Table>
  void objects(std::string_view name, std::vector<T>& value, Range size, const Table& table) {
    each(name, size, [&](FieldReader& list) { list.object("", value.emplace_back(), table); });
  }
  template <typename T, typename Table>
  void tuples(std::string_view name, std::vector<T>& value, Range size, const Table& table) {
    each(name, size, [&](FieldReader& list) { list.tuple("", value.emplace_back(), table); });
  }

  // Of members that were read: `why` says what `name` is when it does not hold.
  void require(bool holds, std::string_view name, std::string_view why) {
    if (good() && !holds) tell(name, why);
  }
  // All that was read is good so far.
  [[nodiscard]] bool good() const { return damage_.none(); }

 private:
  FieldReader(const base::Json& from, const FieldReader& outer, std::string_view name)
      : from_(from), damage_(outer.damage_), outer_(&outer), name_(name) {}

  // `read` for each element of an array, by a reader that takes one after the other.
  template <typename Read>
  void each(std::string_view name, Range size, const Read& read) {
    const base::Json* json = array(name, size);
    if (json == nullptr) return;
    FieldReader list(*json, *this, name);
    while (list.next_ < json->elements()->size() && good()) read(list);
  }

  static constexpr std::size_t longest_name = 64;
  template <typename E>
  std::optional<E> named(std::string_view name, std::string_view text, int count) {
    if (!good()) return std::nullopt;
    for (int i = 0; i < count; ++i) {
      if (name_of(static_cast<E>(i)) == text) return static_cast<E>(i);
    }
    tell(name, "is none of the names it may have");
    return std::nullopt;
  }

  // The member, of an array the next element; null when there is none or something was wrong
  // before.
  const base::Json* member(std::string_view name);
  const base::Json* array(std::string_view name, Range size);
  std::optional<std::int64_t> whole(std::string_view name, Range range);
  // A tuple must have no further elements.
  void end();
  void tell(std::string_view name, std::string_view why);
  // To the member that was asked for last.
  [[nodiscard]] std::string way_to(std::string_view name) const;

  const base::Json& from_;
  FirstDamage& damage_;
  const FieldReader* outer_ = nullptr;
  std::string_view name_;
  std::size_t next_ = 0;  // of an array
};

}  // namespace kairos::batch
