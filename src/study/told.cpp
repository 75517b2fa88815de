// Slide: two to `most_steps` moves of one side within ten of its own, none of them a swing and no
// swing of that side between them, that together cost `slide_cost` or more, none of them more than
// `most_of_it` of that, without the opponent giving a third of it back until the answer to the
// last. Told once, at the costliest of them. Of windows that overlap the one that costs most is
// told.
//
// Turn: where a game that was won at the board has no swing, slide or early ending of the loser,
// the loser's costliest move, if it cost `turn_cost` or more and left the loser no better than
// level.
//
// Neither is told where what was lost came back: where by the survey the side stands midway between
// before and after again, at two places in a row. Of a slide, within as many plies as one may
// last; of a turn, ever.
#include "kairos/study/told.hpp"

#include <algorithm>

#include "kairos/study/expectation.hpp"

#include "moments/kinds.hpp"

namespace kairos::study {

namespace {

constexpr double slide_cost = 0.30, turn_cost = 0.10;
constexpr int slide_plies = 18;  // from the first of ten own moves to the last
constexpr std::size_t most_steps = 4;
constexpr double most_of_it = 0.7;
constexpr double given_back = 1.0 / 3;

rules::Color side_of(const Moment& m) {
  return m.position.side_to_move();
}

bool costs(const Moment& m) {
  return m.kind == Kind::swing || m.kind == Kind::slip;
}

// What `side` lost by verified moves between two plies, both included.
double lost_between(const std::vector<Moment>& moments, rules::Color side, int first, int last) {
  double sum = 0;
  for (const Moment& m : moments) {
    if (costs(m) && side_of(m) == side && m.ply >= first && m.ply <= last) sum += m.cost();
  }
  return sum;
}

// Whether what a fall from `before` at the move of `m` has cost is regained within so many plies.
bool comes_back(const Study& study, const Moment& m, double before, std::size_t plies) {
  const double midway = (before + m.played_expectation()) / 2;
  const auto first = static_cast<std::size_t>(m.ply) + 1;
  const std::size_t end = std::min(first + plies, study.notes.size());
  int in_a_row = 0;
  for (std::size_t ply = first; ply < end; ++ply) {
    const auto expected = surveyed_expectation(study, m.ply, static_cast<int>(ply));
    in_a_row = expected.value_or(m.played_expectation()) >= midway ? in_a_row + 1 : 0;
    if (in_a_row == 2) return true;
  }
  return false;
}

// Slips [first, last) of one side, and what they cost together.
struct Window {
  std::size_t first = 0, last = 0;
  double cost = 0;
};

class Slides {
 public:
  Slides(const Study& study, const std::vector<Moment>& moments, rules::Color side)
      : study_(study), moments_(moments), side_(side) {
    for (const Moment& m : moments) {
      if (m.kind == Kind::slip && side_of(m) == side) slips_.push_back(&m);
    }
  }

  void add_to(std::vector<Moment>& told) {
    std::size_t from = 0;
    while (from < slips_.size()) {
      const Window window = costliest_from(from);
      if (window.cost < slide_cost) {
        ++from;
        continue;
      }
      told.push_back(slide_of(window));
      from = window.last;
    }
  }

 private:
  // Of the windows that begin at `from`, or behind it but overlap the first such.
  [[nodiscard]] Window costliest_from(std::size_t from) const {
    Window best = costliest_at(from);
    for (std::size_t next = from + 1; best.cost >= slide_cost && next < best.last; ++next) {
      const Window other = costliest_at(next);
      if (other.cost > best.cost) best = other;
    }
    return best;
  }

  [[nodiscard]] Window costliest_at(std::size_t first) const {
    Window best;
    double sum = 0, most = 0;
    for (std::size_t last = first; last < slips_.size() && last < first + most_steps; ++last) {
      const int begin = slips_[first]->ply, end = slips_[last]->ply;
      if (end - begin > slide_plies || has_swing(begin, end)) break;
      sum += slips_[last]->cost();
      most = std::max(most, slips_[last]->cost());
      if (last == first || most > most_of_it * sum || sum <= best.cost) continue;
      if (stays_lost(first, last, sum)) best = {first, last + 1, sum};
    }
    return best;
  }

  [[nodiscard]] bool stays_lost(std::size_t first, std::size_t last, double sum) const {
    const Moment &begin = *slips_[first], &end = *slips_[last];
    return lost_between(moments_, ~side_, begin.ply, end.ply + 1) < given_back * sum &&
           !comes_back(study_, end, begin.best_expectation(), slide_plies);
  }

  [[nodiscard]] bool has_swing(int begin, int end) const {
    return std::ranges::any_of(moments_, [&](const Moment& m) {
      return m.kind == Kind::swing && side_of(m) == side_ && m.ply > begin && m.ply < end;
    });
  }

  [[nodiscard]] Moment slide_of(const Window& window) const {
    const auto begin = slips_.begin() + static_cast<std::ptrdiff_t>(window.first);
    const auto end = slips_.begin() + static_cast<std::ptrdiff_t>(window.last);
    Moment slide = **std::max_element(
        begin, end, [](const Moment* a, const Moment* b) { return a->cost() < b->cost(); });
    slide.kind = Kind::slide;
    for (auto at = begin; at != end; ++at) {
      const Moment& m = **at;
      slide.steps.push_back({m.ply, m.position, m.played, m.best_score, m.played_score});
    }
    return slide;
  }

  const Study& study_;
  const std::vector<Moment>& moments_;
  rules::Color side_;
  std::vector<const Moment*> slips_;  // by ply
};

void add_turn(const Study& study, const std::vector<Moment>& verified, std::vector<Moment>& told) {
  if (!was_won_at_the_board(study.facts)) return;
  const rules::Color loser = loser_of(study.facts);
  const Moment* costliest = nullptr;
  for (const Moment& m : verified) {
    const bool counts = m.kind == Kind::slip && side_of(m) == loser && m.cost() >= turn_cost;
    if (!counts || standing_of(m.played_expectation()) > Standing::level ||
        comes_back(study, m, m.best_expectation(), study.notes.size()))
      continue;
    if (costliest == nullptr || m.cost() > costliest->cost()) costliest = &m;
  }
  if (costliest == nullptr) return;
  told.push_back(*costliest);
  told.back().kind = Kind::turn;
}

}  // namespace

bool needs_reasons(const Moment& verified) {
  constexpr double least = std::min(turn_cost, slide_cost / most_steps);
  return verified.kind != Kind::slip || verified.cost() >= least;
}

void tell(Study& study) {
  std::vector<Moment> verified = std::move(study.moments);
  const auto by_place = [](const Moment& a, const Moment& b) {
    return a.ply != b.ply ? a.ply < b.ply : a.kind < b.kind;
  };
  std::stable_sort(verified.begin(), verified.end(), by_place);
  study.moments.clear();
  std::ranges::copy_if(verified, std::back_inserter(study.moments),
                       [](const Moment& m) { return m.kind != Kind::slip; });
  for (const rules::Color side : {rules::white, rules::black}) {
    Slides(study, verified, side).add_to(study.moments);
  }
  if (was_won_at_the_board(study.facts) && !tells_where_it_was_lost(study)) {
    add_turn(study, verified, study.moments);
  }
  std::stable_sort(study.moments.begin(), study.moments.end(), by_place);
}

}  // namespace kairos::study
