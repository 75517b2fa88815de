// The ledger: records by name over a file of checked lines (ledger_file.hpp).
//
// The index holds, for each game key, where its records lie, and what the schedule asks for all the
// time (candidates, plies that are done). Records are decoded anew whenever they are asked for. One
// mutex guards index and appending; reading a record's bytes needs none. Test:
// tests/batch/ledger_test.cpp (cut at every byte, damaged, locked, other settings).
#include "kairos/batch/ledger.hpp"

#include <filesystem>
#include <map>
#include <mutex>

#include "kairos/base/checksum.hpp"
#include "kairos/base/text.hpp"

#include "hexadecimal.hpp"
#include "ledger_file.hpp"
#include "run_record.hpp"

namespace kairos::batch {

using base::Json;

namespace {

constexpr std::string_view file_name = "ledger";

struct Entry {
  Extent game;
  Extent survey;
  std::vector<study::Candidate> candidates;
  rules::Color first_side = rules::white;
  int length = 0;  // half-moves
  std::uint64_t survey_nodes = 0;
  std::map<int, Extent> findings;  // by ply
};

std::string mark_of(const RunHeader& header) {
  constexpr std::size_t digits = 8;
  return to_hexadecimal(base::crc32(header.version + '\n' + header.settings), digits);
}

Json encode(const std::vector<study::Candidate>& candidates) {
  Json array = Json::array();
  for (const auto& [ply, promise] : candidates) {
    Json pair = Json::array();
    pair.push(ply).push(promise);
    array.push(std::move(pair));
  }
  return array;
}

std::vector<study::Candidate> decode_candidates(const Json* json) {
  std::vector<study::Candidate> candidates;
  const Json::Array* pairs = json == nullptr ? nullptr : json->elements();
  if (pairs == nullptr) return candidates;
  for (const Json& pair : *pairs) {
    const Json::Array* both = pair.elements();
    if (both == nullptr || both->size() != 2) continue;
    const auto ply = (*both)[0].integer();
    const auto promise = (*both)[1].real();
    if (ply && promise) candidates.push_back({static_cast<int>(*ply), *promise});
  }
  return candidates;
}

std::uint64_t nodes_of(const Json& study) {
  std::uint64_t sum = 0;
  const Json* notes = study.find("notes");
  const Json::Array* elements = notes == nullptr ? nullptr : notes->elements();
  if (elements == nullptr) return 0;
  for (const Json& note : *elements) {
    const Json* nodes = note.find("nodes");
    if (nodes != nullptr) sum += static_cast<std::uint64_t>(nodes->integer().value_or(0));
  }
  return sum;
}

}  // namespace

class Ledger::Implementation {
 public:
  // Reads one record into the index. What cannot be understood counts as not there.
  void take(std::string_view payload, Extent extent);
  base::Status put(const Json& json);
  base::Result<Json> load(Extent extent) const;
  [[nodiscard]] const Entry* find(const GameKey& key) const {
    const auto at = entries.find(key);
    return at == entries.end() ? nullptr : &at->second;
  }
  template <typename F>
  auto with(const GameKey& key, F&& function) const {
    const std::lock_guard lock(mutex);
    static const Entry nothing;
    const Entry* entry = find(key);
    return function(entry == nullptr ? nothing : *entry);
  }
  [[nodiscard]] Json begin_record(std::string_view kind, const GameKey& key) const {
    Json json = Json::object();
    json.add("record", kind).add("run", mark).add("game", to_text(key));
    return json;
  }

  mutable std::mutex mutex;
  std::optional<LedgerFile> file;
  std::optional<RunHeader> header;
  std::string mark;  // of records of this run; empty: all are taken
  std::optional<Input> input;
  std::map<GameKey, Entry> entries;
  std::uint64_t opened_size = 0;
};

void Ledger::Implementation::take(std::string_view payload, Extent extent) {
  const auto json = base::parse_json(payload);
  if (!json) return;
  const std::string kind = text_of(*json, "record");
  if (kind == "run") {
    if (auto read = decode_header(*json)) header = std::move(read);
    return;
  }
  if (kind == "input") {
    if (auto read = decode_input(*json)) input = std::move(read).value();
    return;
  }
  const auto key = parse_key(text_of(*json, "game"));
  if (!key) return;
  if (kind == "game") {
    entries[*key].game = extent;
    return;
  }
  if (!mark.empty() && text_of(*json, "run") != mark) return;
  Entry& entry = entries[*key];
  if (const Json* study = json->find("study"); kind == "survey" && study != nullptr) {
    const std::string start = text_of(*study, "start"), moves = text_of(*study, "moves");
    const auto fields = base::fields(start);
    entry.survey = extent;
    entry.candidates = decode_candidates(json->find("candidates"));
    entry.first_side = fields.size() > 1 && fields[1] == "b" ? rules::black : rules::white;
    entry.length = static_cast<int>(base::fields(moves).size());
    entry.survey_nodes = nodes_of(*study);
  }
  if (const Json* findings = json->find("findings"); kind == "moment" && findings != nullptr) {
    const Json* ply = findings->find("ply");
    const auto number = ply == nullptr ? std::nullopt : ply->integer();
    if (number) entry.findings[static_cast<int>(*number)] = extent;
  }
}

base::Status Ledger::Implementation::put(const Json& json) {
  const std::string payload = base::to_json(json);
  const std::lock_guard lock(mutex);
  auto extent = file->append(payload);
  if (!extent) return std::move(extent).faults();
  take(payload, *extent);
  return base::done();
}

base::Result<Json> Ledger::Implementation::load(Extent extent) const {
  if (extent.empty()) {
    return base::Fault{base::Code::ledger_damaged, "a record is missing", {.file = file->path()}};
  }
  auto payload = file->read(extent);
  if (!payload) return std::move(payload).faults();
  return base::parse_json(*payload);
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
  auto made = std::make_unique<Implementation>();
  const std::string path = path_in(folder);
  made->mark = mark_of(header);
  const auto take = [&made](std::string_view payload, Extent extent) {
    made->take(payload, extent);
  };
  auto file = LedgerFile::open(path, LedgerFile::Mode::write, diagnostics, take);
  if (!file) return std::move(file).faults();
  made->file = std::move(*file);
  if (made->header) {
    if (auto same = check_header(*made->header, header, path); !same) {
      return std::move(same).faults();
    }
  } else {
    if (auto put = made->put(encode_header(header)); !put) return std::move(put).faults();
  }
  made->opened_size = made->file->size();
  return Ledger(std::move(made));
}

base::Result<Ledger> Ledger::read(const std::string& given, base::Diagnostics& diagnostics) {
  const std::string path = file_at(given);
  auto made = std::make_unique<Implementation>();
  const auto take = [&made](std::string_view payload, Extent extent) {
    made->take(payload, extent);
  };
  auto file = LedgerFile::open(path, LedgerFile::Mode::read, diagnostics, take);
  if (!file) return std::move(file).faults();
  made->file = std::move(*file);
  if (!made->header) return base::Fault{base::Code::ledger_unfinished, "", {.file = path}};
  made->mark = mark_of(*made->header);
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
  const std::string payload = base::to_json(encode_input(input));
  if (mine.input && base::to_json(encode_input(*mine.input)) == payload) return base::done();
  const std::lock_guard lock(mine.mutex);
  auto extent = mine.file->append(payload);
  if (!extent) return std::move(extent).faults();
  mine.input = input;  // not read back: it is the largest record
  return base::done();
}

base::Status Ledger::put_game(const GameKey& key, std::string_view export_text) {
  Json json = Json::object();
  json.add("record", "game").add("game", to_text(key)).add("pgn", export_text);
  return implementation_->put(json);
}

base::Status Ledger::put_survey(const GameKey& key, const study::Study& study,
                                const std::vector<study::Candidate>& candidates) {
  Json json = implementation_->begin_record("survey", key);
  json.add("candidates", encode(candidates)).add("study", batch::encode(study));
  return implementation_->put(json);
}

base::Status Ledger::put_findings(const GameKey& key, const Findings& findings) {
  Json json = implementation_->begin_record("moment", key);
  json.add("findings", batch::encode(findings));
  return implementation_->put(json);
}

base::Status Ledger::sync() {
  const std::lock_guard lock(implementation_->mutex);
  return implementation_->file->sync();
}

base::Status Ledger::roll_back() {
  const std::lock_guard lock(implementation_->mutex);
  const std::uint64_t end = implementation_->opened_size;
  for (auto& [key, entry] : implementation_->entries) {
    if (entry.game.offset >= end) entry.game = {};
  }
  return implementation_->file->truncate(end);
}

base::Status Ledger::copy(const Ledger& other) {
  Implementation& mine = *implementation_;
  const Implementation& theirs = *other.implementation_;
  const auto copy_one = [&mine, &theirs](Extent extent, Extent have) -> base::Status {
    if (extent.empty() || !have.empty()) return base::done();
    auto payload = theirs.file->read(extent);
    if (!payload) return std::move(payload).faults();
    auto put = mine.file->append(*payload);
    if (!put) return std::move(put).faults();
    mine.take(*payload, *put);
    return base::done();
  };
  const std::scoped_lock lock(mine.mutex, theirs.mutex);
  for (const auto& [key, entry] : theirs.entries) {
    Entry& own = mine.entries[key];
    if (auto put = copy_one(entry.game, own.game); !put) return put;
    if (auto put = copy_one(entry.survey, own.survey); !put) return put;
    for (const auto& [ply, extent] : entry.findings) {
      const auto have = own.findings.find(ply);
      auto put = copy_one(extent, have == own.findings.end() ? Extent{} : have->second);
      if (!put) return put;
    }
  }
  return base::done();
}

bool Ledger::has_game(const GameKey& key) const {
  return implementation_->with(key, [](const Entry& entry) { return !entry.game.empty(); });
}

bool Ledger::has_survey(const GameKey& key) const {
  return implementation_->with(key, [](const Entry& entry) { return !entry.survey.empty(); });
}

std::vector<study::Candidate> Ledger::candidates(const GameKey& key) const {
  return implementation_->with(key, [](const Entry& entry) { return entry.candidates; });
}

std::vector<int> Ledger::plies(const GameKey& key) const {
  return implementation_->with(key, [](const Entry& entry) {
    std::vector<int> plies;
    for (const auto& [ply, extent] : entry.findings) plies.push_back(ply);
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
  const Extent extent = implementation_->with(key, [](const Entry& entry) { return entry.game; });
  auto json = implementation_->load(extent);
  if (!json) return std::move(json).faults();
  return text_of(*json, "pgn");
}

base::Result<study::Study> Ledger::survey(const GameKey& key) const {
  const Extent extent = implementation_->with(key, [](const Entry& entry) { return entry.survey; });
  auto json = implementation_->load(extent);
  if (!json) return std::move(json).faults();
  const Json* member = json->find("study");
  auto study = decode_study(member == nullptr ? Json() : *member);
  if (!study) return study;
  auto text = game_text(key);
  if (!text) return std::move(text).faults();
  study->pgn = std::move(*text);
  return study;
}

base::Result<Findings> Ledger::findings(const GameKey& key, int ply) const {
  const Extent extent = implementation_->with(key, [ply](const Entry& entry) {
    const auto at = entry.findings.find(ply);
    return at == entry.findings.end() ? Extent{} : at->second;
  });
  auto json = implementation_->load(extent);
  if (!json) return std::move(json).faults();
  const Json* member = json->find("findings");
  return decode_findings(member == nullptr ? Json() : *member);
}

}  // namespace kairos::batch
