// The moves of a game, with all that stands between them: leniencies 15, 18, 21 to 26 and 28 to 34.
#include <utility>

#include "kairos/base/text.hpp"

#include "oracles/pgn_naive_game_reader.hpp"

namespace kairos::oracles {

using base::Code;
using pgn::GameResult;
using pgn::TokenKind;

GameReader::Took GameReader::take() {
  const bool over = ended_ && !in_variation();
  const bool may_begin_game = token_.kind == TokenKind::move || token_.kind == TokenKind::number ||
                              token_.kind == TokenKind::unknown;
  if (over && may_begin_game && varied_) open_difference("game behind a variation behind a result");
  switch (token_.kind) {
    case TokenKind::end:
      return Took::game_ends;
    case TokenKind::tag:
      return take_tag();
    case TokenKind::number:
      return take_number();
    case TokenKind::result:
      return take_result();
    case TokenKind::unknown:
      return over ? Took::game_ends : take_unknown();
    case TokenKind::move:
      if (over) return Took::game_ends;
      take_move();
      break;
    case TokenKind::nag:
    case TokenKind::mark:
      take_nag();
      break;
    case TokenKind::comment:
      take_comment(comment_text());
      break;
    case TokenKind::open:
      open();
      break;
    case TokenKind::close:
      close();
      break;
    case TokenKind::filler:
      break;
  }
  advance();
  return Took::on;
}

// Whether the number here is none but the front of `1 - 0` (leniency 25).
bool GameReader::is_spaced_result() const {
  const NaiveToken next = file_.token(token_.end);
  return next.kind == TokenKind::result && next.text.size() == 3 && next.begin == token_.end + 1 &&
         next.text[1] == ' ';
}

// Leniencies 26 and 28.
GameReader::Took GameReader::take_number() {
  if (is_spaced_result()) {
    const bool may_begin = ended_ || (token_.text == "1" && token_.after_empty_line);
    if (may_begin) open_difference("spaced result where a number may begin a game");
    spaced_ = true;
    advance();
    return Took::on;
  }
  std::size_t value = 0;
  for (const char c : token_.text) {
    value = std::min<std::size_t>(value * 10 + static_cast<std::size_t>(c - '0'), 1'000'000'000);
  }
  if (!in_variation() && ended_) {
    if (stray_number_ && !number_seen_) open_difference("number of a stray line");
    if (spaced_) open_difference("number behind a spaced result");
    const bool counts_on = value == number_ + 1 || value == number_;
    if (!counts_on || (value == 1 && lines_[0].has_moves)) return Took::game_ends;
  } else if (!in_variation() && token_.text == "1" && token_.after_empty_line) {
    std::size_t plies = 0;
    for (std::size_t id = lines_[0].last; id != 0; id = game().moves[id].parent) ++plies;
    if (plies >= 2) return Took::game_ends;
  }
  if (!in_variation()) {
    number_ = value;
    ended_ = false;
  }
  number_seen_ = true;
  advance();
  return Took::on;
}

GameReader::Took GameReader::take_result() {
  const auto result = static_cast<GameResult>(token_.value);
  if (in_variation()) {
    lines_.back().result = result;
  } else {
    const bool bare = game().tags.empty() && game().moves.size() == 1;
    if (ended_ && bare && token_.after_empty_line) return Took::game_ends;
    if (result_ && *result_ != result) tell(Code::result_differs);
    result_ = result;
    ended_ = true;
  }
  advance();
  return Took::on;
}

// A line of text before the moves (leniency 7), what may be meant as a move (32), or neither (31).
GameReader::Took GameReader::take_unknown() {
  const bool in_brackets = token_.text[0] == '<' && token_.text.size() > 1;
  if (!begun_ && !number_seen_ && token_.begins_line && !in_brackets) {
    tell(Code::stray_text);
    text_seen_ = true;
    skip_line();
    return Took::on;
  }
  if ((begun_ || number_seen_) && may_be_meant(token_.text)) {
    take_move();
  } else {
    // The pieces of what is too long for a token are told once.
    if (token_.begin != long_end_) tell(Code::token_unknown);
    long_end_ = token_.text.size() == pgn::TokenStream::longest_symbol ? token_.end : 0;
    text_seen_ = true;
  }
  advance();
  return Took::on;
}

void GameReader::take_move() {
  Line& line = lines_.back();
  const std::size_t id = game().moves.size();
  NaiveMove move;
  move.text = token_.text;
  move.parent = line.last;
  move.line = token_.line;
  move.column = token_.column;
  move.before = std::move(line.comments);
  move.nags = std::move(line.nags);
  line.comments.clear();
  line.nags.clear();
  std::vector<std::size_t>& siblings = game().moves[line.last].children;
  siblings.insert(in_variation() && !line.has_moves ? siblings.end() : siblings.begin(), id);
  game().moves.push_back(std::move(move));
  line.last = id;
  line.has_moves = begun_ = true;
  for (Line& open : lines_) open.result.reset();
  result_closed_ = false;
}

// The text of a comment, with what is to be told of it.
std::string GameReader::comment_text() {
  const std::size_t game = reading_.games.size();
  if (token_.damaged) tell(Code::comment_unclosed, token_.line, token_.column, game);
  // Only what is kept is asked whether it is UTF-8.
  const std::string whole = one_line(token_.text);
  std::string text = whole;
  cut_text(text, limits_.comment_bytes);
  const bool is_cut = text != whole;
  text = base::to_utf8(text);
  if (!is_cut && text.size() <= limits_.comment_bytes) return text;
  cut_text(text, limits_.comment_bytes);
  text.resize(text.find_last_not_of(' ') + 1);
  tell(Code::comment_cut, token_.line, token_.column, game);
  return text;
}

void GameReader::take_comment(std::string text) {
  if (text.empty()) return;
  Line& line = lines_.back();
  const bool waits = in_variation() && !line.has_moves;
  (waits ? line.comments : game().moves[line.last].comments).push_back(std::move(text));
}

void GameReader::take_nag() {
  if (token_.damaged) return tell(Code::nag_unknown);
  Line& line = lines_.back();
  const bool waits = in_variation() && !line.has_moves;
  (waits ? line.nags : game().moves[line.last].nags).push_back(token_.value);
}

// Section 8.2.5: a variation replaces the move before it.
void GameReader::open() {
  const Line& outer = lines_.back();
  if (!outer.nags.empty()) open_difference("NAG in front of two variations");
  varied_ = ended_;
  Line line;
  line.last = outer.has_moves ? game().moves[outer.last].parent : outer.last;
  lines_.push_back(std::move(line));
  begun_ = true;
}

// Leniency 24: the comments of a variation without moves go to the move before it.
void GameReader::close() {
  if (!in_variation()) return tell(Code::variation_stray_close);
  const std::vector<std::string> comments = std::move(lines_.back().comments);
  result_closed_ = result_closed_ || lines_.back().result;
  lines_.pop_back();
  Line& outer = lines_.back();
  const bool waits = in_variation() && !outer.has_moves;
  std::vector<std::string>& to = waits ? outer.comments : game().moves[outer.last].comments;
  to.insert(to.end(), comments.begin(), comments.end());
}

}  // namespace kairos::oracles
