// A player's decisions with the circumstances in which they were made, from studies.
//
// A topic is a circumstance ("in rook endings") or a flaw, a kind of error ("overlooking a threat
// that was already there"). The rule of each stands in src/habits/contexts.cpp and flaws.cpp.
// Topics are named as they come up; ids count from 0 and belong to their Topics.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "kairos/habits/habit.hpp"
#include "kairos/study/study.hpp"

namespace kairos::habits {

using TopicId = std::uint16_t;

// `motif`: a flaw that only a verified moment can tell.
enum class TopicKind : std::uint8_t { circumstance, flaw, motif };

class Topics {
 public:
  struct Topic {
    std::string words;
    TopicKind kind = TopicKind::circumstance;
    // A flaw that only decisions of this circumstance could have brought; else any decision could.
    std::optional<TopicId> among{};

    [[nodiscard]] bool is_flaw() const { return kind != TopicKind::circumstance; }
  };
  TopicId id_of(const std::string& words, TopicKind kind, std::optional<TopicId> among = {});
  [[nodiscard]] const std::vector<Topic>& all() const { return all_; }

 private:
  std::vector<Topic> all_;
  std::map<std::string, TopicId> ids_;
};

struct DecisionRule {
  double error_cost = usual_error_cost;  // least loss of expectation that is an error
  double decided = study::most_open;

  // The chances of a study are those of errors of the usual cost.
  [[nodiscard]] bool has_chances() const { return error_cost == usual_error_cost; }
};

struct Decision {
  DecisionPlace place;
  int year = 0;                 // 0: not known
  double cost = 0;              // by the moment verified there, else by the survey
  bool error = false;           // by the survey, for both sides alike
  bool verified = false;        // a swing was verified there
  std::vector<TopicId> topics;  // flaws only where it is an error
  // What players would do there (chances.hpp): of the study, and what the circumstances add to the
  // log odds.
  study::ErrorChances chances = study::no_chances;
  double log_odds = 0;
  int rating = 0;  // of the player; 0: not given
};

// Adds the decisions of `side` in one study, by ply; `game` is the caller's number for it.
void add_decisions(const study::Study& study, rules::Color side, std::uint32_t game,
                   const DecisionRule& settings, Topics& topics, std::vector<Decision>& decisions);

}  // namespace kairos::habits
