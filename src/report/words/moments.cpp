// What stands beside the sentence of a moment: how it went, the lines worth showing, and what they
// changed.
#include "kairos/report/plain.hpp"
#include "kairos/report/words.hpp"

#include "labels.hpp"

namespace kairos::report {

namespace {

using study::Kind;
using study::Moment;

// Half-moves of a line shown to people: longer ones are not read. Data formats carry them whole.
constexpr std::size_t shown_plies = 12;

// The line of the move in question, labelled by what the kind makes of it.
ShownLine questioned_line(const Moment& moment) {
  const rules::Color side = moment.position.side_to_move();
  const rules::Move move = move_in_question(moment);
  const bool tempting = moment.kind == Kind::trap;
  ShownLine shown;
  shown.answer = false;
  shown.move = numbered(moment.position, move);
  shown.label = tempting ? "Tempting" : moment.kind == Kind::claim ? "Noted" : "Played";
  shown.text = numbered_line(moment.position, joined(move, moment.refutation), shown_plies);
  // What a tempting move comes to stands in the sentence.
  if (!tempting) shown.score = score_text(from_white(moment.played_score, side));
  return shown;
}

}  // namespace

std::string_view motif_words(const Moment& moment) {
  const auto motif = study::motif_of(moment);
  return motif ? study::name_of(*motif) : "";
}

// For the heading, after the kind.
std::string_view outcome_words(const Moment& moment) {
  if (moment.kind == Kind::only_move || moment.kind == Kind::quiet_win) {
    return moment.found ? "found" : "missed";
  }
  if (moment.kind == Kind::swing && moment.punished) return "punished";
  if (moment.kind == Kind::swing) return "not punished";
  if (moment.kind == Kind::trap) return "avoided";
  return "";
}

std::vector<ShownLine> shown_lines(const Moment& moment) {
  const rules::Color side = moment.position.side_to_move();
  std::vector<ShownLine> lines;
  ShownLine best;
  best.text = numbered_line(moment.position, moment.line, shown_plies);
  best.move = numbered(moment.position, moment.best);
  if (moment.line.empty()) best.text = best.move;
  best.score = score_text(from_white(moment.best_score, side));
  const rules::Move questioned = move_in_question(moment);
  // Where the best move was played one line says all.
  const bool same = !questioned || questioned == moment.best;
  if (!same) lines.push_back(questioned_line(moment));
  if (!best.text.empty()) {
    if (moment.kind == Kind::ended_early)
      best.label = "Still there";
    else if (same || moment.found)
      best.label = same ? "Played" : "Best";
    else
      best.label = "Better";
    if (moment.kind == Kind::trap) best.label = "Best";
    lines.push_back(best);
  }
  return lines;
}

std::string change_text(const Moment& moment) {
  const std::string side = side_words(moment.position.side_to_move());
  const Fall fall = fall_of(moment);
  const std::string before = standing_text(fall.from);
  // Half a point in a hundred would be printed as no change at all.
  const bool fell = moment.played && moment.cost() > 0.005 && moment.kind != Kind::ended_early;
  if (fell) return side + ": " + before + " -> " + standing_text(fall.to);
  if (moment.kind == Kind::only_move || moment.kind == Kind::quiet_win) {
    return side + ": " + before + "; next best " +
           standing_text(study::expectation(moment.second_score));
  }
  return side + ": " + before;
}

}  // namespace kairos::report
