// From one game to the next, and its tags: leniencies 1, 5 to 7, 10 to 12, 26, 27 and 35.
#include <utility>

#include "kairos/base/text.hpp"

#include "oracles/pgn_naive_game_reader.hpp"

namespace kairos::oracles {

namespace {

using base::Code;
using pgn::GameResult;
using pgn::TokenKind;
using Tags = std::vector<std::pair<std::string, std::string>>;

const std::string* value_of(const Tags& tags, const std::string& name) {
  for (const auto& [n, value] : tags) {
    if (n == name) return &value;
  }
  return nullptr;
}

}  // namespace

void GameReader::tell(Code code, std::size_t line, std::size_t column, std::size_t game) {
  base::Fault fault{code, "", {"", line, column, game}};
  if (in_game_ && told_++ >= limits_.faults) {
    untold_ = std::move(fault);
    return;
  }
  reading_.faults.push_back(std::move(fault));
}

// Text that belongs to no game, told once when the next game begins (leniency 7).
void GameReader::stray() {
  if (!stray_) stray_ = comments_.empty() ? token_ : comments_.front();
  comments_.clear();
}

void GameReader::tell_stray() {
  if (stray_) tell(Code::stray_text, *stray_);
  stray_.reset();
}

// Whether a move follows the number here, with nothing but numbers on the same line between; if
// not, passes over the line.
bool GameReader::begins_with_number() {
  NaiveToken next = file_.token(token_.end);
  while ((next.kind == TokenKind::filler || next.kind == TokenKind::number) &&
         next.line == token_.line) {
    next = file_.token(next.end);
  }
  if (next.kind == TokenKind::move) return true;
  if (next.kind == TokenKind::unknown && may_be_meant(next.text)) return true;
  stray();
  stray_number_ = true;
  const bool same_line = next.line == token_.line, is_comment = next.kind == TokenKind::comment;
  if (same_line && is_comment) open_difference("comment behind a stray number");
  if (!same_line || is_comment) token_ = next;
  if (same_line) skip_line();
  return false;
}

void GameReader::between_games() {
  switch (token_.kind) {
    case TokenKind::tag:
      if (!comments_.empty()) stray();
      return begin_game(token_);
    case TokenKind::comment:
      token_.text = comment_text();
      if (!stray_) comments_.push_back(token_);
      advance();
      return;
    case TokenKind::number:
      if (is_spaced_result()) open_difference("spaced result where a number may begin a game");
      if (is_spaced_result() || begins_with_number()) begin_game(token_);
      return;
    case TokenKind::move:
    case TokenKind::result:
      return begin_game(token_);
    case TokenKind::filler:
      if (token_.text != ">") break;
      advance();
      return;
    default:
      break;
  }
  stray();
  skip_line();
}

void GameReader::begin_game(NaiveToken first) {
  tell_stray();
  if (!comments_.empty()) first = comments_.front();
  NaiveGame next;
  next.moves.emplace_back();
  next.line = first.line;
  next.column = first.column;
  reading_.games.push_back(std::move(next));
  in_game_ = true;
  told_ = number_ = 0;
  untold_.reset();
  lines_.assign(1, Line{});
  result_.reset();
  varied_ = spaced_ = ended_ = begun_ = result_closed_ = number_seen_ = text_seen_ =
      repeated_told_ = too_long_told_ = false;
  again_.clear();
  for (const NaiveToken& comment : std::exchange(comments_, {})) take_comment(comment.text);
}

void GameReader::tell_repeated(const NaiveToken& tag) {
  if (!repeated_told_) tell(Code::tag_repeated, tag);
  repeated_told_ = true;
}

// Leniencies 10 and 11.
GameReader::Took GameReader::take_tag() {
  if (begun_ || result_) return Took::game_ends;
  const std::string name = base::to_utf8(token_.name);
  std::string value = resolved(token_.text);
  const bool known = value_of(again_.empty() ? game().tags : again_, name) != nullptr;
  const std::size_t size = again_.empty() ? game().tags.size() : again_.size();
  const bool section = known && (token_.after_empty_line || (name == "Event" && size > 1));
  if (section && text_seen_) return Took::game_ends;
  again_damaged_ =
      (again_damaged_ && !section) || token_.damaged || value.size() > limits_.tag_bytes;
  if (token_.damaged) tell(Code::tag_damaged);
  if (value_of(game().tags, name) == nullptr && game().tags.size() >= limits_.tags) {
    if (!too_long_told_) tell(Code::game_too_long);
    too_long_told_ = true;
    advance();
    return Took::on;
  }
  if (token_.cut || value.size() > limits_.tag_bytes) {
    cut_text(value, limits_.tag_bytes);
    tell(Code::tag_cut);
  }
  if (section && !again_.empty()) open_difference("three tag sections");
  if (section) {
    first_tags_ = game().tags.size();
    again_.clear();
    again_at_ = token_;
    add_again(name, value);
  } else if (known) {
    tell_repeated(token_);
  } else if (!again_.empty()) {
    add_again(name, value);
  } else {
    game().tags.emplace_back(name, value);
  }
  advance();
  return Took::on;
}

// A tag of a section that comes again: with another value it is the next game's.
void GameReader::add_again(const std::string& name, const std::string& value) {
  again_.emplace_back(name, value);
  const std::string* const before = value_of(game().tags, name);
  if (before == nullptr) {
    game().tags.emplace_back(name, value);
  } else if (*before != value) {
    const Tags again = again_;
    if (again_damaged_) open_difference("damaged tags of the next game");
    game().tags.resize(first_tags_);
    again_.clear();
    finish();
    begin_game(again_at_);
    game().tags = again;
  }
}

void GameReader::finish() {
  if (in_variation()) tell(Code::variation_unclosed);
  if (in_variation() && result_closed_ && !result_) open_difference("result of a closed variation");
  for (const Line& line : lines_) {
    if (!line.comments.empty()) open_difference("comments of a variation without moves and end");
  }
  for (; in_variation(); close()) {
    if (!result_) result_ = lines_.back().result;
  }
  if (!again_.empty()) tell_repeated(again_at_);
  finish_result();
  if (untold_) {
    reading_.faults.push_back(
        {untold_->code, "", {"", game().line, game().column, reading_.games.size()}});
  }
  in_game_ = false;
}

// Leniencies 26, 27 and 35.
void GameReader::finish_result() {
  const std::string* const found = value_of(game().tags, "Result");
  const std::string tag = found == nullptr ? "" : *found;
  const bool both_lost = tag == "0-0";
  game().result = result_ ? *result_ : tag_result(tag, GameResult::unknown);
  if (both_lost && game().result == GameResult::unknown) {
    const NaiveMove& last = game().moves.back();
    const bool is_result = !result_ && last.text == "0-0" &&
                           game().moves.size() - 1 == lines_[0].last && last.comments.empty() &&
                           last.nags.empty() && game().moves[last.parent].children.size() == 1;
    if (is_result) {
      game().moves[last.parent].children.clear();
      game().moves.pop_back();
    }
    tell_game(Code::result_both_lost);
  } else if (!result_) {
    tell_game(Code::result_missing);
  } else if (both_lost || tag_result(tag, *result_) != *result_) {
    tell_game(Code::result_differs);
  }
}

NaiveReading GameReader::all() {
  while (token_.kind != TokenKind::end) {
    between_games();
    if (!in_game_) continue;
    while (take() == Took::on) {
    }
    finish();
  }
  if (!comments_.empty()) stray();
  tell_stray();
  return std::move(reading_);
}

NaiveReading naive_games(std::string_view file, const pgn::ReaderLimits& limits) {
  return GameReader(file, limits).all();
}

}  // namespace kairos::oracles
