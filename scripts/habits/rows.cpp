#include "rows.hpp"

#include <algorithm>
#include <iostream>

#include "kairos/base/text.hpp"
#include "kairos/batch/ledger.hpp"
#include "kairos/study/expectation.hpp"

#include "calibration.hpp"

namespace kairos::expect {

bool add(const std::string& path, Rows& into) {
  base::FaultList damage;
  const auto ledger = batch::Ledger::read(path, damage);
  if (!ledger || !ledger->input()) {
    std::cerr << path << " is no ledger that can be read\n";
    return false;
  }
  for (const batch::InputGame& game : ledger->input()->games) {
    if (!ledger->has_survey(game.key)) continue;
    const auto study = ledger->survey(game.key);
    if (!study) continue;
    for (const rules::Color side : {rules::white, rules::black}) {
      if (study::elo_of(study->facts, side) == 0) continue;
      const auto number = into.rows.empty() ? 0 : into.rows.back().decision.place.game + 1;
      std::vector<habits::Decision> decisions;
      habits::add_decisions(*study, side, number, {}, into.topics, decisions);
      for (habits::Decision& d : decisions) {
        if (d.chances == study::no_chances) continue;
        const auto& lines = study->notes[static_cast<std::size_t>(d.place.ply)].lines;
        const double second =
            study::expectation(lines[0].score) - study::expectation(lines[1].score);
        into.rows.push_back({std::move(d),
                             side == rules::white ? study->facts.white : study->facts.black,
                             std::min(habits::most_gap, second)});
      }
    }
  }
  return true;
}

std::string quotient(double one, double other) {
  return other == 0 ? "-" : base::fixed(one / other, 3);
}

}  // namespace kairos::expect
