#include "run_record.hpp"

#include <algorithm>

#include "kairos/base/text.hpp"

#include "members.hpp"

namespace kairos::batch {

using base::Json;

std::string text_of(const Json& json, std::string_view name) {
  const Json* member = json.find(name);
  const std::string* text = member == nullptr ? nullptr : member->text();
  return text == nullptr ? "" : *text;
}

Json encode_header(const RunHeader& header) {
  Json part = Json::array();
  part.push(header.part.number).push(header.part.of);
  Json json = Json::object();
  json.add("record", "run").add("version", header.version).add("settings", header.settings);
  json.add("part", std::move(part));
  return json;
}

std::optional<RunHeader> decode_header(const Json& json) {
  const Json* part = json.find("part");
  const Json::Array* numbers = part == nullptr ? nullptr : part->elements();
  if (numbers == nullptr || numbers->size() != 2) return std::nullopt;
  const auto number = (*numbers)[0].integer(), of = (*numbers)[1].integer();
  if (!number || !of || *number < 1 || *of < *number || *of > 1'000'000) return std::nullopt;
  return RunHeader{text_of(json, "version"), text_of(json, "settings"),
                   Part{static_cast<int>(*number), static_cast<int>(*of)}};
}

namespace {

// The first words in which two settings texts differ, for people.
std::string difference(const RunHeader& then, const RunHeader& now) {
  if (!(then.part == now.part)) {
    return "part " + to_text(then.part) + " then, part " + to_text(now.part) + " now";
  }
  std::string words_then, words_now;
  const auto a = base::fields(then.settings), b = base::fields(now.settings);
  for (std::size_t i = 0; i < std::max(a.size(), b.size()); ++i) {
    const std::string_view x = i < a.size() ? a[i] : "-", y = i < b.size() ? b[i] : "-";
    if (x == y) continue;
    // A value alone says little: its name stands before it, unless they are one word.
    const std::string_view name = i > 0 && x.find('=') == std::string_view::npos ? a[i - 1] : "";
    const std::string before = name.empty() ? "" : std::string(name) + " ";
    words_then += (words_then.empty() ? "" : ", ") + before + std::string(x);
    words_now += (words_now.empty() ? "" : ", ") + before + std::string(y);
  }
  return words_then + " then, " + words_now + " now";
}

}  // namespace

base::Status check_header(const RunHeader& then, const RunHeader& now, const std::string& path) {
  const auto fault = [&path](base::Code code, std::string detail) {
    return base::Fault{code, std::move(detail), {.file = path}};
  };
  if (then.version != now.version) {
    return fault(base::Code::ledger_version, then.version + " then, " + now.version + " now");
  }
  if (then.settings != now.settings || !(then.part == now.part)) {
    return fault(base::Code::ledger_settings_differ, difference(then, now));
  }
  return base::done();
}

namespace {

Json encode(const base::Fault& fault) {
  const auto& [code, detail, place] = fault;
  Json json = Json::object();
  json.add("code", static_cast<int>(code)).add("detail", detail).add("file", place.file);
  json.add("line", place.line).add("column", place.column).add("game", place.game);
  return json;
}

void decode(const Json& json, Damage& damage, base::Fault& fault) {
  Members members(json, damage);
  members.get_enum("code", fault.code, base::code_count);
  members.get("detail", fault.detail);
  members.get("file", fault.place.file);
  members.get("line", fault.place.line);
  members.get("column", fault.place.column);
  members.get("game", fault.place.game);
}

Json encode(const InputGame& game) {
  const auto& [key, number, file, line, white, black, shared_plies] = game;
  Json json = Json::object();
  json.add("key", to_text(key)).add("number", number).add("file", file).add("line", line);
  json.add("white", white).add("black", black).add("shared_plies", shared_plies);
  return json;
}

void decode(const Json& json, Damage& damage, InputGame& game) {
  Members members(json, damage);
  std::string key;
  members.get("key", key);
  if (auto parsed = parse_key(key)) {
    game.key = *parsed;
  } else {
    damage.note("key");
  }
  members.get("number", game.number);
  members.get("file", game.file);
  members.get("line", game.line);
  members.get("white", game.white);
  members.get("black", game.black);
  members.get("shared_plies", game.shared_plies);
}

}  // namespace

Json encode_input(const Input& input) {
  const auto& [files, games, games_total, faults, complete] = input;
  Json file_array = Json::array(), game_array = Json::array(), fault_array = Json::array();
  for (const std::string& file : files) file_array.push(file);
  for (const InputGame& game : games) game_array.push(encode(game));
  for (const base::Fault& fault : faults) fault_array.push(encode(fault));
  Json json = Json::object();
  json.add("record", "input").add("total", games_total).add("complete", complete);
  json.add("files", std::move(file_array)).add("games", std::move(game_array));
  json.add("faults", std::move(fault_array));
  return json;
}

std::optional<Input> decode_input(const Json& json) {
  Damage damage;
  Members members(json, damage);
  Input input;
  members.get("total", input.games_total);
  members.get("complete", input.complete);
  members.get("files", input.files);
  for (const Json& element : members.elements("games")) {
    InputGame& game = input.games.emplace_back();
    decode(element, damage, game);
    if (game.file >= input.files.size()) damage.note("file");
  }
  for (const Json& element : members.elements("faults")) {
    decode(element, damage, input.faults.emplace_back());
  }
  if (input.games_total < input.games.size()) damage.note("total");
  return damage.none() ? std::optional(std::move(input)) : std::nullopt;
}

}  // namespace kairos::batch
