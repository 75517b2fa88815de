// The diagrams of a collection, each as a picture with a name: one for each turning point, with the
// arrows and rings that the report has there, and one for each puzzle and why-not, which show
// nothing of the answer.
//
// A turning point is named by game and half-moves played ("g3-p41", its anchor in report.html), a
// puzzle by its id ("g3-m21w", as in puzzles.epd): letters, figures and hyphens, whatever the games
// are called. Names differ from one another. Faults are those of the taker, passed up.
#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "kairos/report/picture.hpp"
#include "kairos/report/writer.hpp"

namespace kairos::report {

using TakeDiagram = std::function<base::Status(const std::string& name, const Picture& picture)>;

// Turning points in the order of the games, then puzzles and why-nots in theirs; ends at the first
// fault.
base::Status each_diagram(const Collection& collection, const TakeDiagram& take);

// Whether it is one of these names.
bool is_diagram_name(std::string_view name);

}  // namespace kairos::report
