// The reader: tokens to games.
//
// A small state machine, one token at a time, that never looks back. Between games only a tag, a
// move (with or without its number), or a result begins a game; any other line is stray text. A
// game ends where its result is followed by something that cannot belong to it, or, when the result
// is missing, at the next tag. Two questions need care and are told at their functions: a tag
// section that repeats tags (one game or two?) and what may follow a result. Numbers in brackets
// are those of the leniencies in the header.
#include "kairos/pgn/reader.hpp"

#include "kairos/base/text.hpp"

#include "reader_implementation.hpp"
#include "symbols.hpp"
#include "text.hpp"

namespace kairos::pgn {

using base::Code;

bool Reader::Implementation::next(Game& into) {
  game_ = &into;
  last_number_ = {};
  if (token_ == nullptr) advance();
  const bool found = tags_.has_carried() || find_game();
  if (found) {
    begin_game();
    do {
      if (in_plain_movetext()) plain_moves();
    } while (step());
    finish_game();
  }
  if (token_->kind == TokenKind::end && tokens_.failure() && !failure_) {
    failure_ = tokens_.failure();
    if (failure_->place.file.empty()) failure_->place.file = name_;
    if (failure_->place.line == 0) failure_->place.line = spot().line;
    failure_->place.game = games_;
  }
  return found;
}

// Stands on the first token of a game afterwards; false at the end of the input.
bool Reader::Implementation::find_game() {
  for (;;) {
    game_spot_ = spot();
    switch (token_->kind) {
      case TokenKind::end:
        lead_is_stray();
        tell_stray();
        return false;
      case TokenKind::tag:
        lead_is_stray();
        tell_stray();
        return true;
      case TokenKind::move:
      case TokenKind::result:
        return game_without_tags();
      case TokenKind::number:
        if (number_begins_game()) return game_without_tags();
        break;
      case TokenKind::comment:
        lead();
        break;
      case TokenKind::filler:
        if (token_->text.empty() || token_->text == ">") {
          advance();
        } else {
          stray();
        }
        break;
      default:
        stray();
        break;
    }
  }
}

// A comment between games belongs to the game behind it when that has no tags (12), else to none.
void Reader::Implementation::lead() {
  constexpr std::size_t enough = 8;
  const Spot at = spot();
  std::string text = read_comment(at);
  if (lead_.size() == enough) lead_is_stray();
  if (stray_text_.empty()) {
    lead_.push_back({std::move(text), at});
  }
}

void Reader::Implementation::lead_is_stray() {
  if (!lead_.empty()) note_stray(lead_.front().text, lead_.front().at);
  lead_.clear();
}

bool Reader::Implementation::game_without_tags() {
  if (!stray_text_.empty()) lead_.clear();
  if (!lead_.empty()) game_spot_ = lead_.front().at;
  tell_stray();
  return true;
}

// A number between games: with a move behind it a game begins, else the line is stray text.
bool Reader::Implementation::number_begins_game() {
  const std::string written(token_->text);
  const auto goes_on = [this](TokenKind kind) {
    return token_->kind == kind && spot().line == game_spot_.line;
  };
  while (goes_on(TokenKind::number) || goes_on(TokenKind::filler)) {
    if (token_->kind == TokenKind::number) last_number_ = MoveNumber(token_->text);
    advance();
  }
  if (token_->kind == TokenKind::move) return true;
  if (token_->kind == TokenKind::unknown && may_be_meant_as_move(token_->text)) return true;
  lead_is_stray();
  note_stray(written, game_spot_);
  const bool same_line = spot().line == game_spot_.line;
  if (same_line && token_->kind != TokenKind::tag && token_->kind != TokenKind::end) stray();
  return false;
}

// Only the first of several lines is told.
void Reader::Implementation::note_stray(std::string_view text, Spot at) {
  if (!stray_text_.empty()) return;
  stray_text_ = text.empty() ? "{}" : text;
  stray_spot_ = at;
}

// Passes over the line (7).
void Reader::Implementation::stray() {
  lead_is_stray();
  if (stray_text_.empty()) {
    std::string text(token_->text.substr(0, 64));
    text += tokens_.rest_of_line();
    note_stray(text, spot());
  }
  tokens_.skip_line();
  advance();
}

void Reader::Implementation::tell_stray() {
  if (stray_text_.empty()) return;
  diagnostics_.report({Code::stray_text,
                       std::string(base::trim(base::to_utf8(cut_text(stray_text_, 64)))),
                       {name_, stray_spot_.line, stray_spot_.column, 0}});
  stray_text_.clear();
}

void Reader::Implementation::begin_game() {
  ++games_;
  progress_ = {};
  progress_.numbered = token_->kind == TokenKind::unknown;  // find_game stops there for this only
  builder_.start(*game_);
  game_->start = rules::Position::start();
  game_->result = GameResult::unknown;
  tags_.start(game_->tags, limits_);
  if (const auto carried = tags_.take_carried_place()) game_spot_ = *carried;
  game_->place.file = name_;
  game_->place.line = game_spot_.line;
  game_->place.column = game_spot_.column;
  game_->place.game = games_;
  for (Lead& comment : lead_) keep_comment(std::move(comment.text), comment.at);
  lead_.clear();
}

void Reader::Implementation::finish_game() {
  if (builder_.depth() + progress_.too_deep != 0) {
    report(Code::variation_unclosed, {}, spot());  // (21)
    if (!progress_.result && progress_.inner_result_last) progress_.result = progress_.inner_result;
  }
  if (const auto repeated = tags_.finish()) report(Code::tag_repeated, "all", *repeated);
  finish_result();
  builder_.finish();
  if (progress_.faults > limits_.faults) {
    const auto more = static_cast<std::int64_t>(progress_.faults - limits_.faults);
    diagnostics_.report({progress_.last_fault,
                         base::number(more) + " more faults in this game",
                         {name_, game_spot_.line, game_spot_.column, games_}});
  }
}

void Reader::Implementation::finish_result() {
  constexpr std::string_view both_lost = "0-0";
  const std::string_view tag = game_->tag("Result");
  std::optional<GameResult> tagged;
  for (const auto r :
       {GameResult::unknown, GameResult::white_wins, GameResult::black_wins, GameResult::draw}) {
    if (tag == to_string(r)) tagged = r;
  }
  if (tag == "1/2") tagged = GameResult::draw;
  if (tag == both_lost && !progress_.result) builder_.take_back(both_lost);
  if (tag == both_lost && progress_.result.value_or(GameResult::unknown) == GameResult::unknown) {
    report(Code::result_both_lost, tag, game_spot_);  // (35)
  } else if (!progress_.result) {
    report(Code::result_missing, {}, game_spot_);  // (27)
  } else if (tag == both_lost || (tagged && *progress_.result != *tagged)) {
    report(Code::result_differs, tag, game_spot_);
  }
  game_->result = progress_.result.value_or(tagged.value_or(GameResult::unknown));
}

void Reader::Implementation::report(Code code, std::string_view detail, Spot at) {
  if (++progress_.faults > limits_.faults) {
    progress_.last_fault = code;
    return;
  }
  diagnostics_.report(
      {code, base::to_utf8(cut_text(detail, 64)), {name_, at.line, at.column, games_}});
}

Reader::Reader(base::ByteSource& source, std::string name, base::Diagnostics& diagnostics,
               ReaderLimits limits)
    : implementation_(
          std::make_unique<Implementation>(source, std::move(name), diagnostics, limits)) {}

Reader::~Reader() = default;

std::optional<Game> Reader::next() {
  Game game;
  if (!next(game)) return std::nullopt;
  return game;
}

bool Reader::next(Game& into) {
  return implementation_->next(into);
}

std::uint64_t Reader::games() const {
  return implementation_->games();
}
std::uint64_t Reader::bytes() const {
  return implementation_->bytes();
}
const std::optional<base::Fault>& Reader::failure() const {
  return implementation_->failure();
}

}  // namespace kairos::pgn
