#include "letters_option.hpp"

#include <CLI/CLI.hpp>

namespace kairos::cli {

void add_letters_option(CLI::App& command, rules::Letters& letters) {
  std::vector<std::string> names;
  for (const rules::Alphabet& alphabet : rules::alphabets()) names.emplace_back(alphabet.name);
  command
      .add_option_function<std::string>(
          "--letters",
          [&letters](const std::string& name) {
            letters = rules::letters_named(name).value_or(rules::Letters::english);
          },
          "Letters of the men for people to read and type: german, french, ...; or figures")
      ->type_name("NAME")
      ->check(CLI::IsMember(names))
      ->default_str("english");
}

}  // namespace kairos::cli
