// Games out of tokens: leniencies 1, 5 to 7, 10 to 12, 15, 18 and 21 to 35.
#include <algorithm>
#include <optional>
#include <utility>

#include "kairos/base/text.hpp"

#include "oracles/pgn_naive.hpp"
#include "oracles/pgn_naive_text.hpp"

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

class GameReader {
 public:
  GameReader(Text file, const pgn::ReaderLimits& limits)
      : file_(file), limits_(limits), token_(file_.token(0)) {}
  NaiveReading all();

 private:
  // A line of moves: the main line or a variation.
  struct Line {
    std::size_t last = 0;  // what the next move follows
    bool has_moves = false;
    std::vector<std::string> comments;  // before the first move
    std::vector<int> nags;
    std::optional<GameResult> result;  // behind its last move
  };
  enum class Took { on, game_ends };

  void advance() { token_ = file_.token(token_.end); }
  void skip_line() { token_ = file_.token(file_.pass_line(token_.end)); }
  NaiveGame& game() { return reading_.games.back(); }
  [[nodiscard]] bool in_variation() const { return lines_.size() > 1; }
  void open_difference(Text what) { reading_.open = what; }
  void tell(Code code, std::size_t line, std::size_t column, std::size_t game);
  void tell(Code code, const NaiveToken& at) {
    tell(code, at.line, at.column, in_game_ ? reading_.games.size() : 0);
  }
  void tell(Code code) { tell(code, token_); }
  void tell_game(Code code) { tell(code, game().line, game().column, reading_.games.size()); }

  void between_games();
  void stray();
  void tell_stray();
  bool begins_with_number();
  void begin_game(NaiveToken first);
  Took take();
  Took take_tag();
  void add_again(const std::string& name, const std::string& value);
  void tell_repeated(const NaiveToken& tag);
  Took take_number();
  Took take_result();
  Took take_unknown();
  [[nodiscard]] bool is_spaced_result() const;
  void take_move();
  std::string comment_text();
  void take_comment(std::string text);
  void take_nag();
  void open();
  void close();
  void finish();
  void finish_result();

  NaiveFile file_;
  pgn::ReaderLimits limits_;
  NaiveToken token_;
  NaiveReading reading_;
  // Between games.
  std::optional<NaiveToken> stray_;  // the first token that belongs to no game
  bool stray_number_ = false;
  std::vector<NaiveToken> comments_;  // that may belong to the next game
  // Of the game being read.
  bool in_game_ = false;
  std::size_t told_ = 0;
  std::optional<base::Fault> untold_;
  std::vector<Line> lines_;
  std::optional<GameResult> result_;
  bool varied_ = false;     // a variation behind the result
  bool ended_ = false;      // by a result that no move number took back
  std::size_t number_ = 0;  // of the last move of the main line
  bool begun_ = false;      // moves or variations
  bool number_seen_ = false;
  bool text_seen_ = false;  // that is no part of the game
  bool repeated_told_ = false;
  bool too_long_told_ = false;
  bool result_closed_ = false;  // the last thing was a result in a variation that is closed
  std::size_t long_end_ = 0;    // of an unknown token as long as tokens can be
  bool again_damaged_ = false;
  Tags again_;  // a tag section that may be the first one again
  NaiveToken again_at_;
  std::size_t first_tags_ = 0;  // how many tags stand before it
};

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
  varied_ = ended_ = begun_ = result_closed_ = number_seen_ = text_seen_ = repeated_told_ =
      too_long_told_ = false;
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
    advance();
    return Took::on;
  }
  std::size_t value = 0;
  for (const char c : token_.text) {
    value = std::min<std::size_t>(value * 10 + static_cast<std::size_t>(c - '0'), 1'000'000'000);
  }
  if (!in_variation() && ended_) {
    if (stray_number_ && !number_seen_) open_difference("number of a stray line");
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

}  // namespace

NaiveReading naive_games(std::string_view file, const pgn::ReaderLimits& limits) {
  return GameReader(file, limits).all();
}

}  // namespace kairos::oracles
