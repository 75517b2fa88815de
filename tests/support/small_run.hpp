// A small run of two games in a ledger, the same each time, without any search: for tests of the
// ledger alone.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "kairos/batch/ledger.hpp"

#include "support/random_studies.hpp"

namespace kairos::test {

inline const batch::RunHeader small_run_header{.version = "1.0",
                                               .evaluation = "0a1b2c3d",
                                               .definitions = 3,
                                               .settings = "survey=10 verify=20"};

struct SmallRun {
  explicit SmallRun(std::uint64_t seed = 1) {
    RandomStudies random(seed);
    while (studies.size() < 2) {
      studies.push_back(random.study(3));
      if (studies.back().moves.size() < 3) studies.pop_back();
    }
    for (const study::Study& study : studies) {
      texts.push_back(RandomStudies::text_of(study));
      findings.push_back(
          {.ply = 2, .moments = {random.moment(study, 2)}, .puzzles = {random.why_not(study, 2)}});
      findings.back().drops = {puzzle::Drop::cook};
    }
    input.files = {"a.pgn"};
    input.games_total = 3;
    input.faults = {{base::Code::illegal_move, "Bf3", {"a.pgn", 7, 3, 2}}};
    input.complete = true;
    for (std::size_t i = 0; i < texts.size(); ++i) {
      input.games.push_back({key(i), i + 1, 0, i * 10, "Rosin", "Bellini"});
    }
  }

  [[nodiscard]] batch::GameKey key(std::size_t i) const { return batch::key_of(texts[i]); }

  // Puts what is not there yet.
  [[nodiscard]] bool put_into(batch::Ledger& ledger) const {
    bool good = true;
    for (std::size_t i = 0; i < texts.size(); ++i) {
      if (!ledger.has_game(key(i))) good &= ledger.put_game(key(i), texts[i]).ok();
    }
    if (!ledger.input()) good &= ledger.put_input(input).ok();
    for (std::size_t i = 0; i < texts.size(); ++i) {
      if (!ledger.has_survey(key(i))) {
        good &= ledger.put_survey(key(i), studies[i], candidates).ok();
      }
      if (ledger.plies(key(i)).empty()) good &= ledger.put_findings(key(i), findings[i]).ok();
    }
    return good;
  }

  [[nodiscard]] bool is_whole_in(const batch::Ledger& ledger) const {
    if (!ledger.input() || ledger.input()->games != input.games) return false;
    for (std::size_t i = 0; i < texts.size(); ++i) {
      const auto study = ledger.survey(key(i));
      const auto found = ledger.findings(key(i), 2);
      if (!study.ok() || !found.ok() || !(*study == studies[i]) || !(*found == findings[i]) ||
          ledger.candidates(key(i)) != candidates) {
        return false;
      }
    }
    return true;
  }

  std::vector<std::string> texts;
  std::vector<study::Study> studies;
  std::vector<batch::Findings> findings;
  std::vector<study::Candidate> candidates = {{2, 0.3333333333333333}, {0, 0.1}};
  batch::Input input;
};

// Opened, filled up and closed again: how a run goes on.
inline bool resumes(const std::string& folder, const SmallRun& run) {
  base::FaultList ignored;
  auto ledger = batch::Ledger::open(folder, small_run_header, ignored);
  return ledger.ok() && run.put_into(*ledger) && run.is_whole_in(*ledger);
}

// With their line feeds.
inline std::vector<std::string> lines_with_ends(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < text.size();) {
    const auto end = std::min(text.find('\n', at), text.size() - 1) + 1;
    lines.push_back(text.substr(at, end - at));
    at = end;
  }
  return lines;
}

}  // namespace kairos::test
