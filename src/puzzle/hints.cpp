#include "kairos/puzzle/hints.hpp"

#include "kairos/base/text.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/study/judge.hpp"
#include "kairos/study/motifs.hpp"
#include "kairos/study/spoils.hpp"

namespace kairos::puzzle {

namespace {

std::string aim_of(const Puzzle& p) {
  const std::string side(study::side_words(p.position.side_to_move()));
  switch (p.reward) {
    case Reward::mate:
      return p.mate_moves > 0 ? side + " to move and mate in " + base::number(p.mate_moves) + "."
                              : side + " to move and mate.";
    case Reward::material:
      return side + " to move and win material.";
    case Reward::save:
      return side + " to move and save the game.";
    case Reward::advantage:
      return side + " to move and win.";
  }
  return "";
}

// How many legal moves the men of one kind have: a man with one move would give it away.
int moves_of_kind(const rules::Position& p, rules::PieceType type) {
  rules::MoveList moves;
  rules::legal_moves(p, moves);
  int n = 0;
  for (const rules::Move m : moves) n += rules::type_of(p.piece_on(m.from())) == type ? 1 : 0;
  return n;
}

bool is_motif(const std::string& theme) {
  for (int m = 0; m < study::motif_count; ++m) {
    if (theme == study::words(static_cast<study::Motif>(m))) return true;
  }
  return false;
}

}  // namespace

std::vector<std::string> hints_of(const Puzzle& p) {
  const rules::Move key = p.line.front();
  std::vector<std::string> hints{aim_of(p)};
  if (study::is_quiet(p.position, key)) {
    hints.emplace_back("No capture and no check: look for a quiet move.");
  } else if (study::is_sacrifice(p.position, key)) {
    hints.emplace_back("Something has to be given up first.");
  } else if (p.position.gives_check(key)) {
    hints.emplace_back("Start with the checks.");
  }
  const rules::PieceType type = rules::type_of(p.position.piece_on(key.from()));
  if (moves_of_kind(p.position, type) > 1) {
    hints.push_back("It is a move of " + study::with_article(type) + ".");
  }
  for (const std::string& theme : p.themes) {
    if (is_motif(theme)) {
      hints.push_back("The theme: " + theme + ".");
      break;
    }
  }
  return hints;
}

}  // namespace kairos::puzzle
