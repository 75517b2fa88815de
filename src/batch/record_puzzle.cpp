#include "record_puzzle.hpp"

#include "kairos/rules/fen.hpp"

#include "coordinates.hpp"

namespace kairos::batch {

using base::Json;

namespace {

Json encode(const puzzle::Try& attempt) {
  const auto& [move, score, refutation] = attempt;
  Json json = Json::object();
  json.add("move", to_coordinates(move)).add("score", score);
  json.add("refutation", to_coordinates(refutation));
  return json;
}

void decode(const Json& json, const rules::Position& position, Damage& damage,
            puzzle::Try& attempt) {
  Members members(json, damage);
  members.get("move", position, attempt.move);
  members.get("score", attempt.score);
  if (!attempt.move) return damage.note("move");
  members.get("refutation", position.after(attempt.move), attempt.refutation);
}

}  // namespace

Json encode_puzzle(const puzzle::Puzzle& puzzle) {
  // The game's number belongs to the run, not to the game.
  const auto& [position, line, score, second_score, reward, mate_moves, tries, motifs, difficulty,
               settled_depth, kind, found, game, game_label, ply, nodes] = puzzle;
  Json try_array = Json::array(), motif_array = Json::array();
  for (const puzzle::Try& attempt : tries) try_array.push(encode(attempt));
  for (const study::Motif motif : motifs) motif_array.push(name_of(motif));
  Json json = Json::object();
  json.add("fen", rules::to_fen(position)).add("line", to_coordinates(line));
  json.add("score", score).add("second_score", second_score);
  json.add("reward", static_cast<int>(reward)).add("mate", mate_moves);
  json.add("tries", std::move(try_array)).add("motifs", std::move(motif_array));
  json.add("difficulty", difficulty).add("settled_depth", settled_depth);
  json.add("kind", static_cast<int>(kind)).add("found", found).add("label", game_label);
  json.add("ply", ply).add("nodes", nodes);
  (void)game;
  return json;
}

void decode_puzzle(const Json& json, Damage& damage, puzzle::Puzzle& puzzle) {
  Members members(json, damage);
  members.get("fen", puzzle.position);
  members.get("line", puzzle.position, puzzle.line);
  members.get("score", puzzle.score);
  members.get("second_score", puzzle.second_score);
  members.get_enum("reward", puzzle.reward, puzzle::reward_count);
  members.get("mate", puzzle.mate_moves);
  for (const Json& element : members.elements("tries")) {
    decode(element, puzzle.position, damage, puzzle.tries.emplace_back());
  }
  members.get_names("motifs", puzzle.motifs, study::motif_count);
  members.get("difficulty", puzzle.difficulty);
  members.get("settled_depth", puzzle.settled_depth);
  members.get_enum("kind", puzzle.kind, study::kind_count);
  members.get("found", puzzle.found);
  members.get("label", puzzle.game_label);
  members.get("ply", puzzle.ply);
  members.get("nodes", puzzle.nodes);
}

}  // namespace kairos::batch
