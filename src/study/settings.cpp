#include "kairos/study/settings.hpp"

#include "kairos/base/text.hpp"

namespace kairos::study {

// Sized on tournaments of 80 plies a game and about 2 million nodes a second and core: light is for
// the evening after a round (a quarter of an hour for 91 games on two cores), steady for a night
// (360 games in some seven hours on two cores), deep for a single game or a machine of its
// own.
Effort effort_of(EffortName name) {
  switch (name) {
    case EffortName::light:
      return {30'000, 280'000, 500'000};
    case EffortName::steady:
      return {200'000, 1'500'000, 2'500'000};
    case EffortName::deep:
      return {2'000'000, 20'000'000, 40'000'000};
  }
  return {};
}

std::string_view to_string(EffortName name) {
  switch (name) {
    case EffortName::light:
      return "light";
    case EffortName::steady:
      return "steady";
    case EffortName::deep:
      return "deep";
  }
  return "";
}

std::string to_text(const Settings& s) {
  using base::fixed;
  using base::number;
  const auto nodes = [](std::uint64_t n) { return number(static_cast<std::int64_t>(n)); };
  return "survey=" + nodes(s.effort.survey_nodes) + " verify=" + nodes(s.effort.verify_nodes) +
         " puzzle=" + nodes(s.effort.puzzle_nodes) + " swing=" + fixed(s.swing_cost, 4) +
         " only_least=" + fixed(s.only_move_least, 4) + " only_gap=" + fixed(s.only_move_gap, 4) +
         " quiet_gain=" + number(s.quiet_win_gain) + " trap=" + fixed(s.trap_cost, 4) +
         " resigned=" + fixed(s.resigned_least, 4) + " agreed=" + fixed(s.agreed_least, 4) +
         " claim=" + fixed(s.claim_cost, 4) + " share=" + fixed(s.candidate_share, 4) +
         " decided=" + fixed(s.decided, 4) + " from_move=" + number(s.from_move);
}

}  // namespace kairos::study
