#include "kairos/puzzle/suite.hpp"

#include <algorithm>

#include "kairos/base/text.hpp"
#include "kairos/pgn/epd.hpp"
#include "kairos/pgn/position_lines.hpp"
#include "kairos/rules/san.hpp"
#include "kairos/search/mate.hpp"

namespace kairos::puzzle {

namespace {

base::Result<SuitePosition> read_line(std::string_view line) {
  const auto epd = pgn::parse_epd(line);
  if (!epd) return epd.faults();
  SuitePosition asked;
  asked.id = epd->text("id");
  asked.position = epd->position;
  for (const auto& [opcode, moves] :
       {std::pair("bm", &asked.best), std::pair("am", &asked.avoid)}) {
    if (epd->find(opcode) == nullptr) continue;
    auto read = pgn::epd_moves(*epd, opcode);
    if (!read) return std::move(read).faults();
    *moves = *read;
  }
  asked.mate = static_cast<int>(base::to_integer(epd->text("dm")).value_or(0));
  if (asked.best.empty() && asked.avoid.empty() && asked.mate <= 0) {
    return base::Fault{base::Code::epd_operation, "the line has no bm, am or dm", {}};
  }
  return asked;
}

bool asks_for_mate(const SuitePosition& asked) {
  return asked.best.empty() && asked.avoid.empty();
}

// Whether a move, or for dm the score, is what the position asks for.
bool is_right(const SuitePosition& asked, rules::Move move, search::Score score) {
  const auto holds = [move](const auto& moves) {
    return std::find(moves.begin(), moves.end(), move) != moves.end();
  };
  if (!asked.best.empty() && !holds(asked.best)) return false;
  if (!asked.avoid.empty() && holds(asked.avoid)) return false;
  if (!asks_for_mate(asked)) return true;
  const int found = search::mate_moves(score);
  return found > 0 && found <= asked.mate;
}

// The last iterations that were right without a break begin at the stable solution; an answer that
// came with the last nodes, or from the mate prover, is stable at the end.
void find_stable(const SuitePosition& asked, const search::Verdict& verdict, SuiteAnswer& given) {
  given.stable_nodes = verdict.nodes;
  given.stable_depth = verdict.depth;
  const auto& history = verdict.history;
  for (auto i = history.rbegin(); i != history.rend() && is_right(asked, i->best, i->score); ++i) {
    given.stable_nodes = i->nodes;
    given.stable_depth = i->depth;
  }
}

}  // namespace

base::Result<std::vector<SuitePosition>> read_suite(const std::string& file) {
  auto lines = pgn::PositionLines::open(file, pgn::PositionLines::Use::kept);
  if (!lines) return std::move(lines).faults();
  std::vector<SuitePosition> suite;
  while (const auto line = lines->next()) {
    SuitePosition asked;
    if (auto read = lines->make(*line, read_line)) {
      asked = std::move(*read);
    } else {
      asked.fault = read.fault();
    }
    asked.line = line->number;
    suite.push_back(std::move(asked));
  }
  if (lines->failure()) return *lines->failure();
  if (suite.empty()) return base::Fault{base::Code::file_empty, "", {.file = file}};
  return suite;
}

std::string asked_text(const SuitePosition& asked) {
  std::vector<std::string> parts;
  const auto add = [&](const char* opcode, const std::vector<rules::Move>& moves) {
    if (moves.empty()) return;
    parts.emplace_back(opcode);
    for (const rules::Move move : moves) parts.push_back(rules::to_san(asked.position, move));
  };
  add("bm", asked.best);
  add("am", asked.avoid);
  if (parts.empty()) parts.push_back("dm " + base::number(asked.mate));
  return base::join(parts, " ");
}

SuiteAnswer answer_of(const SuitePosition& asked, const search::Verdict& verdict,
                      std::uint64_t nodes) {
  if (verdict.lines.empty()) return {};  // mate or stalemate
  const search::Line& best = verdict.lines.front();
  SuiteAnswer given{.played = best.moves.front(), .score = best.score, .depth = verdict.depth};
  given.solved =
      is_right(asked, given.played, given.score) ||
      (asks_for_mate(asked) && search::prove_mate(asked.position, asked.mate, nodes).has_value());
  if (given.solved) find_stable(asked, verdict, given);
  return given;
}

}  // namespace kairos::puzzle
