// The reader: tokens to games.
//
// A small state machine, one token at a time, that never looks back. Between games only a tag, a
// move (with or without its number), or a result begins a game; any other line is stray text. A
// game ends where its result is followed by something that cannot belong to it, or, when the result
// is missing, at the next tag. Two questions need care and are told at their functions: a tag
// section that repeats tags (one game or two?) and what may follow a result.
#include "kairos/pgn/reader.hpp"

#include <algorithm>
#include <array>
#include <cstring>
#include <utility>

#include "kairos/base/text.hpp"
#include "kairos/pgn/tokens.hpp"

#include "game_builder.hpp"
#include "tag_section.hpp"
#include "text.hpp"

namespace kairos::pgn {

using base::Code;

namespace {

// A move number as written: kept for each move, and looked at behind a result only.
class MoveNumber {
 public:
  MoveNumber() = default;
  // Eight bytes from the first digit on must be readable.
  explicit MoveNumber(std::string_view digits) : size_(std::min(digits.size(), digits_.size())) {
    std::memcpy(digits_.data(), digits.data(), digits_.size());
  }
  [[nodiscard]] std::uint64_t value() const {
    std::uint64_t value = 0;
    for (std::size_t i = 0; i < size_; ++i) {
      value = value * 10 + static_cast<unsigned>(digits_[i] - '0');
    }
    return value;
  }

 private:
  std::array<char, 8> digits_{};
  std::size_t size_ = 0;
};

}  // namespace

class Reader::Implementation {
 public:
  Implementation(base::ByteSource& source, std::string name, base::Diagnostics& diagnostics,
                 ReaderLimits limits)
      : tokens_(source), name_(std::move(name)), diagnostics_(diagnostics), limits_(limits) {}

  bool next(Game& into);

  [[nodiscard]] std::uint64_t games() const { return games_; }
  [[nodiscard]] std::uint64_t bytes() const { return tokens_.bytes(); }
  [[nodiscard]] const std::optional<base::Fault>& failure() const { return failure_; }

 private:
  // What has been seen of the game so far.
  struct Progress {
    bool in_tags = true;        // no movetext yet
    bool after_result = false;  // nothing but a result and its comments behind the moves
    bool full = false;          // over a limit, its moves are passed over
    bool inner_result_last = false;
    std::optional<GameResult> result;
    std::optional<GameResult> inner_result;  // of a variation, or of the game if ) is missing
    std::size_t too_deep = 0;
    std::size_t comment_bytes = 0;
    std::size_t faults = 0;
    Code last_fault = Code::token_unknown;
  };

  void advance() { token_ = &tokens_.next(); }
  [[nodiscard]] Spot spot() const { return tokens_.spot(); }

  bool find_game();
  bool number_begins_game();
  void stray();
  void tell_stray();
  void begin_game();
  [[nodiscard]] bool in_plain_movetext() const {
    return !progress_.in_tags && !progress_.after_result && !progress_.full &&
           progress_.too_deep == 0;
  }
  void plain_moves();
  bool step();
  bool tag();
  bool number();
  bool move();
  void result();
  void nag();
  void comment();
  std::string read_comment(Spot at);
  void keep_comment(std::string text, Spot at);
  void open();
  void close();
  bool unknown();
  void finish_game();
  void finish_result();
  void report(Code code, std::string_view detail, Spot at);

  TokenStream tokens_;
  std::string name_;
  base::Diagnostics& diagnostics_;
  ReaderLimits limits_;
  std::optional<base::Fault> failure_;

  const Token* token_ = nullptr;  // the first token that is not used up
  std::uint64_t games_ = 0;
  Game* game_ = nullptr;
  GameBuilder builder_;
  TagSection tags_;
  Progress progress_;
  MoveNumber last_number_;
  Spot game_spot_;
  std::vector<std::pair<std::string, Spot>> lead_;  // comments in front of a game without tags
  std::string stray_text_;
  Spot stray_spot_;
  std::string raw_comment_;
};

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
  bool found = false;
  for (bool looking = true; looking;) {
    game_spot_ = spot();
    switch (token_->kind) {
      case TokenKind::end:
        looking = false;
        break;
      case TokenKind::tag:
      case TokenKind::move:
      case TokenKind::result:
        found = true;
        looking = false;
        break;
      case TokenKind::number:
        found = number_begins_game();
        looking = !found;
        break;
      case TokenKind::comment:
        lead_.emplace_back(read_comment(game_spot_), game_spot_);
        if (lead_.size() > 8) lead_.clear();
        break;
      default:
        stray();
        break;
    }
  }
  if (found && token_->kind != TokenKind::tag && stray_text_.empty()) {
    if (!lead_.empty()) game_spot_ = lead_.front().second;
  } else if (!lead_.empty()) {
    if (stray_text_.empty()) {
      stray_text_ = lead_.front().first;
      stray_spot_ = lead_.front().second;
    }
    lead_.clear();
  }
  tell_stray();
  return found;
}

// A number between games: with a move behind it a game begins, else the line is stray text.
bool Reader::Implementation::number_begins_game() {
  const std::string written(token_->text);
  do {
    last_number_ = MoveNumber(token_->text);
    advance();
  } while (token_->kind == TokenKind::number && spot().line == game_spot_.line);
  if (token_->kind == TokenKind::move) return true;
  if (stray_text_.empty()) {
    stray_text_ = written;
    stray_spot_ = game_spot_;
  }
  if (token_->kind == TokenKind::unknown || spot().line == game_spot_.line) {
    if (token_->kind != TokenKind::tag && token_->kind != TokenKind::end) stray();
  }
  return false;
}

// Passes over the line; only the first of several is told.
void Reader::Implementation::stray() {
  if (stray_text_.empty()) {
    stray_spot_ = spot();
    stray_text_ = token_->text.substr(0, 64);
    stray_text_ += tokens_.rest_of_line();
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
  builder_.start(*game_);
  game_->start = rules::Position::start();
  game_->result = GameResult::unknown;
  tags_.start(game_->tags, limits_.tags);
  if (const auto carried = tags_.take_carried_place()) game_spot_ = *carried;
  game_->place.file = name_;
  game_->place.line = game_spot_.line;
  game_->place.column = game_spot_.column;
  game_->place.game = games_;
  for (auto& [text, at] : lead_) keep_comment(std::move(text), at);
  lead_.clear();
}

// Nothing but what `step` would do with moves, and with numbers other than 1, one after the other.
void Reader::Implementation::plain_moves() {
  const bool in_main_line = builder_.depth() == 0;
  for (;; advance()) {
    if (token_->kind == TokenKind::move) {
      if (game_->nodes.size() > limits_.nodes) return;
      builder_.move(token_->text, spot());
      progress_.inner_result_last = false;
    } else if (token_->kind == TokenKind::number && token_->text != "1") {
      if (in_main_line) last_number_ = MoveNumber(token_->text);
    } else {
      return;
    }
  }
}

// Uses up the present token; false when it belongs to no game or to the next one.
bool Reader::Implementation::step() {
  switch (token_->kind) {
    case TokenKind::end:
      return false;
    case TokenKind::tag:
      return tag();
    case TokenKind::number:
      return number();
    case TokenKind::move:
      return move();
    case TokenKind::result:
      result();
      break;
    case TokenKind::nag:
    case TokenKind::mark:
      nag();
      break;
    case TokenKind::comment:
      comment();
      return true;
    case TokenKind::open:
      open();
      break;
    case TokenKind::close:
      close();
      break;
    case TokenKind::filler:
      break;
    case TokenKind::unknown:
      return unknown();
  }
  advance();
  return true;
}

bool Reader::Implementation::tag() {
  if (!progress_.in_tags) return false;
  if (token_->damaged) report(Code::tag_damaged, token_->name, spot());
  switch (tags_.add(*token_, tokens_)) {
    case TagSection::Answer::next_game:
      return false;
    case TagSection::Answer::carried:  // the tags of the next game were read already, this too
      advance();
      return false;
    case TagSection::Answer::repeated:
      report(Code::tag_repeated, token_->name, spot());
      break;
    case TagSection::Answer::too_many:
      report(Code::game_too_long, "tags", spot());
      break;
    case TagSection::Answer::taken:
      break;
  }
  advance();
  return true;
}

// Numbers need no belief, positions tell what is played. Only two matter: a 1 behind an empty line
// begins a game without tags when the result of this one is missing, and behind a result a number
// that goes on counting takes the game up again.
bool Reader::Implementation::number() {
  const MoveNumber number(token_->text);
  const std::uint64_t value = number.value();
  const bool may_be_next = builder_.depth() == 0 && builder_.main_plies() != 0;
  if (value == 1 && may_be_next &&
      (progress_.after_result || (builder_.main_plies() > 1 && tokens_.after_empty_line()))) {
    return false;
  }
  if (progress_.after_result) {
    const std::uint64_t last = last_number_.value();
    if (value != last && value != last + 1) return false;
    progress_.after_result = false;
  }
  if (builder_.depth() == 0) last_number_ = number;
  advance();
  return true;
}

bool Reader::Implementation::move() {
  if (progress_.after_result) return false;
  progress_.in_tags = false;
  progress_.inner_result_last = false;
  if (game_->nodes.size() > limits_.nodes) {
    if (!std::exchange(progress_.full, true)) report(Code::game_too_long, token_->text, spot());
  } else if (progress_.too_deep == 0) {
    builder_.move(token_->text, spot());
  }
  advance();
  return true;
}

void Reader::Implementation::result() {
  const auto value = static_cast<GameResult>(token_->value);
  progress_.in_tags = false;
  if (builder_.depth() != 0) {
    progress_.inner_result = value;
    progress_.inner_result_last = true;
    return;
  }
  if (progress_.result && *progress_.result != value) {
    report(Code::result_differs, token_->text, spot());
  }
  progress_.result = value;
  progress_.after_result = true;
}

void Reader::Implementation::nag() {
  if (token_->damaged) {
    report(Code::nag_unknown, token_->text, spot());
    return;
  }
  if (progress_.full || progress_.too_deep != 0) return;
  if (++progress_.comment_bytes <= limits_.game_comment_bytes) builder_.nag(token_->value);
}

void Reader::Implementation::comment() {
  const Spot at = spot();
  std::string text = read_comment(at);
  keep_comment(std::move(text), at);
}

// Puts the pieces of a comment together and stands on the token behind it.
std::string Reader::Implementation::read_comment(Spot at) {
  raw_comment_.clear();
  bool more = true;
  while (more && token_->kind == TokenKind::comment) {
    if (raw_comment_.size() <= limits_.comment_bytes) raw_comment_.append(token_->text);
    if (token_->damaged) report(Code::comment_unclosed, {}, at);
    more = token_->partial;
    advance();
  }
  if (raw_comment_.size() > limits_.comment_bytes) report(Code::comment_cut, {}, at);
  return clean_comment(cut_text(raw_comment_, limits_.comment_bytes));
}

void Reader::Implementation::keep_comment(std::string text, Spot at) {
  constexpr std::size_t overhead = 64;  // what a short comment costs beside its bytes
  if (text.empty() || progress_.full || progress_.too_deep != 0) return;
  progress_.comment_bytes += text.size() + overhead;
  if (progress_.comment_bytes > limits_.game_comment_bytes) {
    report(Code::comment_cut, "too many comments in one game", at);
  } else {
    builder_.comment(std::move(text));
  }
}

void Reader::Implementation::open() {
  progress_.in_tags = false;
  progress_.after_result = false;
  if (progress_.too_deep != 0 || builder_.depth() >= limits_.depth) {
    if (progress_.too_deep++ == 0) report(Code::game_too_long, "variations too deep", spot());
  } else {
    builder_.open();
  }
}

void Reader::Implementation::close() {
  if (progress_.too_deep != 0) {
    --progress_.too_deep;
  } else if (!builder_.close()) {
    report(Code::variation_stray_close, {}, spot());
  }
}

// In front of the moves a whole line is stray, among them only the one token.
bool Reader::Implementation::unknown() {
  if (progress_.after_result) return false;
  report(Code::token_unknown, token_->text, spot());
  if (progress_.in_tags) tokens_.skip_line();
  advance();
  return true;
}

void Reader::Implementation::finish_game() {
  if (builder_.depth() + progress_.too_deep != 0) {
    report(Code::variation_unclosed, {}, spot());
    if (!progress_.result && progress_.inner_result_last) progress_.result = progress_.inner_result;
  }
  if (const auto repeated = tags_.finish()) report(Code::tag_repeated, "all", *repeated);
  builder_.finish();
  finish_result();
  if (progress_.faults > limits_.faults) {
    const auto more = static_cast<std::int64_t>(progress_.faults - limits_.faults);
    diagnostics_.report({progress_.last_fault,
                         base::number(more) + " more faults in this game",
                         {name_, game_spot_.line, game_spot_.column, games_}});
  }
}

void Reader::Implementation::finish_result() {
  const std::string_view tag = game_->tag("Result");
  std::optional<GameResult> tagged;
  for (const auto r :
       {GameResult::unknown, GameResult::white_wins, GameResult::black_wins, GameResult::draw}) {
    if (tag == to_string(r)) tagged = r;
  }
  if (tag == "1/2") tagged = GameResult::draw;
  if (!progress_.result) report(Code::result_missing, {}, game_spot_);
  if (progress_.result && tagged && *progress_.result != *tagged) {
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
