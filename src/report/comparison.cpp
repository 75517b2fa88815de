#include "kairos/report/comparison.hpp"

#include "kairos/base/json.hpp"
#include "kairos/report/plain.hpp"
#include "kairos/report/text_layout.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"

namespace kairos::report {

namespace {

using audience::CalledMove;
using audience::Comparison;

constexpr std::size_t shown_plies = 10;

// "+1.20, 76 % for White": the score is White's, the expectation the mover's.
std::string worth(const rules::Position& p, const study::Weighed& w) {
  const rules::Color side = p.side_to_move();
  return score_text(from_white(w.score, side)) + ", " + percent(w.expectation) + " for " +
         side_words(side);
}

std::string told(const rules::Position& p, const study::Weighed& w, bool with_line) {
  std::string text = numbered(p, w.move) + " " + verdict_words(p, w) + " (" + worth(p, w) + ")\n";
  if (with_line) text += "    " + numbered_line(p, w.line, shown_plies) + "\n";
  return text;
}

base::Json json_of(const rules::Position& p, const study::Weighed& w, std::optional<double> share) {
  base::Json line = base::Json::array();
  for (const std::string& san : rules::to_san(p, w.line)) line.push(san);
  base::Json object = base::Json::object();
  object.add("move", rules::to_san(p, w.move));
  object.add("verdict", verdict_words(p, w)).add("good", w.is_good);
  object.add("expectation", w.expectation).add("cost", w.cost);
  object.add("score", score_text(from_white(w.score, p.side_to_move())));
  object.add("line", std::move(line));
  if (share) object.add("share", *share);
  return object;
}

}  // namespace

std::string refusal_words(const rules::Position& p, const CalledMove& called) {
  return std::string(base::words(called.problem)) + ": " + called.why +
         (called.is_of_the_other ? " (" + side_words(p.side_to_move()) + " is to move)" : "");
}

std::string comparison_text(const Comparison& comparison, bool with_board) {
  const rules::Position& p = comparison.position;
  std::string text;
  if (with_board) {
    for (const std::string& row : board_rows(p, p.side_to_move())) text += row + "\n";
    text += "\n";
  }
  if (comparison.called.empty()) {
    for (const study::Weighed& w : comparison.weighed) text += told(p, w, false);
    return text;
  }
  auto next = comparison.weighed.begin();
  bool best_called = false;
  for (const CalledMove& called : comparison.called) {
    best_called = best_called || called.move == comparison.best.move;
    text +=
        called.move ? told(p, *next++, true) : called.text + ": " + refusal_words(p, called) + "\n";
  }
  if (!best_called) text += "best: " + told(p, comparison.best, true);
  return text;
}

std::string comparison_json(const Comparison& comparison) {
  const rules::Position& p = comparison.position;
  base::Json moves = base::Json::array(), refused = base::Json::array();
  const auto& level = comparison.level;
  for (std::size_t i = 0; i < comparison.weighed.size(); ++i) {
    std::optional<double> share;
    if (level) share = level->shares[i];
    moves.push(json_of(p, comparison.weighed[i], share));
  }
  for (const CalledMove& called : comparison.called) {
    if (called.move) continue;
    base::Json object = base::Json::object();
    object.add("text", called.text).add("why", refusal_words(p, called));
    refused.push(std::move(object));
  }
  base::Json object = base::Json::object();
  std::optional<double> share_of_best;
  if (level) share_of_best = level->share_of_best;
  object.add("version", 1).add("fen", rules::to_fen(p));
  object.add("best", json_of(p, comparison.best, share_of_best));
  object.add("moves", std::move(moves)).add("refused", std::move(refused));
  if (level) object.add("level", level->rating).add("extrapolated", level->extrapolated);
  return base::to_json(object) + "\n";
}

}  // namespace kairos::report
