// puzzles.epd, puzzles.fen and whynots.epd: the puzzle set for other software (PGN standard,
// section 16).
//
// One line a puzzle, in the order of the report. Operations of an EPD line:
//   bm    the key (the only right move)            pv    the whole solution, first the key
//   dm    full moves to mate, only when proved     id    stable name, "g12-m23w"
//   c0    the game it comes from                   c1    themes, comma between them
//   c2    difficulty, 1 easy .. 5 very hard        c3    tries: move and refutation, `;` between
//   c4    find rates of the key by rating: "find 1600 0.12, 2000 0.31, 2400 0.55"
//   c5    half-moves of the solution that are asked, only where it goes on behind them
//   c7    the same of all that is asked, only where that is more than the key: "solve 1600 ..."
//   hmvc, fmvn  the two counters that a FEN has and an EPD has not
// All SAN. The FEN file has full counters and nothing else.
//
// A line of whynots.epd has the position of the game and, of the operations above, no bm and no dm:
//   am    the tempting move that was not played    pv    that move, then the solution
//   c3    wrong answers to it (from the position after it) and their refutations
//   c4    find rates of the answer                 c5    counted from the answer
//   c6    the question, "why not 17. Bd3?"
#include "kairos/pgn/epd.hpp"

#include <algorithm>

#include "kairos/base/text.hpp"
#include "kairos/report/plain.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"

#include "labels.hpp"
#include "writers.hpp"

namespace kairos::report {

namespace {

// "Qxh7+ Kxh7 Rh1+; Rd1 Qxd1".
std::string tries_text(const puzzle::Puzzle& puzzle) {
  std::vector<std::string> tries;
  for (const puzzle::Try& tried : puzzle.tries) {
    tries.push_back(
        base::join(rules::to_san(puzzle.position, joined(tried.move, tried.refutation)), " "));
  }
  return base::join(tries, "; ");
}

// An EPD string has no escapes, so a quote cannot stand in one (16.2.3), nor can a line end.
std::string epd_string(std::string_view text) {
  std::string safe = base::to_utf8(text);
  for (char& c : safe) {
    if (c == '"') c = '\'';
  }
  return safe;
}

// Rates of 0 would be read as not known.
constexpr double least_written = 0.01;

// "find 1600 0.12, 2000 0.31, 2400 0.55"
std::string rates_text(std::string_view name, const puzzle::Rates& rates) {
  std::vector<std::string> parts;
  for (const int rating : {1600, 2000, 2400}) {
    const double rate = std::max(puzzle::rate_at(rates, rating), least_written);
    parts.push_back(std::to_string(rating) + " " + base::fixed(rate, 2));
  }
  return std::string(name) + " " + base::join(parts, ", ");
}

void add_moves(pgn::Epd& epd, const puzzle::Puzzle& puzzle) {
  if (puzzle.avoided) {
    epd.add_moves("am", std::span(&puzzle.avoided, 1));
    epd.add_line("pv", joined(puzzle.avoided, puzzle.line));
    epd.add_text("c6", "why not " + numbered(puzzle.before, puzzle.avoided) + "?");
    return;
  }
  epd.add_moves("bm", std::span(puzzle.line).first(1));
  epd.add_line("pv", puzzle.line);
  if (puzzle.mate_moves > 0) epd.add_number("dm", puzzle.mate_moves);
}

pgn::Epd epd_of(const puzzle::Puzzle& puzzle) {
  pgn::Epd epd;
  epd.position = shown_position(puzzle);
  add_moves(epd, puzzle);
  epd.add_text("id", id_of(puzzle));
  epd.add_text("c0", epd_string(puzzle.game_label));
  epd.add_text("c1", base::join(themes_of(puzzle), ", "));
  epd.add_text("c2", std::to_string(puzzle.difficulty));
  epd.add_text("c3", tries_text(puzzle));
  epd.add_text("c4", rates_text("find", puzzle.find_rates));
  const std::size_t asked = asked_of(puzzle).size();
  if (asked < puzzle.line.size()) epd.add_text("c5", std::to_string(asked));
  if (asked > 1) epd.add_text("c7", rates_text("solve", puzzle.solve_rates));
  epd.add_number("hmvc", epd.position.halfmove_clock());
  epd.add_number("fmvn", epd.position.fullmove_number());
  return epd;
}

base::Status write_lines(const std::vector<puzzle::Puzzle>& puzzles, base::ByteSink& sink) {
  for (const puzzle::Puzzle& puzzle : puzzles) {
    if (puzzle.line.empty()) continue;
    if (base::Status status = sink.write(pgn::to_epd(epd_of(puzzle)) + "\n"); !status) {
      return status;
    }
  }
  return base::done();
}

}  // namespace

base::Status write_epd(const Collection& collection, base::ByteSink& sink) {
  return write_lines(collection.puzzles(), sink);
}

base::Status write_why_nots(const Collection& collection, base::ByteSink& sink) {
  return write_lines(collection.why_nots(), sink);
}

base::Status write_fen(const Collection& collection, base::ByteSink& sink) {
  for (const puzzle::Puzzle& puzzle : collection.puzzles()) {
    if (base::Status status = sink.write(rules::to_fen(puzzle.position) + "\n"); !status) {
      return status;
    }
  }
  return base::done();
}

}  // namespace kairos::report
