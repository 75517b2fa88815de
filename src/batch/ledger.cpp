// The ledger as others see it; records, index and checks are ledger_store.hpp's. Tests:
// tests/batch/ledger_test.cpp (cut at every byte, damaged, locked, other settings),
// ledger_contents_test.cpp (right checksums and wrong contents), tests/cli/forger_test.cpp.
#include "kairos/batch/ledger.hpp"

#include <filesystem>
#include <utility>

#include "ledger_store.hpp"

namespace kairos::batch {

namespace {

using Entry = LedgerIndex::Entry;

constexpr std::string_view file_name = "ledger";

}  // namespace

Ledger::Ledger(std::unique_ptr<LedgerStore> store) : store_(std::move(store)) {}
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
                                  base::Diagnostics& diagnostics,
                                  std::shared_ptr<ParsedGames> games) {
  auto file = LedgerFile::open(path_in(folder), LedgerFile::Mode::write);
  if (!file) return std::move(file).faults();
  auto made = std::make_unique<LedgerStore>();
  made->file = std::move(*file);
  made->games = games ? std::move(games) : std::make_shared<ParsedGames>();
  auto opened = made->open_to_write(header, diagnostics);
  if (!opened) return std::move(opened).faults();
  return Ledger(std::move(made));
}

base::Result<Ledger> Ledger::read(const std::string& path, base::Diagnostics& diagnostics,
                                  std::shared_ptr<ParsedGames> games) {
  auto file = LedgerFile::open(file_at(path), LedgerFile::Mode::read);
  if (!file) return std::move(file).faults();
  auto made = std::make_unique<LedgerStore>();
  made->file = std::move(*file);
  made->games = games ? std::move(games) : std::make_shared<ParsedGames>(0);
  auto opened = made->open_to_read(diagnostics);
  if (!opened) return std::move(opened).faults();
  return Ledger(std::move(made));
}

const RunHeader& Ledger::header() const {
  return *store_->header;
}

const std::optional<Input>& Ledger::input() const {
  return store_->input;
}

base::Status Ledger::put_input(const Input& input) {
  const std::string payload = encode_record(input);
  LedgerStore& mine = *store_;
  if (mine.input && encode_record(*mine.input) == payload) return base::done();
  const std::lock_guard lock(mine.mutex);
  auto extent = mine.file->append(payload);
  if (!extent) return std::move(extent).faults();
  mine.input = input;  // not read back: it is the largest record
  mine.index.input = *extent;
  return base::done();
}

base::Status Ledger::put_game(const GameKey& key, std::string_view export_text) {
  auto put = store_->put(encode_record(GameText{key, std::string(export_text)}));
  if (put && has_survey(key)) store_->check_again(key);
  return put;
}

void Ledger::keep_parsed(const GameKey& key, pgn::Game exported) {
  store_->games->keep(key, std::move(exported));
}

base::Status Ledger::put_survey(const GameKey& key, const study::Study& study,
                                const std::vector<study::Candidate>& candidates) {
  auto put = store_->put(encode_record(Survey{store_->mark, key, candidates, study}));
  if (put && !plies(key).empty()) store_->check_again(key);
  return put;
}

base::Status Ledger::put_findings(const GameKey& key, const Findings& findings) {
  return store_->put(encode_record(Verified{store_->mark, key, findings}));
}

base::Status Ledger::sync() {
  LedgerStore& mine = *store_;
  const std::lock_guard lock(mine.mutex);
  if (std::exchange(mine.has_left_out, false)) {
    if (auto anew = mine.rewrite(in_file_order(mine.index)); !anew) return anew;
  }
  return mine.file->sync();
}

base::Status Ledger::roll_back() {
  const std::lock_guard lock(store_->mutex);
  const std::uint64_t end = store_->opened_size;
  for (auto& [key, entry] : store_->index.entries) {
    if (entry.game.now.offset >= end) entry.game.drop();
  }
  return store_->file->truncate(end);
}

base::Status Ledger::copy(const Ledger& other) {
  LedgerStore& mine = *store_;
  const LedgerStore& theirs = *other.store_;
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
  LedgerStore& mine = *store_;
  const std::lock_guard lock(mine.mutex);
  const std::vector<Extent> order =
      mine.input ? in_run_order(mine.index, *mine.input) : in_file_order(mine.index);
  return mine.file->consists_of(order) ? base::done() : mine.rewrite(order);
}

bool Ledger::has_game(const GameKey& key) const {
  return store_->with(key, [](const Entry& entry) { return !entry.game.empty(); });
}

bool Ledger::has_survey(const GameKey& key) const {
  return store_->with(
      key, [](const Entry& entry) { return !entry.game.empty() && !entry.survey.empty(); });
}

std::vector<study::Candidate> Ledger::candidates(const GameKey& key) const {
  return store_->with(key, [](const Entry& entry) { return entry.candidates; });
}

std::vector<int> Ledger::plies(const GameKey& key) const {
  return store_->with(key, [](const Entry& entry) {
    std::vector<int> plies;
    for (const auto& [ply, slot] : entry.findings) plies.push_back(ply);
    return plies;
  });
}

rules::Color Ledger::first_side(const GameKey& key) const {
  return store_->with(key, [](const Entry& entry) { return entry.first_side; });
}

int Ledger::length(const GameKey& key) const {
  return store_->with(key, [](const Entry& entry) { return entry.length; });
}

std::uint64_t Ledger::survey_nodes(const GameKey& key) const {
  return store_->with(key, [](const Entry& entry) { return entry.survey_nodes; });
}

base::Result<std::string> Ledger::game_text(const GameKey& key) const {
  const Extent extent = store_->with(key, [](const Entry& entry) { return entry.game.now; });
  auto game = store_->load<GameText>(extent);
  if (!game) return std::move(game).faults();
  return std::move(game->pgn);
}

base::Result<std::shared_ptr<const study::Scoresheet>> Ledger::scoresheet(
    const GameKey& key) const {
  if (auto known = store_->games->find(key)) return known;
  auto text = game_text(key);
  if (!text) return std::move(text).faults();
  return store_->games->of_text(key, *text);
}

base::Result<study::Study> Ledger::survey(const GameKey& key) const {
  const Extent extent = store_->with(key, [](const Entry& entry) { return entry.survey.now; });
  auto survey = store_->load<Survey>(extent);
  if (!survey) return std::move(survey).faults();
  return std::move(survey->study);
}

base::Result<Findings> Ledger::findings(const GameKey& key, int ply) const {
  const Extent extent = store_->with(key, [ply](const Entry& entry) {
    const auto at = entry.findings.find(ply);
    return at == entry.findings.end() ? Extent{} : at->second.now;
  });
  auto verified = store_->load<Verified>(extent);
  if (!verified) return std::move(verified).faults();
  return std::move(verified->findings);
}

}  // namespace kairos::batch
