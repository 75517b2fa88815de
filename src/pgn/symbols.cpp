// Symbols that are no plain moves. The order of the questions matters: `0-0` is castling before it
// is anything else, `1-0` a result before it is a number, `1e4` a number before a move. Bytes of
// other character sets are looked for only where a symbol holds a byte beyond ASCII. Numbers in
// brackets are those of the leniencies in kairos/pgn/reader.hpp.
#include "symbols.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

#include "kairos/pgn/game.hpp"
#include "kairos/rules/san.hpp"

#include "blocks.hpp"

namespace kairos::pgn {

namespace {

using base::Code;

constexpr std::array<std::pair<std::string_view, GameResult>, 17> results = {{
    {"1-0", GameResult::white_wins},
    {"0-1", GameResult::black_wins},
    {"1/2-1/2", GameResult::draw},
    {"1/2", GameResult::draw},
    {"1-O", GameResult::white_wins},
    {"O-1", GameResult::black_wins},
    {"1:0", GameResult::white_wins},
    {"0:1", GameResult::black_wins},
    {"1/2:1/2", GameResult::draw},
    {"\xC2\xBD-\xC2\xBD", GameResult::draw},  // the sign for one half, UTF-8 and ISO 8859-1
    {"\xBD-\xBD", GameResult::draw},
    {"\xC2\xBD", GameResult::draw},
    {"\xBD", GameResult::draw},
    {"- 0", GameResult::white_wins},  // as `joined_end` gives them: the 1 of `1 - 0` went before
    {": 0", GameResult::white_wins},
    {"- 1", GameResult::black_wins},
    {": 1", GameResult::black_wins},
}};

// Evaluation signs of printed books, as NAGs of section 10 (16).
constexpr std::array<std::pair<std::string_view, std::uint8_t>, 10> signs = {{
    {"=", 10},
    {"+=", 14},
    {"+/=", 14},
    {"=+", 15},
    {"=/+", 15},
    {"+/-", 16},
    {"-/+", 17},
    {"+-", 18},
    {"-+", 19},
    {"+--", 20},
}};

// Signs that may be glued to a move, longest first. Not those that could be check marks, nor one
// that is the beginning of a promotion.
constexpr std::array<std::string_view, 7> glued_signs = {"+/=", "=/+", "+/-", "-/+",
                                                         "+-",  "-+",  "="};

constexpr std::array<std::string_view, 6> null_moves = {"--", "Z0", "null", "@@@@", "pass", "NULL"};

// Blanks, dots and marks of other character sets (33): no-break space (UTF-8, ISO 8859-1), ellipsis
// (UTF-8, Windows), zero-width space, byte order mark.
constexpr std::array<std::string_view, 6> foreign_blanks = {
    "\xC2\xA0", "\xE2\x80\xA6", "\xE2\x80\x8B", "\xEF\xBB\xBF", "\xA0", "\x85"};

std::size_t foreign_blank(std::string_view text) {
  for (const std::string_view blank : foreign_blanks) {
    if (text.starts_with(blank)) return blank.size();
  }
  return 0;
}

std::size_t first_foreign_blank(std::string_view text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool ascii = static_cast<unsigned char>(text[i]) < 0x80;
    if (!ascii && foreign_blank(text.substr(i)) != 0) return i;
  }
  return text.size();
}

bool all_of(std::string_view text, std::string_view allowed) {
  return text.find_first_not_of(allowed) == std::string_view::npos;
}

std::string_view without_check_mark(std::string_view text) {
  const auto last = text.find_last_not_of("+#");
  return text.substr(0, last == std::string_view::npos ? 0 : last + 1);
}

bool is_castling(std::string_view text) {
  text = without_check_mark(text);
  return text.size() >= 2 && text.size() <= 9 && all_of(text, "Oo0- ") && text.front() != '-' &&
         text.back() != '-' && text.find("--") == std::string_view::npos &&
         std::ranges::count_if(text, [](char c) { return c != '-' && c != ' '; }) <= 3 &&
         (text.find_first_of("Oo") != std::string_view::npos ||
          text.find('-') != std::string_view::npos);
}

// The move in front of a sign that is glued to it, its bytes; the whole text when there is none.
std::size_t size_without_sign(std::string_view text) {
  for (const std::string_view sign : glued_signs) {
    if (!text.ends_with(sign)) continue;
    const std::string_view move = without_check_mark(text.substr(0, text.size() - sign.size()));
    if (move.size() >= 2 && is_rank(move.back())) return text.size() - sign.size();
  }
  return text.size();
}

// Holds a square and nothing that a move cannot hold (32). The first letter may be any capital:
// pieces of other languages are moves too, only not ones that can be played.
bool looks_like_move(std::string_view text) {
  if (text.size() < 2 || text.size() > 12) return false;
  const bool capital = text[0] >= 'A' && text[0] <= 'Z';
  if (!is_file(text[0]) && !capital && !is_small_piece(text[0])) return false;
  bool square = false;
  for (std::size_t i = 1; i < text.size(); ++i) {
    square = square || (is_rank(text[i]) && is_file(text[i - 1]));
  }
  return square && all_of(text.substr(1), "abcdefgh12345678xX:=+#-/()NBRQKPnrqkp.");
}

// What is neither a plain number nor a plain move in an orderly file; asked first, for speed.
std::optional<SymbolReading> frequent_reading(std::string_view text) {
  const auto whole = [&text](TokenKind kind, GameResult result = GameResult::unknown) {
    return SymbolReading{kind, static_cast<std::uint8_t>(result), 0, text.size()};
  };
  if (text == "O-O" || text == "O-O-O") return whole(TokenKind::move);
  if (text == "1-0") return whole(TokenKind::result, GameResult::white_wins);
  if (text == "0-1") return whole(TokenKind::result, GameResult::black_wins);
  if (text == "1/2-1/2") return whole(TokenKind::result, GameResult::draw);
  return std::nullopt;
}

// `1:` and `1-` for `1.` (13).
bool is_number_mark(std::string_view text) {
  return text == ":" || text == "-" || text == ".";
}

constexpr bool is_ring(char c) {
  return c == 'O' || c == 'o';
}

// Castling with blanks around its hyphens (32); `end` is behind the first ring.
std::size_t spaced_castling_end(std::string_view window, std::size_t end) {
  for (;;) {
    const auto ahead = window.substr(end, 4);
    const std::size_t hyphen = ahead.starts_with(" - ") ? 3 : 1;
    if (ahead.size() <= hyphen || ahead[hyphen / 2] != '-' || !is_ring(ahead[hyphen])) return end;
    end += hyphen + 1;
  }
}

// `1 - 0` (25), asked at the hyphen: the 1 stands before it as a number.
std::size_t spaced_result_end(std::string_view window, std::size_t at, std::size_t end) {
  const auto before = window.substr(at - 3, 3), behind = window.substr(end, 3);
  const bool fits = before.ends_with("1 ") ? behind.starts_with(" 0")
                                           : before.ends_with("0 ") && behind.starts_with(" 1");
  if (!fits || !is_blank_byte(before[0])) return end;
  if (behind.size() == 3 && is_symbol_byte(behind[2])) return end;
  return window[at] == '-' || window[at] == ':' ? end + 2 : end;
}

SymbolReading reading_of_all(std::string_view written) {
  const rules::AsciiMove ascii(written);
  const std::string_view text = ascii.text();
  const auto whole = [&written](TokenKind kind, std::uint8_t value = 0) {
    return SymbolReading{kind, value, 0, written.size()};
  };
  if (is_castling(text)) return whole(TokenKind::move);
  for (const auto& [known, result] : results) {
    if (text == known) return whole(TokenKind::result, static_cast<std::uint8_t>(result));
  }
  const auto digits = std::min(text.find_first_not_of("0123456789"), text.size());
  if (digits == text.size()) return whole(TokenKind::number);
  if (digits != 0 && (begins_move(text[digits]) || text[digits] == 'O')) {
    return {TokenKind::number, 0, 0, digits};
  }
  if (digits != 0 && is_number_mark(text.substr(digits))) return {TokenKind::number, 0, 0, digits};
  for (const auto& [sign, nag] : signs) {
    if (text == sign) return whole(TokenKind::nag, nag);
  }
  for (const std::string_view null : null_moves) {
    if (text == null) return whole(TokenKind::move);
  }
  if (looks_like_move(text)) {
    const bool is_ascii = text.size() == written.size();
    return {TokenKind::move, 0, 0, is_ascii ? size_without_sign(text) : written.size()};
  }
  if (all_of(text, "+#") || is_number_mark(text) || text == "ep" || text == "e.p.")
    return whole(TokenKind::filler);
  return whole(TokenKind::unknown);
}

}  // namespace

SymbolReading read_symbol(std::string_view text) {
  if (const auto reading = frequent_reading(text)) return *reading;
  std::size_t begin = 0;
  while (begin < text.size()) {
    const std::size_t blank = foreign_blank(text.substr(begin));
    if (blank == 0) break;
    begin += blank;
  }
  if (begin == text.size()) return {TokenKind::filler, 0, begin, 0};
  text.remove_prefix(begin);
  SymbolReading reading = reading_of_all(text.substr(0, first_foreign_blank(text)));
  reading.begin = begin;
  return reading;
}

bool may_be_meant_as_move(std::string_view text) {
  constexpr std::size_t longest = 16;
  if (text.empty() || text.size() > longest) return false;
  const char first = text[0] | 0x20;
  if ((first < 'a' || first > 'z') && static_cast<unsigned char>(text[0]) < 0x80) return false;
  if (std::ranges::any_of(text.substr(1), is_digit)) return true;
  const bool spoken = text.size() <= 3 && is_file(text[0]) && is_file(text.back());
  return (spoken && (text.size() == 2 || text[1] == 'x')) ||
         (text.size() == 1 && is_piece(text[0]));
}

std::size_t joined_end(std::string_view window, std::size_t at, std::size_t end) {
  const auto ahead = window.substr(end, 4);
  const char last = window[end - 1];
  if (ahead.starts_with(".p.") && last == 'e') return end + 3;
  const auto with_check_mark = [window](std::size_t from) {
    return std::min(window.find_first_not_of("+#", from), window.size());
  };
  if (ahead.starts_with(' ')) {
    if (is_ring(last)) return with_check_mark(spaced_castling_end(window, end));
    return spaced_result_end(window, at, end);
  }
  const bool promotion = end - at >= 2 && (last == '8' || last == '1') && ahead.size() >= 3 &&
                         ahead[0] == '(' && ahead[2] == ')' &&
                         std::string_view("NBRQnbrq").find(ahead[1]) != std::string_view::npos;
  return promotion ? with_check_mark(end + 3) : end;
}

}  // namespace kairos::pgn
