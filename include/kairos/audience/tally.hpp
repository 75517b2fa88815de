// The count of many people's answers to one exercise. Plain data, made by count.hpp, completed by
// verdicts.hpp and worded by report/tally.hpp.
//
// Each line is counted once: as a person's answer, or as one of the reasons why it is none.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "kairos/rules/move.hpp"
#include "kairos/study/weighed.hpp"

namespace kairos::audience {

struct Person {
  std::string name;
  std::string time;  // of the line, where it has one
};

struct Tally {
  struct Counts {
    std::uint64_t lines = 0, people = 0, again = 0, refused = 0, talk = 0, unreadable = 0,
                  too_many = 0;
    std::uint64_t changed = 0;  // answers that replaced one of the same person
    std::uint64_t unmeant = 0;  // lines whose moves are named, but not as an answer
    std::uint64_t late = 0;     // after the answer was shown
  };
  // A move and the people who named it.
  struct Row {
    rules::Move move;
    std::uint64_t count = 0;
    Person first;
    bool is_key = false;
    std::optional<study::Weighed> weighed{};  // against the key, once it is known
  };
  // A phrase that is no move here.
  struct Refused {
    std::string text;
    std::string why;
    std::uint64_t count = 0;
  };
  // The first few of those who were right, in order, and how many they are in all.
  struct Right {
    static constexpr std::size_t most_kept = 20;
    std::vector<Person> first;
    std::uint64_t count = 0;
  };

  Counts counts;
  std::vector<Row> rows;         // most people first; of equal ones the move that was said first
  std::vector<Refused> refused;  // most frequent first
  Right with_key, with_solution;
};

}  // namespace kairos::audience
