#include "kairos/report/brief.hpp"

#include "kairos/report/text_layout.hpp"
#include "kairos/report/words.hpp"

#include "labels.hpp"
#include "notes.hpp"

namespace kairos::report {

std::string brief_text(const Collection& collection, std::size_t index, std::size_t width) {
  const study::Study study = collection.load(index);
  const std::vector<TurningPoint> points = turning_points(study);
  std::string text;
  append(text, wrapped(game_title(study.facts), width));
  if (const std::string story = story_text(collection.facts(), study, points); !story.empty()) {
    append(text, wrapped(story, width));
  }
  for (const TurningPoint& point : points) {
    text += "\n" + place_title(point.lead()) + ": " + kinds_words(point) + "\n";
    append(text, wrapped(text_of(study, point), width, "  "));
  }
  const NotesCheck notes = check_notes(collection.game(index), study);
  if (const std::string summary = notes_words(notes, collection.facts()); !summary.empty()) {
    text += "\n";
    append(text, wrapped(summary, width));
  }
  for (const study::Moment* const hole : notes.holes) {
    append(text, wrapped(sentence_of(study, *hole), width, "  * "));
  }
  return text + "\n";
}

}  // namespace kairos::report
