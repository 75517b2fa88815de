// Counts many people's answers to one exercise, line by line as they come.
//
// A person (a name, whatever its capitals) has one voice: the first message of his that is a legal
// move. What he says later counts no more, so nobody is right by naming every move. Memory is
// bounded: people beyond `most_people` and refused phrases beyond `most_refused` are only counted.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <unordered_set>
#include <vector>

#include "kairos/audience/answer.hpp"
#include "kairos/audience/tally.hpp"
#include "kairos/puzzle/exercise.hpp"

namespace kairos::audience {

inline constexpr std::size_t most_people = 150'000;
inline constexpr std::size_t most_refused = 1'000;

class Count {
 public:
  // The exercise must outlive the count.
  explicit Count(const puzzle::Exercise& exercise) : exercise_(exercise) {}

  // What became of one line.
  enum class Fate { counted, again, refused, talk, unreadable, too_many };
  struct Taken {
    Fate fate = Fate::talk;
    std::string name = {};
    rules::Move move = {};  // counted
    std::string why = {};   // refused: "Rxe4: illegal move: the way from e1 to e4 is blocked"
    bool is_new = false;    // counted: nobody had said that move
  };
  Taken take(std::string_view line);

  // So far, without verdicts.
  [[nodiscard]] Tally tally() const;

 private:
  Taken take(const AnswerLine& line, const std::vector<rules::Move>& moves);

  const puzzle::Exercise& exercise_;
  std::unordered_set<std::string> people_;
  std::map<std::string, Tally::Refused> refused_;
  Tally tally_;  // rows in the order the moves were first said, nothing of the refused
};

}  // namespace kairos::audience
