// The five kinds of records of a ledger (ledger.hpp), each as its payload and back.
//
// `decode_record` is the one way from bytes to values: what it gives holds within itself (ranges,
// legal moves, a text that has its key), whoever wrote it. Whether records of one game fit one
// another is seen when all have been read.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "kairos/batch/record.hpp"
#include "kairos/batch/run.hpp"
#include "kairos/study/examine.hpp"

namespace kairos::batch {

struct GameText {
  GameKey key{};
  std::string pgn{};
};

struct Survey {
  std::string run{};  // mark_of its header
  GameKey key{};
  std::vector<study::Candidate> candidates{};
  study::Study study{};
};

struct Verified {
  std::string run{};
  GameKey key{};
  Findings findings{};
};

using Record = std::variant<RunHeader, Input, GameText, Survey, Verified>;

// Names the run in the records of its games.
std::string mark_of(const RunHeader& header);

std::string encode_record(const RunHeader& header);
std::string encode_record(const Input& input);
std::string encode_record(const GameText& game);
std::string encode_record(const Survey& survey);
std::string encode_record(const Verified& verified);

// Faults: json_damaged, with the kind of the record and the member that is wrong.
base::Result<Record> decode_record(std::string_view payload);

// Whether a survey is of that game, and findings of that study: the same moves and positions.
// Faults as above.
base::Status check_survey(const study::Study& study, const study::Scoresheet& game);
base::Status check_findings(const Findings& findings, const study::Study& study);

// Whether a ledger that `then` began may be gone on with; says what differs.
base::Status check_header(const RunHeader& then, const RunHeader& now, const std::string& path);

}  // namespace kairos::batch
