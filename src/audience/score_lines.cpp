#include "score_lines.hpp"

#include "kairos/base/text.hpp"

namespace kairos::audience {

namespace {

using base::Code;
using base::Fault;

std::optional<Fault> fault_of_header(std::string_view line, const ScoreKind& kind) {
  const auto header = base::parse_json(line);
  const base::Json* name = header ? header->find("kairos") : nullptr;
  if (name == nullptr || name->text() == nullptr || *name->text() != kind.name) {
    return Fault{Code::not_a_score_file, "", {}};
  }
  const base::Json* number = header->find("version");
  if (number == nullptr || number->integer() != kind.version) {
    return Fault{Code::not_a_score_file, "written by another version of kairos", {}};
  }
  return std::nullopt;
}

}  // namespace

std::string score_header(const ScoreKind& kind) {
  base::Json header = base::Json::object();
  header.add("kairos", kind.name).add("version", kind.version);
  return base::to_json(header) + "\n";
}

base::Status read_score_lines(std::string_view text, const std::string& file, const ScoreKind& kind,
                              const std::function<base::Status(std::string_view)>& take) {
  if (text.empty()) return base::done();
  std::uint64_t number = 0;
  for (const std::string_view line : base::split(text, '\n')) {
    ++number;
    std::optional<Fault> fault;
    if (number == 1) {
      fault = fault_of_header(line, kind);
    } else if (!base::trim(line).empty()) {
      if (const auto taken = take(line); !taken) fault = taken.fault();
    }
    if (!fault) continue;
    fault->place.file = file;
    fault->place.line = number;
    return *std::move(fault);
  }
  return base::done();
}

std::optional<std::string> text_of(const base::Json& object, std::string_view name) {
  const base::Json* member = object.find(name);
  if (member == nullptr || member->text() == nullptr) return std::nullopt;
  return *member->text();
}

std::optional<std::int64_t> number_of(const base::Json& object, std::string_view name,
                                      std::int64_t least, std::int64_t most) {
  const base::Json* member = object.find(name);
  const auto value = member != nullptr ? member->integer() : std::nullopt;
  if (!value || *value < least || *value > most) return std::nullopt;
  return *value;
}

}  // namespace kairos::audience
