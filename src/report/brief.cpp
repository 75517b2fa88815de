#include "kairos/report/brief.hpp"

#include "kairos/report/text_layout.hpp"
#include "kairos/report/words.hpp"

#include "labels.hpp"

namespace kairos::report {

std::string brief_text(const Collection& collection, std::size_t index, std::size_t width) {
  const study::Study study = collection.load(index);
  std::string text;
  append(text, wrapped(game_title(study.facts), width));
  if (const std::string loss = loss_of(collection.facts(), study); !loss.empty()) {
    append(text, wrapped(loss, width));
  }
  for (const study::Moment& moment : study.moments) {
    text += "\n" + moment_title(moment) + "\n";
    append(text, wrapped(sentence_of(study, moment), width, "  "));
  }
  return text + "\n";
}

}  // namespace kairos::report
