#include "kairos/study/settings.hpp"

#include <map>

#include "kairos/base/text.hpp"
#include "kairos/report/words.hpp"

namespace kairos::report {

namespace {

std::map<std::string, std::string> values_of(const std::string& settings) {
  std::map<std::string, std::string> values;
  for (const std::string_view word : base::fields(settings)) {
    const auto at = word.find('=');
    if (at == std::string_view::npos) continue;
    values.emplace(word.substr(0, at), word.substr(at + 1));
  }
  return values;
}

std::string nodes_words(const std::string& nodes) {
  return base::grouped(static_cast<std::uint64_t>(base::to_integer(nodes).value_or(0)));
}

std::string effort_words(const std::map<std::string, std::string>& values) {
  using study::EffortName;
  const std::string survey = values.at("survey"), verify = values.at("verify"),
                    puzzle = values.at("puzzle");
  std::string name = "own";
  for (const auto effort : {EffortName::light, EffortName::steady, EffortName::deep}) {
    study::Settings settings;
    settings.effort = study::effort_of(effort);
    const auto usual = values_of(study::to_text(settings));
    if (usual.at("survey") == survey && usual.at("verify") == verify &&
        usual.at("puzzle") == puzzle) {
      name = study::to_string(effort);
    }
  }
  return name + " (" + nodes_words(survey) + " nodes for each position, " + nodes_words(verify) +
         " to verify a moment, " + nodes_words(puzzle) + " to check a puzzle)";
}

}  // namespace

std::string settings_words(const std::string& settings) {
  auto values = values_of(settings);
  if (!values.contains("survey") || !values.contains("verify") || !values.contains("puzzle")) {
    return settings;
  }
  std::string text = effort_words(values);
  const auto usual = values_of(study::to_text({}));
  for (const auto& [name, value] : values) {
    const auto at = usual.find(name);
    if (name == "survey" || name == "verify" || name == "puzzle") continue;
    if (at == usual.end() || at->second != value) text.append("; ").append(name) += " " + value;
  }
  return text;
}

}  // namespace kairos::report
