// puzzles.epd and puzzles.fen: the puzzle set for other software (PGN standard, section 16).
//
// One line a puzzle, in the order of the report. Operations of an EPD line:
//   bm    the key (the only right move)            pv    the whole solution, first the key
//   dm    full moves to mate, only when proved     id    stable name, "g12-m23w"
//   c0    the game it comes from                   c1    themes, comma between them
//   c2    difficulty, 1 easy .. 5 very hard        c3    tries: move and refutation, `;` between
//   hmvc, fmvn  the two counters that a FEN has and an EPD has not
// All SAN. The FEN file has full counters and nothing else.
#include "kairos/pgn/epd.hpp"

#include "kairos/base/text.hpp"
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

pgn::Epd epd_of(const puzzle::Puzzle& puzzle) {
  pgn::Epd epd;
  epd.position = puzzle.position;
  epd.add_moves("bm", std::span(puzzle.line).first(1));
  epd.add_line("pv", puzzle.line);
  if (puzzle.mate_moves > 0) epd.add_number("dm", puzzle.mate_moves);
  epd.add_text("id", id_of(puzzle));
  epd.add_text("c0", epd_string(puzzle.game_label));
  epd.add_text("c1", base::join(themes_of(puzzle), ", "));
  epd.add_text("c2", std::to_string(puzzle.difficulty));
  epd.add_text("c3", tries_text(puzzle));
  epd.add_number("hmvc", puzzle.position.halfmove_clock());
  epd.add_number("fmvn", puzzle.position.fullmove_number());
  return epd;
}

}  // namespace

base::Status write_epd(const Collection& collection, base::ByteSink& sink) {
  for (const puzzle::Puzzle& puzzle : collection.puzzles()) {
    if (puzzle.line.empty()) continue;
    if (base::Status status = sink.write(pgn::to_epd(epd_of(puzzle)) + "\n"); !status) {
      return status;
    }
  }
  return base::done();
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
