// Counts many people's answers to one exercise, line by line as they come.
//
// A person (a name, whatever its capitals and blanks) has one voice: the first message of his with
// a move that is meant and legal (meaning.hpp). What he says later counts no more, so nobody is
// right by naming every move; or, where the count keeps the latest, each answer replaces the one
// before, and stands where it was given: who returns to an answer is no longer the first with it.
// Memory is bounded: people beyond `most_people` and refused phrases beyond `most_refused` are only
// counted.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "kairos/audience/answer.hpp"
#include "kairos/audience/evening.hpp"
#include "kairos/audience/tally.hpp"
#include "kairos/audience/typed.hpp"
#include "kairos/puzzle/exercise.hpp"

namespace kairos::audience {

inline constexpr std::size_t most_people = 150'000;
inline constexpr std::size_t most_refused = 1'000;

enum class Keep : std::uint8_t { first, latest };  // of a person's answers

class Count {
 public:
  // The exercise must outlive the count.
  explicit Count(const puzzle::Exercise& exercise, Keep keep = Keep::first,
                 rules::Letters letters = rules::Letters::english)
      : exercise_(exercise), keep_(keep), letters_(letters) {}

  // What became of one line.
  enum class Fate {
    counted,
    changed,
    again,
    refused,
    unmeant,
    talk,
    unreadable,
    too_many,
    late  // the count is closed
  };
  struct Taken {
    Fate fate = Fate::talk;
    std::string name = {};
    rules::Move move = {};  // counted, changed
    std::string why = {};   // refused: "Rxe4: illegal move: the way from e1 to e4 is blocked"
    bool is_new = false;    // counted, changed: nobody had said that move
  };
  Taken take(std::string_view line);
  // The answer has been shown: what comes now is counted as late, and no more.
  void close() { is_closed_ = true; }

  // So far, without verdicts.
  [[nodiscard]] Tally tally() const;
  // All who have a key, in the order in which they had it.
  [[nodiscard]] std::vector<Solver> solvers() const;

 private:
  struct Voice {
    Person person;
    rules::Move move;
    bool is_whole = false;  // the whole solution
  };
  Taken take(const AnswerLine& line, const std::vector<rules::Move>& moves);
  Taken refuse(const AnswerLine& line, const TypedMove& refused);

  const puzzle::Exercise& exercise_;
  const Keep keep_;
  bool is_closed_ = false;
  const rules::Letters letters_;           // of the tongue that goes first (typed.hpp)
  std::map<std::uint64_t, Voice> voices_;  // by the number of the line
  std::unordered_map<std::string, std::uint64_t> people_;  // to their voices
  std::vector<rules::Move> said_;                          // by anyone, at any time
  std::map<std::string, Tally::Refused> refused_;
  Tally::Counts counts_;
};

}  // namespace kairos::audience
