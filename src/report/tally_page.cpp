// The count on a page: what a browser shows over video while an audience answers.
//
// It is a file of its own, without a script, and loads itself again (its head says so); whoever
// writes it puts a whole one in the place of the one before. Widths of bars are shares of all
// people. Until it reveals, moves stand by their count alone, and no word, class or order tells
// more.
#include <algorithm>

#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"
#include "kairos/report/plain.hpp"
#include "kairos/report/tally.hpp"
#include "kairos/report/words.hpp"

#include "html_page.hpp"
#include "html_puzzle.hpp"
#include "tally_words.hpp"

namespace kairos::report {

namespace {

using audience::Person;
using audience::Tally;
using puzzle::Exercise;

constexpr int load_again = 1;  // seconds
constexpr std::size_t most_bars = 10, most_bars_told = 8;
constexpr std::size_t first_solvers = 3;
constexpr std::size_t longest_name = 24;  // characters
constexpr std::size_t shown_places = 5, shown_of_place = 4;

// Sizes follow the screen: it is read across a room, or small in a corner of a video.
constexpr std::string_view style = R"css(
.tally{max-width:none;min-height:100vh;padding:2vh 2vw;font-size:clamp(14px,2.3vh,48px);
display:flex;flex-direction:column}
.tally main{flex:1;display:grid;grid-template-columns:minmax(0,min(46vw,84vh)) minmax(0,1fr);
gap:2vw;align-items:start}
.tally h1{font-size:1.5em;margin:0 0 .2em}
.tally .small{margin:0 0 .8em}
.tally footer{margin-top:1vh;font-size:.6em}
.bars{list-style:none;margin:0;padding:0}
.bars li{display:grid;grid-template-columns:4.6em minmax(0,1fr) 6.6em;gap:.1em .6em;
align-items:center;margin:.22em 0}
.bars .move{font-weight:600}
.bars .rail{height:1.1em;border:1px solid var(--rule);background:var(--card)}
.bars .fill{display:block;height:100%;background:var(--soft)}
.bars .part{font-variant-numeric:tabular-nums;white-space:nowrap}
.bars .said{grid-column:2/4;font-size:.85em;margin:0;color:var(--soft)}
.bars .best .fill{background:var(--mark)}
.bars .best .rail{border:2px solid var(--mark)}
.bars .best .said{color:var(--ink);font-weight:600}
.tally .told p{margin:.15em 0}
.tally .places{margin:.1em 0}
.tally .told strong{color:var(--mark)}
@media (max-aspect-ratio:1/1){.tally main{grid-template-columns:minmax(0,1fr)}
.tally main>.dia{max-width:50vh}}
)css";

// A name is anything: it is cut, and isolated from the words around it.
std::string shown_name(const std::string& name) {
  return base::isolated(base::elided(name, longest_name));
}

std::string bar(const Exercise& exercise, const Tally::Row& row, std::uint64_t people,
                const TallyView& view) {
  const std::string share = percent(static_cast<double>(row.count) /
                                    static_cast<double>(std::max<std::uint64_t>(1, people)));
  const auto shown = [&view](const std::string& words) {
    return escaped(rules::in_letters(words, view.letters));
  };
  const bool is_key = view.reveals && row.is_key;
  const std::uint64_t width = people == 0 ? 0 : (row.count * 100 + people / 2) / people;
  std::string html = is_key ? "<li class=\"best\">" : "<li>";
  html +=
      "<span class=\"move\">" + shown(plain_san(exercise.puzzle.position, row.move)) +
      "</span><span class=\"rail\"><span class=\"fill\" style=\"width:" + std::to_string(width) +
      "%\"></span></span><span class=\"part\">" + escaped(share) + " (" + base::grouped(row.count) +
      ")</span>";
  if (view.reveals) html += "<p class=\"said\">" + shown(verdict_of(exercise, row)) + "</p>";
  return html + "</li>\n";
}

std::string bars(const Exercise& exercise, const Tally& tally, const TallyView& view) {
  const std::size_t most = std::min(view.most, view.reveals ? most_bars_told : most_bars);
  std::string html = "<ol class=\"bars\">\n";
  std::size_t left_out = 0;
  for (std::size_t i = 0; i < tally.rows.size(); ++i) {
    const Tally::Row& row = tally.rows[i];
    if (i < most || (view.reveals && row.is_key)) {
      html += bar(exercise, row, tally.counts.people, view);
    } else {
      ++left_out;
    }
  }
  html += "</ol>\n";
  if (left_out == 0) return html;
  return html + "<p class=\"small\">and " + base::counted(left_out, "other move") + "</p>\n";
}

std::string solvers_html(const Tally::Right& right) {
  if (right.count == 0) return "<p>Nobody has found it.</p>\n";
  std::string html = "<p>First with it: ";
  const std::size_t shown = std::min(first_solvers, right.first.size());
  for (std::size_t i = 0; i < shown; ++i) {
    const Person& person = right.first[i];
    html += (i > 0 ? ", " : "") + escaped(shown_name(person.name));
    if (!person.time.empty()) html += " (" + escaped(shown_name(person.time)) + ")";
  }
  if (right.count > shown) html += " and " + base::grouped(right.count - shown) + " more";
  return html + "</p>\n";
}

std::string places_html(const std::vector<audience::Place>& places) {
  if (places.empty()) return "";
  std::string html = "<p>Points so far:</p>\n<ol class=\"places\">\n";
  for (std::size_t i = 0; i < std::min(shown_places, places.size()); ++i) {
    audience::Place place = places[i];
    for (std::string& name : place.names) name = shown_name(name);
    html += "<li value=\"" + std::to_string(place.place) + "\">" +
            escaped(place_words(place, shown_of_place)) + "</li>\n";
  }
  return html + "</ol>\n";
}

// What is told when the question is over.
std::string answer(const Exercise& exercise, const Tally& tally, const TallyView& view,
                   const EveningView& evening) {
  const std::string solution = solution_words(exercise.puzzle);
  std::string html = "<div class=\"told\">\n<p><strong>" +
                     escaped(rules::in_letters(solution, view.letters)) + "</strong></p>\n" +
                     solvers_html(tally.with_key);
  if (asked_of(exercise.puzzle).size() > 1) {
    const std::uint64_t whole = tally.with_solution.count;
    html += whole == 0
                ? std::string("<p>Nobody has the whole solution.</p>\n")
                : "<p>The whole solution: " + base::counted(whole, "person", "people") + "</p>\n";
  }
  const std::string expected = expected_text(exercise, tally, view.level);
  if (!expected.empty()) html += "<p>" + escaped(expected) + "</p>\n";
  return html + places_html(evening.places) + "</div>\n";
}

}  // namespace

std::string tally_page(const Exercise& exercise, const Tally& tally, const TallyView& view,
                       const EveningView& evening, std::string_view version) {
  const std::string task = rules::in_letters(task_of(exercise.puzzle), view.letters);
  std::string html = page_begin(task, "tally", style, load_again);
  html += "<main>\n" + puzzle_diagram(exercise.puzzle) + "\n<div>\n<h1>" + escaped(task) +
          "</h1>\n<p class=\"small\">";
  if (evening.of > 1) {
    html += "Question " + base::grouped(evening.number) + " of " + base::grouped(evening.of) + ", ";
  }
  html += base::counted(tally.counts.people, "answer") + "</p>\n";
  html += bars(exercise, tally, view);
  if (view.reveals) html += answer(exercise, tally, view, evening);
  RunFacts facts;
  facts.version = version;
  return html + "</div>\n</main>\n" + page_end(facts);
}

}  // namespace kairos::report
