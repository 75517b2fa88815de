#include "html_game.hpp"

#include "kairos/base/text.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/fen.hpp"

#include "html_diagram.hpp"
#include "html_graph.hpp"
#include "html_page.hpp"
#include "html_puzzle.hpp"
#include "labels.hpp"

namespace kairos::report {

namespace {

// One line of a description list; both texts are escaped here.
std::string row(std::string_view term, std::string_view words) {
  return "<dt>" + escaped(term) + "</dt><dd>" + escaped(words) + "</dd>";
}

// Escaped text with its "->" as a real arrow.
std::string arrowed(std::string text) {
  constexpr std::string_view plain = "-&gt;";
  for (std::size_t at = 0; (at = text.find(plain, at)) != std::string::npos;) {
    text.replace(at, plain.size(), "&rarr;");
  }
  return text;
}

// The best line in full; of the move in question the move alone, what refutes it folded away.
std::string lines_list(const study::Moment& moment) {
  std::string html = "<dl class=\"facts\">", refutations;
  for (const ShownLine& line : shown_lines(moment)) {
    const std::string score = line.score.empty() ? "" : " (" + line.score + ")";
    html += row(line.label, (line.answer ? line.text : line.move) + score);
    if (!line.answer && line.text != line.move) {
      refutations += folded("What " + line.move + " runs into", escaped(line.text + score));
    }
  }
  html += "<dt>Worth</dt><dd>" + arrowed(escaped(change_text(moment))) + "</dd>";
  return html + "</dl>" + refutations;
}

// Tries come from the puzzle: a moment has only the move played and the best one.
std::string puzzle_links(const Collection& collection, const study::Study& study,
                         const study::Moment& moment) {
  const puzzle::Puzzle* const puzzle = puzzle_of(collection, study, moment);
  if (puzzle == nullptr) return "";
  std::string html;
  if (!puzzle->tries.empty()) {
    html += folded("Tempting moves that fail, and why", puzzle_tries(*puzzle));
  }
  return html + "<p class=\"small screen\"><a href=\"questions.html#" + escaped(id_of(*puzzle)) +
         "\">As a puzzle</a></p>";
}

// "after 12 min", where both of the player's clock readings are known.
std::string spent_words(const study::Study& study, const study::Moment& moment) {
  const int seconds =
      moment.played ? seconds_spent(study, static_cast<std::size_t>(std::max(moment.ply, 0))) : -1;
  return seconds < 0 ? "" : " <span class=\"small\">after " + duration_text(seconds) + "</span>";
}

std::string moment_heading(const study::Study& study, const study::Moment& moment) {
  const bool white = moment.position.side_to_move() == rules::white;
  std::string html = "<h3>Move " + std::to_string(moment.position.fullmove_number()) +
                     (white ? ", White" : ", Black") + ": <span class=\"kind\">" +
                     std::string(words(moment.kind)) + "</span>";
  if (const auto outcome = outcome_words(moment); !outcome.empty()) {
    html += ", " + std::string(outcome);
  }
  return html + spent_words(study, moment) + "</h3>";
}

// The arrow shows the move that was wrong, the diagram never the one that was right.
Marks marks_of(const study::Study& study, const study::Moment& moment) {
  Marks marks{move_before(study, moment.ply), {}};
  const rules::Move questioned = move_in_question(moment);
  const bool told_wrong = moment.kind == study::Kind::trap || !moment.found;
  if (told_wrong && questioned != moment.best) marks.played = questioned;
  return marks;
}

struct Card {
  std::string picture;
  std::string lines;  // what to say besides the sentence
};

Card card_of(const Collection& collection, const study::Study& study, const study::Moment& moment) {
  return {diagram(moment.position, marks_of(study, moment)),
          lines_list(moment) + puzzle_links(collection, study, moment) + "<code>" +
              escaped(rules::to_fen(moment.position)) + "</code>"};
}

// Diagram at the left (or above, on a phone), what there is to say beside it; what the card
// before shows as well is not shown again.
std::string moment_section(const study::Study& study, std::size_t index, const Card& card,
                           const Card& before) {
  const study::Moment& moment = study.moments[index];
  const std::string motif(motif_words(moment));
  const std::string picture =
      card.picture == before.picture ? "<p class=\"small\">The same position.</p>" : card.picture;
  return "<section class=\"moment\" id=\"" + moment_anchor(study, index) + "\"><div>" + picture +
         "</div><div>" + moment_heading(study, moment) + "<p class=\"said\">" +
         escaped(sentence_of(study, moment)) + "</p>" +
         (motif.empty() ? "" : "<p>Motif: " + motif + "</p>") +
         (card.lines == before.lines ? "" : card.lines) + "</div></section>\n";
}

}  // namespace

rules::Move move_before(const study::Study& study, int ply) {
  const auto plies = static_cast<std::size_t>(ply);
  return ply <= 0 || plies > study.moves.size() ? rules::Move{} : study.moves[plies - 1];
}

const puzzle::Puzzle* puzzle_of(const Collection& collection, const study::Study& study,
                                const study::Moment& moment) {
  // The puzzle of a trap is the other side's: how to punish the move that was avoided.
  const bool trap = moment.kind == study::Kind::trap && moment.tempting;
  const rules::Position asked = trap ? moment.position.after(moment.tempting) : moment.position;
  for (const puzzle::Puzzle& puzzle : collection.puzzles()) {
    if (puzzle.game == study.facts.number && puzzle.position == asked) return &puzzle;
  }
  return nullptr;
}

std::string game_article(const Collection& collection, const study::Study& study) {
  const study::GameFacts& facts = study.facts;
  std::string html =
      "<article id=\"" + game_anchor(facts) + "\">\n<h2>" + std::to_string(facts.number) + ". " +
      escaped(player_text(facts.white, facts.white_elo)) + " &ndash; " +
      escaped(player_text(facts.black, facts.black_elo)) + ", " + escaped(facts.result) + "</h2>\n";
  std::string where = occasion_text(facts);
  if (!where.empty()) where += "; ";
  html += "<p class=\"small\">" + escaped(where + "from " + place_text(facts)) +
          ". <a class=\"screen\" href=\"#games\">All games</a></p>\n";
  html += graph(study);
  if (!study.moments.empty()) html += graph_legend(study);
  Card before;
  for (std::size_t i = 0; i < study.moments.size(); ++i) {
    Card card = card_of(collection, study, study.moments[i]);
    html += moment_section(study, i, card, before);
    before = std::move(card);
  }
  const RunFacts& run = collection.facts();
  const std::string loss = loss_of(run, study);
  if (!loss.empty()) html += "<p>" + escaped(loss) + "</p>\n";
  if (study.moments.empty() && loss.empty()) html += "<p>Nothing to stop at.</p>\n";
  return html + "</article>\n";
}

}  // namespace kairos::report
