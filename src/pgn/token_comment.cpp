// Comments, in pieces when they are long. Braces do not nest (section 5), and yet people nest
// them, and forget to close them. So an inner { counts when its } follows before an empty line or a
// tag; and a comment ends, damaged, where a tag line shows that a new game has begun.
#include <algorithm>
#include <bit>
#include <cstring>

#include "kairos/pgn/tokens.hpp"

namespace kairos::pgn {

namespace {

std::size_t find_byte(const char* text, std::size_t from, std::size_t to, char c) {
  const void* const found = from < to ? std::memchr(text + from, c, to - from) : nullptr;
  return found == nullptr ? to : static_cast<std::size_t>(static_cast<const char*>(found) - text);
}

constexpr std::size_t nesting_reach = 4096;  // how far behind the first } the matching one may lie

}  // namespace

void TokenStream::comment_body(std::size_t from) {
  const char* const text = window_.data();
  const std::size_t limit = std::min(data_end_, from + comment_piece);
  std::size_t close = find_byte(text, from, limit, '}');
  const bool has_close = close != limit;
  if (has_close) close = comment_close(from, close);
  std::size_t tag = find_byte(text, from, close, '[');
  while (tag < close && !is_tag_line(tag)) tag = find_byte(text, tag + 1, close, '[');

  Token& token = batch_[count_];
  token.damaged = tag < close || (!has_close && at_end_ && limit == data_end_);
  token.partial = !has_close && !token.damaged;
  inside_ = token.partial ? Inside::comment : Inside::nothing;
  if (tag < close) {
    finish(TokenKind::comment, from, tag);
  } else {
    finish(TokenKind::comment, from, close);
    if (has_close) seek(close + 1);
  }
}

void TokenStream::line_comment(std::size_t from) {
  const std::size_t limit = std::min(data_end_, from + comment_piece);
  const std::size_t end = line_end(from, limit);
  Token& token = batch_[count_];
  const bool at_line_end = window_[end] == '\n' || window_[end] == '\r';
  token.partial = !at_line_end && !(at_end_ && end == data_end_);
  inside_ = token.partial ? Inside::line_comment : Inside::nothing;
  finish(TokenKind::comment, from, end);
}

// The } that ends a comment whose first } is at `first_close`: that one, or the one that matches. A
// stretch of text in which a search was in vain is not searched again.
std::size_t TokenStream::comment_close(std::size_t from, std::size_t first_close) {
  const char* const text = window_.data();
  auto depth = std::count(text + from, text + first_close, '{');
  if (depth == 0 || base_ + first_close < no_match_before_) return first_close;
  const std::size_t limit = std::min(data_end_, first_close + nesting_reach);
  bool empty_line = false;
  std::size_t at = first_close + 1;
  for (; at < limit; ++at) {
    if (text[at] == '\n' || text[at] == '\r') {
      if (empty_line && (text[at] == '\r' || text[at - 1] != '\r')) break;
      empty_line = true;
    } else if (text[at] != ' ' && text[at] != '\t') {
      if (empty_line && text[at] == '[') break;
      empty_line = false;
    }
    if (text[at] == '{') ++depth;
    if (text[at] == '}' && --depth == 0) return at;
  }
  no_match_before_ = base_ + at;
  return first_close;
}

}  // namespace kairos::pgn
