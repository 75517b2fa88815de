#include "ledger_store.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

namespace kairos::batch {

namespace {

base::Fault wrong(std::string detail) {
  return {base::Code::json_damaged, std::move(detail), {}};
}

}  // namespace

base::Result<Record> LedgerStore::load_any(Extent extent) const {
  if (extent.empty()) return file->damage(extent, wrong("a record is missing"));
  auto payload = file->read(extent);
  if (!payload) return std::move(payload).faults();
  auto record = decode_record(*payload);
  if (!record) return file->damage(extent, record.fault());
  return record;
}

base::Status LedgerStore::take(std::string_view payload, Extent extent) {
  auto record = decode_record(payload);
  if (!record) return std::move(record).faults();
  return keep(std::move(*record), extent);
}

base::Status LedgerStore::keep(Record record, Extent extent) {
  return std::visit([&](auto& kind) { return keep(std::move(kind), extent); }, record);
}

// The first head stands: whoever wrote another into the file has not made it another run.
base::Status LedgerStore::keep(RunHeader read, Extent extent) {
  if (header && *header != read) return wrong("run: of another run");
  header = std::move(read);
  if (index.header.empty()) index.header = extent;
  return base::done();
}

base::Status LedgerStore::keep(Input read, Extent extent) {
  input = std::move(read);
  index.input = extent;
  return base::done();
}

base::Status LedgerStore::keep(GameText game, Extent extent) {
  index.entries[game.key].game.put(extent);
  return base::done();
}

base::Status LedgerStore::keep(Survey survey, Extent extent) {
  if (auto ours = check_run(survey.run, "survey"); !ours) return ours;
  Entry& entry = index.entries[survey.key];
  entry.survey.put(extent);
  describe(entry, survey);
  return base::done();
}

void LedgerStore::describe(Entry& entry, const Survey& survey) {
  const study::Study& study = survey.study;
  entry.candidates = survey.candidates;
  entry.first_side = study.start.side_to_move();
  entry.length = static_cast<int>(study.moves.size());
  entry.survey_nodes =
      std::accumulate(study.notes.begin(), study.notes.end(), std::uint64_t{0},
                      [](std::uint64_t sum, const study::Note& note) { return sum + note.nodes; });
}

base::Status LedgerStore::keep(Verified verified, Extent extent) {
  if (auto ours = check_run(verified.run, "moment"); !ours) return ours;
  index.entries[verified.key].findings[verified.findings.ply].put(extent);
  return base::done();
}

base::Status LedgerStore::check_run(std::string_view run, std::string_view kind) {
  ++(run == mark ? of_this_run_ : of_other_runs_);
  return run == mark ? base::done() : wrong(std::string(kind) + ": of another run");
}

base::Status LedgerStore::put(const std::string& payload) {
  const std::lock_guard lock(mutex);
  auto record = decode_record(payload);
  if (!record) return file->damage({}, record.fault());
  auto extent = file->append(payload);
  if (!extent) return std::move(extent).faults();
  return keep(std::move(*record), *extent);
}

base::Fault LedgerStore::changed(Extent extent) const {
  return file->damage(extent, wrong("the file has changed"));
}

void LedgerStore::find_header() {
  file->find([this](std::string_view payload) {
    auto record = decode_record(payload);
    if (record && std::holds_alternative<RunHeader>(*record)) header = std::get<RunHeader>(*record);
    return header.has_value();
  });
}

// The last record that holds stays; the ones behind it are told.
template <typename Holds>
void LedgerStore::settle(LedgerIndex::Slot& slot, base::Faults& found, const Holds& holds) const {
  while (!slot.empty()) {
    const base::Status status = holds(slot.now);
    if (status) return;
    found.push_back(file->damage(slot.now, status.fault()));
    slot.drop();
  }
}

// What the records of one game say of one another.
void LedgerStore::check(Entry& entry, base::Faults& found) const {
  ParsedGames::Sheet game;
  settle(entry.game, found, [&](Extent extent) -> base::Status {
    auto text = load<GameText>(extent);
    if (!text) return std::move(text).faults();
    auto read = games->of_text(text->key, text->pgn);
    if (!read) return std::move(read).faults();
    game = *read;
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
  if (entry.survey.empty()) return describe(entry, {});
  for (auto& [ply, slot] : entry.findings) {
    settle(slot, found, [&](Extent extent) -> base::Status {
      const auto verified = load<Verified>(extent);
      return verified ? check_findings(verified->findings, study) : verified.faults();
    });
  }
  std::erase_if(entry.findings, [](const auto& finding) { return finding.second.empty(); });
}

void LedgerStore::check_again(const GameKey& key) {
  const std::lock_guard lock(mutex);
  base::Faults done_again;
  check(index.entries[key], done_again);
  has_left_out = has_left_out || !done_again.empty();
}

base::Result<bool> LedgerStore::read_all(base::Diagnostics& diagnostics) {
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

base::Status LedgerStore::rewrite(const std::vector<Extent>& order) {
  if (auto kept = file->keep(order); !kept) return kept;
  base::FaultList told_already;
  auto read = read_all(told_already);
  if (!read) return std::move(read).faults();
  return base::done();
}

base::Status LedgerStore::open_to_write(const RunHeader& wanted, base::Diagnostics& diagnostics) {
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

base::Status LedgerStore::open_to_read(base::Diagnostics& diagnostics) {
  find_header();
  if (!header) {
    (void)file->scan(diagnostics, [](std::string_view, Extent) { return base::done(); });
    return base::Fault{base::Code::ledger_unfinished, "", {.file = file->path()}};
  }
  mark = mark_of(*header);
  const auto read = read_all(diagnostics);
  return read ? base::done() : base::Status(read.faults());
}

}  // namespace kairos::batch
