// A line of the stage. Its moves stand in words, so that it is read without the script, and with
// their steps, so that the script needs to know no rules.
#include "html_line.hpp"
#include "html_page.hpp"
#include "html_stage.hpp"

namespace kairos::report {

std::string stage_line(const StageLine& line) {
  return std::string("<li class=\"") + (line.right ? "right" : "wrong") + "\" data-moves=\"" +
         steps_of(line.start, line.moves) + "\"><span class=\"what\">" + escaped(line.label) +
         "</span> " + plies_html(line.start, line.moves, line.asked) +
         (line.worth.empty() ? "" : " <span class=\"worth\">" + escaped(line.worth) + "</span>") +
         "</li>\n";
}

}  // namespace kairos::report
