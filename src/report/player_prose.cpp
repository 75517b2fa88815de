#include "player_prose.hpp"

#include <algorithm>
#include <map>

#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"
#include "kairos/report/words.hpp"

#include "labels.hpp"
#include "phrases.hpp"

namespace kairos::report {

namespace {

using habits::Season;

// A list and its words. `what`: as a sentence without end that may go on with how many are shown.
struct Listed {
  const habits::List& list;
  std::string_view anchor, title, what;
};

std::vector<Listed> lists_of(const Season& s) {
  std::vector<Listed> all = {
      {s.costliest, "costliest", "The costliest decisions",
       "What cost most of the expected score, by what the move alone cost: swings, the "
       "costliest move of a slide or a turn, and games ended early. All are verified; what was "
       "too small to be told of is not counted"},
      {s.finds, "finds", "The best finds",
       "Only moves and quiet wins that were played, where at most half of the players of that "
       "rating would find them; the rarest first"},
      {s.traps, "traps", "Traps avoided",
       "Tempting moves that were not played, and rightly so; first the one that would have "
       "cost most"},
      {s.wins_let_slip, "slips", "Wins let slip",
       "The verdict was a win at the player's move, the result was none: of each game the "
       "decision that let the win go"},
      {s.losses_saved, "saves", "Losses saved",
       "Lost by the verdict, not by the result: of each game the opponent's decision that "
       "let the win go, and the answer where it was hard to find"}};
  if (s.clock.games > 0) {
    all.push_back({s.quick_errors, "quick", "Errors made quickly",
                   "Swings, and only moves or quiet wins that were missed, after less than a "
                   "two-hundredth of the starting time although a tenth of it was left; the "
                   "costliest first"});
  }
  return all;
}

TurningPoint point_at(const study::Study& study, int ply) {
  for (const TurningPoint& point : turning_points(study)) {
    if (point.ply == ply) return point;
  }
  return {};
}

std::string clock_words(const study::Study& study, const study::Moment& moment) {
  const MoveTimes times = times_of(study, moment);
  std::string text = times.spent < 0 ? "" : "after " + duration_text(times.spent);
  if (times.left < 0) return text;
  return text + (text.empty() ? "" : ", ") + duration_text(times.left) + " left";
}

std::string game_words(const study::GameFacts& facts) {
  const std::string occasion = occasion_text(facts);
  return game_title(facts) + (occasion.empty() ? "" : "; " + occasion);
}

// Where the win was last there, if that is not the decision itself that let it go.
std::string won_words(const study::Study& study, const TurningPoint& point,
                      const habits::Entry& entry) {
  if (entry.won_ply < 0 || entry.won_ply == entry.ply) return "";
  const rules::Position position =
      study::position_after(study, static_cast<std::size_t>(entry.won_ply));
  return "At move " + std::to_string(position.fullmove_number()) + " " +
         side_words(point.lead().position.side_to_move()) + " was winning. ";
}

// With how many find it, and of a loss saved what was answered.
std::string full_text(const study::Study& study, const TurningPoint& point,
                      const habits::Entry& entry, bool is_find) {
  std::string text = won_words(study, point, entry) + text_of(study, point);
  if (is_find) {
    std::string rate = find_rate_words(study, point.lead());
    constexpr std::string_view it = " it";  // the text before may end with another move
    if (rate.ends_with(it)) {
      const study::Moment& m = point.lead();
      rate.replace(rate.size() - it.size(), it.size(), " " + numbered(m.position, m.best));
    }
    if (!rate.empty()) text += " " + capital(rate) + ".";
  }
  if (entry.answer_ply < 0) return text;
  const TurningPoint answer = point_at(study, entry.answer_ply);
  if (answer.moments.empty()) return text;
  // That it was played has been said of the best reply to a swing.
  const study::Moment& slip = point.lead();
  const bool said = slip.kind == study::Kind::swing && !slip.refutation.empty() &&
                    slip.refutation.front() == answer.lead().played;
  return text + " " + (said ? gist_of(study, answer) : brief_of(study, answer));
}

// Where a place was told first, with the sentence that was told of it.
class Telling {
 public:
  explicit Telling(const Season& season) : season_(season) {}

  ToldEntry told(const Listed& listed, const habits::Entry& entry, std::size_t number) {
    const study::Study& study = season_.studies[entry.study];
    ToldEntry told;
    told.study = &study;
    told.point = shown_point(study, entry, listed.anchor == "traps");
    const std::string place = std::to_string(number);
    told.anchor = std::string(listed.anchor) + "-" + place;
    told.title = place_title(told.point.lead()) + ": " + kinds_words(told.point);
    told.clock = clock_words(study, told.point.lead());
    told.game = game_words(study.facts);
    const auto [before, is_new] = told_.try_emplace(
        {entry.study, entry.ply}, Before{std::string(listed.title) + ", " + place, told.anchor});
    if (is_new) {
      told.text = full_text(study, told.point, entry, listed.anchor == "finds");
    } else {
      told.text = won_words(study, told.point, entry) + brief_of(study, told.point);
      told.above = before->second.title;
      told.above_anchor = before->second.anchor;
    }
    return told;
  }

 private:
  struct Before {
    std::string title, anchor;
  };
  const Season& season_;
  std::map<std::pair<std::size_t, int>, Before> told_;  // by study and ply
};

std::string half_words(int half) {
  return std::to_string(half / 2) + (half % 2 == 0 ? ", January to June" : ", July to December");
}

}  // namespace

TurningPoint shown_point(const study::Study& study, const habits::Entry& entry, bool traps) {
  TurningPoint point = point_at(study, entry.ply);
  const study::Moment* const trap = point.find(study::Kind::trap);
  return traps && trap != nullptr ? alone(*trap) : point;
}

std::vector<ToldList> told_lists(const Season& season) {
  std::vector<ToldList> lists;
  Telling telling(season);
  for (const Listed& listed : lists_of(season)) {
    if (listed.list.entries.empty()) continue;
    ToldList& list = lists.emplace_back();
    list.anchor = listed.anchor;
    list.title = listed.title;
    list.meaning = listed.what;
    const std::size_t shown = listed.list.entries.size();
    if (shown < listed.list.all) {
      list.meaning +=
          "; " + std::to_string(shown) + " of " + base::grouped(listed.list.all) + " are shown";
    }
    list.meaning += ".";
    for (std::size_t i = 0; i < shown; ++i) {
      list.entries.push_back(telling.told(listed, listed.list.entries[i], i + 1));
    }
  }
  return lists;
}

std::string empty_lists_words(const Season& season) {
  std::vector<std::string> empty;
  for (const Listed& listed : lists_of(season)) {
    if (listed.list.entries.empty()) empty.push_back(base::lower_case(listed.title));
  }
  if (empty.empty()) return "";
  return "Nothing in these games belongs to: " + base::join(empty, "; ") + ".";
}

std::string heading_name(const PlayerPage& page) {
  const auto longest = std::ranges::max_element(page.names, {}, &std::string::size);
  return longest == page.names.end() ? "" : player_text(*longest);
}

std::string other_names_words(const PlayerPage& page) {
  std::vector<std::string> others;
  const std::string heading = heading_name(page);
  for (const std::string& name : page.names) {
    if (player_text(name) != heading) others.push_back(player_text(name));
  }
  return others.empty() ? "" : "Also written " + base::join(others, "; ") + ".";
}

std::string counts_words(const Season& s) {
  const std::uint64_t other = s.games - s.won - s.drawn - s.lost;
  std::string text = base::counted(s.games, "game") + ": " + base::grouped(s.won) + " won, " +
                     base::grouped(s.drawn) + " drawn, " + base::grouped(s.lost) + " lost" +
                     (other == 0 ? "" : ", " + base::grouped(other) + " without a result") + ".";
  if (s.games == 1) text += " It is one game, and a season begins with two.";
  return text;
}

std::string open_words(const Season& s) {
  std::string text;
  if (s.open_games > 0) {
    text = base::counted(s.open_games, "game") + " more " + (s.open_games == 1 ? "has" : "have") +
           " not been studied yet.";
  }
  if (s.open_places == 0) return text;
  const bool one = s.open_places == 1;
  return text + (text.empty() ? "" : " ") + base::counted(s.open_places, "place") +
         " in these games where a moment may be " + (one ? "has" : "have") +
         " not been verified, as after a scan for one player alone or a deadline. What " +
         (one ? "it holds" : "they hold") + " is not in these lists.";
}

std::string period_words(const habits::Period& p) {
  const std::string year = std::to_string(p.first_half / 2);
  if (!p.event.empty()) {
    const bool named = p.first_half == 0 || p.event.find(year) != std::string::npos;
    return base::isolated(p.event) + (named ? "" : ", " + year);
  }
  if (p.first_half == 0) return "date not known";
  if (p.first_half == p.last_half) return half_words(p.first_half);
  const std::string last = std::to_string(p.last_half / 2);
  return year == last ? year : year + " to " + last;
}

std::string score_words(const habits::Period& p) {
  if (p.with_result == 0) return "-";
  return base::grouped(p.half_points / 2) + (p.half_points % 2 == 0 ? "" : ".5") + " of " +
         base::grouped(p.with_result);
}

std::string share_words(const habits::Period& p) {
  std::string text = base::grouped(p.games_with_swing) + " of " + base::grouped(p.games);
  if (p.games < 2) return text;
  const base::Interval interval = p.interval();
  return text + ", " + base::fixed(interval.low * 100, 0) + " to " + percent(interval.high);
}

std::string clock_meaning(const PlayerPage& page) {
  const std::uint64_t games = page.season.clock.games;
  const std::string text = "In " + base::counted(games, "game") +
                           " the clocks are given. Errors are decisions that cost " +
                           percent(page.habits.error_cost) +
                           " of the expected score or more, by the survey.";
  if (games < 2) return text;
  return text +
         " Those of one game hang together, so the intervals (95 %, Wilson) are somewhat too "
         "narrow.";
}

std::string band_words(const habits::TimeBand& band) {
  if (band.below == 0) return duration_text(band.least) + " and more";
  if (band.least == 0) return "under " + duration_text(band.below);
  return duration_text(band.least) + " to " + duration_text(band.below);
}

std::string errors_words(const habits::Rate& rate, std::uint64_t games) {
  if (rate.decisions == 0) return "-";
  std::string text = base::grouped(rate.errors) + " of " + base::grouped(rate.decisions);
  if (games < 2) return text;
  const base::Interval interval = rate.interval();
  return text + ", " + base::fixed(interval.low * 100, 1) + " to " +
         base::fixed(interval.high * 100, 1) + " %";
}

std::vector<ToldThink> told_thinks(const Season& season) {
  std::vector<ToldThink> all;
  for (const habits::Entry& entry : season.long_thinks.entries) {
    const study::Study& study = season.studies[entry.study];
    const auto ply = static_cast<std::size_t>(entry.ply);
    const study::Note& note = study.notes[ply];
    ToldThink& told = all.emplace_back();
    told.position = study::position_after(study, ply);
    told.played = study.moves[ply];
    if (ply > 0) told.last = study.moves[ply - 1];
    std::vector<std::string> alike;
    for (const search::Line& line : note.lines) {
      alike.push_back(numbered(told.position, line.moves.front()));
    }
    const std::string played = numbered(told.position, told.played);
    if (std::ranges::find(alike, played) == alike.end()) alike.push_back(played);
    told.text = played + " after " + duration_text(seconds_spent(study, ply)) + ", " +
                duration_text(note.clock_seconds) + " left: " + listed(alike) + " lie within " +
                percent(habits::little) + " of one another.";
    told.game = game_words(study.facts);
  }
  return all;
}

std::string thinks_meaning(const Season& season) {
  const habits::List& list = season.long_thinks;
  std::string text =
      "A tenth of the starting time or more for one move, where by the survey the best two moves "
      "and "
      "the one played are worth much the same; the longest first";
  if (list.entries.size() < list.all) {
    text += "; " + std::to_string(list.entries.size()) + " of " + base::grouped(list.all) +
            " are shown";
  }
  return text + ".";
}

std::string opponent_name(const PlayerPage& page) {
  return page.for_opponent ? heading_name(page) : "";
}

std::string preparation_words(const PlayerPage& page) {
  if (!page.for_opponent) return "";
  return "For preparation before a game against " + heading_name(page) +
         ": what is counted, the tests and the intervals are those of the player's own page. "
         "Kairos "
         "is for finished games and for preparation before a game, not for use during play: then "
         "all help is forbidden (FIDE Laws of Chess, article 11.3).";
}

std::string_view training_title(const PlayerPage& page) {
  return page.for_opponent ? "Puzzles from these games" : "To train with";
}

std::string training_words(const PlayerPage& page) {
  if (page.training.empty()) return "No puzzle came of these games.";
  std::vector<std::string> parts;
  const auto add = [&parts](std::size_t count, std::string_view what) {
    if (count > 0) parts.push_back(base::grouped(count) + " " + std::string(what));
  };
  const std::size_t named = page.training_of_habits, missed = page.training_missed;
  add(named, "of the habits named");
  add(missed, "whose answer the player did not find at the board");
  std::string text = base::counted(page.training.size(), "puzzle");
  if (!parts.empty()) add(page.training.size() - named - missed, "more of these games");
  text += parts.empty() ? " of these games." : ": " + base::join(parts, ", then ") + ".";
  if (page.training_file.empty()) return text;
  return text + " All stand in " + page.training_file + "; kairos quiz " + page.training_file +
         " asks them.";
}

}  // namespace kairos::report
