#include "kairos/report/conversation.hpp"

#include <algorithm>

#include "kairos/report/plain.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"

#include "phrases.hpp"

namespace kairos::report {

namespace {

using audience::Question;
using audience::Response;
using study::Moment;

constexpr std::size_t explained_plies = 24;  // of a line

void add(Rows& rows, const Rows& more) {
  rows.insert(rows.end(), more.begin(), more.end());
}

bool is_about_moves(const Response& response) {
  return response.question.kind == Question::Kind::moves;
}

std::string words_of(const Response& response, const Moment& m) {
  return is_about_moves(response) ? asked_words(m) : best_words(m);
}

// "  -6.74  29... Qb2 30. Qe1 Qxc3 ...", most half-moves of it.
Rows line_rows(const Moment& m, std::size_t most, std::size_t width) {
  Rows rows;
  for (const ShownLine& line : shown_lines(alone(m))) {
    add(rows,
        wrapped(numbered_line(m.position, line.moves, most), width, "  " + line.score + "  "));
  }
  return rows;
}

std::string ranked_words(const rules::Position& p, const study::Weighed& w) {
  return numbered(p, w.move) + " " + verdict_words(p, w) + " (" +
         score_text(from_white(w.score, p.side_to_move())) + ", " + percent(w.expectation) +
         " for " + side_words(p.side_to_move()) + ")";
}

}  // namespace

Rows answer_rows(const Response& response, std::size_t width) {
  Rows rows;
  for (const study::Weighed& w : response.ranked) {
    add(rows, wrapped(ranked_words(response.question.position, w), width));
  }
  for (const Moment& m : response.moments) {
    add(rows, wrapped(words_of(response, m), width));
    add(rows, line_rows(m, shown_plies, width));
  }
  return rows;
}

Rows explained_rows(const Response& response, std::size_t width) {
  Rows rows;
  for (const Moment& m : response.moments) {
    const std::size_t before = rows.size();
    std::vector<rules::Move> shown;
    for (const study::Reason& reason : m.reasons) {
      const rules::Position p = study::position_of(m, reason.role);
      const std::string effect = effect_words(reason);
      if (effect.empty()) continue;
      add(rows, wrapped(numbered(p, reason.move) + " " + effect + ".", width));
      const bool shows = reason.line.size() > 1 && reason.line != shown;
      shown = reason.line;
      if (shows) add(rows, wrapped(numbered_line(p, reason.line, explained_plies), width, "  "));
    }
    if (rows.size() == before) {
      add(rows, wrapped("Nothing is forced here: best play shows it.", width));
    }
    add(rows, wrapped("Best play, by White's score:", width));
    add(rows, line_rows(m, explained_plies, width));
  }
  return rows;
}

std::string changed_words(const Response& response) {
  std::string text;
  for (const Moment& m : response.moments)
    text += (text.empty() ? "" : " ") + words_of(response, m);
  return text;
}

// Brackets take the place of the blanks beside a man.
Rows board_rows(const rules::Position& position, rules::Color view,
                const std::vector<rules::Square>& changed) {
  constexpr std::size_t first_row = 1, first_column = 5;
  Rows rows = board_rows(position, view);
  for (const rules::Square square : changed) {
    const int file = rules::file_of(square), rank = rules::rank_of(square);
    const auto x = static_cast<std::size_t>(view == rules::white ? file : 7 - file);
    const auto y = static_cast<std::size_t>(view == rules::white ? 7 - rank : rank);
    std::string& row = rows[first_row + y];
    row[first_column + 2 * x] = row[first_column + 2 * x] == ')' ? '|' : '(';
    row[first_column + 2 * x + 2] = row[first_column + 2 * x + 2] == '(' ? '|' : ')';
  }
  return rows;
}

namespace {

base::Json line_json(const rules::Position& p, const std::vector<rules::Move>& line) {
  base::Json list = base::Json::array();
  for (const std::string& san : rules::to_san(p, line)) list.push(san);
  return list;
}

base::Json reasons_json(const Moment& m) {
  base::Json list = base::Json::array();
  for (const study::Reason& reason : m.reasons) {
    const std::string effect = effect_words(reason);
    if (effect.empty()) continue;
    const rules::Position p = study::position_of(m, reason.role);
    base::Json object = base::Json::object();
    object.add("kind", study::name_of(reason.kind)).add("role", study::name_of(reason.role));
    object.add("move", plain_san(p, reason.move)).add("words", effect);
    object.add("line", line_json(p, reason.line));
    list.push(std::move(object));
  }
  return list;
}

base::Json moment_json(const Response& response, const Moment& m) {
  const bool good = m.kind != study::Kind::swing;
  const search::Score score = good ? m.best_score : m.played_score;
  const rules::Color side = m.position.side_to_move();
  base::Json object = base::Json::object(), lines = base::Json::array();
  for (const ShownLine& line : shown_lines(alone(m))) {
    base::Json shown = base::Json::object();
    shown.add("score", line.score).add("line", line_json(m.position, line.moves));
    lines.push(std::move(shown));
  }
  object.add("move", plain_san(m.position, good ? m.best : m.played));
  object.add("words", words_of(response, m)).add("good", good);
  object.add("expectation", study::expectation(score)).add("cost", good ? 0.0 : m.cost());
  object.add("score", score_text(from_white(score, side)));
  object.add("best", plain_san(m.position, m.best)).add("lines", std::move(lines));
  object.add("reasons", reasons_json(m));
  return object;
}

}  // namespace

void add_answer(base::Json& object, const Response& response) {
  const rules::Position& p = response.question.position;
  base::Json moves = base::Json::array();
  for (const Moment& m : response.moments) moves.push(moment_json(response, m));
  for (const study::Weighed& w : response.ranked) {
    base::Json ranked = base::Json::object();
    ranked.add("move", plain_san(p, w.move))
        .add("words", verdict_words(p, w))
        .add("good", w.is_good);
    ranked.add("expectation", w.expectation).add("cost", w.cost);
    ranked.add("score", score_text(from_white(w.score, p.side_to_move())));
    moves.push(std::move(ranked));
  }
  object.add("position", rules::to_fen(p)).add("moves", std::move(moves));
}

}  // namespace kairos::report
