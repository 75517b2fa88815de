// Turning points stand in the order of play, each beside its diagram, which is seen from the side
// to move. What is bare, and what does not fit on two pages, is told in a sentence, and what is
// then still too much is counted: those of the lowest rank first.
#include "text_game.hpp"

#include <algorithm>
#include <map>

#include "kairos/base/text.hpp"
#include "kairos/report/text_layout.hpp"
#include "kairos/report/words.hpp"

#include "labels.hpp"
#include "notes.hpp"
#include "phrases.hpp"

namespace kairos::report {

namespace {

// Rows for turning points and notes: with all that stands around a single game two pages of sixty.
constexpr std::size_t rows_in_full = 70, rows_in_brief = 10;
constexpr std::size_t most_holes = 4;

// The lines and what they are worth, in rows of `width`.
Rows worth_rows(const TurningPoint& point, std::size_t width) {
  constexpr std::size_t label_width = 12;
  Rows rows;
  for (const ShownLine& line : shown_lines(point)) {
    const std::string score = line.score.empty() ? "" : " (" + line.score + ")";
    for (std::string& row : wrapped(line.text + score, width, fitted(line.label, label_width))) {
      rows.push_back(std::move(row));
    }
  }
  for (std::string& row : wrapped(change_text(point), width)) rows.push_back(std::move(row));
  return rows;
}

Rows full_rows(const study::Study& study, const TurningPoint& point) {
  Rows rows{place_title(point.lead()) + ": " + kinds_words(point)};
  for (std::string& row : point_rows(point, text_of(study, point))) rows.push_back(std::move(row));
  rows.emplace_back();
  return rows;
}

// Points by rank into rows by number, as long as there is room and `made` makes rows of them. The
// others stay in `points`.
template <typename Made>
std::map<int, Rows> fill(std::vector<TurningPoint>& points, std::size_t room, Made made) {
  std::map<int, Rows> chosen;
  while (!points.empty()) {
    Rows rows = made(points.front());
    if (rows.empty() || rows.size() > room) break;
    room -= std::min(room, rows.size());
    chosen.emplace(points.front().number, std::move(rows));
    points.erase(points.begin());
  }
  return chosen;
}

// `room`: rows for those that are told in full.
std::string points_text(const study::Study& study, std::vector<TurningPoint> points,
                        std::size_t room) {
  std::sort(points.begin(), points.end(),
            [](const TurningPoint& a, const TurningPoint& b) { return a.rank < b.rank; });
  std::string text;
  const auto in_full = fill(points, room, [&](const TurningPoint& p) {
    return is_bare(p) ? Rows{} : full_rows(study, p);
  });
  for (const auto& [number, rows] : in_full) append(text, rows);
  if (points.empty()) return text;
  text += "Also:\n";
  const auto in_brief = fill(points, rows_in_brief, [&](const TurningPoint& p) {
    return wrapped(brief_of(study, p), page_width, "  * ");
  });
  for (const auto& [number, rows] : in_brief) append(text, rows);
  if (!points.empty()) {
    text += "  * and " + base::number(static_cast<std::int64_t>(points.size())) +
            " more, in report.html\n";
  }
  return text + "\n";
}

// "12. Rd1 ...": what was noted, and the line that it is measured by.
std::string notes_text(const NotesCheck& check, const study::Study& study, const RunFacts& facts) {
  const std::string summary = notes_words(check, facts);
  if (summary.empty()) return "";
  std::string text;
  append(text, wrapped(summary, page_width));
  for (std::size_t i = 0; i < std::min(most_holes, check.holes.size()); ++i) {
    append(text, wrapped(sentence_of(study, *check.holes[i]), page_width, "  * "));
    for (const ShownLine& line : shown_lines(alone(*check.holes[i]))) {
      append(text, wrapped(line.text + " (" + line.score + ")", page_width,
                           "    " + fitted(line.label, 9)));
    }
  }
  if (check.holes.size() > most_holes) {
    text += "  * and " + base::number(static_cast<std::int64_t>(check.holes.size() - most_holes)) +
            " more, in report.html\n";
  }
  return text + "\n";
}

std::string heading(const study::GameFacts& facts) {
  std::string text = rule_row('-') + "\n";
  append(text,
         wrapped("Game " + std::to_string(facts.number) + ". " + game_title(facts), page_width));
  std::string where = occasion_text(facts);
  if (!where.empty()) where += "; ";
  append(text, wrapped(where + "from " + place_text(facts), page_width));
  return text + rule_row('-') + "\n\n";
}

}  // namespace

Rows board_beside(const TurningPoint& point, const Rows& rows) {
  const rules::Position& position = point.lead().position;
  return beside(board_rows(position, position.side_to_move()), page_width - beside_board, rows);
}

Rows point_rows(const TurningPoint& point, const std::string& text) {
  Rows right = wrapped(text, beside_board);
  right.emplace_back();
  for (std::string& row : worth_rows(point, beside_board)) right.push_back(std::move(row));
  if (const auto motif = motif_words(point); !motif.empty()) {
    right.push_back("Motif: " + std::string(motif));
  }
  return board_beside(point, right);
}

std::string game_text(const Collection& collection, std::size_t index) {
  const study::Study study = collection.load(index);
  const RunFacts& facts = collection.facts();
  const std::vector<TurningPoint> points = turning_points(study);
  const NotesCheck notes = check_notes(collection.game(index), study);
  const std::string loss = loss_of(facts, study);
  if (points.empty() && notes.holes.empty() && loss.empty()) return "";
  std::string text = heading(study.facts);
  if (const std::string story = story_text(facts, study, points); !story.empty()) {
    append(text, wrapped(story, page_width));
    text += "\n";
  }
  const std::string noted = notes_text(notes, study, facts);
  const auto taken = static_cast<std::size_t>(std::count(noted.begin(), noted.end(), '\n'));
  return text + points_text(study, points, rows_in_full - std::min(taken, rows_in_full)) + noted;
}

}  // namespace kairos::report
