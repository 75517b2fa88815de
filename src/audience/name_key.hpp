// What tells people apart: their names as people write them.
#pragma once

#include <string>
#include <string_view>

namespace kairos::audience {

// Names with the same key are one person: capitals do not tell apart (of Latin, Greek and Cyrillic
// letters), nor how many blanks there are and of what sort, nor the sign before a name that is
// spoken to ("@anna"). The name is UTF-8.
std::string name_key(std::string_view name);

}  // namespace kairos::audience
