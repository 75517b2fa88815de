#include "fields.hpp"

#include <algorithm>
#include <cmath>

#include "kairos/base/text.hpp"
#include "kairos/rules/fen.hpp"

#include "coordinates.hpp"

namespace kairos::batch {

using base::Json;

namespace {

std::string to_text(Range range) {
  return base::number(range.least) + " to " + base::number(range.most);
}

}  // namespace

void FieldWriter::put(std::string_view name, Json value) {
  into_.members() == nullptr ? into_.push(std::move(value)) : into_.add(name, std::move(value));
}

void FieldWriter::texts(std::string_view name, const std::vector<std::string>& value, Range,
                        std::size_t) {
  Json array = Json::array();
  for (const std::string& text : value) array.push(text);
  put(name, std::move(array));
}

void FieldWriter::position(std::string_view name, const rules::Position& value) {
  put(name, rules::to_fen(value));
}

void FieldWriter::move(std::string_view name, const rules::Position&, rules::Move value) {
  put(name, to_coordinates(value));
}

void FieldWriter::line(std::string_view name, const rules::Position&,
                       const std::vector<rules::Move>& value, Range) {
  put(name, to_coordinates(value));
}

void FieldWriter::men(std::string_view name, const study::Men& value) {
  std::string letters;
  for (std::size_t t = value.size(); t-- > 0;) {
    const rules::Piece man = rules::make_piece(rules::black, static_cast<rules::PieceType>(t));
    letters.append(static_cast<std::size_t>(std::max<int>(value[t], 0)), rules::letter_of(man));
  }
  put(name, letters);
}

void FieldReader::men(std::string_view name, study::Men& value) {
  std::string letters;
  text(name, letters, rules::square_count / 2);
  for (const char letter : letters) {
    const rules::Piece man = rules::piece_of_letter(letter);
    if (man == rules::no_piece) return tell(name, "is no list of men");
    ++value[rules::type_of(man)];
  }
}

void FieldReader::real(std::string_view name, double& value, double least, double most) {
  const Json* json = member(name);
  if (json == nullptr) return;
  const auto read = json->real();
  if (!read || !(least <= *read && *read <= most)) {
    return tell(name,
                "is not a number from " + base::fixed(least, 0) + " to " + base::fixed(most, 0));
  }
  value = *read;
}

void FieldReader::flag(std::string_view name, bool& value) {
  const Json* json = member(name);
  if (json == nullptr) return;
  const auto read = json->boolean();
  if (!read) return tell(name, "is neither true nor false");
  value = *read;
}

void FieldReader::text(std::string_view name, std::string& value, std::size_t most_bytes) {
  const Json* json = member(name);
  if (json == nullptr) return;
  const std::string* read = json->text();
  if (read == nullptr) return tell(name, "is no text");
  if (read->size() > most_bytes) {
    return tell(name, "is longer than " + base::grouped(most_bytes) + " bytes");
  }
  value = *read;
}

void FieldReader::texts(std::string_view name, std::vector<std::string>& value, Range count,
                        std::size_t most_bytes) {
  each(name, count, [&](FieldReader& list) { list.text("", value.emplace_back(), most_bytes); });
}

void FieldReader::key(std::string_view name, GameKey& value) {
  std::string text;
  this->text(name, text, 64);
  if (!good()) return;
  const auto read = parse_key(text);
  if (!read) return tell(name, "is no key of a game");
  value = *read;
}

void FieldReader::position(std::string_view name, rules::Position& value) {
  std::string fen;
  text(name, fen, 256);
  if (!good()) return;
  const auto read = rules::parse_fen(fen);
  if (!read) return tell(name, "is no legal position");
  value = *read;
}

void FieldReader::move(std::string_view name, const rules::Position& position, rules::Move& value) {
  std::string text;
  this->text(name, text, 8);
  if (!good()) return;
  const auto read = parse_coordinates(position, text);
  if (!read) return tell(name, "cannot be played");
  value = *read;
}

void FieldReader::line(std::string_view name, const rules::Position& position,
                       std::vector<rules::Move>& value, Range length) {
  const Json* json = member(name);
  if (json == nullptr) return;
  if (json->text() == nullptr) return tell(name, "is no text");
  auto read = parse_coordinate_line(position, *json->text());
  if (!read) return tell(name, "cannot be played");
  if (!length.holds(static_cast<std::int64_t>(read->size()))) {
    return tell(name, "does not have " + to_text(length) + " moves");
  }
  value = std::move(*read);
}

const Json* FieldReader::member(std::string_view name) {
  if (!good()) return nullptr;
  const Json* json = nullptr;
  if (const Json::Array* elements = from_.elements()) {
    if (next_ < elements->size()) json = &(*elements)[next_];
    ++next_;
  } else {
    json = from_.find(name);
  }
  if (json == nullptr) tell(name, "is missing");
  return json;
}

const Json* FieldReader::array(std::string_view name, Range size) {
  const Json* json = member(name);
  if (json == nullptr) return nullptr;
  const Json::Array* elements = json->elements();
  if (elements != nullptr && size.holds(static_cast<std::int64_t>(elements->size()))) return json;
  tell(name, "is not an array of " + to_text(size) + " elements");
  return nullptr;
}

std::optional<std::int64_t> FieldReader::whole(std::string_view name, Range range) {
  const Json* json = member(name);
  if (json == nullptr) return std::nullopt;
  const auto read = json->integer();
  if (read && range.holds(*read)) return read;
  tell(name, "is not a whole number from " + to_text(range));
  return std::nullopt;
}

void FieldReader::end() {
  const Json::Array* elements = from_.elements();
  if (good() && elements != nullptr && next_ < elements->size()) {
    damage_.note(outer_->way_to(name_) + " has more than " +
                 base::number(static_cast<std::int64_t>(next_)) + " elements");
  }
}

void FieldReader::tell(std::string_view name, std::string_view why) {
  damage_.note(way_to(name) + " " + std::string(why));
}

std::string FieldReader::way_to(std::string_view name) const {
  std::string way = outer_ == nullptr ? "" : outer_->way_to(name_);
  if (from_.elements() != nullptr) {
    return way + "[" + base::number(static_cast<std::int64_t>(next_) - 1) + "]";
  }
  if (!way.empty()) way += ".";
  return way.append(name);
}

}  // namespace kairos::batch
