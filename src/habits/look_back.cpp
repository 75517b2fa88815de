// Each list gathers what its definition (season.hpp) takes, whole and as bare places, since a
// moment's place is small; the ten that stand first are then loaded with their studies. Example: of
// a game won at move 30 by the verdict, drawn at move 60, with swings of the player at moves 31
// (won to better), 35 (better to won by the opponent's error, so none of his) and 41 (won to level)
// the costliest list has both swings, the wins let slip the one at move 41 alone.
#include "kairos/habits/look_back.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <span>

#include "kairos/study/expectation.hpp"

#include "clock_count.hpp"
#include "periods.hpp"

namespace kairos::habits {

namespace {

using study::Kind;
using study::Moment;
using study::Standing;

// Where a list's entry stands, and its place in the list: small `order` first.
struct Found {
  std::size_t game = 0;  // index in the source
  int ply = 0;
  double order = 0;
  int won_ply = -1, answer_ply = -1;
};

// What one side gave away at one place.
struct Loss {
  rules::Color side = rules::white;
  int ply = 0, last_ply = 0;  // of a slide its costliest move and its last one
  double from = 0, to = 0;    // of a slide from its first move to its last
  double cost = 0;            // of the move at `ply` alone
};

// What the player made of a game, 0, 0.5 or 1; nothing where it has no result.
std::optional<double> outcome_of(const study::GameFacts& facts, rules::Color side) {
  if (facts.result == "1/2-1/2") return 0.5;
  if (facts.result != "1-0" && facts.result != "0-1") return std::nullopt;
  return study::loser_of(facts) == side ? 0.0 : 1.0;
}

// Who ended a game early, and from what: a draw the side that stood better, a loss the loser.
Loss ended_early(const study::Study& study, const Moment& m) {
  const rules::Color mover = m.position.side_to_move();
  const double expected = m.best_expectation();
  const bool drawn = study.facts.result == "1/2-1/2";
  const rules::Color better = expected >= 0.5 ? mover : ~mover;
  Loss loss;
  loss.side = drawn ? better : study::loser_of(study.facts);
  loss.ply = loss.last_ply = m.ply;
  loss.from = loss.side == mover ? expected : 1 - expected;
  loss.to = drawn ? 0.5 : 0;
  loss.cost = loss.from - loss.to;
  return loss;
}

std::optional<Loss> loss_at(const study::Study& study, const Moment& m) {
  switch (m.kind) {
    case Kind::ended_early:
      return ended_early(study, m);
    case Kind::swing:
    case Kind::turn:
      return Loss{m.position.side_to_move(), m.ply,   m.ply, m.best_expectation(),
                  m.played_expectation(),    m.cost()};
    case Kind::slide:
      if (m.steps.empty()) return std::nullopt;
      return Loss{m.position.side_to_move(),
                  m.ply,
                  m.steps.back().ply,
                  study::expectation(m.steps.front().best_score),
                  study::expectation(m.steps.back().played_score),
                  m.cost()};
    case Kind::only_move:
    case Kind::quiet_win:
    case Kind::trap:
    case Kind::claim:
    case Kind::slip:
      break;
  }
  return std::nullopt;
}

bool is_find(const Moment& m) {
  const bool asks = m.kind == Kind::only_move || m.kind == Kind::quiet_win;
  return asks && m.found && m.played == m.best;
}

bool is_won(double expectation) {
  return study::standing_of(expectation) == Standing::won;
}

// The half-move at which a moment says that `side`, whose move it is, has a won game; -1: none.
int won_at(const study::Study& study, const Moment& m, rules::Color side) {
  if (const auto loss = loss_at(study, m)) {
    if (loss->side == side) return is_won(loss->from) ? loss->ply : -1;
    const bool goes_on = m.kind != Kind::ended_early;
    return goes_on && is_won(1 - loss->to) ? loss->last_ply + 1 : -1;
  }
  const bool tells = m.kind == Kind::only_move || m.kind == Kind::quiet_win || m.kind == Kind::trap;
  const bool own = m.position.side_to_move() == side;
  return own && tells && is_won(m.best_expectation()) ? m.ply : -1;
}

// A win goes, or what is left of one.
bool lets_go(const Loss& loss) {
  if (is_won(loss.from)) return !is_won(loss.to);
  return study::standing_of(loss.from) == Standing::better &&
         study::standing_of(loss.to) <= Standing::level;
}

// The decision of a side that let a won game go: behind the last place where it was won the first
// that did.
struct Slip {
  Loss loss;
  int won_ply = 0;
};
std::optional<Slip> slip_of(const study::Study& study, rules::Color side) {
  int last = -1;
  for (const Moment& m : study.moments) last = std::max(last, won_at(study, m, side));
  if (last < 0) return std::nullopt;
  for (const Moment& m : study.moments) {
    const auto loss = loss_at(study, m);
    if (loss && loss->side == side && loss->ply >= last && lets_go(*loss)) {
      return Slip{*loss, last};
    }
  }
  return std::nullopt;
}

// The player's answer to the half-move at `ply`, where it is told as found.
int answer_to(const study::Study& study, int ply) {
  for (const Moment& m : study.moments) {
    if (m.ply == ply + 1 && is_find(m)) return m.ply;
  }
  return -1;
}

class Lists {
 public:
  void add(const study::Study& study, rules::Color side, std::size_t game,
           std::span<const Decision> decisions) {
    add_moments(study, side, game);
    add_turned(study, side, game);
    for (const Think& think : long_thinks_of(study, side, decisions)) {
      put(long_thinks_, {game, think.ply, -static_cast<double>(think.spent)});
    }
  }

  void show(const Source& source, Season& season) {
    for (auto [found, list] : {std::pair{&costliest_, &season.costliest},
                               {&finds_, &season.finds},
                               {&traps_, &season.traps},
                               {&wins_let_slip_, &season.wins_let_slip},
                               {&losses_saved_, &season.losses_saved},
                               {&quick_errors_, &season.quick_errors},
                               {&long_thinks_, &season.long_thinks}}) {
      std::ranges::stable_sort(*found, {}, &Found::order);
      list->all = found->size();
      if (found->size() > most_entries) found->resize(most_entries);
      for (const Found& f : *found) {
        list->entries.push_back({study_of(source, season, f.game), f.ply, f.won_ply, f.answer_ply});
      }
    }
  }

 private:
  void add_moments(const study::Study& study, rules::Color side, std::size_t game) {
    for (const Moment& m : study.moments) {
      const bool own = m.position.side_to_move() == side;
      const auto loss = loss_at(study, m);
      if (loss && loss->side == side) put(costliest_, {game, m.ply, -loss->cost});
      if (own && is_find(m) && m.find_rate >= 0 && m.find_rate <= most_who_find) {
        put(finds_, {game, m.ply, static_cast<double>(m.find_rate)});
      }
      if (own && m.kind == Kind::trap) {
        put(traps_, {game, m.ply, study::expectation(m.tempting_score) - m.best_expectation()});
      }
      if (is_quick_error(study, side, m)) put(quick_errors_, {game, m.ply, -m.cost()});
    }
  }

  // Where the result is not what the verdict was.
  void add_turned(const study::Study& study, rules::Color side, std::size_t game) {
    const auto outcome = outcome_of(study.facts, side);
    if (!outcome) return;
    if (const auto own = slip_of(study, side); own && *outcome < 1) {
      const Loss& loss = own->loss;
      put(wins_let_slip_, {game, loss.ply, *outcome - loss.from, own->won_ply});
    }
    if (const auto theirs = slip_of(study, ~side); theirs && *outcome > 0) {
      const Loss& loss = theirs->loss;
      put(losses_saved_, {game, loss.ply, (1 - *outcome) - loss.from, theirs->won_ply,
                          answer_to(study, loss.ply)});
    }
  }

  // Moments come by game and ply, so that those of one decision follow one another.
  static void put(std::vector<Found>& list, const Found& found) {
    const bool again =
        !list.empty() && list.back().game == found.game && list.back().ply == found.ply;
    if (!again) {
      list.push_back(found);
    } else if (found.order < list.back().order) {
      list.back() = found;
    }
  }

  std::size_t study_of(const Source& source, Season& season, std::size_t game) {
    const auto [at, is_new] = shown_.try_emplace(game, season.studies.size());
    if (is_new) season.studies.push_back(source.load(game));
    return at->second;
  }

  std::vector<Found> costliest_, finds_, traps_, wins_let_slip_, losses_saved_, quick_errors_,
      long_thinks_;
  std::map<std::size_t, std::size_t> shown_;  // by index in the source, that in the season
};

std::uint64_t swings_of(const study::Study& study, rules::Color side) {
  return static_cast<std::uint64_t>(std::ranges::count_if(study.moments, [side](const Moment& m) {
    return m.kind == Kind::swing && m.position.side_to_move() == side;
  }));
}

}  // namespace

Season look_back(const Source& source, const std::vector<std::string>& names,
                 const DecisionRule& rule) {
  Season season;
  Lists lists;
  Periods periods;
  ClockCount clock;
  Topics topics;
  for (std::size_t i = 0; i < source.size(); ++i) {
    const study::Study study = source.load(i);
    const auto side = side_of(study.facts, names);
    if (!side) continue;
    ++season.games;
    season.open_places += source.open_places(i);
    std::vector<Decision> decisions;
    add_decisions(study, *side, 0, rule, topics, decisions);
    lists.add(study, *side, i, decisions);
    clock.add(study, decisions);
    const auto outcome = outcome_of(study.facts, *side);
    const int half_points = outcome ? static_cast<int>(*outcome * 2) : -1;
    periods.add(study.facts, half_points, swings_of(study, *side));
    if (half_points == 2) ++season.won;
    if (half_points == 1) ++season.drawn;
    if (half_points == 0) ++season.lost;
  }
  lists.show(source, season);
  season.clock = clock.counted();
  season.periods = periods.listed();
  return season;
}

}  // namespace kairos::habits
