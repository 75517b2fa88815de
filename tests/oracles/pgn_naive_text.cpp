#include "oracles/pgn_naive_text.hpp"

#include <algorithm>
#include <utility>
#include <vector>

#include "kairos/base/text.hpp"

namespace kairos::oracles {

using pgn::GameResult;

namespace {

constexpr Text half = "\x01";             // stands for the sign for one half
constexpr std::size_t longest_move = 12;  // bytes

int value_of(Text s, const std::vector<std::pair<Text, int>>& table) {
  for (const auto& [text, value] : table) {
    if (text == s) return value;
  }
  return -1;
}

}  // namespace

Text character(Text s) {
  const auto byte = [&s](std::size_t i) {
    return i < s.size() ? static_cast<unsigned char>(s[i]) : 0U;
  };
  const std::size_t size = byte(0) < 0xC2 ? 1 : byte(0) < 0xE0 ? 2 : byte(0) < 0xF0 ? 3 : 4;
  for (std::size_t i = 1; i < size; ++i) {
    if ((byte(i) & 0xC0) != 0x80) return s.substr(0, 1);
  }
  return s.substr(0, size);
}

bool is_wide_blank(Text c) {
  return c == mark || c == "\xC2\xA0" || c == "\xA0" || c == "\xE2\x80\x8B" ||
         c == "\xE2\x80\xA6" || c == "\x85";
}

std::string plain(Text s) {
  std::string all;
  while (!s.empty()) {
    const Text c = character(s);
    const bool is_dash = (c >= "\xE2\x80\x90" && c <= "\xE2\x80\x95") || c == "\xE2\x88\x92" ||
                         c == "\x96" || c == "\x97";
    const bool is_figure = c >= "\xE2\x99\x94" && c <= "\xE2\x99\x9F";
    all += is_dash ? "-" : is_figure ? "N" : c == "\xBD" || c == "\xC2\xBD" ? half : c;
    s.remove_prefix(c.size());
  }
  return all;
}

int result_of(Text s) {
  constexpr int white = 1, black = 2, draw = 3;
  static const std::vector<std::pair<Text, int>> results = {
      {"1-0", white}, {"1:0", white}, {"1-O", white},     {"0-1", black},
      {"0:1", black}, {"O-1", black}, {"1/2-1/2", draw},  {"1/2:1/2", draw},
      {"1/2", draw},  {half, draw},   {"\x01-\x01", draw}};
  return value_of(s, results);
}

int sign_of(Text s) {
  static const std::vector<std::pair<Text, int>> signs = {
      {"=", 10},   {"+=", 14},  {"+/=", 14}, {"=+", 15}, {"=/+", 15},
      {"+/-", 16}, {"-/+", 17}, {"+-", 18},  {"-+", 19}, {"+--", 20}};
  return value_of(s, signs);
}

Text without_checks(Text s) {
  return s.substr(0, s.find_last_not_of("+#") + 1);
}

// Two or three letters O or zeros, with hyphens or at least a letter.
bool is_castling(Text s) {
  std::size_t count = 0;
  bool beyond_zeros = false;
  s = without_checks(s);
  for (std::size_t i = 0; i < s.size(); ++i) {
    beyond_zeros = beyond_zeros || s[i] != '0';
    if (s[i] == '-' && i > 0 && i + 1 < s.size() && s[i - 1] != '-') continue;
    if (!is_in(s[i], "Oo0")) return false;
    ++count;
  }
  return (count == 2 || count == 3) && beyond_zeros;
}

bool is_move(Text s) {
  if (s.empty() || s.size() > longest_move) return false;
  if (s == "--" || s == "Z0" || s == "null" || s == "pass" || s == "@@@@" || is_castling(s))
    return true;
  if (!(s[0] >= 'A' && s[0] <= 'Z') && !is_in(s[0], "abcdefghknqr")) return false;
  bool square = false;
  for (std::size_t i = 0; i < s.size(); ++i) {
    if (i > 0 && !is_in(s[i], "abcdefghknpqrxBKNPQRX12345678#+-/:=")) return false;
    square = square || (i > 0 && is_in(s[i - 1], "abcdefgh") && is_in(s[i], "12345678"));
  }
  return square;
}

bool is_finished_move(Text s) {
  if (!is_move(s)) return false;
  s = without_checks(s);
  if (is_castling(s)) return true;
  if (is_in(s.back(), "QRBNqrbn")) s.remove_suffix(1);
  if (!s.empty() && s.back() == '=') s.remove_suffix(1);
  return !s.empty() && is_in(s.back(), "12345678");
}

bool may_be_meant(Text s) {
  constexpr Text files = "abcdefgh";
  if (s.size() == 1) return is_in(s[0], "KQRBNP");
  if (s.size() == 2 && is_in(s[0], files) && is_in(s[1], files)) return true;
  if (s.size() == 3 && is_in(s[0], files) && s[1] == 'x' && is_in(s[2], files)) return true;
  return (is_letter(s[0]) || is_high(s[0])) && std::any_of(s.begin(), s.end(), is_digit);
}

std::string resolved(Text value) {
  std::string text;
  for (std::size_t i = 0; i < value.size(); ++i) {
    const Text pair = value.substr(i, 2);
    if (pair == "\\\"" || pair == "\\\\") ++i;
    text += value[i];
  }
  return base::to_utf8(text);
}

std::string one_line(Text raw) {
  std::string text;
  for (std::size_t i = 0; i < raw.size();) {
    std::size_t end = i;
    while (end < raw.size() && is_control(raw[end])) ++end;
    const Text blanks = raw.substr(i, end - i);
    const bool at_edge = text.empty() || end == raw.size();
    if (!at_edge) text += blanks.find_first_of("\r\n") == Text::npos ? blanks : Text(" ");
    if (end < raw.size()) text += raw[end] == '}' ? ')' : raw[end];
    ++end;
    i = end;
  }
  return text;
}

void cut_text(std::string& text, std::size_t size) {
  if (text.size() <= size) return;
  while ((static_cast<unsigned char>(text[size]) & 0xC0) == 0x80) --size;
  text.resize(size);
}

GameResult tag_result(Text value, GameResult otherwise) {
  if (value == "1-0") return GameResult::white_wins;
  if (value == "0-1") return GameResult::black_wins;
  if (value == "1/2-1/2" || value == "1/2") return GameResult::draw;
  return value == "*" ? GameResult::unknown : otherwise;
}

}  // namespace kairos::oracles
