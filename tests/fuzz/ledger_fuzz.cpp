// The ledger. Each line of the input becomes a record; one that begins with `!` is written with a
// wrong checksum. An input that begins with an even byte is no text but choices of the forger, who
// alters a real ledger. A ledger with damaged lines, cut off anywhere, or with one bit changed
// anywhere tells what it tells without the lines concerned, no more and no less, and names the
// damage. Opening it to write takes the damage out, so that the next reading finds none. A record
// that decodes is encoded the same again; what is read of records with right checksums can be
// reported, and the rest of them is told.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <string>
#include <unistd.h>
#include <vector>

#include "kairos/base/checksum.hpp"
#include "kairos/base/files.hpp"
#include "kairos/base/json.hpp"
#include "kairos/base/text.hpp"
#include "kairos/batch/join.hpp"
#include "kairos/batch/ledger.hpp"

#include "property.hpp"
#include "support/forger.hpp"
#include "support/small_scan.hpp"
#include "support/told_ledger.hpp"

using namespace kairos;
using fuzz::must_hold;

namespace {

// A folder of this process in memory where there is one, gone with the process.
class Scratch {
 public:
  Scratch() {
    const std::string base = std::filesystem::is_directory("/dev/shm")
                                 ? "/dev/shm"
                                 : std::filesystem::temp_directory_path().string();
    path = base + "/kairos-fuzz-" + std::to_string(::getpid());
    std::filesystem::create_directories(path);
  }
  ~Scratch() {
    std::error_code ignored;
    std::filesystem::remove_all(path, ignored);
  }
  std::string path;
};

constexpr std::string_view version_line = test::ledger_version_line;

struct Record {
  std::string payload;
  bool damaged = false;
};
using Records = std::vector<Record>;

// As the input gives them.
Records records_of(std::string_view text) {
  Records records;
  for (const std::string_view line : base::split(text, '\n')) {
    const bool damaged = line.starts_with('!');
    records.push_back({std::string(line.substr(damaged ? 1 : 0)), damaged});
  }
  return records;
}

// Of a real ledger, altered as the input chooses.
Records forged(const std::string& folder, std::string_view bytes) {
  static const test::Forger forger([&folder] {
    const std::string scanned = folder + "/scanned";  // inputs before this one left ledgers
    std::filesystem::create_directories(scanned);
    const std::string games = scanned + "/games.pgn";
    std::ofstream(games, std::ios::binary) << test::small_games;
    must_hold(test::small_scan(scanned, games).ok(), "the small games are scanned");
    return base::read_file(batch::Ledger::path_in(scanned)).value();
  }());
  test::Choices choices(bytes);
  Records records;
  for (std::string& payload : forger.forge(choices)) records.push_back({std::move(payload), false});
  if (choices.below(4) == 1) records[choices.below(records.size())].damaged = true;
  return records;
}

std::string file_of(const Records& records) {
  std::string file(version_line);
  for (const Record& record : records) file += test::ledger_line(record.payload, record.damaged);
  return file;
}

Records undamaged(Records records) {
  std::erase_if(records, [](const Record& r) { return r.damaged; });
  return records;
}

void check_decoders(std::string_view line) {
  const auto json = base::parse_json(line);
  if (!json) return;
  if (const base::Json* part = json->find("study")) {
    if (const auto study = batch::decode_study(*part)) {
      const auto again = batch::decode_study(batch::encode(*study));
      must_hold(again.ok() && *again == *study, "a study is encoded and decoded the same");
    }
  }
  if (const base::Json* part = json->find("findings")) {
    if (const auto findings = batch::decode_findings(*part)) {
      const auto again = batch::decode_findings(batch::encode(*findings));
      must_hold(again.ok() && *again == *findings, "findings are encoded and decoded the same");
    }
  }
}

// Everything that a ledger says it has, as text.
std::string told_by(const batch::Ledger& ledger) {
  std::string text = ledger.header().version + ' ' + ledger.header().settings + '\n';
  if (!ledger.input()) return text;
  const auto add = [&text](const auto& result, auto&& encoded) {
    text += result.ok() ? encoded(*result) : "nothing";
    text += '\n';
  };
  const auto to_json = [](const auto& value) { return base::to_json(batch::encode(value)); };
  for (const batch::InputGame& game : ledger.input()->games) {
    text += batch::to_text(game.key) + ' ' + game.white + '-' + game.black + '\n';
    add(ledger.game_text(game.key), [](const std::string& pgn) { return pgn; });
    add(ledger.survey(game.key), to_json);
    for (const auto& [ply, promise] : ledger.candidates(game.key)) {
      text += base::number(ply) + ' ' + std::to_string(promise) + '\n';
    }
    for (const int ply : ledger.plies(game.key)) add(ledger.findings(game.key, ply), to_json);
  }
  return text;
}

struct Told {
  bool read = false;
  std::string text;
  std::size_t faults = 0;
  batch::RunHeader header;
};

Told read_file(const std::string& path, std::string_view file) {
  std::ofstream(path, std::ios::binary) << file;
  base::FaultList faults;
  Told told;
  if (const auto ledger = batch::Ledger::read(path, faults)) {
    told = {true, told_by(*ledger), 0, ledger->header()};
  }
  told.faults = faults.faults.size();
  return told;
}

void must_be_same(const Told& a, const Told& b, const char* property) {
  must_hold(a.read == b.read && a.text == b.text, property);
}

// Cut behind any byte, the whole lines in front of the cut count and nothing else does.
void check_torn(const std::string& path, const Records& good, std::size_t choice) {
  const std::string file = file_of(good);
  const std::size_t size = version_line.size() + choice % (file.size() - version_line.size() + 1);
  const auto end = file.rfind('\n', size - 1) + 1;
  const Told torn = read_file(path, std::string_view(file).substr(0, size));
  const Told whole = read_file(path, std::string_view(file).substr(0, end));
  must_be_same(torn, whole, "a torn line is not taken");
  if (torn.read) {
    must_hold(torn.faults == whole.faults + (end == size ? 0 : 1), "a torn line is told");
  }
}

// One bit changed behind the version line: the line it is in is not taken, nor the next one when
// it was the end of the line.
void check_altered(const std::string& path, const Records& good, std::size_t choice) {
  std::string file = file_of(good);
  if (file.size() == version_line.size()) return;
  const std::size_t at = version_line.size() + choice % (file.size() - version_line.size());
  if (file[at] == '\n' + 1) return;  // would split the line, whose end may be a good line
  const std::size_t first = file.rfind('\n', at - 1) + 1;
  std::size_t last = file.find('\n', at) + 1;
  const bool joins = file[at] == '\n';
  if (joins) last = std::min(file.find('\n', last), file.size() - 1) + 1;
  const std::string rest = file.substr(0, first) + file.substr(last);
  file[at] = static_cast<char>(file[at] ^ 1);
  const Told altered = read_file(path, file);
  const Told without = read_file(path, rest);
  must_be_same(altered, without, "an altered line is not taken");
  if (altered.read) must_hold(altered.faults == without.faults + 1, "an altered line is told");
}

void check_mended(const std::string& folder, const std::string& path, const Told& before) {
  base::FaultList faults;
  if (!batch::Ledger::open(folder, before.header, faults)) return;
  faults.faults.clear();
  const auto mended = batch::Ledger::read(path, faults);
  must_hold(mended.ok() && faults.faults.empty(), "what was mended has no damage left");
  if (before.read) must_hold(told_by(*mended) == before.text, "mending loses nothing");
}

// Whoever wrote it.
void check_told(const std::string& folder, const std::string& path, const Records& good) {
  std::vector<std::string> payloads;
  for (const Record& record : good) payloads.push_back(record.payload);
  std::ofstream(path, std::ios::binary) << file_of(good);
  base::FaultList faults;
  const auto ledger = batch::Ledger::read(path, faults);
  if (!ledger) return;
  must_hold(test::lost_record(payloads, *ledger, faults.faults) == 0, "all is read or told");
  if (!ledger->input()) return;
  must_hold(test::wrong_in(*ledger).empty(), "what is read holds");
  must_hold(!test::reports_of(*ledger).empty(), "what is read can be reported");
  std::filesystem::remove_all(folder + "/joined");
  if (const auto joined = batch::join({path}, folder + "/joined", faults)) {
    must_hold(test::wrong_in(*joined).empty(), "what is joined holds");
    must_hold(!test::reports_of(*joined).empty(), "what is joined can be reported");
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const Scratch scratch;
  const std::string_view text = fuzz::text_of(data, size);
  const bool is_text = text.empty() || text.front() % 2 != 0;
  const Records records = is_text ? records_of(text) : forged(scratch.path, text.substr(1));
  for (const Record& record : records) check_decoders(record.payload);

  const std::string path = batch::Ledger::path_in(scratch.path);
  const Records good = undamaged(records);
  const std::size_t choice = base::crc32(text);
  check_torn(path, good, choice);
  check_altered(path, good, choice);
  check_told(scratch.path, path, good);
  const Told clean = read_file(path, file_of(good));
  const Told told = read_file(path, file_of(records));
  must_be_same(told, clean, "a line with a wrong checksum is not taken");
  if (told.read) {
    must_hold(told.faults == clean.faults + records.size() - good.size(),
              "each damaged line is told");
  }
  check_mended(scratch.path, path, told);
  return 0;
}
