// moments.jsonl: one moment a line, each a JSON object (RFC 8259) in UTF-8. The format is stable:
// fields are never removed or given another meaning; new ones may follow the old.
//
//   version            1, of this format
//   game               number of the game in the run, from 1
//   ply                half-moves played before the moment, 0 at the start of the game
//   move_number        full-move number of the position
//   side               "white" or "black", to move in the position
//   kind               "swing", "only_move", "quiet_win", "trap", "ended_early", "claim", "slide",
//   "turn" played             the move played in the position (of a claim: the move noted), SAN;
//   null
//                      when none was
//   best               the best move, SAN; null when there is none
//   cost               expectation_best - expectation_played, never below 0
//   expectation_best   expected score (0 lost .. 1 won) of the side to move after the best move
//   expectation_played the same after the move played
//   score              of the best move, centipawns from the side to move; a mate for that side in
//                      n half-moves is 32000 - n, against it n - 32000
//   line               best play from the position, array of SAN
//   fen                the position, six fields
//   found              whether the player made the best move or one as good
//   nodes              positions searched to verify the moment
// and, since these tell more than the above:
//   second_score       of the best move but one; equal to score when there is no other
//   played_score       of the move played, from the same side
//   tempting           trap: the move that was avoided, SAN; else null
//   refutation         best play after the tempting move, or else after the move played, SAN
//   punished           swing: the reply kept what the error gave
//   gain               quiet win: material won, centipawns
//   motif, sentence    in words; may be empty
//   white, black, event, site, round, date, result    of the game, as its tags have them
//   file, file_line    where the game was read
//   second             the best move but one, SAN; null when there is no other
//   second_refutation  best play after it, SAN; empty where it was not looked at
//   tempting_score     of the tempting move, from the same side; 0 where there is none
//   reasons            what is proved, in no order that counts: a list of objects, each with all of
//     role, kind       names as in include/kairos/study/reason.hpp
//     move             the one it speaks of, SAN
//     line             that proves it, from `move` on, SAN; empty: the moment's own line does
//     squares          that it is about, "e4"
//     mate_moves       full moves; 0 where it is about no mate
//     gain, won, lost, promoted    centipawns; names of the men won and lost, and what a pawn
//     became motif, assertion, favours    names; whom the assertion favours ("white", "black"); or
//     null
//     pieces           names of the men on the squares, in their order; may be empty
//     means            how it comes about, a name as in reason.hpp, or null; with means_squares and
//     means_pieces     as squares and pieces
//     words            what is said of it; may be empty
//   steps              slide: all its moves, by ply: a list of objects with ply, move (SAN),
//                      expectation_best and expectation_played; else empty
//   turning_point      number of its turning point in the game, from 1, in the order of play: the
//                      moments of one place share it; null for claims, which are about the notes
//   turning_point_rank 1 for the one that mattered most; null for claims
//   account            what the reports say of the turning point, all its moments told as one,
//   where
//                      `sentence` tells this moment alone; given with the moment that leads it,
//                      else empty
//   rating             of the player to move, by the game's tags; null where they do not say
//   find_rate          part (0 .. 1) of the players of that rating, of 2000 where it is null, who
//                      would play the best move, by the model of src/people; below 1700 and above
//                      2850 it extrapolates. Null where the moment is not about the game's position
//   clock              seconds that the player to move had left after the move played
//   time_spent         seconds taken for it (an increment may make the true time a little longer);
//                      both by the game's %clk, null where it does not say, and for claims
// Expectations and costs are rounded to four decimals.
#include <cmath>

#include "kairos/base/json.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"

#include "labels.hpp"
#include "writers.hpp"

namespace kairos::report {

namespace {

using base::Json;

constexpr int format_version = 1;

double rounded(double value) {
  return std::round(value * 10000) / 10000;
}

Json san_or_null(const rules::Position& position, rules::Move move) {
  return move ? Json(rules::to_san(position, move)) : Json();
}

Json san_list(const rules::Position& position, std::span<const rules::Move> line) {
  Json list = Json::array();
  for (std::string& san : rules::to_san(position, line)) list.push(std::move(san));
  return list;
}

Json men_list(const study::Men& men) {
  Json list = Json::array();
  for (std::size_t t = rules::king; t-- > 0;) {
    for (int n = men[t]; n > 0; --n) list.push(words(static_cast<rules::PieceType>(t)));
  }
  return list;
}

Json square_list(const std::vector<rules::Square>& squares) {
  Json list = Json::array();
  for (const rules::Square square : squares) list.push(rules::to_string(square));
  return list;
}

Json piece_list(const std::vector<rules::PieceType>& men) {
  Json list = Json::array();
  for (const rules::PieceType man : men) list.push(words(man));
  return list;
}

template <typename E>
Json name_or_null(const std::optional<E>& value) {
  return value ? Json(study::name_of(*value)) : Json();
}

Json steps_of(const study::Moment& moment) {
  Json list = Json::array();
  for (const study::Step& step : moment.steps) {
    Json object = Json::object();
    object.add("ply", step.ply).add("move", san_or_null(step.position, step.move));
    object.add("expectation_best", rounded(study::expectation(step.best_score)));
    object.add("expectation_played", rounded(study::expectation(step.played_score)));
    list.push(std::move(object));
  }
  return list;
}

Json reasons_of(const study::Moment& moment) {
  Json list = Json::array();
  for (const study::Reason& reason : moment.reasons) {
    const rules::Position position = study::position_of(moment, reason.role);
    Json object = Json::object();
    object.add("role", study::name_of(reason.role)).add("kind", study::name_of(reason.kind));
    object.add("move", san_or_null(position, reason.move))
        .add("line", san_list(position, reason.line));
    object.add("squares", square_list(reason.squares)).add("mate_moves", reason.mate_moves);
    object.add("gain", reason.gain).add("won", men_list(reason.men.won));
    object.add("lost", men_list(reason.men.lost));
    object.add("promoted", reason.men.promoted == rules::no_piece_type
                               ? Json()
                               : Json(words(reason.men.promoted)));
    object.add("motif", name_or_null(reason.motif));
    object.add("assertion", name_or_null(reason.assertion));
    object.add("favours", reason.favours ? Json(machine_name(*reason.favours)) : Json());
    object.add("pieces", piece_list(reason.pieces)).add("means", name_or_null(reason.means));
    object.add("means_squares", square_list(reason.means_squares))
        .add("means_pieces", piece_list(reason.means_pieces))
        .add("words", effect_words(reason));
    list.push(std::move(object));
  }
  return list;
}

void add_core(Json& object, const study::Study& study, const study::Moment& moment) {
  const rules::Position& position = moment.position;
  object.add("version", format_version)
      .add("game", study.facts.number)
      .add("ply", moment.ply)
      .add("move_number", position.fullmove_number())
      .add("side", machine_name(position.side_to_move()))
      .add("kind", machine_name(moment.kind))
      .add("played", san_or_null(position, moment.played))
      .add("best", san_or_null(position, moment.best))
      .add("cost", rounded(moment.cost()))
      .add("expectation_best", rounded(moment.best_expectation()))
      .add("expectation_played", rounded(moment.played_expectation()))
      .add("score", moment.best_score)
      .add("line", san_list(position, moment.line))
      .add("fen", rules::to_fen(position))
      .add("found", moment.found)
      .add("nodes", moment.nodes);
}

void add_find_rate(Json& object, const study::Study& study, const study::Moment& moment) {
  const int rating = study::elo_of(study.facts, moment.position.side_to_move());
  object.add("rating", rating > 0 ? Json(rating) : Json())
      .add("find_rate", moment.find_rate >= 0
                            ? Json(static_cast<double>(moment.find_rate) / study::find_rate_of)
                            : Json());
}

void add_times(Json& object, const study::Study& study, const study::Moment& moment) {
  const MoveTimes times = times_of(study, moment);
  object.add("clock", times.left >= 0 ? Json(times.left) : Json())
      .add("time_spent", times.spent >= 0 ? Json(times.spent) : Json());
}

void add_turning_point(Json& object, const study::Study& study,
                       const std::vector<TurningPoint>& points, const study::Moment& moment) {
  Json number, rank;
  std::string account;
  for (const TurningPoint& point : points) {
    if (point.ply != moment.ply || moment.kind == study::Kind::claim) continue;
    number = Json(point.number);
    rank = Json(point.rank);
    if (&point.lead() == &moment) account = text_of(study, point);
  }
  object.add("turning_point", std::move(number))
      .add("turning_point_rank", std::move(rank))
      .add("account", account);
}

void add_rest(Json& object, const study::Study& study, const study::Moment& moment) {
  const study::GameFacts& facts = study.facts;
  object.add("second_score", moment.second_score)
      .add("played_score", moment.played_score)
      .add("tempting", san_or_null(moment.position, moment.tempting))
      .add("refutation",
           san_list(study::position_of(moment, study::Role::reply), moment.refutation))
      .add("punished", moment.punished)
      .add("gain", moment.gain)
      .add("motif", motif_words(moment))
      .add("sentence", sentence_of(study, moment))
      .add("white", facts.white)
      .add("black", facts.black)
      .add("event", facts.event)
      .add("site", facts.site)
      .add("round", facts.round)
      .add("date", facts.date)
      .add("result", facts.result)
      .add("file", facts.file)
      .add("file_line", facts.line)
      .add("second", san_or_null(moment.position, moment.second))
      .add("second_refutation", san_list(study::position_of(moment, study::Role::second_reply),
                                         moment.second_refutation))
      .add("tempting_score", moment.tempting_score)
      .add("reasons", reasons_of(moment))
      .add("steps", steps_of(moment));
}

}  // namespace

base::Status write_json_lines(const Collection& collection, base::ByteSink& sink) {
  for (std::size_t i = 0; i < collection.size(); ++i) {
    const study::Study study = collection.load(i);
    const std::vector<TurningPoint> points = turning_points(study);
    std::string text;
    for (const study::Moment& moment : study.moments) {
      Json object = Json::object();
      add_core(object, study, moment);
      add_rest(object, study, moment);
      add_turning_point(object, study, points, moment);
      add_find_rate(object, study, moment);
      add_times(object, study, moment);
      base::append_json(text, object);
      text += '\n';
    }
    if (base::Status status = sink.write(text); !status) return status;
  }
  return base::done();
}

}  // namespace kairos::report
