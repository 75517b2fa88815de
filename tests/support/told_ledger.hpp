// What must hold of a ledger whoever wrote it: what is read of it is true to the rules, every
// record is read or told, and every report can be made. Each check says what does not hold, or
// nothing. Written from the headers alone, with none of the code that reads ledgers.
#pragma once

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <vector>

#include "kairos/base/json.hpp"
#include "kairos/batch/ledger.hpp"
#include "kairos/batch/players.hpp"
#include "kairos/report/formats.hpp"
#include "kairos/report/habits.hpp"
#include "kairos/rules/movegen.hpp"

#include "ledger_collection.hpp"

namespace kairos::test {

inline bool can_be_played(rules::Position position, const std::vector<rules::Move>& line) {
  for (const rules::Move move : line) {
    if (!rules::is_legal(position, move)) return false;
    position.play(move);
  }
  return true;
}

inline bool is_score(search::Score score) {
  return score >= -search::mate_score && score <= search::mate_score;
}

inline std::string wrong_in(const study::Study& study) {
  if (study.notes.size() != study.moves.size() + 1) return "notes do not fit the moves";
  if (!can_be_played(study.start, study.moves)) return "a move of the game";
  for (std::size_t ply = 0; ply < study.notes.size(); ++ply) {
    const study::Note& note = study.notes[ply];
    const rules::Position position = study::position_after(study, ply);
    if (!is_score(note.played_score) || note.depth < 0) return "a score or a depth";
    const auto [least, most] = std::ranges::minmax(note.error_chances);
    if (most > study::chance_of || least < study::no_chance) return "a chance of an error";
    if (least == study::no_chance && most != least) return "a chance of some ratings only";
    if (note.clock_seconds < -1 || note.clock_seconds > 10'000'000) return "a clock";
    for (const search::Line& line : note.lines) {
      if (line.moves.empty() || !can_be_played(position, line.moves)) return "a line of the survey";
      if (!is_score(line.score)) return "a score of the survey";
    }
  }
  return "";
}

inline std::string wrong_in(const study::Moment& m, const study::Study& study) {
  const auto ply = static_cast<std::size_t>(m.ply);
  if (m.ply < 0 || ply > study.moves.size()) return "a ply beyond the game";
  if (static_cast<int>(m.kind) >= study::kind_count) return "a kind";
  if (!is_score(m.best_score) || !is_score(m.second_score) || !is_score(m.played_score)) {
    return "a score of a moment";
  }
  if (m.line.empty() || m.line.front() != m.best || !can_be_played(m.position, m.line)) {
    return "a line of a moment";
  }
  if ((m.kind == study::Kind::trap) != bool(m.tempting)) return "a tempting move";
  const rules::Move answered = m.tempting ? m.tempting : m.played;
  if (answered && answered != rules::null_move && !rules::is_legal(m.position, answered)) {
    return "a move of a moment";
  }
  if (!answered && !m.refutation.empty()) return "an answer to no move";
  if (answered && !can_be_played(m.position.after(answered), m.refutation)) return "a refutation";
  if (m.kind == study::Kind::claim) return "";
  if (m.position != study::position_after(study, ply)) return "a position of a moment";
  const rules::Move played = ply < study.moves.size() ? study.moves[ply] : rules::Move{};
  return m.played == played ? "" : "the move played at a moment";
}

inline std::string wrong_in(const puzzle::Puzzle& p, const study::Study& study) {
  if (p.ply < 0 || static_cast<std::size_t>(p.ply) > study.moves.size()) return "a puzzle's ply";
  if (p.line.size() % 2 == 0 || !can_be_played(p.position, p.line)) return "a solution";
  if (!is_score(p.score) || !is_score(p.second_score)) return "a score of a puzzle";
  const rules::Position there = study::position_after(study, static_cast<std::size_t>(p.ply));
  if ((p.avoided ? p.before : p.position) != there) return "a position that did not occur";
  if (p.avoided && there.after(p.avoided) != p.position) return "a why-not";
  if (p.asked % 2 == 0 || static_cast<std::size_t>(p.asked) > p.line.size()) return "what is asked";
  if (p.difficulty < 1 || p.difficulty > 5 || p.mate_moves < 0) return "a figure of a puzzle";
  for (const puzzle::Try& attempt : p.tries) {
    if (!is_score(attempt.score) || !rules::is_legal(p.position, attempt.move) ||
        !can_be_played(p.position.after(attempt.move), attempt.refutation)) {
      return "a try";
    }
  }
  return "";
}

// Of everything that the ledger has of the games of its input.
inline std::string wrong_in(const batch::Ledger& ledger) {
  std::set<batch::GameKey> keys;
  for (const batch::InputGame& game : ledger.input()->games) {
    if (!keys.insert(game.key).second) return "a game twice in the input";
    if (game.file >= ledger.input()->files.size()) return "a file of the input";
    if (game.number == 0 || game.number > ledger.input()->games_total) return "a number of a game";
    if (!ledger.has_survey(game.key)) continue;
    const auto study = ledger.survey(game.key);
    if (!study) return base::describe(study.fault());
    if (auto wrong = wrong_in(*study); !wrong.empty()) return wrong;
    for (const auto& [ply, promise] : ledger.candidates(game.key)) {
      const bool in_game = ply >= 0 && static_cast<std::size_t>(ply) <= study->moves.size();
      if (!in_game || !std::isfinite(promise)) return "a candidate";
    }
    for (const int ply : ledger.plies(game.key)) {
      const auto findings = ledger.findings(game.key, ply);
      if (!findings) return base::describe(findings.fault());
      if (findings->ply != ply) return "a ply of findings";
      for (const study::Moment& moment : findings->moments) {
        if (auto wrong = wrong_in(moment, *study); !wrong.empty()) return wrong;
      }
      for (const puzzle::Puzzle& puzzle : findings->puzzles) {
        if (auto wrong = wrong_in(puzzle, *study); !wrong.empty()) return wrong;
      }
    }
  }
  return "";
}

inline std::string text_in(const base::Json& json, std::string_view name) {
  const base::Json* member = json.find(name);
  const std::string* text = member == nullptr ? nullptr : member->text();
  return text == nullptr ? "" : *text;
}

// Whether the ledger has something in place of the record: that record, or a later one like it.
inline bool is_there(const base::Json& record, const batch::Ledger& ledger) {
  const std::string kind = text_in(record, "record");
  if (kind == "run") return true;
  if (kind == "input") return ledger.input().has_value();
  const auto key = batch::parse_key(text_in(record, "game"));
  if (!key) return false;
  if (kind == "game") return ledger.has_game(*key);
  // Without its game a survey waits for it.
  if (kind == "survey") return !ledger.has_game(*key) || ledger.has_survey(*key);
  const base::Json* findings = record.find("findings");
  const base::Json* ply = findings == nullptr ? nullptr : findings->find("ply");
  const std::vector<int> plies = ledger.plies(*key);
  return kind == "moment" && ply != nullptr &&
         std::any_of(plies.begin(), plies.end(),
                     [ply](int there) { return there == ply->integer(); });
}

// The number of the first record that was neither read nor told, from 1; 0 when there is none.
inline std::size_t lost_record(const std::vector<std::string>& payloads,
                               const batch::Ledger& ledger, const base::Faults& told) {
  for (std::size_t i = 0; i < payloads.size(); ++i) {
    const auto of_this = [line = i + 2](const base::Fault& f) { return f.place.line == line; };
    if (std::any_of(told.begin(), told.end(), of_this)) continue;
    const auto record = base::parse_json(payloads[i]);
    if (!record || !is_there(*record, ledger)) return i + 1;
  }
  return 0;
}

// All that can be made of a ledger, one after the other; throws what LedgerCollection throws.
inline std::string reports_of(const batch::Ledger& ledger) {
  if (!ledger.input()) return "";
  cli::LedgerCollection collection(ledger, *ledger.input(), {});
  std::string all;
  std::vector<std::string> names = batch::names_in(*ledger.input());
  if (names.size() > 4) names.resize(4);
  for (const std::string& name : names) {
    habits::Collector collector({});
    collector.add(collection, {name}, true);
    collector.add_field(collection);
    all += report::habits_text(collector.find(name, "the field"));
  }
  if (!names.empty()) collection.set_habits(cli::habits_in(collection, {names.front()}));
  for (const report::Format& format : report::formats()) {
    base::StringSink sink;
    if (!format.write(collection, sink)) return "";
    all += sink.text;
  }
  return all;
}

}  // namespace kairos::test
