#include "members.hpp"

#include "kairos/rules/fen.hpp"

#include "coordinates.hpp"

namespace kairos::batch {

const base::Json& Members::at(std::string_view name) const {
  static const base::Json nothing;
  const base::Json* member = object_.find(name);
  return member == nullptr ? nothing : *member;
}

const base::Json::Array& Members::elements(std::string_view name) {
  static const base::Json::Array none;
  const base::Json::Array* elements = at(name).elements();
  if (elements != nullptr) return *elements;
  damage_.note(name);
  return none;
}

void Members::get(std::string_view name, bool& value) {
  const auto flag = at(name).boolean();
  flag ? value = *flag : (damage_.note(name), value);
}

void Members::get(std::string_view name, double& value) {
  const auto real = at(name).real();
  real ? value = *real : (damage_.note(name), value);
}

void Members::get(std::string_view name, std::string& value) {
  const std::string* text = at(name).text();
  text != nullptr ? void(value = *text) : damage_.note(name);
}

void Members::get(std::string_view name, std::vector<std::string>& value) {
  value.clear();
  for (const base::Json& element : elements(name)) {
    const std::string* text = element.text();
    text != nullptr ? value.push_back(*text) : damage_.note(name);
  }
}

void Members::get(std::string_view name, rules::Position& position) {
  std::string fen;
  get(name, fen);
  auto parsed = rules::parse_fen(fen);
  parsed ? void(position = *parsed) : damage_.note(name);
}

void Members::get(std::string_view name, const rules::Position& position, rules::Move& move) {
  const std::string* text = at(name).text();
  const auto parsed = text == nullptr ? std::nullopt : parse_coordinates(position, *text);
  parsed ? void(move = *parsed) : damage_.note(name);
}

void Members::get(std::string_view name, const rules::Position& position,
                  std::vector<rules::Move>& line) {
  const std::string* text = at(name).text();
  auto parsed = text == nullptr ? std::nullopt : parse_coordinate_line(position, *text);
  parsed ? void(line = std::move(*parsed)) : damage_.note(name);
}

}  // namespace kairos::batch
