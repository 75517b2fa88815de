// The story of a game, in at most five sentences: how long it was level, what came before the turn,
// the turn and what was right instead, and how it ended.
//
// Facts: White's expectation at each position (the survey's, but at a moment what was verified),
// the turning points, the last position and the result. The turn is, of a won game, the loser's
// last error that left it behind; of another the error that ranks first.
#include <algorithm>

#include "kairos/base/text.hpp"
#include "kairos/report/plain.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/draws.hpp"
#include "kairos/rules/movegen.hpp"

#include "labels.hpp"
#include "phrases.hpp"

namespace kairos::report {

namespace {

using study::Kind;
using study::Moment;
using study::Standing;
using Points = std::vector<const TurningPoint*>;

// "14. Rd1": half-move `ply` of the game, from 0.
std::string game_move(const study::Study& study, std::size_t ply) {
  return numbered(study::position_after(study, ply), study.moves[ply]);
}

bool is_level(double expectation) {
  return study::standing_of(expectation) == Standing::level;
}

std::string state_of_white(double expectation) {
  const rules::Color side = expectation >= 0.5 ? rules::white : rules::black;
  return state_of(side, std::max(expectation, 1 - expectation));
}

std::string move_number(const study::Study& study, std::size_t ply) {
  return "move " + base::number(study::position_after(study, ply).fullmove_number());
}

// How the game stood up to `end`, the position of the first error, or the last one where there is
// none. Small edges that come and go are not told.
std::string opening_sentence(const study::Study& study, const std::vector<double>& course,
                             std::size_t end) {
  constexpr double small_edge = 0.20;
  std::size_t level = end + 1;  // the last position that was level; beyond `end`: none
  for (std::size_t i = 0; i <= end; ++i) {
    if (is_level(course[i])) level = i;
  }
  if (level > end) return "From the start " + state_of_white(course[end]) + ".";
  const bool even =
      std::all_of(course.begin(), course.begin() + static_cast<std::ptrdiff_t>(level),
                  [](double e) { return e > 0.5 - small_edge && e < 0.5 + small_edge; });
  const std::string begin = even ? "Level" : "Roughly level";
  if (level + 1 == course.size()) {
    return even ? "Level throughout." : "Neither side kept an edge for long.";
  }
  const std::string until = begin + " until " + move_number(study, level);
  if (level == end) return until + ".";
  return until + "; by " + move_number(study, end) + " " + state_of_white(course[end]) + ".";
}

// The moves of points, of the highest ranks, in the order of play.
std::string moves_of(Points points, std::size_t most) {
  const bool more = points.size() > most;
  std::sort(points.begin(), points.end(),
            [](const TurningPoint* a, const TurningPoint* b) { return a->rank < b->rank; });
  if (more) points.resize(most);
  std::sort(points.begin(), points.end(),
            [](const TurningPoint* a, const TurningPoint* b) { return a->ply < b->ply; });
  std::vector<std::string> moves;
  for (const TurningPoint* p : points) {
    moves.push_back(numbered(p->lead().position, p->lead().played));
  }
  return (more ? "above all with " : "with ") + listed(moves);
}

std::string sides_of(const Points& points) {
  bool white = false, black = false;
  for (const TurningPoint* p : points) {
    (p->lead().position.side_to_move() == rules::white ? white : black) = true;
  }
  return white && black ? "both sides" : side_words(white ? rules::white : rules::black);
}

// A sentence that opens with its own words keeps them.
std::string then(const std::string& when, const std::string& gist) {
  return gist.starts_with("No ") ? gist : when + " " + gist;
}

// Of one error what happened, of several their moves.
std::string errors_sentence(const study::Study& study, const Points& points,
                            const std::string& when) {
  if (points.empty()) return "";
  if (points.size() == 1) return then(when, gist_of(study, *points.front()));
  const std::string what = when == "Later" ? " let more chances go by, " : " let chances go by, ";
  return when + " " + sides_of(points) + what + moves_of(points, 3) + ".";
}

struct Errors {
  Points before, after;
  const TurningPoint* turn = nullptr;
};

Errors errors_of(const study::Study& study, const std::vector<TurningPoint>& points) {
  Points all;
  for (const TurningPoint& point : points) {
    const Kind kind = point.lead().kind;
    if (kind == Kind::swing || kind == Kind::slide || kind == Kind::turn) all.push_back(&point);
  }
  Errors errors;
  bool left_behind = false;
  const bool won = study.facts.result == "1-0" || study.facts.result == "0-1";
  for (const TurningPoint* const point : all) {
    const Moment& m = point->lead();
    if (!won || m.position.side_to_move() != study::loser_of(study.facts)) continue;
    // The last one that left the loser behind, where there is one.
    const bool behind = fall_of(m).to < 0.5 && !is_level(fall_of(m).to);
    if (behind || errors.turn == nullptr || !left_behind) errors.turn = point;
    left_behind = left_behind || behind;
  }
  for (const TurningPoint* const point : all) {
    if (errors.turn == nullptr || (!won && point->rank < errors.turn->rank)) errors.turn = point;
  }
  for (const TurningPoint* const point : all) {
    if (point->ply < errors.turn->ply) errors.before.push_back(point);
    if (point->ply > errors.turn->ply) errors.after.push_back(point);
  }
  return errors;
}

// Where nothing was given away: the hardest thing that was found.
std::string found_sentence(const study::Study& study, const std::vector<TurningPoint>& points) {
  const TurningPoint* best = nullptr;
  for (const TurningPoint& point : points) {
    const bool counts =
        point.lead().kind == Kind::only_move || point.lead().kind == Kind::quiet_win;
    if (counts && (best == nullptr || point.rank < best->rank)) best = &point;
  }
  return best == nullptr ? "" : brief_of(study, *best);
}

std::string drawn_words(const study::Study& study, const rules::Position& last) {
  std::vector<rules::Key> earlier;
  rules::Position position = study.start;
  for (const rules::Move move : study.moves) {
    earlier.push_back(position.key());
    position.play(move);
  }
  switch (rules::game_status(last, earlier)) {
    case rules::GameStatus::stalemate:
      return "It ended in stalemate";
    case rules::GameStatus::bare_material:
      return "It was drawn for want of material";
    case rules::GameStatus::threefold:
    case rules::GameStatus::fivefold:
      return "It was drawn by repetition";
    case rules::GameStatus::fifty_moves:
    case rules::GameStatus::seventy_five_moves:
      return "It was drawn by the count of moves";
    case rules::GameStatus::open:
    case rules::GameStatus::checkmate:
      break;
  }
  return "It was drawn";
}

std::string end_sentence(const study::Study& study, const std::vector<TurningPoint>& points,
                         const std::vector<double>& course) {
  for (const TurningPoint& point : points) {
    if (point.lead().kind == Kind::ended_early) return gist_of(study, point);
  }
  if (study.moves.empty()) return "";
  const rules::Position last = study::position_after(study, study.moves.size());
  const std::string move = game_move(study, study.moves.size() - 1);
  if (rules::is_checkmate(last))
    return side_words(~last.side_to_move()) + " mated with " + move + ".";
  const std::string& result = study.facts.result;
  if (result == "1-0" || result == "0-1") {
    return side_words(~study::loser_of(study.facts)) + " won after " + move + ".";
  }
  const std::string state = is_level(course.back()) ? "" : "; " + state_of_white(course.back());
  if (result != "1/2-1/2") return "The score ends with " + move + state + ".";
  return drawn_words(study, last) + " after " + move + (rules::has_legal_move(last) ? state : "") +
         ".";
}

}  // namespace

std::vector<std::string> story_of(const study::Study& study,
                                  const std::vector<TurningPoint>& points,
                                  const std::string& loss) {
  if (study.moves.empty() || study.notes.size() != study.moves.size() + 1) return {};
  const std::vector<double> course = told_expectations(study, points);
  const Errors errors = errors_of(study, points);
  const TurningPoint* const first = errors.before.empty() ? errors.turn : errors.before.front();
  const std::size_t last = study.moves.size();
  const std::size_t end = first == nullptr ? last : static_cast<std::size_t>(first->ply);
  std::vector<std::string> story{opening_sentence(study, course, std::min(end, last))};
  const auto add = [&story](const std::string& sentence) {
    if (!sentence.empty()) story.push_back(sentence);
  };
  add(errors_sentence(study, errors.before, "First"));
  if (errors.turn != nullptr) {
    const std::string gist = gist_of(study, *errors.turn);
    add(errors.before.empty() ? gist : then("Then", gist));
    if (errors.before.empty() || errors.after.empty()) add(right_of(*errors.turn));
    add(errors_sentence(study, errors.after, "Later"));
  } else {
    add(loss.empty() ? found_sentence(study, points) : loss);
  }
  add(end_sentence(study, points, course));
  return story;
}

}  // namespace kairos::report
