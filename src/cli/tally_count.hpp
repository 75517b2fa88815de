// The count of many people's answers to one puzzle: who said what first, and who was right.
//
// A person (a name, whatever its capitals) has one voice: the first message of his that is a legal
// move. What he says later counts no more, so nobody is right by naming every move. Memory is
// bounded: people beyond `most_people` and refused phrases beyond `most_refused` are only counted.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <unordered_set>
#include <vector>

#include "puzzle_file.hpp"
#include "tally_lines.hpp"

namespace kairos::cli {

inline constexpr std::size_t most_people = 150'000;
inline constexpr std::size_t most_refused = 1'000;

struct Person {
  std::string name;
  std::string time;  // of the line, where it has one
};

class TallyCount {
 public:
  explicit TallyCount(const AskedPuzzle& asked) : asked_(asked) {}

  enum class Heard { counted, again, refused, talk, unreadable, too_many };
  struct Hearing {
    Heard heard = Heard::talk;
    std::string name = {};
    rules::Move move = {};  // counted
    std::string why = {};   // refused: "Rxe4: illegal move: the way from e1 to e4 is blocked"
    bool is_new = false;    // counted: nobody had said that move
  };
  Hearing hear(std::string_view line);

  struct Votes {
    rules::Move move;
    std::uint64_t count = 0;
    Person first;
  };
  struct Refused {
    std::string text;
    std::string why;
    std::uint64_t count = 0;
  };

  // Most votes first; of equal ones the move that was said first.
  [[nodiscard]] std::vector<Votes> votes() const;
  // Most frequent first.
  [[nodiscard]] std::vector<Refused> refused() const;
  [[nodiscard]] bool is_key(rules::Move move) const;
  // Who had the key, and who the whole solution, in order; the first few, and how many in all.
  struct Roll {
    static constexpr std::size_t most_kept = 20;
    std::vector<Person> first;
    std::uint64_t count = 0;
    void add(const AnswerLine& line);
  };
  [[nodiscard]] const Roll& with_key() const { return with_key_; }
  [[nodiscard]] const Roll& with_solution() const { return with_solution_; }

  struct Counts {
    std::uint64_t lines = 0, people = 0, again = 0, refused = 0, talk = 0, unreadable = 0,
                  too_many = 0;
  };
  [[nodiscard]] const Counts& counts() const { return counts_; }

 private:
  Hearing take(const AnswerLine& line, const std::vector<rules::Move>& moves);

  const AskedPuzzle& asked_;
  std::unordered_set<std::string> people_;
  std::vector<Votes> votes_;  // in the order the moves were first said
  std::map<std::string, Refused> refused_;
  Roll with_key_, with_solution_;
  Counts counts_;
};

}  // namespace kairos::cli
