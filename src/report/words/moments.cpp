// What stands beside the text of a turning point: its heading, the lines that show what the text
// says, and what they changed.
#include "kairos/report/plain.hpp"
#include "kairos/report/words.hpp"

#include "labels.hpp"
#include "others.hpp"
#include "phrases.hpp"

namespace kairos::report {

namespace {

using study::Kind;
using study::Moment;
using study::Role;

// The line that proves what the text tells of a role, or else best play: `line`, from `first` on.
std::vector<rules::Move> proving(const TurningPoint& point, Role role, rules::Move first,
                                 const std::vector<rules::Move>& line) {
  const study::Reason* const reason = told_reason(point, role);
  const bool proved = reason != nullptr && !reason->line.empty() && reason->line.front() == first;
  return proved ? reason->line : line;
}

ShownLine shown(std::string label, const rules::Position& position,
                const std::vector<rules::Move>& line, search::Score score) {
  ShownLine made;
  made.label = std::move(label);
  made.move = line.empty() ? "" : numbered(position, line.front());
  made.text = numbered_line(position, line, shown_plies);
  made.score = score_text(from_white(score, position.side_to_move()));
  made.answer = false;
  made.moves = line;
  return made;
}

// The move in question with what answers it.
ShownLine questioned_line(const TurningPoint& point, const Moment& m) {
  const rules::Move move = move_in_question(m);
  const bool tempting = m.kind == Kind::trap;
  return shown(tempting                ? "Tempting"
               : m.kind == Kind::claim ? "Noted"
                                       : "Played",
               m.position, joined(move, reply_line(point)),
               tempting ? m.tempting_score : m.played_score);
}

// The next best move with what answers it.
ShownLine second_line(const TurningPoint& point, const Moment& m) {
  const std::vector<rules::Move>& replies = m.second_refutation;
  const std::vector<rules::Move> line =
      replies.empty() ? replies : proving(point, Role::second_reply, replies.front(), replies);
  return shown("Next best", m.position, joined(m.second, line), m.second_score);
}

std::string best_label(const Moment& m) {
  if (m.kind == Kind::ended_early) return "Still there";
  const rules::Move questioned = move_in_question(m);
  if (!questioned || questioned == m.best) return "Played";
  return m.found || m.kind == Kind::trap ? "Best" : "Better";
}

}  // namespace

std::string_view motif_words(const Moment& moment) {
  const auto motif = study::motif_of(moment);
  return motif ? study::name_of(*motif) : "";
}

std::string_view motif_words(const TurningPoint& point) {
  for (const Moment* const m : point.moments) {
    if (const auto motif = motif_words(*m); !motif.empty()) return motif;
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

std::string kinds_words(const TurningPoint& point) {
  std::string text;
  for (const Moment* const m : point.moments) {
    if (!text.empty()) text += "; ";
    text += words(m->kind);
    if (const auto outcome = outcome_words(*m); !outcome.empty()) {
      text += ", " + std::string(outcome);
    }
  }
  return text;
}

std::vector<rules::Move> best_line(const TurningPoint& point) {
  const Moment& m = point.lead();
  return proving(point, Role::best, m.best, m.line);
}

std::vector<rules::Move> reply_line(const TurningPoint& point) {
  const std::vector<rules::Move>& replies = point.lead().refutation;
  if (replies.empty()) return {};
  return proving(point, Role::reply, replies.front(), replies);
}

std::vector<ShownLine> shown_lines(const TurningPoint& point) {
  const Moment& m = point.lead();
  std::vector<ShownLine> lines;
  const rules::Move questioned = move_in_question(m);
  // Where the best move was played one line says all.
  if (questioned && questioned != m.best) lines.push_back(questioned_line(point, m));
  if (m.best) {
    const std::vector<rules::Move> best = best_line(point);
    lines.push_back(
        shown(best_label(m), m.position, best.empty() ? joined(m.best, {}) : best, m.best_score));
    lines.back().answer = true;
  }
  const Moment* const trap = point.find(Kind::trap);
  if (const Moment* const rival = with_second(point); rival != nullptr) {
    const bool shown_else =
        rival->second == questioned || (trap != nullptr && rival->second == trap->tempting);
    if (!shown_else) lines.push_back(second_line(point, *rival));
  }
  if (trap != nullptr && trap != &m) lines.push_back(questioned_line(alone(*trap), *trap));
  const Moment* const quiet = point.find(Kind::quiet_win);
  if (quiet != nullptr && quiet->best != m.best) {
    lines.push_back(shown("Quiet", quiet->position, best_line(alone(*quiet)), quiet->best_score));
    lines.back().answer = true;
  }
  return lines;
}

std::string change_text(const TurningPoint& point) {
  const Moment& m = point.lead();
  const std::string side = side_words(m.position.side_to_move());
  const Fall fall = fall_of(m);
  const std::string before = standing_text(fall.from);
  if (tells_fall(m) && m.played) return side + ": " + before + " -> " + standing_text(fall.to);
  if (m.kind == Kind::only_move || m.kind == Kind::quiet_win) {
    return side + ": " + before + "; next best " +
           standing_text(study::expectation(m.second_score));
  }
  return side + ": " + before;
}

}  // namespace kairos::report
