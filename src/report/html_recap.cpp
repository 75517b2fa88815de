// recap.html: one page a game to speak from: the moments in order, the time spent where the clocks
// tell, one line each, and which are worth asking the audience before telling.
#include <set>

#include "kairos/report/words.hpp"

#include "html_game.hpp"
#include "html_graph.hpp"
#include "html_page.hpp"
#include "labels.hpp"
#include "writers.hpp"

namespace kairos::report {

namespace {

// The sentence is what one says; the boxed question is what one asks before saying it, for moments
// that held as puzzles. `asked`: by the items before, so that nothing is asked twice.
std::string item(const Collection& collection, const study::Study& study,
                 const study::Moment& moment, std::set<const puzzle::Puzzle*>& asked) {
  const rules::Move move = move_in_question(moment);
  std::string html = "<li><strong>";
  html += move ? escaped(numbered(moment.position, move)) : "At the end";
  html += "</strong> (" + std::string(words(moment.kind)) + ")";
  const int seconds = seconds_spent(study, static_cast<std::size_t>(std::max(moment.ply, 0)));
  if (moment.played && seconds >= 0) html += ", after " + duration_text(seconds);
  html += ". " + escaped(sentence_of(study, moment));
  const puzzle::Puzzle* const puzzle = puzzle_of(collection, study, moment);
  if (puzzle != nullptr && asked.insert(puzzle).second) {
    html += " <span class=\"asks\">Ask them: " + escaped(question_of(moment)) + "</span>";
  }
  return html + "</li>\n";
}

// Its own page when printed.
std::string game(const Collection& collection, const study::Study& study) {
  const study::GameFacts& facts = study.facts;
  std::string html = "<section id=\"" + game_anchor(facts) + "\">\n<h2>" +
                     escaped(players_text(facts)) + ", " + escaped(facts.result) + "</h2>\n";
  html += "<p class=\"small\">" + escaped(occasion_text(facts)) + "</p>\n<ol>\n";
  std::set<const puzzle::Puzzle*> asked;
  for (const study::Moment& moment : study.moments) {
    html += item(collection, study, moment, asked);
  }
  return html + "</ol>\n</section>\n";
}

}  // namespace

base::Status write_recap(const Collection& collection, base::ByteSink& sink) {
  std::string html = page_begin("Kairos: recap", "recap");
  html +=
      "<header class=\"screen\">\n<h1>Recap, to speak from</h1>\n<p><a href=\"report.html\">The "
      "report</a></p>\n</header>\n<main>\n";
  if (base::Status status = sink.write(html); !status) return status;
  for (std::size_t i = 0; i < collection.size(); ++i) {
    const study::Study study = collection.load(i);
    if (study.moments.empty()) continue;
    if (base::Status status = sink.write(game(collection, study)); !status) return status;
  }
  return sink.write("</main>\n" + page_end(collection.facts()));
}

}  // namespace kairos::report
