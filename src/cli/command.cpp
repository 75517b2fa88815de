#include "command.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <array>
#include <csignal>
#include <new>

#include "kairos/base/text.hpp"
#include "kairos/search/evaluation.hpp"
#include "kairos/study/settings.hpp"

#include "interrupt.hpp"
#include "log.hpp"
#include "output.hpp"
#include "terminal.hpp"

namespace kairos::cli {

namespace {

constexpr const char* fair_play =
    "For finished games only: during play all help is forbidden (FIDE Laws, article 11.3).\n";

// One look for all help pages: "--nodes N    text (default: 1000)".
class HelpFormatter final : public CLI::Formatter {
 public:
  HelpFormatter() { column_width(28); }

  std::string make_option_opts(const CLI::Option* option) const override {
    const bool named = !option->nonpositional() || option->get_type_size() == 0;
    return named ? "" : " " + without_choices(option->get_type_name());
  }
  std::string make_option_desc(const CLI::Option* option) const override {
    const std::string preset = option->get_default_str();
    return option->get_description() + (preset.empty() ? "" : " (default: " + preset + ")");
  }

 private:
  // "NAME:{light,steady,deep}" -> "NAME": the library appends what may be chosen.
  static std::string without_choices(const std::string& type) {
    return type.substr(0, type.find(":{"));
  }
};

std::vector<std::string> command_names(const CLI::App& program) {
  std::vector<std::string> names;
  for (const CLI::App* command : program.get_subcommands(nullptr)) {
    names.push_back(command->get_name());
  }
  return names;
}

// What is wrong with a word that should be a command; nothing when it is one.
std::optional<std::string> unknown_command(const CLI::App& program, const std::string& word) {
  const std::vector<std::string> names = command_names(program);
  if (std::find(names.begin(), names.end(), word) != names.end()) return std::nullopt;
  const std::string wrong = "there is no command \"" + word + "\"";
  const std::string meant = base::nearest(word, names);
  if (!meant.empty()) return wrong + "; did you mean \"" + meant + "\"?";
  if (word.ends_with(".pgn") || word.ends_with(".pgn.gz")) {
    return wrong + "; for a file of games, kairos scan " + word;
  }
  return wrong + "; there are " + base::join(names, ", ");
}

// "help", "help weigh": as --help of the program or of the command.
bool asks_for_help(int argc, char** argv) {
  return argc >= 2 && std::string_view(argv[1]) == "help";
}

// "--stirct" -> "; did you mean --strict?"
std::string option_hint(const CLI::App& command, const std::vector<std::string>& extras) {
  std::vector<std::string> names;
  for (const CLI::Option* option : command.get_options()) {
    for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
  }
  for (const std::string& extra : extras) {
    if (!extra.starts_with("--")) continue;
    const std::string meant = base::nearest(extra.substr(0, extra.find('=')), names);
    if (!meant.empty()) return "; did you mean " + meant + "?";
  }
  return "";
}

// "--effort: huge not in {light,steady,deep}", as the library says it, in plain words: "--effort
// takes light, steady or deep, not \"huge\"".
std::string in_plain_words(const std::string& mistake) {
  const std::size_t value = mistake.find(": "), list = mistake.rfind(" not in {");
  if (value == std::string::npos || list == std::string::npos || list < value + 2 ||
      mistake.back() != '}') {
    return mistake;
  }
  const std::size_t first = list + std::string_view(" not in {").size();
  const std::string choices = mistake.substr(first, mistake.size() - 1 - first);
  std::string words;
  const std::vector<std::string_view> names = base::split(choices, ',');
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) words += i + 1 == names.size() ? " or " : ", ";
    words += names[i];
  }
  return mistake.substr(0, value) + " takes " + words + ", not \"" +
         mistake.substr(value + 2, list - value - 2) + "\"";
}

ExitCode tell_usage(const std::string& what, const std::string& command) {
  log_error(what + " (see kairos " + command + (command.empty() ? "" : " ") + "--help)");
  return exit_usage;
}

ExitCode tell_usage(const CLI::App& program, const CLI::ParseError& mistake) {
  const auto chosen = program.get_subcommands();
  const CLI::App& command = chosen.empty() ? program : *chosen.front();
  std::string what = mistake.what();
  while (!what.empty() && (what.back() == '\n' || what.back() == '.')) what.pop_back();
  return tell_usage(in_plain_words(what) + option_hint(command, command.remaining()),
                    chosen.empty() ? "" : command.get_name());
}

// The name of an option or argument that was given with nothing in it, as by a variable of the
// shell that is not set: it is not taken for one that was not given.
std::optional<std::string> given_empty(const CLI::App& command) {
  for (const CLI::Option* option : command.get_options()) {
    for (const std::string& value : option->results()) {
      if (value.empty()) return option->get_name();
    }
  }
  return std::nullopt;
}

// Last in each help page, so added when the command has declared its own.
void add_common_options(CLI::App& command) {
  constexpr const char* group = "Options of every command";
  const auto add_level = [&command](const char* names, LogLevel level, const char* text) {
    command
        .add_flag_callback(
            names, [level] { set_log_level(level); }, text)
        ->group(group);
  };
  add_level("-q,--quiet", LogLevel::quiet, "Errors only on standard error");
  add_level("-v,--verbose", LogLevel::verbose, "More on standard error");
  command.set_help_flag("-h,--help", "Print this help and end")->group(group);
}

}  // namespace

CLI::App& add_command(CLI::App& program, const CommandHelp& help) {
  CLI::App& command = *program.add_subcommand(help.name, help.purpose);
  command.set_help_flag();  // comes back among the common options
  command.footer(std::string("Examples:\n") + help.examples + "\n" + exit_code_words +
                 (help.studies ? std::string("\n") + fair_play : ""));
  return command;
}

std::string version_text() {
  return "kairos " KAIROS_VERSION ", evaluation " + search::evaluation_checksum() +
         ", definitions " + base::number(study::definitions);
}

void describe_program(CLI::App& program) {
  program.formatter(std::make_shared<HelpFormatter>());
  program.name("kairos");
  program.description(
      "kairos finds the moments that a chess game turned on, and makes puzzles of them.");
  program.footer(std::string("kairos COMMAND --help tells more of each.\n\n") + exit_code_words +
                 "\n" + fair_play);
  program.set_version_flag("--version", version_text, "Print the version and end");
  program.set_help_flag("-h,--help", "Print this help and end");
  program.require_subcommand(1);
}

std::optional<ExitCode> parse(CLI::App& program, int argc, char** argv) {
  if (asks_for_help(argc, argv)) {
    std::string flag = "--help";
    std::array<char*, 3> words = {argv[0], argc > 2 ? argv[2] : flag.data(), flag.data()};
    return parse(program, argc > 2 ? 3 : 2, words.data());
  }
  for (CLI::App* command : program.get_subcommands(nullptr)) add_common_options(*command);
  if (argc < 2) {
    ErrorStream::get().line(program.help());
    return exit_usage;
  }
  if (argv[1][0] != '-') {
    if (const auto wrong = unknown_command(program, argv[1])) return tell_usage(*wrong, "");
  }
  try {
    program.parse(argc, argv);
  } catch (const CLI::CallForHelp&) {
    Output::get().text(program.help());
    return exit_done;
  } catch (const CLI::CallForVersion& version) {
    Output::get().line(version.what());
    return exit_done;
  } catch (const CLI::ParseError& mistake) {
    return tell_usage(program, mistake);
  }
  const CLI::App& command = *program.get_subcommands().front();
  if (const auto name = given_empty(command)) {
    return tell_usage(*name + " is given, but empty", command.get_name());
  }
  return std::nullopt;
}

ExitCode failed(const base::Faults& faults) {
  log_error(faults);
  const base::Fault& first = faults.front();
  const bool of_position =
      first.code >= base::Code::fen_fields && first.code <= base::Code::en_passant_impossible;
  // A position that stands in no file stands on the command line.
  const bool usage = first.code == base::Code::usage || (of_position && first.place.file.empty());
  return usage ? exit_usage : exit_unreadable;
}

namespace {

// The results do not suffer when the log cannot be written: only where nothing else was wrong does
// it decide how the program ends.
ExitCode with_log(ExitCode code) {
  auto fault = log_file_fault();
  if (!fault) return code;
  fault->detail += "; the log is not whole, the results are";
  log_error(*fault);
  return code == exit_done ? exit_not_held : code;
}

}  // namespace

ExitCode guarded(const std::function<ExitCode()>& work) {
  std::signal(SIGPIPE, SIG_IGN);  // a write to a closed pipe fails and is told as BrokenPipe
  std::signal(SIGXFSZ, SIG_IGN);  // so does one beyond the largest size that a file may have
  end_at_interrupts();
  try {
    const ExitCode code = work();
    Output::get().flush();
    return with_log(code);
  } catch (const BrokenPipe&) {
    return exit_done;
  } catch (const Interrupted&) {
    return exit_interrupted;
  } catch (const OutputFailed& failed) {
    log_error(failed.fault);
  } catch (const std::bad_alloc&) {
    log_error("there is not enough memory (free some, or use fewer --threads)");
  }
  return exit_unreadable;
}

}  // namespace kairos::cli
