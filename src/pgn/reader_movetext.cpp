// One game: what each token does to it. `step` is the whole of it, one case a kind of token;
// `plain_moves` is the same for the two kinds that make up most of a file, in a loop small enough
// to be fast. Numbers in brackets are those of the leniencies in kairos/pgn/reader.hpp.
#include <bit>

#include "kairos/base/text.hpp"

#include "bits.hpp"
#include "reader_implementation.hpp"
#include "symbols.hpp"
#include "text.hpp"

namespace kairos::pgn {

using base::Code;

namespace {

// A number 1 may begin the next game, so it is looked at on its own.
void cut_before_one(TokenStream::Run& run) {
  std::uint64_t digits = run.number_begins & run.number_ends >> 1;
  while (digits != 0 && run.bytes[std::countr_zero(digits)] != '1') digits &= digits - 1;
  if (digits == 0) return;
  const std::uint64_t in_front = below_lowest(digits);
  for (std::uint64_t* const set : {&run.begins, &run.ends, &run.number_begins, &run.number_ends}) {
    *set &= in_front;
  }
}

std::string_view last_number(const TokenStream::Run& run) {
  const auto begin = static_cast<std::size_t>(std::bit_width(run.number_begins)) - 1;
  const auto end = static_cast<std::size_t>(std::bit_width(run.number_ends)) - 1;
  return {run.bytes + begin, end - begin};
}

}  // namespace

// How many moves more the main line may take, or in a variation all of them together.
std::size_t Reader::Implementation::room() const {
  const std::size_t in_main_line = builder_.main_plies();
  if (builder_.depth() == 0) return limits_.plies - in_main_line;
  return limits_.variation_plies - (game_->nodes.size() - 1 - in_main_line);
}

// Nothing but what `step` would do with moves, and with numbers other than 1, one after the other.
void Reader::Implementation::plain_moves() {
  const bool in_main_line = builder_.depth() == 0;
  const std::size_t most_nodes = game_->nodes.size() + room();
  for (;; advance()) {
    if (token_->kind == TokenKind::move) {
      if (game_->nodes.size() == most_nodes) return;
      builder_.move(token_->text, spot());
      progress_.inner_result_last = false;
    } else if (token_->kind == TokenKind::number && token_->text != "1") {
      if (in_main_line) last_number_ = MoveNumber(token_->text);
    } else {
      return;
    }
    plain_runs(most_nodes);
  }
}

// The same for whole runs of them, in front of the next token.
void Reader::Implementation::plain_runs(std::size_t most_nodes) {
  constexpr std::size_t most_moves = 32;
  while (game_->nodes.size() + most_moves <= most_nodes) {
    std::optional<TokenStream::Run> run = tokens_.run();
    if (!run) return;
    cut_before_one(*run);
    if (run->begins == 0) return;
    builder_.moves(*run);
    if (run->number_ends != 0 && builder_.depth() == 0) {
      last_number_ = MoveNumber(last_number(*run));
    }
    if (run->number_ends != run->ends) progress_.inner_result_last = false;
    tokens_.take(*run);
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
      if (result_of_next_game()) return false;
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
  const TagSection::Answer answer = tags_.add(*token_, tokens_);
  if (tags_.was_cut()) report(Code::tag_cut, token_->name, spot());
  switch (answer) {
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
// begins a game without tags when the result of this one is missing (28), and behind a result a
// number that goes on counting takes the game up again (26).
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
  progress_.numbered = true;
  advance();
  return true;
}

bool Reader::Implementation::move() {
  if (progress_.after_result) return false;
  progress_.in_tags = false;
  progress_.inner_result_last = false;
  if (!passes_over() && room() == 0) {
    const bool in_main_line = builder_.depth() == 0;
    (in_main_line ? progress_.full : progress_.variations_full) = true;
    report(Code::game_too_long, in_main_line ? "moves" : "moves of variations", spot());
  }
  if (!passes_over()) builder_.move(token_->text, spot());
  advance();
  return true;
}

// A game may be nothing but a result (12); another one behind an empty line is another game.
bool Reader::Implementation::result_of_next_game() {
  return progress_.after_result && builder_.main_plies() == 0 && tags_.empty() &&
         tokens_.after_empty_line();
}

// Of several results the last counts (26). One inside a variation is of the variation (21), unless
// it turns out that the variation was never closed and nothing follows.
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
    report(Code::nag_unknown, token_->text, spot());  // (15)
    return;
  }
  if (passes_over()) return;
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
  bool more = true, whole = true;
  while (more && token_->kind == TokenKind::comment) {
    whole = raw_comment_.size() <= limits_.comment_bytes;
    if (whole) raw_comment_.append(token_->text);
    if (token_->damaged) report(Code::comment_unclosed, {}, at);  // (20)
    more = token_->partial;
    advance();
  }
  // Counted as it is kept, so that it is whole when it is read again. The last character of a front
  // may be half of one.
  std::string_view raw = raw_comment_;
  if (!whole) raw = cut_text(raw, raw.size() - 1);
  std::string text = clean_comment(raw);
  if (whole && text.size() <= limits_.comment_bytes) return text;
  report(Code::comment_cut, {}, at);
  return std::string(base::trim(cut_text(text, limits_.comment_bytes)));
}

void Reader::Implementation::keep_comment(std::string text, Spot at) {
  constexpr std::size_t overhead = 64;  // what a short comment costs beside its bytes
  if (text.empty() || passes_over()) return;
  progress_.comment_bytes += text.size() + overhead;
  if (progress_.comment_bytes > limits_.game_comment_bytes) {
    if (!std::exchange(progress_.comments_full, true)) {
      report(Code::comment_cut, "too many comments in one game", at);
    }
  } else {
    builder_.comment(std::move(text));
  }
}

void Reader::Implementation::open() {
  progress_.in_tags = false;
  progress_.after_result = false;  // (29)
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
    report(Code::variation_stray_close, {}, spot());  // (22)
  }
}

// In front of the moves a whole line is stray (7), among them only the one token (31), unless it
// may be a move: then it is for replay to judge.
bool Reader::Implementation::unknown() {
  if (progress_.after_result) return false;
  if ((!progress_.in_tags || progress_.numbered) && may_be_meant_as_move(token_->text)) {
    return move();
  }
  const bool markup = token_->text.starts_with('<') && token_->text.ends_with('>');
  if (progress_.in_tags) tags_.interrupt();
  if (progress_.in_tags && !progress_.numbered && tokens_.begins_line() && !markup) {
    stray_line();
    return true;
  }
  report(Code::token_unknown, token_->text, spot());
  // One that is too long for a token comes in pieces.
  std::size_t size = token_->text.size();
  for (advance(); token_->kind == TokenKind::unknown && size >= TokenStream::longest_symbol;
       advance()) {
    size = token_->text.size();
  }
  return true;
}

void Reader::Implementation::stray_line() {
  std::string line(token_->text);
  line += tokens_.rest_of_line();
  report(Code::stray_text, base::trim(line), spot());
  tokens_.skip_line();
  advance();
}

}  // namespace kairos::pgn
