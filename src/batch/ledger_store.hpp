// The records of a ledger in order: over the file (ledger_file.hpp) the index of what lies where,
// and what the schedule asks for all the time. Records are decoded anew whenever they are asked
// for; the texts of games are parsed once (parsed_games.hpp).
//
// Nothing is believed that was not looked at: every record is decoded when the ledger is opened
// (ledger_record.hpp), and then the records of each game are held against one another. What does
// not hold is told and left out, as if its line were damaged, and the record before it counts.
//
// One mutex guards index and appending, and whoever uses the index holds it; reading a record's
// bytes needs none.
#pragma once

#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "kairos/base/diagnostics.hpp"

#include "ledger_file.hpp"
#include "ledger_index.hpp"
#include "ledger_record.hpp"
#include "parsed_games.hpp"

namespace kairos::batch {

class LedgerStore {
 public:
  using Entry = LedgerIndex::Entry;

  base::Status open_to_write(const RunHeader& wanted, base::Diagnostics& diagnostics);
  base::Status open_to_read(base::Diagnostics& diagnostics);
  // Appends a record that can be read again; of any other a fault, and nothing is written.
  base::Status put(const std::string& payload);
  // A record that lies there into the index, or what is wrong with it.
  base::Status take(std::string_view payload, Extent extent);
  // When a record was put where damage had left none: what does not fit it is left out.
  void check_again(const GameKey& key);
  // The file anew with these records of the index, in this order.
  base::Status rewrite(const std::vector<Extent>& order);

  template <typename T>
  base::Result<T> load(Extent extent) const {
    auto record = load_any(extent);
    if (!record) return std::move(record).faults();
    T* const wanted = std::get_if<T>(&*record);
    if (wanted == nullptr) return changed(extent);
    return std::move(*wanted);
  }
  template <typename F>
  auto with(const GameKey& key, F&& function) const {
    const std::lock_guard lock(mutex);
    static const Entry nothing;
    const auto at = index.entries.find(key);
    return function(at == index.entries.end() ? nothing : at->second);
  }

  mutable std::mutex mutex;
  std::optional<LedgerFile> file;
  std::shared_ptr<ParsedGames> games;
  std::optional<RunHeader> header;
  std::string mark;  // of records of this run
  std::optional<Input> input;
  LedgerIndex index;
  std::uint64_t opened_size = 0;
  bool has_left_out = false;  // the file holds records that `check_again` left out

 private:
  base::Status keep(Record record, Extent extent);
  base::Status keep(RunHeader read, Extent extent);
  base::Status keep(Input read, Extent extent);
  base::Status keep(GameText game, Extent extent);
  base::Status keep(Survey survey, Extent extent);
  base::Status keep(Verified verified, Extent extent);
  base::Status check_run(std::string_view run, std::string_view kind);
  static void describe(Entry& entry, const Survey& survey);

  void find_header();
  // Whether all is good; what is not is told and left out.
  base::Result<bool> read_all(base::Diagnostics& diagnostics);
  void check(Entry& entry, base::Faults& found) const;
  template <typename Holds>
  void settle(LedgerIndex::Slot& slot, base::Faults& found, const Holds& holds) const;
  [[nodiscard]] base::Result<Record> load_any(Extent extent) const;
  // Something else lies there now.
  [[nodiscard]] base::Fault changed(Extent extent) const;

  std::size_t of_this_run_ = 0;  // surveys and moments met, by their runs
  std::size_t of_other_runs_ = 0;
};

}  // namespace kairos::batch
