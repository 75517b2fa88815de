#include "ledger_record.hpp"

#include <algorithm>
#include <set>
#include <utility>

#include "kairos/base/checksum.hpp"
#include "kairos/base/hexadecimal.hpp"
#include "kairos/base/text.hpp"

#include "bounds.hpp"
#include "fields.hpp"
#include "record_tables.hpp"

namespace kairos::batch {

using base::Json;

namespace {

constexpr std::size_t mark_digits = 8;

template <typename Fields, typename Header>
void header_fields(Fields& f, Header& header) {
  auto& [version, evaluation, definitions, settings, part] = header;
  f.text("version", version, most_header);
  f.text("evaluation", evaluation, mark_digits);
  f.number("definitions", definitions, counts);
  f.text("settings", settings, most_header);
  f.tuple("part", part, [](auto& inner, auto& value) {
    inner.number("of", value.number, {1, most_parts});
    inner.number("of", value.of, {value.number, most_parts});
  });
}

template <typename Fields, typename Fault>
void fault_fields(Fields& f, Fault& fault) {
  auto& [code, detail, place] = fault;
  f.choice("code", code, base::code_count);
  f.text("detail", detail, most_words);
  f.text("file", place.file, most_words);
  f.number("line", place.line, counts);
  f.number("column", place.column, counts);
  f.number("game", place.game, counts);
}

template <typename Fields, typename Game>
void input_game_fields(Fields& f, Game& game, Range files) {
  auto& [key, number, file, line, white, black, shared_plies] = game;
  f.key("key", key);
  f.number("number", number, counts);
  f.number("file", file, files);
  f.number("line", line, counts);
  f.text("white", white, most_tag);
  f.text("black", black, most_tag);
  f.number("shared_plies", shared_plies, shared_openings);
}

bool are_different(const std::vector<InputGame>& games) {
  std::set<GameKey> keys;
  return std::all_of(games.begin(), games.end(),
                     [&keys](const InputGame& game) { return keys.insert(game.key).second; });
}

// From 1 upwards, and no more than there are.
bool are_numbered(const std::vector<InputGame>& games, std::uint64_t total) {
  std::uint64_t last = 0;
  return std::all_of(games.begin(), games.end(), [&](const InputGame& game) {
    return std::exchange(last, game.number) < game.number && game.number <= total;
  });
}

template <typename Fields, typename In>
void input_fields(Fields& f, In& input) {
  auto& [files, games, games_total, faults, complete, repeats] = input;
  f.number("total", games_total, counts);
  f.flag("complete", complete);
  f.number("repeats", repeats, counts);
  f.texts("files", files, counts, most_words);
  const Range indices{0, static_cast<std::int64_t>(files.size()) - 1};
  f.objects("games", games, counts,
            [indices](auto& inner, auto& game) { input_game_fields(inner, game, indices); });
  f.objects("faults", faults, counts, [](auto& inner, auto& fault) { fault_fields(inner, fault); });
  f.require(are_different(games), "games", "has a game twice");
  f.require(are_numbered(games, games_total), "games", "is not numbered upwards within the total");
}

template <typename Fields, typename Game>
void game_fields(Fields& f, Game& game) {
  auto& [key, pgn] = game;
  f.key("game", key);
  f.text("pgn", pgn, most_game);
  f.require(key_of(pgn) == key, "pgn", "is not the text of this game");
}

bool are_places(const std::vector<study::Candidate>& candidates, std::size_t length) {
  std::set<int> plies;
  return std::all_of(candidates.begin(), candidates.end(), [&](const study::Candidate& candidate) {
    return static_cast<std::size_t>(candidate.ply) <= length && plies.insert(candidate.ply).second;
  });
}

template <typename Fields, typename Of>
void survey_fields(Fields& f, Of& survey) {
  auto& [run, key, candidates, study] = survey;
  f.text("run", run, mark_digits);
  f.key("game", key);
  f.tuples("candidates", candidates, counts, [](auto& inner, auto& candidate) {
    inner.number("ply", candidate.ply, plies);
    inner.real("promise", candidate.promise, 0, 1);
  });
  f.object("study", study, [](auto& inner, auto& value) { study_fields(inner, value); });
  f.require(are_places(candidates, study.moves.size()), "candidates",
            "has a ply twice or beyond the game");
}

template <typename Fields, typename Of>
void verified_fields(Fields& f, Of& verified) {
  auto& [run, key, findings] = verified;
  f.text("run", run, mark_digits);
  f.key("game", key);
  f.object("findings", findings, [](auto& inner, auto& value) { findings_fields(inner, value); });
}

// A record of one kind with its table: the way out and the way in.
template <typename T, typename Table>
std::string written(std::string_view kind, const T& value, const Table& table) {
  Json json = Json::object();
  json.add("record", kind);
  FieldWriter writer(json);
  table(writer, value);
  return base::to_json(json);
}

template <typename T, typename Table>
base::Result<Record> read(std::string_view kind, const Json& json, const Table& table) {
  FirstDamage damage;
  FieldReader reader(json, damage);
  T value;
  table(reader, value);
  if (damage.none()) return Record(std::move(value));
  base::Fault fault = damage.fault();
  fault.detail = std::string(kind) + ": " + fault.detail;
  return fault;
}

base::Fault damaged(std::string detail) {
  return {base::Code::json_damaged, std::move(detail), {}};
}

// The words of `now` that `then` has not, in their order.
std::string only_in(std::string_view now, std::string_view then) {
  std::vector<std::string> words;
  const auto there = base::fields(then);
  for (const std::string_view word : base::fields(now)) {
    if (std::find(there.begin(), there.end(), word) == there.end()) words.emplace_back(word);
  }
  return words.empty() ? "-" : base::join(words, ", ");
}

// In what two runs differ, for people.
std::string difference(const RunHeader& then, const RunHeader& now) {
  if (!(then.part == now.part)) {
    return "part " + to_text(then.part) + " then, part " + to_text(now.part) + " now";
  }
  return only_in(then.settings, now.settings) + " then, " + only_in(now.settings, then.settings) +
         " now";
}

constexpr auto header_table = [](auto& f, auto& value) { header_fields(f, value); };
constexpr auto input_table = [](auto& f, auto& value) { input_fields(f, value); };
constexpr auto game_table = [](auto& f, auto& value) { game_fields(f, value); };
constexpr auto survey_table = [](auto& f, auto& value) { survey_fields(f, value); };
constexpr auto verified_table = [](auto& f, auto& value) { verified_fields(f, value); };

}  // namespace

std::string mark_of(const RunHeader& header) {
  const std::string text = header.version + '\n' + header.evaluation + '\n' +
                           base::number(header.definitions) + '\n' + header.settings;
  return base::to_hexadecimal(base::crc32(text), mark_digits);
}

std::string encode_record(const RunHeader& header) {
  return written("run", header, header_table);
}

std::string encode_record(const Input& input) {
  return written("input", input, input_table);
}

std::string encode_record(const GameText& game) {
  return written("game", game, game_table);
}

std::string encode_record(const Survey& survey) {
  return written("survey", survey, survey_table);
}

std::string encode_record(const Verified& verified) {
  return written("moment", verified, verified_table);
}

base::Result<Record> decode_record(std::string_view payload) {
  const auto json = base::parse_json(payload);
  if (!json) {
    const auto at = static_cast<std::int64_t>(json.fault().place.column);
    return damaged("no JSON at byte " + base::number(at));
  }
  const Json* kind = json->find("record");
  const std::string* name = kind == nullptr ? nullptr : kind->text();
  if (name == nullptr) return damaged("it does not say what it is");
  if (*name == "run") return read<RunHeader>(*name, *json, header_table);
  if (*name == "input") return read<Input>(*name, *json, input_table);
  if (*name == "game") return read<GameText>(*name, *json, game_table);
  if (*name == "survey") return read<Survey>(*name, *json, survey_table);
  if (*name == "moment") return read<Verified>(*name, *json, verified_table);
  return damaged("of a kind that is not known");
}

base::Status check_survey(const study::Study& study, const study::Scoresheet& game) {
  if (study.start != game.positions.front()) {
    return damaged("survey: study.start is not that of the game");
  }
  if (study.moves != game.moves) return damaged("survey: study.moves are not those of the game");
  return base::done();
}

namespace {

rules::Move move_at(const study::Study& study, int ply) {
  const auto at = static_cast<std::size_t>(ply);
  return ply >= 0 && at < study.moves.size() ? study.moves[at] : rules::Move{};
}

// What is wrong with it in this game; empty when nothing is.
std::string_view misfit(const study::Moment& moment, int ply, const study::Study& study) {
  if (moment.ply != ply) return "ply is not that of the findings";
  const rules::Move played = move_at(study, ply);
  if (moment.kind == study::Kind::claim) return played ? "" : "ply is the end of the game";
  if (moment.position != position_after(study, static_cast<std::size_t>(ply))) {
    return "fen is not the position of the game";
  }
  return moment.played == played ? "" : "played is not the move of the game";
}

std::string_view misfit(const puzzle::Puzzle& puzzle, int ply, const study::Study& study) {
  const auto at = static_cast<std::size_t>(puzzle.ply);
  if (puzzle.ply < ply || puzzle.ply > ply + 1 || at > study.moves.size()) {
    return "ply is not that of the findings or the next";
  }
  const rules::Position there = position_after(study, at);
  if (puzzle.avoided) {
    if (puzzle.before != there) return "before is not the position of the game";
    return puzzle.avoided == move_at(study, puzzle.ply) ? "avoided is the move of the game" : "";
  }
  if (puzzle.position != there) return "fen is not the position of the game";
  return puzzle.last == move_at(study, puzzle.ply - 1) ? "" : "last is not the move of the game";
}

template <typename T>
base::Status check_all(const std::vector<T>& list, std::string_view name, int ply,
                       const study::Study& study) {
  for (std::size_t i = 0; i < list.size(); ++i) {
    const std::string_view wrong = misfit(list[i], ply, study);
    if (wrong.empty()) continue;
    return damaged("moment: findings." + std::string(name) + "[" +
                   base::number(static_cast<std::int64_t>(i)) + "]." + std::string(wrong));
  }
  return base::done();
}

}  // namespace

base::Status check_findings(const Findings& findings, const study::Study& study) {
  if (static_cast<std::size_t>(findings.ply) > study.moves.size()) {
    return damaged("moment: findings.ply is beyond the game");
  }
  auto status = check_all(findings.moments, "moments", findings.ply, study);
  return status ? check_all(findings.puzzles, "puzzles", findings.ply, study) : status;
}

base::Status check_header(const RunHeader& then, const RunHeader& now, const std::string& path) {
  const auto fault = [&path](base::Code code, std::string detail) {
    return base::Fault{code, std::move(detail), {.file = path}};
  };
  if (then.version != now.version) {
    return fault(base::Code::ledger_version, then.version + " then, " + now.version + " now");
  }
  if (std::string other = unlike(then, now); !other.empty()) {
    return fault(base::Code::ledger_evaluation, std::move(other));
  }
  if (then.settings != now.settings || !(then.part == now.part)) {
    return fault(base::Code::ledger_settings_differ, difference(then, now));
  }
  return base::done();
}

}  // namespace kairos::batch
