// What there is to say of a puzzle: the question, hints that do not give it away, and afterwards
// its themes and why it is hard.
#include <algorithm>
#include <array>

#include "kairos/base/text.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/movegen.hpp"

#include "labels.hpp"

namespace kairos::report {

namespace {

using puzzle::Puzzle;
using puzzle::Reward;
using study::Motif;

bool has_quiet_key(const Puzzle& p) {
  return study::is_quiet(p.position, p.line.front());
}

bool has_sacrifice(const Puzzle& p) {
  return std::find(p.motifs.begin(), p.motifs.end(), Motif::sacrifice) != p.motifs.end();
}

// Part of a question only where it is proved: else a hint.
std::string aim_of(const Puzzle& p) {
  switch (p.reward) {
    case Reward::mate:
      return p.mate_moves > 0 ? "" : " and mate";
    case Reward::material:
      return " and win material";
    case Reward::save:
      return " and save the game";
    case Reward::advantage:
      return " and win";
  }
  return "";
}

// How many legal moves the men of one kind have: a man with one move would give it away.
int moves_of_kind(const rules::Position& p, rules::PieceType type) {
  rules::MoveList moves;
  rules::legal_moves(p, moves);
  return static_cast<int>(std::count_if(moves.begin(), moves.end(), [&](rules::Move m) {
    return rules::type_of(p.piece_on(m.from())) == type;
  }));
}

}  // namespace

std::string refuted_words(const rules::Position& position, const puzzle::Try& tried,
                          std::size_t most) {
  return "fails to " + numbered_line(position.after(tried.move), tried.refutation, most);
}

std::string_view words(puzzle::Drop drop) {
  constexpr std::array<std::string_view, puzzle::drop_count> names = {
      "kept",
      "asks no question",
      "a second solution",
      "nothing tangible at the end",
      "the last iterations disagree",
      "too plain"};
  return names[static_cast<std::size_t>(drop)];
}

std::string task_of(const Puzzle& p) {
  std::string text = side_words(p.position.side_to_move()) + " to move";
  if (p.mate_moves > 0) text += " and mate in " + base::number(p.mate_moves);
  return text;
}

std::vector<std::string> hints_of(const Puzzle& p) {
  std::vector<std::string> hints;
  if (p.line.empty()) return hints;
  const rules::Move key = p.line.front();
  hints.push_back(task_of(p) + aim_of(p) + ".");
  if (has_quiet_key(p)) {
    hints.emplace_back("No capture and no check: look for a quiet move.");
  } else if (has_sacrifice(p)) {
    hints.emplace_back("Something has to be given up first.");
  } else if (p.position.gives_check(key)) {
    hints.emplace_back("Start with the checks.");
  }
  const rules::PieceType type = rules::type_of(p.position.piece_on(key.from()));
  if (moves_of_kind(p.position, type) > 1) {
    hints.push_back("It is a move of " + with_article(type) + ".");
  }
  if (!p.motifs.empty()) {
    hints.push_back("The theme: " + std::string(study::name_of(p.motifs.front())) + ".");
  }
  return hints;
}

std::vector<std::string> themes_of(const Puzzle& p) {
  std::vector<std::string> themes;
  if (p.line.empty()) return themes;
  const bool proved = p.reward == Reward::mate && p.mate_moves > 0;
  themes.push_back(proved ? "mate in " + base::number(p.mate_moves)
                          : std::string(name_of(p.reward)));
  if (has_quiet_key(p)) themes.emplace_back("quiet move");
  for (const Motif motif : p.motifs) themes.emplace_back(study::name_of(motif));
  return themes;
}

std::string difficulty_words(const Puzzle& p) {
  if (p.line.empty()) return "";
  const int replies = rules::count_legal_moves(p.position.after(p.line.front()));
  return base::counted((p.line.size() + 1) / 2, "move") + (has_quiet_key(p) ? ", quiet key" : "") +
         (has_sacrifice(p) ? ", sacrifice" : "") + ", " +
         base::counted(p.tries.size(), "try", "tries") + ", " +
         base::counted(static_cast<std::uint64_t>(replies), "reply", "replies") + " to the key";
}

}  // namespace kairos::report
