// The ledger: records by name over a file of checked lines (ledger_file.hpp).
//
// The index holds, for each game key, where its records lie, and what the schedule asks for all the
// time (candidates, plies that are done). Records are decoded anew whenever they are asked for. One
// mutex guards index and appending; reading a record's bytes needs none.
//
// Nothing is believed that was not looked at: every record is decoded when the ledger is opened
// (ledger_record.hpp), and then the records of each game are held against one another. What does
// not hold is told and left out, as if its line were damaged. Tests: tests/batch/ledger_test.cpp
// (cut at every byte, damaged, locked, other settings, right checksums and wrong contents),
// tests/cli/forger_test.cpp.
#include "kairos/batch/ledger.hpp"

#include <algorithm>
#include <filesystem>
#include <map>
#include <mutex>
#include <numeric>

#include "ledger_file.hpp"
#include "ledger_index.hpp"
#include "ledger_record.hpp"
#include "tasks.hpp"

namespace kairos::batch {

namespace {

using Entry = LedgerIndex::Entry;

constexpr std::string_view file_name = "ledger";

base::Fault wrong(std::string detail) {
  return {base::Code::json_damaged, std::move(detail), {}};
}

}  // namespace

class Ledger::Implementation {
 public:
  base::Status open_to_write(const RunHeader& wanted, base::Diagnostics& diagnostics);
  base::Status open_to_read(base::Diagnostics& diagnostics);
  // Appends a record: one that could be read again, or a fault and nothing is written.
  base::Status put(const std::string& payload);
  // A record that lies there into the index, or what is wrong with it.
  base::Status take(std::string_view payload, Extent extent);
  // When a record was put whose place was empty after damage: what does not fit it is left out.
  void check_again(const GameKey& key);
  // The file anew with the records that the index has, in the order given.
  base::Status rewrite(const std::vector<Extent>& order);

  template <typename T>
  base::Result<T> load(Extent extent) const;
  template <typename F>
  auto with(const GameKey& key, F&& function) const {
    const std::lock_guard lock(mutex);
    static const Entry nothing;
    const auto at = index.entries.find(key);
    return function(at == index.entries.end() ? nothing : at->second);
  }

  mutable std::mutex mutex;
  std::optional<LedgerFile> file;
  std::optional<RunHeader> header;
  std::string mark;  // of records of this run
  std::optional<Input> input;
  LedgerIndex index;
  std::uint64_t opened_size = 0;

 private:
  base::Status keep(RunHeader read, Extent extent);
  base::Status keep(Input read, Extent extent);
  base::Status keep(GameText game, Extent extent);
  base::Status keep(Survey survey, Extent extent);
  base::Status keep(Verified verified, Extent extent);

  base::Status keep(Record record, Extent extent);
  base::Status check_run(std::string_view run, std::string_view kind);
  void find_header();
  // Whether all is good; what is not is told and left out.
  base::Result<bool> read_all(base::Diagnostics& diagnostics);
  void check(Entry& entry, base::Faults& found) const;
  template <typename Holds>
  void settle(LedgerIndex::Slot& slot, base::Faults& found, const Holds& holds) const;
  static void describe(Entry& entry, const Survey& survey);

  std::size_t of_this_run_ = 0;    // records of games
  std::size_t of_other_runs_ = 0;  // records met
};

base::Status Ledger::Implementation::take(std::string_view payload, Extent extent) {
  auto record = decode_record(payload);
  if (!record) return std::move(record).faults();
  return keep(std::move(*record), extent);
}

base::Status Ledger::Implementation::keep(Record record, Extent extent) {
  return std::visit([&](auto& kind) { return keep(std::move(kind), extent); }, record);
}

// The first head stands: whoever wrote another into the file has not made it another run.
base::Status Ledger::Implementation::keep(RunHeader read, Extent extent) {
  if (header && *header != read) return wrong("run: of another run");
  header = std::move(read);
  if (index.header.empty()) index.header = extent;
  return base::done();
}

base::Status Ledger::Implementation::keep(Input read, Extent extent) {
  input = std::move(read);
  index.input = extent;
  return base::done();
}

base::Status Ledger::Implementation::keep(GameText game, Extent extent) {
  index.entries[game.key].game.put(extent);
  return base::done();
}

base::Status Ledger::Implementation::keep(Survey survey, Extent extent) {
  if (auto ours = check_run(survey.run, "survey"); !ours) return ours;
  Entry& entry = index.entries[survey.key];
  entry.survey.put(extent);
  describe(entry, survey);
  return base::done();
}

void Ledger::Implementation::describe(Entry& entry, const Survey& survey) {
  const study::Study& study = survey.study;
  entry.candidates = survey.candidates;
  entry.first_side = study.start.side_to_move();
  entry.length = static_cast<int>(study.moves.size());
  entry.survey_nodes =
      std::accumulate(study.notes.begin(), study.notes.end(), std::uint64_t{0},
                      [](std::uint64_t sum, const study::Note& note) { return sum + note.nodes; });
}

base::Status Ledger::Implementation::keep(Verified verified, Extent extent) {
  if (auto ours = check_run(verified.run, "moment"); !ours) return ours;
  index.entries[verified.key].findings[verified.findings.ply].put(extent);
  return base::done();
}

base::Status Ledger::Implementation::check_run(std::string_view run, std::string_view kind) {
  ++(run == mark ? of_this_run_ : of_other_runs_);
  return run == mark ? base::done() : wrong(std::string(kind) + ": of another run");
}

base::Status Ledger::Implementation::put(const std::string& payload) {
  const std::lock_guard lock(mutex);
  auto record = decode_record(payload);
  if (!record) return file->damage({}, record.fault());
  auto extent = file->append(payload);
  if (!extent) return std::move(extent).faults();
  return keep(std::move(*record), *extent);
}

template <typename T>
base::Result<T> Ledger::Implementation::load(Extent extent) const {
  if (extent.empty()) return file->damage(extent, wrong("a record is missing"));
  auto payload = file->read(extent);
  if (!payload) return std::move(payload).faults();
  auto record = decode_record(*payload);
  if (!record) return file->damage(extent, record.fault());
  if (!std::holds_alternative<T>(*record)) return file->damage(extent, wrong("of another kind"));
  return std::get<T>(std::move(*record));
}

void Ledger::Implementation::find_header() {
  file->find([this](std::string_view payload) {
    auto record = decode_record(payload);
    if (record && std::holds_alternative<RunHeader>(*record)) header = std::get<RunHeader>(*record);
    return header.has_value();
  });
}

// The last record that holds stays; the ones behind it are told.
template <typename Holds>
void Ledger::Implementation::settle(LedgerIndex::Slot& slot, base::Faults& found,
                                    const Holds& holds) const {
  while (!slot.empty()) {
    const base::Status status = holds(slot.now);
    if (status) return;
    found.push_back(file->damage(slot.now, status.fault()));
    slot.drop();
  }
}

// What the records of one game say of one another.
void Ledger::Implementation::check(Entry& entry, base::Faults& found) const {
  std::optional<pgn::Game> game;
  settle(entry.game, found, [&](Extent extent) -> base::Status {
    auto text = load<GameText>(extent);
    if (!text) return std::move(text).faults();
    auto read = read_game(text->pgn);
    if (!read) return std::move(read).faults();
    game = std::move(*read);
    return base::done();
  });
  study::Study study;
  settle(entry.survey, found, [&](Extent extent) -> base::Status {
    auto survey = load<Survey>(extent);
    if (!survey) return std::move(survey).faults();
    auto fits = game ? check_survey(survey->study, *game) : base::done();
    if (!fits) return fits;
    describe(entry, *survey);
    study = std::move(survey->study);
    return base::done();
  });
  if (entry.survey.empty()) return;
  for (auto& [ply, slot] : entry.findings) {
    settle(slot, found, [&](Extent extent) -> base::Status {
      const auto verified = load<Verified>(extent);
      return verified ? check_findings(verified->findings, study) : verified.faults();
    });
  }
  std::erase_if(entry.findings, [](const auto& finding) { return finding.second.empty(); });
}

void Ledger::Implementation::check_again(const GameKey& key) {
  const std::lock_guard lock(mutex);
  base::Faults done_again;
  check(index.entries[key], done_again);
}

base::Result<bool> Ledger::Implementation::read_all(base::Diagnostics& diagnostics) {
  index = {};
  const auto damaged = file->scan(diagnostics, [this](std::string_view payload, Extent extent) {
    return take(payload, extent);
  });
  if (!damaged) return damaged;
  base::Faults found;
  for (auto& [key, entry] : index.entries) check(entry, found);
  std::sort(found.begin(), found.end(),
            [](const base::Fault& a, const base::Fault& b) { return a.place.line < b.place.line; });
  for (base::Fault& fault : found) diagnostics.report(std::move(fault));
  return !*damaged && found.empty();
}

base::Status Ledger::Implementation::rewrite(const std::vector<Extent>& order) {
  if (auto kept = file->keep(order); !kept) return kept;
  base::FaultList told_already;
  auto read = read_all(told_already);
  if (!read) return std::move(read).faults();
  return base::done();
}

base::Status Ledger::Implementation::open_to_write(const RunHeader& wanted,
                                                   base::Diagnostics& diagnostics) {
  find_header();
  if (header) {
    if (auto same = check_header(*header, wanted, file->path()); !same) return same;
  }
  mark = mark_of(wanted);
  const auto good = read_all(diagnostics);
  if (!good) return good.faults();
  if (!header && of_other_runs_ > 0 && of_this_run_ == 0) {
    return base::Fault{base::Code::ledger_settings_differ,
                       "its head is damaged, and what it holds is of other settings",
                       {.file = file->path()}};
  }
  auto ready = *good ? file->cut_tail() : rewrite(in_file_order(index));
  if (ready && !header) ready = put(encode_record(wanted));
  opened_size = file->size();
  return ready;
}

base::Status Ledger::Implementation::open_to_read(base::Diagnostics& diagnostics) {
  find_header();
  if (!header) {
    (void)file->scan(diagnostics, [](std::string_view, Extent) { return base::done(); });
    return base::Fault{base::Code::ledger_unfinished, "", {.file = file->path()}};
  }
  mark = mark_of(*header);
  const auto read = read_all(diagnostics);
  return read ? base::done() : base::Status(read.faults());
}

Ledger::Ledger(std::unique_ptr<Implementation> implementation)
    : implementation_(std::move(implementation)) {}
Ledger::Ledger(Ledger&&) noexcept = default;
Ledger::~Ledger() = default;

std::string Ledger::path_in(const std::string& folder) {
  return folder + (folder.ends_with('/') ? "" : "/") + std::string(file_name);
}

std::string Ledger::file_at(const std::string& path) {
  std::error_code ignored;
  return std::filesystem::is_directory(path, ignored) ? path_in(path) : path;
}

base::Result<Ledger> Ledger::open(const std::string& folder, const RunHeader& header,
                                  base::Diagnostics& diagnostics) {
  auto file = LedgerFile::open(path_in(folder), LedgerFile::Mode::write);
  if (!file) return std::move(file).faults();
  auto made = std::make_unique<Implementation>();
  made->file = std::move(*file);
  auto opened = made->open_to_write(header, diagnostics);
  if (!opened) return std::move(opened).faults();
  return Ledger(std::move(made));
}

base::Result<Ledger> Ledger::read(const std::string& path, base::Diagnostics& diagnostics) {
  auto file = LedgerFile::open(file_at(path), LedgerFile::Mode::read);
  if (!file) return std::move(file).faults();
  auto made = std::make_unique<Implementation>();
  made->file = std::move(*file);
  auto opened = made->open_to_read(diagnostics);
  if (!opened) return std::move(opened).faults();
  return Ledger(std::move(made));
}

const RunHeader& Ledger::header() const {
  return *implementation_->header;
}

const std::optional<Input>& Ledger::input() const {
  return implementation_->input;
}

base::Status Ledger::put_input(const Input& input) {
  Implementation& mine = *implementation_;
  const std::string payload = encode_record(input);
  if (mine.input && encode_record(*mine.input) == payload) return base::done();
  const std::lock_guard lock(mine.mutex);
  auto extent = mine.file->append(payload);
  if (!extent) return std::move(extent).faults();
  mine.input = input;  // not read back: it is the largest record
  mine.index.input = *extent;
  return base::done();
}

base::Status Ledger::put_game(const GameKey& key, std::string_view export_text) {
  auto put = implementation_->put(encode_record(GameText{key, std::string(export_text)}));
  if (put && has_survey(key)) implementation_->check_again(key);
  return put;
}

base::Status Ledger::put_survey(const GameKey& key, const study::Study& study,
                                const std::vector<study::Candidate>& candidates) {
  auto put =
      implementation_->put(encode_record(Survey{implementation_->mark, key, candidates, study}));
  if (put && !plies(key).empty()) implementation_->check_again(key);
  return put;
}

base::Status Ledger::put_findings(const GameKey& key, const Findings& findings) {
  return implementation_->put(encode_record(Verified{implementation_->mark, key, findings}));
}

base::Status Ledger::sync() {
  const std::lock_guard lock(implementation_->mutex);
  return implementation_->file->sync();
}

base::Status Ledger::roll_back() {
  const std::lock_guard lock(implementation_->mutex);
  const std::uint64_t end = implementation_->opened_size;
  for (auto& [key, entry] : implementation_->index.entries) {
    if (entry.game.now.offset >= end) entry.game.drop();
  }
  return implementation_->file->truncate(end);
}

base::Status Ledger::copy(const Ledger& other) {
  Implementation& mine = *implementation_;
  const Implementation& theirs = *other.implementation_;
  using Slot = LedgerIndex::Slot;
  const auto copy_one = [&mine, &theirs](const Slot& slot, const Slot& have) -> base::Status {
    if (slot.empty() || !have.empty()) return base::done();
    auto payload = theirs.file->read(slot.now);
    if (!payload) return std::move(payload).faults();
    auto put = mine.file->append(*payload);
    if (!put) return std::move(put).faults();
    return mine.take(*payload, *put);
  };
  const std::scoped_lock lock(mine.mutex, theirs.mutex);
  for (const auto& [key, entry] : theirs.index.entries) {
    Entry& own = mine.index.entries[key];
    if (auto put = copy_one(entry.game, own.game); !put) return put;
    if (auto put = copy_one(entry.survey, own.survey); !put) return put;
    for (const auto& [ply, slot] : entry.findings) {
      if (auto put = copy_one(slot, own.findings[ply]); !put) return put;
    }
  }
  return base::done();
}

base::Status Ledger::put_in_order() {
  Implementation& mine = *implementation_;
  const std::lock_guard lock(mine.mutex);
  const std::vector<Extent> order =
      mine.input ? in_run_order(mine.index, *mine.input) : in_file_order(mine.index);
  return mine.file->consists_of(order) ? base::done() : mine.rewrite(order);
}

bool Ledger::has_game(const GameKey& key) const {
  return implementation_->with(key, [](const Entry& entry) { return !entry.game.empty(); });
}

bool Ledger::has_survey(const GameKey& key) const {
  return implementation_->with(
      key, [](const Entry& entry) { return !entry.game.empty() && !entry.survey.empty(); });
}

std::vector<study::Candidate> Ledger::candidates(const GameKey& key) const {
  return implementation_->with(key, [](const Entry& entry) { return entry.candidates; });
}

std::vector<int> Ledger::plies(const GameKey& key) const {
  return implementation_->with(key, [](const Entry& entry) {
    std::vector<int> plies;
    for (const auto& [ply, slot] : entry.findings) plies.push_back(ply);
    return plies;
  });
}

rules::Color Ledger::first_side(const GameKey& key) const {
  return implementation_->with(key, [](const Entry& entry) { return entry.first_side; });
}

int Ledger::length(const GameKey& key) const {
  return implementation_->with(key, [](const Entry& entry) { return entry.length; });
}

std::uint64_t Ledger::survey_nodes(const GameKey& key) const {
  return implementation_->with(key, [](const Entry& entry) { return entry.survey_nodes; });
}

base::Result<std::string> Ledger::game_text(const GameKey& key) const {
  const Extent extent =
      implementation_->with(key, [](const Entry& entry) { return entry.game.now; });
  auto game = implementation_->load<GameText>(extent);
  if (!game) return std::move(game).faults();
  return std::move(game->pgn);
}

base::Result<study::Study> Ledger::survey(const GameKey& key) const {
  const Extent extent =
      implementation_->with(key, [](const Entry& entry) { return entry.survey.now; });
  auto survey = implementation_->load<Survey>(extent);
  if (!survey) return std::move(survey).faults();
  auto text = game_text(key);
  if (!text) return std::move(text).faults();
  survey->study.pgn = std::move(*text);
  return std::move(survey->study);
}

base::Result<Findings> Ledger::findings(const GameKey& key, int ply) const {
  const Extent extent = implementation_->with(key, [ply](const Entry& entry) {
    const auto at = entry.findings.find(ply);
    return at == entry.findings.end() ? Extent{} : at->second.now;
  });
  auto verified = implementation_->load<Verified>(extent);
  if (!verified) return std::move(verified).faults();
  return std::move(verified->findings);
}

}  // namespace kairos::batch
