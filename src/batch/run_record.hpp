// The records that say what a run is: its header and its input.
#pragma once

#include <optional>
#include <string>

#include "kairos/base/json.hpp"
#include "kairos/batch/run.hpp"

namespace kairos::batch {

// A text member, or "".
std::string text_of(const base::Json& json, std::string_view name);

base::Json encode_header(const RunHeader& header);
std::optional<RunHeader> decode_header(const base::Json& json);

// The ledger at `path` was begun by `then`; whether `now` may go on with it.
base::Status check_header(const RunHeader& then, const RunHeader& now, const std::string& path);

base::Json encode_input(const Input& input);
std::optional<Input> decode_input(const base::Json& json);

}  // namespace kairos::batch
