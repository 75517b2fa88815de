// kairos draw: one position as a picture, SVG or PNG, for a page, a print or a stream.

#include <CLI/CLI.hpp>
#include <algorithm>
#include <memory>
#include <optional>
#include <unistd.h>

#include "kairos/base/files.hpp"
#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"
#include "kairos/report/picture.hpp"

#include "command.hpp"
#include "given_position.hpp"
#include "log.hpp"
#include "numbers.hpp"
#include "output.hpp"
#include "terminal.hpp"

namespace kairos::cli {

namespace {

struct Arguments {
  PositionArguments place;
  std::string output;
  std::string format;
  std::string below = "mover";
  std::vector<std::string> arrows;
  std::vector<std::string> rings;
  int pixels = report::Picture{}.pixels;
  bool plain = false;
  bool bare = false;
  bool transparent = false;
};

base::Fault usage(std::string words) {
  return {base::Code::usage, std::move(words), {}};
}

// "e4"
std::optional<rules::Square> square_named(std::string_view name) {
  if (name.size() != 2 || name[0] < 'a' || name[0] > 'h' || name[1] < '1' || name[1] > '8') {
    return std::nullopt;
  }
  return rules::square_at(name[0] - 'a', name[1] - '1');
}

std::string as_given(std::string_view text) {
  return "\"" + base::elided(base::visible(text), 40) + "\"";
}

base::Result<report::Arrow> arrow_named(const std::string& name) {
  const std::string_view squares = name;
  const auto from = square_named(squares.substr(0, 2));
  const auto to = squares.size() > 2 ? square_named(squares.substr(2)) : std::nullopt;
  if (!from || !to || *from == *to) {
    return usage("--arrow takes two squares, as e2e4, not " + as_given(name));
  }
  return report::Arrow{*from, *to, report::ArrowLine::whole};
}

enum class PictureFormat { svg, png };

base::Result<PictureFormat> format_of(const Arguments& arguments) {
  const std::string file = base::lower_case(arguments.output);
  const auto is = [&](const std::string& name) {
    return arguments.format.empty() ? file.ends_with("." + name) : arguments.format == name;
  };
  if (is("svg")) return PictureFormat::svg;
  if (is("png")) return PictureFormat::png;
  return usage(
      "is it to be SVG or PNG? End the name of the file in .svg or .png, or give --format");
}

base::Result<report::Picture> picture_asked(const Arguments& arguments) {
  const auto place = find_position(arguments.place, Ended::accepted);
  if (!place) return place.faults();
  report::Picture picture;
  picture.position = place->position;
  picture.below = arguments.below == "white"   ? rules::white
                  : arguments.below == "black" ? rules::black
                                               : place->position.side_to_move();
  for (const std::string& name : arguments.arrows) {
    const auto arrow = arrow_named(name);
    if (!arrow) return arrow.faults();
    picture.arrows.push_back(*arrow);
  }
  for (const std::string& name : arguments.rings) {
    const auto square = square_named(name);
    if (!square) return usage("--ring takes a square, as e4, not " + as_given(name));
    picture.rings.push_back(*square);
  }
  picture.pixels = arguments.pixels;
  picture.coordinates = !arguments.bare;
  picture.transparent = arguments.transparent;
  picture.dark = arguments.plain ? report::DarkSquares::plain : report::DarkSquares::hatched;
  return picture;
}

base::Status write_to(const std::string& file, const std::string& bytes) {
  if (file == "-") return Output::get().write(bytes);
  return base::write_whole_file(file, bytes);
}

ExitCode run_draw(const Arguments& arguments) {
  const auto format = format_of(arguments);
  if (!format) return failed(format.faults());
  const bool png = *format == PictureFormat::png;
  if (png && arguments.output == "-" && looks_of(STDOUT_FILENO).is_terminal) {
    return failed({usage("a PNG is nothing for a terminal: name a file, or redirect the output")});
  }
  const auto picture = picture_asked(arguments);
  if (!picture) return failed(picture.faults());
  const auto bytes = png ? report::picture_png(*picture)
                         : base::Result<std::string>(report::picture_svg(*picture));
  if (!bytes) return failed(bytes.faults());
  if (auto written = write_to(arguments.output, *bytes); !written) return failed(written.faults());
  if (arguments.output != "-") {
    log_detail(base::counted(bytes->size(), "byte") + " in " + arguments.output);
  }
  return exit_done;
}

void add_look_options(CLI::App& command, Arguments& arguments) {
  command.add_option("--below", arguments.below, "Who sits below: white, black, mover")
      ->type_name("SIDE")
      ->check(CLI::IsMember({"white", "black", "mover"}))
      ->capture_default_str();
  command
      .add_option("--arrow", arguments.arrows, "An arrow from square to square; several: e2e4,d7d5")
      ->type_name("SQUARES")
      ->delimiter(',');
  command.add_option("--ring", arguments.rings, "A ring around a square; several: e4,d5")
      ->type_name("SQUARES")
      ->delimiter(',');
  add_number(command, "--pixels", arguments.pixels, "Width and height",
             {.least = report::least_pixels, .most = report::most_pixels, .unit = "pixels"})
      ->type_name("N")
      ->default_str(plain_digits(arguments.pixels));
  command.add_flag(
      "--plain", arguments.plain,
      "Dark squares of one tone instead of hatched: better where a video is compressed");
  command.add_flag("--no-coordinates", arguments.bare, "The board alone");
  command.add_flag("--transparent", arguments.transparent,
                   "Nothing behind what is around the board");
}

}  // namespace

Command register_draw(CLI::App& program) {
  CLI::App& command = add_command(
      program,
      {.name = "draw",
       .purpose = "One position as a picture, SVG or PNG, with arrows and rings",
       .examples =
           "  kairos draw --epd puzzles.epd --id g3-m21w --plain --pixels 1080 -o puzzle.png\n"
           "  kairos draw --game games.pgn --ply 3 --arrow e8e7 --ring e5 -o board.svg\n"});
  auto arguments = std::make_shared<Arguments>();
  add_position_options(command, arguments->place);
  command
      .add_option("-o,--output", arguments->output,
                  "Where to: FILE.svg or FILE.png; - for standard output")
      ->type_name("FILE")
      ->required();
  command
      .add_option("--format", arguments->format,
                  "svg or png, where the name of the file does not tell")
      ->type_name("NAME")
      ->check(CLI::IsMember({"svg", "png"}));
  add_look_options(command, *arguments);
  return {&command, [arguments] { return run_draw(*arguments); }};
}

}  // namespace kairos::cli
