// What there is to say of a puzzle: the question, hints that do not give it away, and afterwards
// its themes and why it is hard.
#include <algorithm>
#include <array>

#include "kairos/base/text.hpp"
#include "kairos/report/plain.hpp"
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

// Who has won material and has so few centipawns more is no better: he has saved the game.
constexpr search::Score no_better = 60;

std::string side_to_move(const Puzzle& p) {
  return side_words(p.position.side_to_move()) + " to move";
}

// "; if 24... Nxe5, 25. Qxc7"
std::string if_taken_words(const Puzzle& p) {
  if (p.if_taken.empty()) return "";
  const rules::Position then = p.position.after(p.line.front());
  const rules::Move takes = p.if_taken.front();
  return "; if " + numbered(then, takes) + ", " +
         numbered_line(then.after(takes), std::span(p.if_taken).subspan(1));
}

std::string_view aim_words(Reward aim) {
  switch (aim) {
    case Reward::mate:
      return " and mate";
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

// "about 3 in 10 players".
std::string players_of(double rate) {
  const int tenths = static_cast<int>(rate * 10 + 0.5);
  if (rate < 0.05) return "fewer than 1 in 20 players";
  if (rate >= 0.85) return "nearly all players";
  if (tenths == 5) return "about half of the players";
  return "about " + std::to_string(tenths) + " in 10 players";
}

// "about 3 in 10 players rated 2000 find it", "about 3 in 10 players rated 2000 find both moves".
std::string found_by(const Puzzle& p, std::size_t moves) {
  return players_of(puzzle::rate_at(p.solve_rates, study::unrated)) + " rated " +
         std::to_string(study::unrated) + " find " +
         (moves == 1   ? "it"
          : moves == 2 ? "both moves"
                       : "all " + std::to_string(moves) + " moves");
}

}  // namespace

std::string refuted_words(const rules::Position& position, const puzzle::Try& tried,
                          std::size_t most) {
  return "fails to " + numbered_line(position.after(tried.move), tried.refutation, most);
}

std::string find_rate_words(const study::Study& study, const study::Moment& moment) {
  if (moment.find_rate < 0) return "";
  const int rating = study::rating_of(study.facts, moment.position.side_to_move());
  return players_of(static_cast<double>(moment.find_rate) / study::find_rate_of) + " rated " +
         base::number(rating) + " find it";
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

std::string why_not_words(const Puzzle& p) {
  return "Why not " + numbered(p.before, p.avoided) + "?";
}

std::string task_of(const Puzzle& p) {
  std::string text = side_to_move(p);
  if (p.avoided) text = why_not_words(p) + " " + text;
  if (p.mate_moves > 0) text += " and mate in " + base::number(p.mate_moves);
  return text;
}

Reward aim_of(const Puzzle& p) {
  return p.reward == Reward::material && p.score <= no_better ? Reward::save : p.reward;
}

std::vector<std::string> hints_of(const Puzzle& p, std::optional<Reward> aim) {
  std::vector<std::string> hints;
  if (p.line.empty()) return hints;
  const rules::Move key = p.line.front();
  if (aim && p.mate_moves == 0) {
    hints.push_back(side_to_move(p) + std::string(aim_words(*aim)) + ".");
  }
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
                          : std::string(name_of(aim_of(p))));
  if (has_quiet_key(p)) themes.emplace_back("quiet move");
  for (const Motif motif : p.motifs) themes.emplace_back(study::name_of(motif));
  return themes;
}

std::string solution_words(const Puzzle& p) {
  const auto asked = asked_of(p);
  const std::string text = numbered_line(p.position, asked);
  if (asked.size() == p.line.size()) return text + if_taken_words(p);
  rules::Position then = p.position;
  for (const rules::Move move : asked) then.play(move);
  return text + " (then, for instance, " +
         numbered_line(then, std::span(p.line).subspan(asked.size())) + ")" + if_taken_words(p);
}

std::string difficulty_words(const Puzzle& p) {
  if (p.line.empty()) return "";
  const int replies = rules::count_legal_moves(p.position.after(p.line.front()));
  return found_by(p, (asked_of(p).size() + 1) / 2) + (has_quiet_key(p) ? ", quiet key" : "") +
         (has_sacrifice(p) ? ", sacrifice" : "") + ", " +
         base::counted(p.tries.size(), "try", "tries") + ", " +
         base::counted(static_cast<std::uint64_t>(replies), "reply", "replies") + " to the key";
}

}  // namespace kairos::report
