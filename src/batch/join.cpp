#include "kairos/batch/join.hpp"

#include <set>

#include "kairos/base/files.hpp"
#include "kairos/base/text.hpp"

#include "parsed_games.hpp"

namespace kairos::batch {

namespace {

struct PartLedger {
  std::string path;
  Ledger ledger;
};

base::Result<PartLedger> read_part(const std::string& path, base::Diagnostics& diagnostics,
                                   const std::shared_ptr<ParsedGames>& games) {
  const std::string file = Ledger::file_at(path);
  auto ledger = Ledger::read(file, diagnostics, games);
  if (!ledger) return std::move(ledger).faults();
  if (!ledger->input() || !ledger->input()->complete) {
    return base::Fault{base::Code::ledger_unfinished, "", {.file = file}};
  }
  return PartLedger{file, std::move(*ledger)};
}

// Whether two ledgers are parts of one run.
base::Status check_pair(const PartLedger& first, const PartLedger& other) {
  const RunHeader &a = first.ledger.header(), &b = other.ledger.header();
  const auto differ = [&](std::string what) {
    return base::Fault{base::Code::ledger_settings_differ,
                       std::move(what) + " differ from those of " + first.path,
                       {.file = other.path}};
  };
  if (a.version != b.version) {
    return base::Fault{base::Code::ledger_version,
                       b.version + ", but " + a.version + " wrote " + first.path,
                       {.file = other.path}};
  }
  if (const std::string unlikeness = unlike(b, a); !unlikeness.empty()) {
    return base::Fault{
        base::Code::ledger_evaluation, unlikeness + " as in " + first.path, {.file = other.path}};
  }
  if (a.settings != b.settings) return differ("its settings (" + b.settings + ")");
  if (a.part.of != b.part.of) {
    return differ("its parts (" + to_text(b.part) + ", not of " + base::number(a.part.of) + ")");
  }
  if (fingerprint(*first.ledger.input()) != fingerprint(*other.ledger.input())) {
    return differ("its games, or their order,");
  }
  return base::done();
}

void report_missing(const std::vector<PartLedger>& parts, base::Diagnostics& diagnostics) {
  std::set<int> there;
  for (const PartLedger& part : parts) there.insert(part.ledger.header().part.number);
  const int of = parts.front().ledger.header().part.of;
  for (int number = 1; number <= of; ++number) {
    if (there.contains(number)) continue;
    diagnostics.report({base::Code::ledger_part_missing, to_text(Part{number, of}), {}});
  }
}

}  // namespace

base::Result<Ledger> join(const std::vector<std::string>& paths, const std::string& folder,
                          base::Diagnostics& diagnostics) {
  const auto games = std::make_shared<ParsedGames>();
  std::vector<PartLedger> parts;
  for (const std::string& path : paths) {
    auto part = read_part(path, diagnostics, games);
    if (!part) return std::move(part).faults();
    parts.push_back(std::move(*part));
    if (auto same = check_pair(parts.front(), parts.back()); !same) {
      return std::move(same).faults();
    }
  }
  if (parts.empty()) return base::Fault{base::Code::usage, "there is nothing to join", {}};
  report_missing(parts, diagnostics);

  if (auto made = base::make_folder(folder); !made) return std::move(made).faults();
  RunHeader header = parts.front().ledger.header();
  header.part = {};
  auto joined = Ledger::open(folder, header, diagnostics, games);
  if (!joined) return joined;
  const Input& input = *parts.front().ledger.input();
  if (joined->input()) {
    if (auto same = fits(*joined->input(), input, header.part, folder); !same) {
      return std::move(same).faults();
    }
  }
  for (const PartLedger& part : parts) {
    if (auto copied = joined->copy(part.ledger); !copied) return std::move(copied).faults();
  }
  auto put = joined->put_input(input);
  if (put) put = joined->put_in_order();
  if (put) put = joined->sync();
  if (!put) return std::move(put).faults();
  return joined;
}

}  // namespace kairos::batch
