#include "kairos/report/exercise.hpp"

#include <algorithm>

#include "kairos/base/text.hpp"
#include "kairos/report/plain.hpp"
#include "kairos/report/text_layout.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/san.hpp"

namespace kairos::report {

namespace {

constexpr std::size_t longest_text = 200;  // characters shown of a text of the file

}  // namespace

std::string question_text(const puzzle::Puzzle& p) {
  std::string text = "\n";
  for (const std::string& row : board_rows(shown_position(p), p.position.side_to_move())) {
    text += row + "\n";
  }
  text += "\n" + task_of(p);
  if (p.difficulty >= 1 && p.difficulty <= 5) {
    text += ", difficulty " + std::to_string(p.difficulty) + " of 5";
  }
  if (p.avoided) text += "\nThe move was not played in the game: answer it.";
  return text + "\n";
}

std::vector<std::string> hints_of(const puzzle::Exercise& exercise) {
  const puzzle::Reward aim = exercise.puzzle.reward;
  const auto& themes = exercise.themes;
  const bool told = std::ranges::find(themes, name_of(aim)) != themes.end();
  return hints_of(exercise.puzzle, told ? std::optional(aim) : std::nullopt);
}

std::vector<LabelledRow> solution_rows(const puzzle::Exercise& exercise) {
  const puzzle::Puzzle& p = exercise.puzzle;
  std::vector<LabelledRow> rows = {{"solution", solution_words(p)}};
  if (exercise.keys.size() > 1) {
    std::vector<std::string> keys;
    for (const rules::Move key : exercise.keys) keys.push_back(rules::to_san(p.position, key));
    rows.push_back({"right", base::join(keys, " or ")});
  }
  for (const puzzle::Try& tried : p.tries) {
    rows.push_back({"try", numbered_line(p.position, joined(tried.move, tried.refutation))});
  }
  if (!exercise.themes.empty()) {
    rows.push_back({"themes", base::elided(base::join(exercise.themes, ", "), longest_text)});
  }
  const std::string id = base::elided(exercise.id, longest_text);
  const std::string game = base::elided(p.game_label, longest_text);
  rows.push_back({"from", game.empty() ? id : game + " (" + id + ")"});
  return rows;
}

std::string followed_text(std::span<const rules::Move> given,
                          std::span<const rules::Move> solution) {
  const auto own = [](std::size_t plies) { return static_cast<int>((plies + 1) / 2); };
  const auto parted =
      std::mismatch(given.begin(), given.end(), solution.begin(), solution.end()).first;
  const int all = own(given.size());
  const int right = own(static_cast<std::size_t>(parted - given.begin()));
  if (all < 2) return "";
  if (right == all) return " Your " + std::to_string(all) + " moves are all in the solution.";
  return " Of your " + std::to_string(all) + " moves the first" +
         (right > 1 ? " " + std::to_string(right) + " are" : " is") + " in the solution.";
}

std::string praise_text(const puzzle::Puzzle& p, const study::Weighed& w, std::uint64_t nodes) {
  const std::string asked = p.mate_moves > 0
                                ? "but mate in " + std::to_string(p.mate_moves) + " is asked for"
                                : "as far as " + base::grouped(nodes) +
                                      " positions searched can tell, but it is not the answer";
  return "is good too (" + verdict_words(p.position, w) + "), " + asked +
         ". That does not count as wrong: try another.";
}

}  // namespace kairos::report
