#include "prose.hpp"

#include "kairos/base/text.hpp"
#include "kairos/study/expectation.hpp"

#include "labels.hpp"

namespace kairos::report {

namespace {

using study::Kind;
using study::Moment;
using study::Standing;

// Half-moves of a line shown to people: longer ones are not read. Data formats carry them whole.
constexpr std::size_t shown_plies = 12;

std::string side_of(const Moment& moment) {
  return std::string(study::side_words(moment.position.side_to_move()));
}

std::string opponent_of(const Moment& moment) {
  return std::string(study::side_words(~moment.position.side_to_move()));
}

std::string state_words(double expectation) {
  return std::string(study::words(study::standing_of(expectation)));
}

// "from won to level", or by figures where the word stays the same.
std::string fall_words(const Moment& moment) {
  const std::string before = state_words(moment.best_expectation());
  const std::string after = state_words(moment.played_expectation());
  if (before != after) return "from " + before + " to " + after;
  return "from " + percent(moment.best_expectation()) + " to " +
         percent(moment.played_expectation());
}

std::string swing_sentence(const Moment& moment) {
  std::string text = numbered(moment.position, moment.played) + " took " + side_of(moment) + " " +
                     fall_words(moment) + "; " + numbered(moment.position, moment.best) +
                     " was the move";
  if (moment.punished) text += ", and " + opponent_of(moment) + " took the chance";
  return text + ".";
}

// Says what hung on the move: that is what makes it one.
std::string only_move_sentence(const Moment& moment) {
  const std::string key = numbered(moment.position, moment.best);
  const double second = study::expectation(moment.second_score);
  if (moment.found) {
    return side_of(moment) + " found the only move, " + key + "; after any other " +
           side_of(moment) + " expects " + percent(second) + " instead of " +
           percent(moment.best_expectation()) + ".";
  }
  return "Only " + key + " kept " + side_of(moment) + " at " + percent(moment.best_expectation()) +
         "; " + numbered(moment.position, moment.played) + " was played and left " +
         percent(moment.played_expectation()) + ".";
}

// Names the prize as far as it is known; `gain` is proved, the rest is the score's word.
std::string quiet_win_sentence(const Moment& moment) {
  const std::string key = numbered(moment.position, moment.best);
  std::string prize = "decides";
  if (search::is_mate(moment.best_score) && moment.best_score > 0) {
    prize = "mates in " + base::number(search::mate_moves(moment.best_score));
  } else if (moment.gain > 0) {
    prize = "wins material worth " + base::number(moment.gain / 100) + "." +
            base::number(moment.gain % 100 / 10) + " pawns";
  }
  return "The quiet " + key + " " + prize +
         (moment.found ? ", and it was played." : "; it was not played.");
}

std::string trap_sentence(const Moment& moment) {
  std::string text = side_of(moment) + " kept away from the tempting " +
                     numbered(moment.position, moment.tempting);
  if (!moment.refutation.empty()) {
    const rules::Position after = moment.position.after(moment.tempting);
    text += ", which fails to " + numbered(after, moment.refutation.front());
  }
  return text + ".";
}

// Whether it was a draw or a resignation, the result tells.
std::string ended_early_sentence(const study::Study& study, const Moment& moment) {
  const double expectation = moment.best_expectation();
  const std::string state = state_words(expectation) + " (" + percent(expectation) + ")";
  const bool drawn = study.facts.result == "1/2-1/2";
  return drawn ? "A draw was agreed here, though " + side_of(moment) + " to move was " + state + "."
               : "The game was given up here, though " + side_of(moment) + " to move was " + state +
                     ".";
}

// The notes are somebody's work: said without reproach.
std::string claim_sentence(const Moment& moment) {
  std::string text = "The notes have " + numbered(moment.position, moment.played);
  const rules::Move move = moment.played;
  if (move && !moment.refutation.empty()) {
    text +=
        ", but " + numbered(moment.position.after(move), moment.refutation.front()) + " answers it";
  }
  if (moment.best && moment.best != move) {
    text += "; " + numbered(moment.position, moment.best) + " was better";
  }
  return text + ".";
}

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
  // The score of a tempting move is not kept; that of the move played is.
  if (!tempting) shown.score = score_text(from_white(moment.played_score, side));
  return shown;
}

}  // namespace

std::string sentence_of(const study::Study& study, const Moment& moment) {
  if (!moment.sentence.empty()) return base::to_utf8(moment.sentence);
  switch (moment.kind) {
    case Kind::swing:
      return swing_sentence(moment);
    case Kind::only_move:
      return only_move_sentence(moment);
    case Kind::quiet_win:
      return quiet_win_sentence(moment);
    case Kind::trap:
      return trap_sentence(moment);
    case Kind::ended_early:
      return ended_early_sentence(study, moment);
    case Kind::claim:
      return claim_sentence(moment);
  }
  return "";
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

std::string question_of(const Moment& moment) {
  const std::string side = side_of(moment);
  switch (study::standing_of(moment.best_expectation())) {
    case Standing::won:
    case Standing::better:
      return side + " to move: how should " + side + " go on?";
    case Standing::level:
    case Standing::worse:
    case Standing::lost:
      return side + " to move: how does " + side + " hold?";
  }
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
  const std::string side = side_of(moment);
  const std::string before = standing_text(moment.best_expectation());
  // Half a point in a hundred would be printed as no change at all.
  const bool fell = moment.played && moment.cost() > 0.005 && moment.kind != Kind::ended_early;
  if (fell) return side + ": " + before + " -> " + standing_text(moment.played_expectation());
  if (moment.kind == Kind::only_move || moment.kind == Kind::quiet_win) {
    return side + ": " + before + "; next best " +
           standing_text(study::expectation(moment.second_score));
  }
  return side + ": " + before;
}

}  // namespace kairos::report
