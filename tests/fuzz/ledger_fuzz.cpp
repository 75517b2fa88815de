// The ledger. Each line of the input becomes a record; one that begins with `!` is written with a
// wrong checksum. Whatever stands in the file, reading it ends well; opening it to write takes the
// damage out, so that the next reading finds none; a record that decodes is encoded the same again.
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>
#include <unistd.h>

#include "kairos/base/checksum.hpp"
#include "kairos/base/json.hpp"
#include "kairos/base/text.hpp"
#include "kairos/batch/ledger.hpp"

#include "property.hpp"

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

std::string as_ledger(std::string_view text) {
  std::string file = "kairos ledger 1\n";
  for (std::string_view line : base::split(text, '\n')) {
    const bool damaged = line.starts_with('!');
    if (damaged) line.remove_prefix(1);
    std::array<char, 12> checksum{};
    std::snprintf(checksum.data(), checksum.size(), "%08x ",
                  base::crc32(line) ^ (damaged ? 1U : 0));
    (file += checksum.data()).append(line) += '\n';
  }
  if (!file.empty()) file.pop_back();  // the last line is a torn one
  return file;
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

// Asks for everything that a ledger says it has.
void read_everything(const batch::Ledger& ledger) {
  if (!ledger.input()) return;
  for (const batch::InputGame& game : ledger.input()->games) {
    (void)ledger.game_text(game.key);
    (void)ledger.survey(game.key);
    (void)ledger.candidates(game.key);
    for (const int ply : ledger.plies(game.key)) (void)ledger.findings(game.key, ply);
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const Scratch scratch;
  const std::string_view text = fuzz::text_of(data, size);
  for (const std::string_view line : base::split(text, '\n')) check_decoders(line);

  const std::string path = batch::Ledger::path_in(scratch.path);
  std::ofstream(path, std::ios::binary) << as_ledger(text);
  base::FaultList faults;
  batch::RunHeader header;
  if (const auto ledger = batch::Ledger::read(path, faults)) {
    read_everything(*ledger);
    header = ledger->header();
  }
  faults.faults.clear();
  if (!batch::Ledger::open(scratch.path, header, faults)) return 0;
  faults.faults.clear();
  const auto mended = batch::Ledger::read(path, faults);
  must_hold(mended.ok() && faults.faults.empty(), "what was mended has no damage left");
  return 0;
}
