#include "puzzle_file.hpp"

#include <algorithm>

#include "kairos/base/text.hpp"
#include "kairos/pgn/epd.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/san.hpp"
#include "kairos/study/motifs.hpp"

#include "nearest.hpp"
#include "position_lines.hpp"

namespace kairos::cli {

namespace {

// "Qxh7+ Kxh7 Rh1+; Rd1 Qxd1"; what is no line of legal moves is left out.
std::vector<puzzle::Try> tries_of(const rules::Position& start, std::string_view text) {
  std::vector<puzzle::Try> tries;
  for (const std::string_view part : base::split(text, ';')) {
    puzzle::Try tried;
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

puzzle::Reward reward_of(const std::vector<std::string>& themes) {
  using puzzle::Reward;
  for (const Reward reward : {Reward::mate, Reward::material, Reward::save}) {
    for (const std::string& theme : themes) {
      if (theme == report::words(reward)) return reward;
    }
  }
  return Reward::advantage;
}

// Those that the themes name; a sacrifice is seen without being named.
std::vector<study::Motif> motifs_of(const AskedPuzzle& asked) {
  std::vector<study::Motif> motifs;
  for (const std::string& theme : asked.themes) {
    for (int m = 0; m < study::motif_count; ++m) {
      const auto motif = static_cast<study::Motif>(m);
      if (theme == study::name_of(motif)) motifs.push_back(motif);
    }
  }
  const auto& line = asked.puzzle.line;
  const bool named = std::ranges::find(motifs, study::Motif::sacrifice) != motifs.end();
  if (!named && !line.empty() && study::is_sacrifice(asked.puzzle.position, line.front())) {
    motifs.push_back(study::Motif::sacrifice);
  }
  return motifs;
}

// The counters, which stand in operations of their own, back in the position.
base::Result<AskedPuzzle> asked_by(std::string_view line, std::size_t number) {
  auto epd = pgn::parse_epd(line);
  if (!epd) return std::move(epd).faults();
  AskedPuzzle asked;
  asked.id = epd->text("id");
  if (asked.id.empty()) asked.id = "line " + std::to_string(number);
  puzzle::Puzzle& p = asked.puzzle;
  p.position = epd->position;
  if (epd->find("bm") != nullptr) {
    auto keys = pgn::epd_moves(*epd, "bm");
    if (!keys) return std::move(keys).faults();
    asked.keys = std::move(*keys);
  }
  if (epd->find("pv") != nullptr) {
    auto solution = pgn::epd_line(*epd, "pv");
    if (!solution) return std::move(solution).faults();
    p.line = std::move(*solution);
  }
  p.line.erase(std::ranges::find(p.line, rules::null_move), p.line.end());
  if (asked.keys.empty() && !p.line.empty()) asked.keys.push_back(p.line.front());
  const bool begins_with_key =
      !p.line.empty() && std::ranges::find(asked.keys, p.line.front()) != asked.keys.end();
  if (!begins_with_key && !asked.keys.empty()) p.line = {asked.keys.front()};
  for (const std::string_view theme : base::split(epd->text("c1"), ',')) {
    if (!base::trim(theme).empty()) asked.themes.emplace_back(base::trim(theme));
  }
  p.motifs = motifs_of(asked);
  p.game_label = base::to_utf8(epd->text("c0"));
  p.difficulty = static_cast<int>(base::to_integer(epd->text("c2")).value_or(0));
  p.tries = tries_of(p.position, epd->text("c3"));
  p.mate_moves = static_cast<int>(base::to_integer(epd->text("dm")).value_or(0));
  p.reward = p.mate_moves > 0 ? puzzle::Reward::mate : reward_of(asked.themes);
  return asked;
}

}  // namespace

const puzzle::Try* find_try(const std::vector<puzzle::Try>& tries, rules::Move move) {
  const auto found = std::find_if(tries.begin(), tries.end(), [move](const puzzle::Try& t) {
    return t.move == move && !t.refutation.empty();
  });
  return found == tries.end() ? nullptr : &*found;
}

base::Result<PuzzleFile> read_puzzles(const std::string& file) {
  auto lines = PositionLines::open(file, PositionLines::Use::kept);
  if (!lines) return std::move(lines).faults();
  PuzzleFile read;
  base::FaultList faults;
  while (const auto line = lines->next()) {
    auto asked =
        lines->make(*line, [&](std::string_view text) { return asked_by(text, line->number); });
    if (asked) {
      read.puzzles.push_back(std::move(*asked));
    } else {
      faults.report(asked.fault());
    }
  }
  if (lines->failure()) return *lines->failure();
  read.faults = std::move(faults).all();
  if (read.puzzles.empty() && read.faults.empty()) {
    return base::Fault{base::Code::file_empty, "", {.file = file}};
  }
  if (read.puzzles.empty()) return std::move(read.faults);
  return read;
}

base::Result<AskedPuzzle> find_puzzle(const std::string& file, const std::string& id) {
  auto read = read_puzzles(file);
  if (!read) return std::move(read).faults();
  std::vector<std::string> known;
  for (AskedPuzzle& asked : read->puzzles) {
    if (asked.id == id) return std::move(asked);
    known.push_back(asked.id);
  }
  std::string detail = "no position has the id \"" + id + '"';
  const std::string near = nearest(id, known);
  if (!near.empty()) {
    detail += "; the nearest is \"" + near + '"';
  } else {
    detail += "; the first of " + std::to_string(known.size()) + " is \"" + known.front() + '"';
  }
  return base::Fault{base::Code::usage, std::move(detail), {.file = file}};
}

}  // namespace kairos::cli
