// The questions of kairos quiz, asked one by one on standard output, answered on standard input.
#pragma once

#include <string>
#include <vector>

#include "kairos/audience/again.hpp"
#include "kairos/audience/typed.hpp"
#include "kairos/puzzle/exercise.hpp"

#include "interrupt.hpp"
#include "line_input.hpp"

namespace kairos::cli {

class Dialogue {
 public:
  // Every answer is written to the file at once. The letters are those of what is typed.
  Dialogue(std::string score_file, audience::Day today, rules::Letters letters);

  // Asks them all, or until the person leaves. Fault: the score file cannot be written.
  base::Status ask(const std::vector<const puzzle::Exercise*>& questions);
  // "7 of 10 right, 2 hints; 3 come again tomorrow".
  [[nodiscard]] std::string summary() const;

 private:
  struct Question;
  enum class Next { same, question, end };

  Next ask_one(Question& question);
  Next take(Question& question, std::string_view typed);
  Next take_right(Question& question, const audience::TypedLine& typed);
  Next take_wrong(Question& question, rules::Move move);
  Next give_up(Question& question);
  void give_hint(Question& question);
  std::optional<std::string> read_line();
  bool count(Question& question, bool right);

  std::string score_file_;
  audience::Day today_;
  rules::Letters letters_;
  LineInput input_;
  const std::atomic<bool>& interrupted_;
  bool typed_lines_are_seen_;
  base::Status written_ = base::done();
  int right_ = 0, missed_ = 0, hints_ = 0;
};

}  // namespace kairos::cli
