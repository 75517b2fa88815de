// What the operations of an EPD line say of a puzzle. The counters, which stand in operations of
// their own, come back into the position; what is no legal move is left out of tries. Tests:
// tests/puzzle/exercise_test.cpp.
//
// A line with `am` and no `bm`, whose `pv` begins with that move and goes on, is a why-not: the
// position is that before the move, and what is asked, told and tried are answers to it.
#include "kairos/puzzle/exercise_file.hpp"

#include <algorithm>

#include "kairos/base/text.hpp"
#include "kairos/pgn/epd.hpp"
#include "kairos/pgn/position_lines.hpp"
#include "kairos/rules/san.hpp"
#include "kairos/study/motifs.hpp"

namespace kairos::puzzle {

namespace {

// "Qxh7+ Kxh7 Rh1+; Rd1 Qxd1"; what is no line of legal moves is left out.
std::vector<Try> tries_of(const rules::Position& start, std::string_view text) {
  std::vector<Try> tries;
  for (const std::string_view part : base::split(text, ';')) {
    Try tried;
    rules::Position p = start;
    bool legal = true;
    for (const std::string_view san : base::fields(part)) {
      const rules::Move move = rules::read_san(p, san).move;
      legal = move && move != rules::null_move;
      if (!legal) break;
      if (tried.move) {
        tried.refutation.push_back(move);
      } else {
        tried.move = move;
      }
      p = p.after(move);
    }
    if (legal && tried.move) tries.push_back(std::move(tried));
  }
  return tries;
}

Reward reward_of(const std::vector<std::string>& themes) {
  for (const Reward reward : {Reward::mate, Reward::material, Reward::save}) {
    for (const std::string& theme : themes) {
      if (theme == name_of(reward)) return reward;
    }
  }
  return Reward::advantage;
}

// Those that the themes name; a sacrifice is seen without being named.
std::vector<study::Motif> motifs_of(const Exercise& exercise) {
  std::vector<study::Motif> motifs;
  for (const std::string& theme : exercise.themes) {
    for (int m = 0; m < study::motif_count; ++m) {
      const auto motif = static_cast<study::Motif>(m);
      if (theme == study::name_of(motif)) motifs.push_back(motif);
    }
  }
  const auto& line = exercise.puzzle.line;
  const bool named = std::ranges::find(motifs, study::Motif::sacrifice) != motifs.end();
  if (!named && !line.empty() && study::is_sacrifice(exercise.puzzle.position, line.front())) {
    motifs.push_back(study::Motif::sacrifice);
  }
  return motifs;
}

// "find 1600 0.12, 2000 0.31, 2400 0.55" after its name; beyond what is told the nearest counts.
// All 0 where the text is none of that kind.
Rates rates_of(std::string_view text, std::string_view name) {
  if (!text.starts_with(name)) return {};
  Rates rates{};
  std::size_t known = 0;
  for (const std::string_view part : base::split(text.substr(name.size()), ',')) {
    const auto words = base::fields(part);
    const bool fits = words.size() == 2 && words[1].size() == 4 && words[1][1] == '.' &&
                      known < rates.size() && base::to_integer(words[0]) == told_ratings[known];
    if (!fits) return {};
    const auto whole = base::to_integer(words[1].substr(0, 1));
    const auto hundredths = base::to_integer(words[1].substr(2));
    if (!whole || !hundredths || *hundredths < 0 || *whole < 0) return {};
    const std::int64_t rate = (*whole * 100 + *hundredths) * study::find_rate_of / 100;
    if (rate > study::find_rate_of) return {};
    rates[known++] = static_cast<int>(rate);
  }
  for (std::size_t i = std::max<std::size_t>(known, 1); i < rates.size(); ++i) {
    rates[i] = rates[i - 1];
  }
  return rates;
}

// All of the line where `text` is no odd number of half-moves in it.
int asked_plies(const Puzzle& p, std::string_view text) {
  const int all = std::max(1, static_cast<int>(p.line.size() + 1) / 2 * 2 - 1);
  const std::int64_t told = base::to_integer(text).value_or(all);
  return told >= 1 && told <= all && told % 2 == 1 ? static_cast<int>(told) : all;
}

// "mate in 2", where there is no `dm`: a why-not's mate does not begin in the position of the line.
int mate_moves_of(const pgn::Epd& epd, const Exercise& exercise) {
  constexpr std::string_view proved = "mate in ";
  if (epd.find("dm") != nullptr || !exercise.puzzle.avoided) {
    return static_cast<int>(base::to_integer(epd.text("dm")).value_or(0));
  }
  for (const std::string_view theme : exercise.themes) {
    if (!theme.starts_with(proved)) continue;
    return static_cast<int>(base::to_integer(theme.substr(proved.size())).value_or(0));
  }
  return 0;
}

// Makes a why-not of the exercise where its line is one.
base::Status take_why_not(const pgn::Epd& epd, Puzzle& p) {
  if (epd.find("bm") != nullptr || epd.find("am") == nullptr || p.line.size() < 2) {
    return base::done();
  }
  const auto avoided = pgn::epd_moves(epd, "am");
  if (!avoided) return avoided.faults();
  if (std::ranges::find(*avoided, p.line.front()) == avoided->end()) return base::done();
  p.before = p.position;
  p.avoided = p.line.front();
  p.position.play(p.avoided);
  p.line.erase(p.line.begin());
  return base::done();
}

base::Result<Exercise> exercise_of(std::string_view line, std::size_t number) {
  auto epd = pgn::parse_epd(line);
  if (!epd) return std::move(epd).faults();
  Exercise exercise;
  exercise.id = epd->text("id");
  if (exercise.id.empty()) exercise.id = "line " + std::to_string(number);
  Puzzle& p = exercise.puzzle;
  p.position = epd->position;
  if (epd->find("bm") != nullptr) {
    auto keys = pgn::epd_moves(*epd, "bm");
    if (!keys) return std::move(keys).faults();
    exercise.keys = std::move(*keys);
  }
  if (epd->find("pv") != nullptr) {
    auto solution = pgn::epd_line(*epd, "pv");
    if (!solution) return std::move(solution).faults();
    p.line = std::move(*solution);
  }
  p.line.erase(std::ranges::find(p.line, rules::null_move), p.line.end());
  if (auto status = take_why_not(*epd, p); !status) return std::move(status).faults();
  if (exercise.keys.empty() && !p.line.empty()) exercise.keys.push_back(p.line.front());
  const bool begins_with_key = !p.line.empty() && exercise.is_key(p.line.front());
  if (!begins_with_key && !exercise.keys.empty()) p.line = {exercise.keys.front()};
  p.asked = asked_plies(p, epd->text("c5"));
  for (const std::string_view theme : base::split(epd->text("c1"), ',')) {
    if (!base::trim(theme).empty()) exercise.themes.emplace_back(base::trim(theme));
  }
  p.motifs = motifs_of(exercise);
  p.game_label = base::to_utf8(epd->text("c0"));
  p.difficulty = static_cast<int>(base::to_integer(epd->text("c2")).value_or(0));
  p.tries = tries_of(p.position, epd->text("c3"));
  p.find_rates = rates_of(epd->text("c4"), "find ");
  p.solve_rates = rates_of(epd->text("c7"), "solve ");
  if (!are_known(p.solve_rates)) p.solve_rates = p.find_rates;
  p.mate_moves = mate_moves_of(*epd, exercise);
  p.reward = p.mate_moves > 0 ? Reward::mate : reward_of(exercise.themes);
  return exercise;
}

std::string themes_there_are(const std::vector<Exercise>& exercises) {
  constexpr std::size_t most = 40;
  std::vector<std::string> themes;
  for (const Exercise& exercise : exercises) {
    themes.insert(themes.end(), exercise.themes.begin(), exercise.themes.end());
  }
  std::sort(themes.begin(), themes.end());
  themes.erase(std::unique(themes.begin(), themes.end()), themes.end());
  if (themes.empty()) return "the puzzles of this file name no themes";
  const bool all = themes.size() <= most;
  if (!all) themes.resize(most);
  return "there are: " + base::join(themes, ", ") + (all ? "" : " and more");
}

}  // namespace

bool Exercise::is_key(rules::Move move) const {
  return std::ranges::find(keys, move) != keys.end();
}

const Try* find_try(const std::vector<Try>& tries, rules::Move move) {
  const auto found = std::find_if(tries.begin(), tries.end(), [move](const Try& t) {
    return t.move == move && !t.refutation.empty();
  });
  return found == tries.end() ? nullptr : &*found;
}

base::Result<ExerciseFile> read_exercises(const std::string& file) {
  auto lines = pgn::PositionLines::open(file, pgn::PositionLines::Use::kept);
  if (!lines) return std::move(lines).faults();
  ExerciseFile read;
  base::FaultList faults;
  while (const auto line = lines->next()) {
    auto exercise =
        lines->make(*line, [&](std::string_view text) { return exercise_of(text, line->number); });
    if (exercise) {
      read.exercises.push_back(std::move(*exercise));
    } else {
      faults.report(exercise.fault());
    }
  }
  if (lines->failure()) return *lines->failure();
  read.faults = std::move(faults).all();
  if (read.exercises.empty() && read.faults.empty()) {
    return base::Fault{base::Code::file_empty, "", {.file = file}};
  }
  if (read.exercises.empty()) return std::move(read.faults);
  return read;
}

base::Result<Exercise> find_exercise(const std::string& file, const std::string& id) {
  auto read = read_exercises(file);
  if (!read) return std::move(read).faults();
  std::vector<std::string> known;
  for (Exercise& exercise : read->exercises) {
    if (exercise.id == id) return std::move(exercise);
    known.push_back(exercise.id);
  }
  std::string detail = "no position has the id \"" + id + '"';
  const std::string near = base::nearest(id, known);
  if (!near.empty()) {
    detail += "; the nearest is \"" + near + '"';
  } else {
    detail += "; the first of " + std::to_string(known.size()) + " is \"" + known.front() + '"';
  }
  return base::Fault{base::Code::usage, std::move(detail), {.file = file}};
}

base::Status keep_theme(std::vector<Exercise>& exercises, std::string_view word) {
  const std::string wanted = base::lower_case(word);
  const auto has_it = [&wanted](const std::string& theme) {
    return base::lower_case(theme).find(wanted) != std::string::npos;
  };
  std::vector<Exercise> kept;
  for (const Exercise& exercise : exercises) {
    const auto& themes = exercise.themes;
    if (std::any_of(themes.begin(), themes.end(), has_it)) kept.push_back(exercise);
  }
  if (kept.empty()) {
    return base::Fault{
        base::Code::usage,
        "no puzzle has the theme \"" + base::to_utf8(word) + "\"; " + themes_there_are(exercises),
        {}};
  }
  exercises = std::move(kept);
  return base::done();
}

void put_fitting_first(std::vector<Exercise>& exercises, int level) {
  std::stable_partition(exercises.begin(), exercises.end(), [level](const Exercise& exercise) {
    return fits_level(exercise.puzzle.solve_rates, level);
  });
}

}  // namespace kairos::puzzle
