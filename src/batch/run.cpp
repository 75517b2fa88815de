#include "kairos/batch/run.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <set>

#include "kairos/base/checksum.hpp"
#include "kairos/base/hexadecimal.hpp"
#include "kairos/base/text.hpp"

namespace kairos::batch {

namespace {

constexpr std::size_t hash_digits = 16;
constexpr std::size_t crc_digits = 8;

base::Fault usage(std::string detail) {
  return {base::Code::usage, std::move(detail), {}};
}

std::string count(std::size_t n) {
  return base::grouped(n);
}

std::string describe(const InputGame& game) {
  return "game " + base::number(static_cast<std::int64_t>(game.number)) + ", " + game.white +
         " - " + game.black;
}

}  // namespace

GameKey key_of(std::string_view export_text) {
  return {base::hash64(export_text), base::crc32(export_text)};
}

std::string to_text(const GameKey& key) {
  return base::to_hexadecimal(key.hash, hash_digits) + base::to_hexadecimal(key.crc, crc_digits);
}

base::Result<GameKey> parse_key(std::string_view text) {
  const auto hash = base::parse_hexadecimal(text.substr(0, hash_digits));
  const auto crc = base::parse_hexadecimal(text.substr(std::min(hash_digits, text.size())));
  if (text.size() != hash_digits + crc_digits || !hash || !crc) {
    return base::Fault{base::Code::json_damaged, "game key: " + std::string(text), {}};
  }
  return GameKey{*hash, static_cast<std::uint32_t>(*crc)};
}

base::Result<Part> parse_part(std::string_view text) {
  const auto sides = base::split(text, '/');
  const auto number = base::to_integer(sides.front());
  const auto of = base::to_integer(sides.back());
  if (sides.size() != 2 || !number || !of || *number < 1 || *of < *number || *of > most_parts) {
    return usage("a part is written K/N, 1 to N of N, for instance 2/5; not " + std::string(text));
  }
  return Part{static_cast<int>(*number), static_cast<int>(*of)};
}

std::string to_text(const Part& part) {
  return base::number(part.number) + "/" + base::number(part.of);
}

std::string unlike(const RunHeader& one, const RunHeader& other) {
  std::vector<std::string> differences;
  if (one.evaluation != other.evaluation) {
    differences.push_back("evaluation " + one.evaluation + ", not " + other.evaluation);
  }
  if (one.definitions != other.definitions) {
    differences.push_back("definitions " + base::number(one.definitions) + ", not " +
                          base::number(other.definitions));
  }
  return base::join(differences, "; ");
}

std::string fingerprint(const Input& input) {
  std::string keys;
  for (const InputGame& game : input.games) (keys += to_text(game.key)) += '\n';
  return to_text(key_of(keys));
}

base::Status fits(const Input& before, const Input& now, const Part& part,
                  const std::string& folder) {
  if (!part.whole()) {
    if (fingerprint(before) == fingerprint(now)) return base::done();
    return base::Fault{base::Code::ledger_settings_differ,
                       "a part of a split run needs the same games in the same order; then " +
                           count(before.games.size()) + ", now " + count(now.games.size()),
                       {.file = folder}};
  }
  std::set<GameKey> keys;
  for (const InputGame& game : now.games) keys.insert(game.key);
  const auto is_gone = [&keys](const InputGame& game) { return !keys.contains(game.key); };
  const auto gone =
      static_cast<std::size_t>(std::count_if(before.games.begin(), before.games.end(), is_gone));
  if (gone * 2 <= before.games.size()) return base::done();
  const auto first = std::find_if(before.games.begin(), before.games.end(), is_gone);
  return base::Fault{base::Code::output_belongs_to_other_run,
                     count(gone) + " of its " + count(before.games.size()) +
                         " games are not in this input, the first is " + describe(*first),
                     {.file = folder}};
}

bool Focus::holds(const InputGame& game) const {
  return holds(game, rules::white, true);
}

bool Focus::holds(const InputGame& game, rules::Color side, bool last) const {
  if (everybody()) return true;
  const auto is_player = [this](const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
  };
  if (last) return is_player(game.white) || is_player(game.black);
  return is_player(side == rules::white ? game.white : game.black);
}

}  // namespace kairos::batch
