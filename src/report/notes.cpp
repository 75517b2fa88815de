#include "notes.hpp"

#include <algorithm>
#include <set>

#include "kairos/base/text.hpp"
#include "kairos/study/expectation.hpp"

namespace kairos::report {

namespace {

using study::Assertion;
using study::Moment;

// The standard's signs that judge a move or a position (section 10).
bool judges(std::uint8_t nag) {
  return (nag >= 1 && nag <= 4) || nag == 7 || nag == 8 || (nag >= 10 && nag <= 12) ||
         (nag >= 14 && nag <= 21);
}

bool has_sign(const pgn::Game& game, pgn::NodeId node) {
  const pgn::Annotation* const annotation = game.annotation_of(node);
  return annotation != nullptr &&
         std::any_of(annotation->nags.begin(), annotation->nags.end(), judges);
}

bool opens_variation(const pgn::Game& game, pgn::NodeId node) {
  const pgn::NodeId parent = game.nodes[node].parent;
  return parent != pgn::no_node && game.nodes[parent].first_child != node;
}

// By how much the note is wrong, by the verdict: where it favours a side, what the other side may
// expect after its move; where it says level, what one side may expect beyond its half; else what
// the move costs.
double size_of(const Moment& m) {
  const auto note = std::ranges::find_if(
      m.reasons, [](const study::Reason& reason) { return reason.assertion.has_value(); });
  const double made = m.played_expectation();
  const Assertion said = note == m.reasons.end() ? Assertion::playable : *note->assertion;
  switch (said) {
    case Assertion::level:
    case Assertion::drawn:
      return std::max(made, 1 - made) - 0.5;
    case Assertion::slightly_better:
    case Assertion::better:
    case Assertion::won:
    case Assertion::mate: {
      const rules::Color mover = m.position.side_to_move();
      return note->favours.value_or(mover) == mover ? 1 - made : made;
    }
    case Assertion::playable:
    case Assertion::good_move:
    case Assertion::poor_move:
    case Assertion::only_move:
      break;
  }
  return m.cost();
}

// The note that a node belongs to: its move of the game, or the opening move of its variation.
pgn::NodeId note_of(const pgn::Game& game, const std::set<pgn::NodeId>& main_line,
                    pgn::NodeId node) {
  while (!main_line.contains(node) && !opens_variation(game, node) &&
         game.nodes[node].parent != pgn::no_node) {
    node = game.nodes[node].parent;
  }
  return node;
}

// Comparing moves first keeps this cheap: a position is played out only for the few that fit.
bool leads_to(const pgn::Game& game, pgn::NodeId id, const Moment& moment) {
  const pgn::Node& node = game.nodes[id];
  return node.move == moment.played && node.parent != pgn::no_node &&
         pgn::position_at(game, node.parent) == moment.position;
}

}  // namespace

pgn::NodeId node_of(const pgn::Game& game, const std::vector<pgn::NodeId>& main_line,
                    const Moment& moment, pgn::NodeId end) {
  const auto ply = static_cast<std::size_t>(std::max(0, moment.ply));
  if (ply < main_line.size() && leads_to(game, main_line[ply], moment)) return main_line[ply];
  for (pgn::NodeId id = 1; id < end; ++id) {
    if (leads_to(game, id, moment)) return id;
  }
  return pgn::no_node;
}

NotesCheck check_notes(const pgn::Game& game, const study::Study& study) {
  NotesCheck check;
  const std::vector<pgn::NodeId> line = game.main_line();
  const std::set<pgn::NodeId> main_line(line.begin(), line.end());
  std::set<pgn::NodeId> notes, wrong;
  const auto end = static_cast<pgn::NodeId>(game.nodes.size());
  for (pgn::NodeId id = 1; id < end; ++id) {
    if (opens_variation(game, id) || (main_line.contains(id) && has_sign(game, id))) {
      notes.insert(id);
    }
  }
  for (const Moment& moment : study.moments) {
    if (moment.kind != study::Kind::claim) continue;
    check.holes.push_back(&moment);
    const pgn::NodeId node = node_of(game, line, moment, end);
    if (node == pgn::no_node) continue;
    wrong.insert(note_of(game, main_line, node));
  }
  notes.insert(wrong.begin(), wrong.end());
  check.notes = notes.size();
  check.standing = notes.size() - wrong.size();
  std::stable_sort(check.holes.begin(), check.holes.end(),
                   [](const Moment* a, const Moment* b) { return size_of(*a) > size_of(*b); });
  return check;
}

std::string notes_words(const NotesCheck& check, const RunFacts& facts) {
  const bool all = facts.candidates_open == 0 && facts.player.empty();
  if (check.notes == 0 || (!all && check.holes.empty())) return "";
  if (!all) return "In the notes " + base::counted(check.holes.size(), "thing") + " to mend.";
  const std::string notes = base::counted(check.notes, "note");
  if (check.holes.empty()) {
    return check.notes == 1 ? "The one note (a line or a sign) stands."
                            : "All " + notes + " (lines and signs) stand.";
  }
  if (check.notes == 1) return "The one note (a line or a sign) does not stand.";
  return "Of " + notes + " (lines and signs) " +
         (check.standing == 0 ? std::string("none") : base::grouped(check.standing)) +
         (check.standing == 1 ? " stands." : " stand.");
}

}  // namespace kairos::report
