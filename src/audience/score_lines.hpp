// Scores as JSON Lines: what the files of quizzes and of evenings have in common. The first line
// names the kind of file and its version.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "kairos/base/json.hpp"
#include "kairos/base/result.hpp"

namespace kairos::audience {

struct ScoreKind {
  std::string_view name;
  int version;
};

// {"kairos":"quiz scores","version":1} with its line end.
std::string score_header(const ScoreKind& kind);

// Hands each line behind the first that is not empty to `take`, whose faults come back with `file`
// and line. An empty text has none. Faults: not_a_score_file, and those of `take`.
base::Status read_score_lines(std::string_view text, const std::string& file, const ScoreKind& kind,
                              const std::function<base::Status(std::string_view)>& take);

// Members of an object; nothing where there is none of that sort, or it is out of the bounds, both
// included.
std::optional<std::string> text_of(const base::Json& object, std::string_view name);
std::optional<std::int64_t> number_of(const base::Json& object, std::string_view name,
                                      std::int64_t least, std::int64_t most);

}  // namespace kairos::audience
