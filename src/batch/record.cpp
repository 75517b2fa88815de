// Records of the ledger: the study of one game, and what came of one candidate.
//
// Every encoder takes its struct apart by a structured binding that names all fields: a field added
// to a struct does not compile here until it has its place in the record. Test:
// tests/batch/record_test.cpp (random studies there and back).
#include "kairos/batch/record.hpp"

#include "kairos/rules/fen.hpp"

#include "coordinates.hpp"
#include "members.hpp"
#include "record_puzzle.hpp"

namespace kairos::batch {

using base::Json;

namespace {

Json encode(const study::GameFacts& facts) {
  // File, line and number belong to the run, not to the game.
  const auto& [event, site, date, round, white, black, result, termination, eco, white_elo,
               black_elo, file, line, number] = facts;
  Json json = Json::object();
  json.add("event", event).add("site", site).add("date", date).add("round", round);
  json.add("white", white).add("black", black).add("result", result);
  json.add("termination", termination).add("eco", eco);
  json.add("white_elo", white_elo).add("black_elo", black_elo);
  (void)file, (void)line, (void)number;
  return json;
}

void decode(const Json& json, Damage& damage, study::GameFacts& facts) {
  Members members(json, damage);
  members.get("event", facts.event);
  members.get("site", facts.site);
  members.get("date", facts.date);
  members.get("round", facts.round);
  members.get("white", facts.white);
  members.get("black", facts.black);
  members.get("result", facts.result);
  members.get("termination", facts.termination);
  members.get("eco", facts.eco);
  members.get("white_elo", facts.white_elo);
  members.get("black_elo", facts.black_elo);
}

Json encode(const search::Line& line) {
  const auto& [score, moves] = line;
  Json json = Json::object();
  json.add("score", score).add("moves", to_coordinates(moves));
  return json;
}

Json encode(const study::Note& note) {
  const auto& [lines, played_score, depth, nodes, clock_seconds] = note;
  Json array = Json::array();
  for (const search::Line& line : lines) array.push(encode(line));
  Json json = Json::object();
  json.add("played", played_score).add("depth", depth).add("nodes", nodes);
  json.add("clock", clock_seconds).add("lines", std::move(array));
  return json;
}

void decode(const Json& json, const rules::Position& position, Damage& damage, study::Note& note) {
  Members members(json, damage);
  members.get("played", note.played_score);
  members.get("depth", note.depth);
  members.get("nodes", note.nodes);
  members.get("clock", note.clock_seconds);
  for (const Json& element : members.elements("lines")) {
    Members line_members(element, damage);
    search::Line& line = note.lines.emplace_back();
    line_members.get("score", line.score);
    line_members.get("moves", position, line.moves);
  }
}

// Letters of men, the most valuable first: "qpp".
std::string letters_of(const study::Men& men) {
  std::string text;
  for (std::size_t t = men.size(); t-- > 0;) {
    const rules::Piece man = rules::make_piece(rules::black, static_cast<rules::PieceType>(t));
    text.append(static_cast<std::size_t>(std::max<int>(men[t], 0)), rules::letter_of(man));
  }
  return text;
}

void decode_men(Members& members, std::string_view name, study::Men& men) {
  std::string text;
  members.get(name, text);
  for (const char letter : text) {
    const rules::Piece man = rules::piece_of_letter(letter);
    if (man == rules::no_piece || text.size() > 16) return members.damage().note(name);
    ++men[rules::type_of(man)];
  }
}

template <typename E>
Json name_or_null(const std::optional<E>& value) {
  return value ? Json(name_of(*value)) : Json();
}

Json encode(const study::Reason& reason) {
  const auto& [role, kind, move, line, squares, mate_moves, gain, men, motif, assertion, favours] =
      reason;
  Json square_array = Json::array();
  for (const rules::Square square : squares) square_array.push(static_cast<int>(square));
  Json json = Json::object();
  json.add("role", name_of(role)).add("kind", name_of(kind)).add("move", to_coordinates(move));
  json.add("line", to_coordinates(line)).add("squares", std::move(square_array));
  json.add("mate", mate_moves).add("gain", gain).add("won", letters_of(men.won));
  json.add("lost", letters_of(men.lost)).add("promoted", static_cast<int>(men.promoted));
  json.add("motif", name_or_null(motif)).add("assertion", name_or_null(assertion));
  json.add("favours", favours ? static_cast<int>(*favours) : -1);
  return json;
}

// `moment` has its moves already: a reason's moves are played from where its role says.
void decode(const Json& json, const study::Moment& moment, Damage& damage, study::Reason& reason) {
  Members members(json, damage);
  members.get_name("role", reason.role, study::role_count);
  members.get_name("kind", reason.kind, study::reason_kind_count);
  const rules::Position start = study::position_of(moment, reason.role);
  members.get("move", start, reason.move);
  members.get("line", start, reason.line);
  for (const Json& element : members.elements("squares")) {
    const auto square = element.integer();
    if (!square || *square < 0 || *square >= rules::square_count) return damage.note("squares");
    reason.squares.push_back(static_cast<rules::Square>(*square));
  }
  members.get("mate", reason.mate_moves);
  members.get("gain", reason.gain);
  decode_men(members, "won", reason.men.won);
  decode_men(members, "lost", reason.men.lost);
  members.get_enum("promoted", reason.men.promoted, rules::no_piece_type + 1);
  members.get_name("motif", reason.motif, study::motif_count);
  members.get_name("assertion", reason.assertion, study::assertion_count);
  int favours = -1;
  members.get("favours", favours);
  if (favours < -1 || favours > 1) damage.note("favours");
  if (favours >= 0) reason.favours = static_cast<rules::Color>(favours);
}

Json encode(const study::Moment& moment) {
  const auto& [kind, ply, position, played, best, second, tempting, best_score, second_score,
               played_score, tempting_score, found, punished, gain, line, refutation,
               second_refutation, reasons, nodes] = moment;
  Json reason_array = Json::array();
  for (const study::Reason& reason : reasons) reason_array.push(encode(reason));
  Json json = Json::object();
  json.add("kind", static_cast<int>(kind)).add("ply", ply).add("fen", rules::to_fen(position));
  json.add("played", to_coordinates(played)).add("best", to_coordinates(best));
  json.add("second", to_coordinates(second)).add("tempting", to_coordinates(tempting));
  json.add("best_score", best_score).add("second_score", second_score);
  json.add("played_score", played_score).add("tempting_score", tempting_score);
  json.add("found", found).add("punished", punished).add("gain", gain);
  json.add("line", to_coordinates(line)).add("refutation", to_coordinates(refutation));
  json.add("second_refutation", to_coordinates(second_refutation));
  json.add("reasons", std::move(reason_array)).add("nodes", nodes);
  return json;
}

void decode(const Json& json, Damage& damage, study::Moment& moment) {
  Members members(json, damage);
  members.get_enum("kind", moment.kind, study::kind_count);
  members.get("ply", moment.ply);
  members.get("fen", moment.position);
  members.get("played", moment.position, moment.played);
  members.get("best", moment.position, moment.best);
  members.get("second", moment.position, moment.second);
  members.get("tempting", moment.position, moment.tempting);
  members.get("best_score", moment.best_score);
  members.get("second_score", moment.second_score);
  members.get("played_score", moment.played_score);
  members.get("tempting_score", moment.tempting_score);
  members.get("found", moment.found);
  members.get("punished", moment.punished);
  members.get("line", moment.position, moment.line);
  using study::Role;
  members.get("refutation", study::position_of(moment, Role::reply), moment.refutation);
  members.get("second_refutation", study::position_of(moment, Role::second_reply),
              moment.second_refutation);
  members.get("gain", moment.gain);
  for (const Json& element : members.elements("reasons")) {
    decode(element, moment, damage, moment.reasons.emplace_back());
  }
  members.get("nodes", moment.nodes);
}

}  // namespace

Json encode(const study::Study& study) {
  const auto& [facts, start, moves, notes, moments, pgn] = study;
  Json array = Json::array();
  for (const study::Note& note : notes) array.push(encode(note));
  Json json = Json::object();
  json.add("facts", encode(facts)).add("start", rules::to_fen(start));
  json.add("moves", to_coordinates(moves)).add("notes", std::move(array));
  (void)moments, (void)pgn;
  return json;
}

base::Result<study::Study> decode_study(const Json& json) {
  Damage damage;
  Members members(json, damage);
  study::Study study;
  decode(members.at("facts"), damage, study.facts);
  members.get("start", study.start);
  members.get("moves", study.start, study.moves);
  const Json::Array& notes = members.elements("notes");
  if (notes.size() != study.moves.size() + 1) damage.note("notes");
  if (!damage.none()) return damage.fault();
  rules::Position position = study.start;
  for (std::size_t i = 0; i < notes.size(); ++i) {
    decode(notes[i], position, damage, study.notes.emplace_back());
    if (i < study.moves.size()) position.play(study.moves[i]);
  }
  if (!damage.none()) return damage.fault();
  return study;
}

Json encode(const Findings& findings) {
  const auto& [ply, moments, puzzles, drops, nodes] = findings;
  Json moment_array = Json::array(), puzzle_array = Json::array(), drop_array = Json::array();
  for (const study::Moment& moment : moments) moment_array.push(encode(moment));
  for (const puzzle::Puzzle& puzzle : puzzles) puzzle_array.push(encode_puzzle(puzzle));
  for (const puzzle::Drop drop : drops) drop_array.push(static_cast<int>(drop));
  Json json = Json::object();
  json.add("ply", ply).add("moments", std::move(moment_array));
  json.add("puzzles", std::move(puzzle_array)).add("drops", std::move(drop_array));
  json.add("nodes", nodes);
  return json;
}

base::Result<Findings> decode_findings(const Json& json) {
  Damage damage;
  Members members(json, damage);
  Findings findings;
  members.get("ply", findings.ply);
  members.get("nodes", findings.nodes);
  for (const Json& element : members.elements("moments")) {
    decode(element, damage, findings.moments.emplace_back());
  }
  for (const Json& element : members.elements("puzzles")) {
    decode_puzzle(element, damage, findings.puzzles.emplace_back());
  }
  for (const Json& element : members.elements("drops")) {
    const auto drop = element.integer();
    if (!drop || *drop < 0 || *drop >= puzzle::drop_count) damage.note("drops");
    findings.drops.push_back(static_cast<puzzle::Drop>(drop.value_or(0)));
  }
  if (!damage.none()) return damage.fault();
  return findings;
}

}  // namespace kairos::batch
