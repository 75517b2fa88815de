// The ledger: the memory of a run, and the source of every report. Format, version 2:
//
//   kairos ledger 2
//   5f3a09bc {"record":"run","version":"0.2.0","evaluation":"1a2b3c4d","definitions":1,
//            "settings":"survey=30000 ...","part":[1,1]}
//   <crc>    {"record":"game","game":KEY,"pgn":TEXT}
//   <crc> {"record":"input","files":[...],"games":[{"key":KEY,"number":1,...},...],"faults":[...]}
//   <crc> {"record":"survey","run":CRC,"game":KEY,"candidates":[[ply,promise],...],"study":{...}}
//   <crc>    {"record":"moment","run":CRC,"game":KEY,"findings":{"ply":23,"moments":[...],...}}
//
// One record a line: eight hexadecimal digits, the CRC-32 of the payload; a blank; the payload,
// JSON on one line (record.hpp); a line feed. Lines are only ever added, each by one write. A later
// record for the same thing wins. "run" in survey and moment is the CRC-32 of all in the head but
// the part, so that records find their run even when its line is damaged. KEY names a game by its
// text (run.hpp).
//
// Order: games as they are read, the input, surveys in the order of the input, moments most
// promising first (schedule.hpp). What a run does again stands at the end; `join` puts everything
// in this order. Readers need none.
//
// Trust. A right checksum says that a line is as it was written, not that it is true. Every record
// is looked at when the ledger is opened: members, ranges, moves that can be played (the tables in
// src/batch/record_tables.hpp and ledger_record.cpp), and whether game, survey and moments fit one
// another. One that is wrong is told with its line and the member, and left out like a damaged
// line; what is given out can be reported.
//
// Safety. A line that was torn at the end is cut off; a damaged line elsewhere is left out; both
// are reported, and that part is studied again. The file is then written anew without the damage
// (temporary file, renamed). Data go to the disk (fdatasync) when five seconds have passed since
// the last time, and at the end: kill -9 loses nothing that was written, a power cut at most those
// seconds. One process at a time (flock). When the disk is full the last good line stays the last.
//
// Memory holds places of records, not records, and the scoresheets of some thousand games (of a
// ledger that is only read: none unless they are asked to be kept). All functions may be called
// from any thread.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "kairos/base/diagnostics.hpp"
#include "kairos/base/result.hpp"
#include "kairos/batch/record.hpp"
#include "kairos/batch/run.hpp"
#include "kairos/study/examine.hpp"

namespace kairos::batch {

class LedgerStore;
class ParsedGames;

class Ledger {
 public:
  // The ledger of a folder, to be written to; begun when there is none. Refused: other version
  // (ledger_version), evaluation or definitions (ledger_evaluation), other settings or part
  // (ledger_settings_differ, with the difference), another process (ledger_in_use). Ledgers of one
  // run may share their `games`.
  static base::Result<Ledger> open(const std::string& folder, const RunHeader& header,
                                   base::Diagnostics& diagnostics,
                                   std::shared_ptr<ParsedGames> games = nullptr);
  // A finished or unfinished ledger to read: the file or its folder. Nothing is changed on disk.
  static base::Result<Ledger> read(const std::string& path, base::Diagnostics& diagnostics,
                                   std::shared_ptr<ParsedGames> games = nullptr);
  // The ledger's file in a folder, and what people mean who name a folder or the file.
  static std::string path_in(const std::string& folder);
  static std::string file_at(const std::string& path);

  Ledger(Ledger&&) noexcept;
  ~Ledger();

  [[nodiscard]] const RunHeader& header() const;
  // Of the last time the input was read; nothing when that never came to an end.
  [[nodiscard]] const std::optional<Input>& input() const;

  // Writes nothing when that very input is known.
  base::Status put_input(const Input& input);
  base::Status put_game(const GameKey& key, std::string_view export_text);
  // In memory, while there is room: what the text of that game says, so that nobody parses it.
  void keep_parsed(const GameKey& key, pgn::Game exported);
  base::Status put_survey(const GameKey& key, const study::Study& study,
                          const std::vector<study::Candidate>& candidates);
  base::Status put_findings(const GameKey& key, const Findings& findings);
  // At the end of a run, when nobody reads or puts: what proved damaged since `open` is gone from
  // the file, and the rest is on the disk.
  base::Status sync();
  // Takes the games out again that were put since `open`.
  base::Status roll_back();
  // Adds what another ledger of the same run has and this one has not.
  base::Status copy(const Ledger& other);
  // The records in the order of a single run (above): the file is written anew unless they are.
  base::Status put_in_order();

  [[nodiscard]] bool has_game(const GameKey& key) const;
  // A survey, and the game that it is of.
  [[nodiscard]] bool has_survey(const GameKey& key) const;
  // Most promising first, as study::candidates gave them; empty without a survey.
  [[nodiscard]] std::vector<study::Candidate> candidates(const GameKey& key) const;
  // The plies whose findings are there, in order.
  [[nodiscard]] std::vector<int> plies(const GameKey& key) const;
  // Whose move a survey's game begins with, how many half-moves it has, what the survey searched.
  [[nodiscard]] rules::Color first_side(const GameKey& key) const;
  [[nodiscard]] int length(const GameKey& key) const;
  [[nodiscard]] std::uint64_t survey_nodes(const GameKey& key) const;

  [[nodiscard]] base::Result<std::string> game_text(const GameKey& key) const;
  // What the text says. Facts without file, line and number, here and below.
  [[nodiscard]] base::Result<std::shared_ptr<const study::Scoresheet>> scoresheet(
      const GameKey& key) const;
  // Without moments.
  [[nodiscard]] base::Result<study::Study> survey(const GameKey& key) const;
  [[nodiscard]] base::Result<Findings> findings(const GameKey& key, int ply) const;

 private:
  explicit Ledger(std::unique_ptr<LedgerStore> store);
  std::unique_ptr<LedgerStore> store_;
};

}  // namespace kairos::batch
