// Tags: [Name "value"]. A value ends at the quote that has a ] behind it, so that quotes nobody
// escaped and backslashes that escape nothing (the 7.1 escapes are \" and \\) stay in it. What
// cannot be read as a tag is told as a damaged one at the start of a line, else as unknown text.
#include <algorithm>

#include "kairos/pgn/tokens.hpp"

#include "blocks.hpp"
#include "symbols.hpp"
#include "tag_shape.hpp"

namespace kairos::pgn {

namespace {

constexpr bool is_letter(char c) {
  return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
}
constexpr bool is_line_end(char c) {
  return c == '\n' || c == '\r';
}

// 64 bytes at most, so that no run of blanks is walked again and again.
std::size_t past_blanks(const char* text, std::size_t at) {
  for (int n = 0; n < 64 && (text[at] == ' ' || text[at] == '\t'); ++n) ++at;
  return at;
}

// The first quote, backslash or line end in [at, limit), else `limit`.
std::size_t value_stop(const char* text, std::size_t at, std::size_t limit) {
  while (at < limit && text[at] != '"' && text[at] != '\\' && !is_line_end(text[at])) ++at;
  return at;
}

constexpr std::size_t longest_run = 4096;
static_assert(longest_run < TokenStream::comment_piece);  // for what the window must reach

}  // namespace

// Tags mostly come in export form, one a line: those are taken one after the other without going
// through blocks.
void TokenStream::tag(std::size_t at) {
  const char* const text = window_.data();
  const std::size_t run_end = at + longest_run;
  std::uint32_t line = spot_at(at, origins_[batch_[count_].origin]).line;
  for (;;) {
    const TagShape shape = shape_of_tag(text + at);
    if (shape.end == 0 || at + shape.end > data_end_) {
      seek(at + 1);
      slow_tag(at);
      return end_odd(position_);
    }
    batch_[count_].kind = TokenKind::tag;
    batch_[count_].name = view(at + 1, at + shape.name_end);
    batch_[count_].text = view(at + shape.value, at + shape.end - 2);
    std::size_t next = at + shape.end;
    extents_[count_++].end = next;
    next += text[next] == '\r' ? 1 : 0;
    const bool more = text[next] == '\n' && text[next + 1] == '[' && next < run_end;
    if (!more || count_ == batch_size) return seek(at + shape.end);
    at = next + 1;
    begin_odd(at, add_origin({at, 0, base_ + at, ++line}));
  }
}

void TokenStream::slow_tag(std::size_t at) {
  const char* const text = window_.data();
  const std::size_t limit = std::min(data_end_, at + longest_tag);
  const std::size_t name = past_blanks(text, at + 1);
  std::size_t name_end = name;
  while (name_end < limit && is_symbol_byte(text[name_end])) ++name_end;
  const std::size_t quote = past_blanks(text, name_end);
  batch_[count_].kind = TokenKind::tag;
  batch_[count_].name = view(name, name_end);
  if (!is_letter(text[name]) || text[quote] != '"' || !tag_value(quote + 1, limit)) {
    damaged_tag(at, quote, limit);
  }
}

// Reads a value and its end; false (nothing taken) when the line has no proper end of a tag.
bool TokenStream::tag_value(std::size_t from, std::size_t limit) {
  const char* const text = window_.data();
  for (std::size_t at = from;; ++at) {
    at = value_stop(text, at, limit);
    if (at >= limit || is_line_end(text[at])) return false;
    if (text[at] == '\\') {
      const bool quote = text[at + 1] == '"';
      const bool last = quote && text[past_blanks(text, at + 2)] == ']' &&
                        view(at + 2, line_end(at + 2, limit)).find('"') == std::string_view::npos;
      if ((quote && !last) || text[at + 1] == '\\') ++at;
    } else if (const std::size_t close = past_blanks(text, at + 1); text[close] == ']') {
      batch_[count_].text = view(from, at);
      seek(close + 1);
      return true;
    }
  }
}

// What can be saved of `[Name "value`, `[Name value]` and the like, and of a tag that is too long;
// `from` is where the value should begin. Takes the rest of the line. Brackets that are no tag at
// all are unknown text, up to their ] when it is near and no other [ comes before.
void TokenStream::damaged_tag(std::size_t at, std::size_t from, std::size_t limit) {
  Token& token = batch_[count_];
  const bool is_named = !token.name.empty() && is_letter(token.name[0]);
  if (!is_named || (!begins_line(at) && window_[from] != '"')) {
    const auto near = view(at + 1, std::min(limit, at + 256));
    const auto stop = near.find_first_of("[]\r\n");
    const bool closed = stop != std::string_view::npos && near[stop] == ']';
    return finish(TokenKind::unknown, at, closed ? at + stop + 2 : at + 1);
  }
  const std::size_t line = line_end(at, limit);
  token.partial = line == limit && limit < data_end_ && !is_line_end(window_[limit]);
  token.damaged = !token.partial;
  if (token.partial) inside_ = Inside::tag;
  std::size_t begin = std::min(from, line);
  std::size_t end = line;
  if (begin < end && window_[begin] == '"') ++begin;
  const auto trailing = [](char c) { return is_blank_byte(c) || c == ']' || c == '"'; };
  while (token.damaged && end > begin && trailing(window_[end - 1])) --end;
  finish(TokenKind::tag, begin, end);
  seek(line);
}

// Whether the [ at `at` begins a name and a quote. Looks at 64 bytes of name at most.
bool TokenStream::opens_tag(std::size_t at) const {
  const char* const text = window_.data();
  if (!is_letter(text[at + 1])) return false;
  std::size_t name_end = at + 1;
  while (name_end - at < 64 && (is_letter(text[name_end]) || is_digit(text[name_end]))) ++name_end;
  return text[past_blanks(text, name_end)] == '"';
}

// Whether a tag begins at `at` (a [ ) that stands first on its line and shows that a comment before
// it was never closed (20): an Event tag, or any tag after an empty line.
bool TokenStream::is_tag_line(std::size_t at) const {
  const char* const text = window_.data();
  if (!is_line_end(text[at - 1]) || !opens_tag(at)) return false;
  const bool is_event = view(at + 1, at + 7) == "Event " || view(at + 1, at + 7) == "Event\"";
  const bool crlf = text[at - 1] == '\n' && text[at - 2] == '\r';
  return is_event || is_line_end(text[at - (crlf ? 3 : 2)]);
}

}  // namespace kairos::pgn
