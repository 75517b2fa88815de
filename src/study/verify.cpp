// A stretch is looked at from its end: what was found of a ply tells what the move before it was
// worth. Most plies hold nothing, and a short look is enough to see it; the others get the close
// look of evidence.hpp.
//
// Coherence: the expectation after the move played and that before the next move may differ by
// `most_apart`. Where neighbours of which one may be told differ by more, both are looked at
// deeper; what does not come to agree is not told.
#include <algorithm>
#include <cmath>
#include <iterator>

#include "kairos/study/crowd.hpp"
#include "kairos/study/examine.hpp"
#include "kairos/study/expectation.hpp"
#include "kairos/study/told.hpp"

#include "moments/kinds.hpp"
#include "reasons.hpp"

namespace kairos::study {

namespace {

constexpr double most_apart = 0.10;
constexpr int most_rounds = 2;  // of deeper looks

// How many players would find the best move: all moves of the position are looked at once, if there
// is a moment at all.
void give_find_rates(const Scoresheet& sheet, int ply, const Settings& settings,
                     std::vector<Moment>& moments) {
  if (moments.empty()) return;
  const Crowd crowd = crowd_at(sheet, ply, settings.effort.verify_nodes);
  const rules::Position& position = sheet.positions[static_cast<std::size_t>(ply)];
  for (Moment& moment : moments) {
    if (moment.position != position) continue;  // a claim may be about a variation
    moment.find_rate =
        crowd.players_of(moment.best, rating_of(sheet.facts, position.side_to_move()));
  }
}

// A ply while its stretch is verified.
struct Place {
  Evidence evidence;
  std::vector<rules::Move> traps;  // that a first look has seen
  bool may_be_told = false;
  std::uint64_t nodes = 0;
};

class StretchLook {
 public:
  StretchLook(const Scoresheet& sheet, const Study& study, const Settings& settings,
              search::Searcher& searcher)
      : sheet_(sheet),
        study_(study),
        settings_(settings),
        searcher_(searcher),
        looker_(sheet, settings, searcher) {}

  std::vector<Verified> verify(const std::vector<int>& plies) {
    places_.resize(plies.size());
    for (std::size_t i = places_.size(); i-- > 0;) {
      count_nodes(i, [&] { look_at(i, plies[i]); });
    }
    for (int round = 0; round < most_rounds && look_at_contradictions(); ++round) {
    }
    leave_out_contradictions();
    std::vector<Verified> verified(places_.size());
    for (std::size_t i = places_.size(); i-- > 0;) {
      verified[i].ply = plies[i];
      count_nodes(i, [&] { verified[i].moments = moments_at(places_[i]); });
      verified[i].nodes = places_[i].nodes;
    }
    return verified;
  }

 private:
  template <typename Work>
  void count_nodes(std::size_t i, const Work& work) {
    const std::uint64_t before = searcher_.nodes();
    work();
    places_[i].nodes += searcher_.nodes() - before;
  }

  // The evidence of the next ply, when the stretch holds it.
  [[nodiscard]] const Evidence* next_of(std::size_t i, int ply) const {
    if (i + 1 == places_.size() || places_[i + 1].evidence.ply != ply + 1) return nullptr;
    return &places_[i + 1].evidence;
  }

  void look_at(std::size_t i, int ply) {
    Place& place = places_[i];
    const Evidence* const next = next_of(i, ply);
    place.evidence = looker_.first_look(ply, next);
    if (place.evidence.legal_moves == 0) return;
    place.traps = traps_in_sight(place.evidence, settings_, searcher_);
    const bool may_be_slip =
        slip_hint(SurveyedPly(sheet_, study_, ply)) > 0 && find_slip(place.evidence);
    place.may_be_told =
        !place.traps.empty() || may_be_slip || may_hold_moment(study_, place.evidence, settings_);
    if (!place.may_be_told) return;
    looker_.look_closer(place.evidence, next);
    if (!is_close_call(study_, place.evidence, settings_)) return;
    looker_.look_deeper(place.evidence, next);
    if (is_closer_call(place.evidence, settings_)) looker_.look_deeper(place.evidence, next);
  }

  [[nodiscard]] bool contradict(std::size_t i) const {
    const Evidence& e = places_[i].evidence;
    const Evidence* const next = next_of(i, e.ply);
    if (next == nullptr || next->verdict.lines.empty()) return false;
    if (!places_[i].may_be_told && !places_[i + 1].may_be_told) return false;
    const double after = expectation(seen_from_before(next->best_score));
    return std::abs(expectation(e.played_score) - after) > most_apart;
  }

  // Whether there were any.
  bool look_at_contradictions() {
    bool any = false;
    for (std::size_t i = places_.size(); i-- > 0;) {
      if (!contradict(i)) continue;
      any = true;
      Evidence& next = places_[i + 1].evidence;
      Evidence& e = places_[i].evidence;
      count_nodes(i + 1, [&] { looker_.look_deeper(next, next_of(i + 1, next.ply)); });
      count_nodes(i, [&] {
        while (e.effort < next.effort) looker_.look_deeper(e, &next);
      });
    }
    return any;
  }

  void leave_out_contradictions() {
    std::vector<std::size_t> out;
    for (std::size_t i = 0; i < places_.size(); ++i) {
      if (contradict(i)) out.insert(out.end(), {i, i + 1});
    }
    for (const std::size_t i : out) places_[i].may_be_told = false;
  }

  std::vector<Moment> moments_at(const Place& place) {
    const Evidence& e = place.evidence;
    std::vector<Moment> moments;
    const auto keep = [&](std::optional<Moment> moment) {
      if (moment) moments.push_back(std::move(*moment));
    };
    if (place.may_be_told) {
      keep(find_swing(sheet_, e, settings_, searcher_));
      if (moments.empty()) keep(find_slip(e));
      keep(find_only_move(study_, e, settings_));
      keep(find_quiet_win(e, settings_, searcher_));
      keep(find_trap(sheet_, e, place.traps, settings_, searcher_));
      keep(find_ended_early(sheet_, e, settings_));
      for (Moment& moment : moments) {
        if (needs_reasons(moment)) give_reasons(e, settings_, moment);
      }
    }
    std::vector<Moment> claimed = find_claims(sheet_, e.ply, settings_, searcher_);
    std::move(claimed.begin(), claimed.end(), std::back_inserter(moments));
    give_find_rates(sheet_, e.ply, settings_, moments);
    return moments;
  }

  const Scoresheet& sheet_;
  const Study& study_;
  const Settings& settings_;
  search::Searcher& searcher_;
  Looker looker_;
  std::vector<Place> places_;
};

}  // namespace

std::vector<Stretch> stretches(std::vector<Candidate> candidates) {
  std::ranges::sort(candidates, {}, &Candidate::ply);
  std::vector<Stretch> stretches;
  for (const Candidate& candidate : candidates) {
    const bool near =
        !stretches.empty() && candidate.ply - stretches.back().plies.back() <= stretch_step;
    Stretch& stretch = near ? stretches.back() : stretches.emplace_back();
    stretch.plies.push_back(candidate.ply);
    stretch.promise = std::max(stretch.promise, candidate.promise);
  }
  return stretches;
}

std::vector<Verified> verify(const Scoresheet& sheet, const Study& study, const Stretch& stretch,
                             const Settings& settings, search::Searcher& searcher) {
  searcher.clear();
  return StretchLook(sheet, study, settings, searcher).verify(stretch.plies);
}

}  // namespace kairos::study
