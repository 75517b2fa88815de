#include "kairos/study/study.hpp"

#include <algorithm>

#include "kairos/base/text.hpp"
#include "kairos/pgn/same_game.hpp"
#include "kairos/study/expectation.hpp"

namespace kairos::study {

bool is_quiet(const rules::Position& p, rules::Move move) {
  return !p.in_check() && !p.is_capture(move) && !move.is_promotion() && !p.gives_check(move);
}

double Moment::best_expectation() const {
  return expectation(best_score);
}

double Moment::played_expectation() const {
  return expectation(played_score);
}

double Moment::cost() const {
  return std::max(0.0, best_expectation() - played_expectation());
}

rules::Move move_in_question(const Moment& m) {
  return m.tempting ? m.tempting : m.played;
}

rules::Position position_of(const Moment& m, Role role) {
  rules::Move before;
  if (role == Role::reply) before = move_in_question(m);
  if (role == Role::second_reply) before = m.second;
  return before ? m.position.after(before) : m.position;
}

std::optional<Motif> motif_of(const Moment& m) {
  for (const Reason& reason : m.reasons) {
    if (reason.motif) return reason.motif;
  }
  return std::nullopt;
}

bool is_decision(const Note& note, double most) {
  if (note.lines.size() < 2) return false;
  const double best = expectation(note.lines.front().score);
  return best <= most && best >= 1 - most;
}

bool may_err(const Note& note) {
  return is_decision(note) && expectation(note.lines.front().score) >= error_cost;
}

std::string label_of(const GameFacts& f) {
  std::string label = f.white + " - " + f.black;
  if (!f.event.empty() && f.event != "?") label += ", " + f.event;
  if (!f.round.empty() && f.round != "?" && f.round != "-") label += ", round " + f.round;
  return label;
}

std::uint64_t identity_of(const Study& study) {
  return pgn::identity_of(study.start, study.moves, study.facts.white, study.facts.black);
}

rules::Position position_after(const Study& study, std::size_t plies) {
  rules::Position p = study.start;
  for (std::size_t i = 0; i < plies; ++i) p.play(study.moves[i]);
  return p;
}

bool was_won_at_the_board(const GameFacts& facts) {
  if (facts.result != "1-0" && facts.result != "0-1") return false;
  const std::string termination = base::lower_case(facts.termination);
  return termination.empty() || termination == "normal" || termination == "?";
}

int elo_of(const GameFacts& facts, rules::Color side) {
  return side == rules::white ? facts.white_elo : facts.black_elo;
}

int rating_of(const GameFacts& facts, rules::Color side) {
  const int elo = elo_of(facts, side);
  return elo > 0 ? elo : unrated;
}

rules::Color loser_of(const GameFacts& facts) {
  return facts.result == "1-0" ? rules::black : rules::white;
}

bool tells_where_it_was_lost(const Study& study) {
  const rules::Color loser = loser_of(study.facts);
  return std::ranges::any_of(study.moments, [loser](const Moment& m) {
    if (m.kind == Kind::ended_early) return true;
    const bool explains = m.kind == Kind::swing || m.kind == Kind::slide || m.kind == Kind::turn;
    return explains && m.position.side_to_move() == loser;
  });
}

}  // namespace kairos::study
