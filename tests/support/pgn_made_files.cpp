#include "support/pgn_made_files.hpp"

#include <algorithm>
#include <array>

#include "support/pgn_file_maker.hpp"

namespace kairos::test {

// A size near that of a block, a piece or a window, mostly a small one.
std::size_t FileMaker::length() {
  static constexpr std::array<std::size_t, 32> sizes = {
      0,    1,    2,    5,     16,    31,    32,    62,     63,     64,    65,
      100,  127,  128,  129,   255,   256,   1023,  1024,   1025,   3000,  4095,
      4096, 8191, 8192, 16384, 17408, 32768, 65536, 100000, 131072, 262144};
  const std::size_t size = sizes[below(once_in(3) ? sizes.size() : 12)] + below(3);
  const std::size_t room = size_ > text_.size() ? size_ - text_.size() : 0;
  return std::min(size, room + below(70));
}

std::string FileMaker::filled(const Words& units, std::size_t bytes) {
  std::string all;
  const bool one = once_in(2);
  const std::string always = one_of(units);
  while (all.size() < bytes) all += one || choices_.used_up() ? always : one_of(units);
  all.resize(bytes);
  return all;
}

std::string FileMaker::line_end() {
  const std::size_t kind = line_ends_ < 3 ? line_ends_ : below(3);
  return kind == 0 ? "\n" : kind == 1 ? "\r\n" : "\r";
}

void FileMaker::begin_line() {
  if (!at_line_begin()) add(line_end());
}

void FileMaker::space() {
  switch (below(24)) {
    case 20:
      return add(std::string(length() + 1, ' '));
    case 21:
      for (std::size_t n = length() % 300; n > 0; --n) add(line_end());
      return add(line_end());
    case 22:
      add(line_end());
      return escape_lines();
    case 23:  // a control byte at a line's begin is open
      add(one_of(list("\t|  | \t ")));
      if (at_line_begin_but_blanks()) return;
      return add(one_of({"\x01", "\v", "\f", std::string(1, '\0')}));
    case 19:
    case 18:
      return add(line_end());
    default:
      return add(" ");
  }
}

void FileMaker::escape_lines() {
  const Words units = list(nested_ ? "h4 |a|[White \"x\"]|1-0 |(|;|\"|% |\xC3\xA9|{|}"
                                   : "h4 |a|1-0 |;|\"|% |\xC3\xA9");
  for (std::size_t lines = once_in(6) ? length() % 200 : 1 + below(2); lines > 0; --lines) {
    begin_line();
    add("%" + filled(units, lines > 3 ? below(140) : length()) + line_end());
  }
}

// Words of no game, at a line's begin.
void FileMaker::text_line() {
  static const Words units = list("played |at night |e4 |; |2. |1-0 |= ");
  begin_line();
  add("Round" + filled(units, length()) + line_end());
}

std::string FileMaker::tag_value() {
  static const Words units =
      list("v|Smith, J. |\\\"|\\\\|\"quoted\" |\\n|e4 |\xE9|\xC3\xA9|;|[x] |% ");
  return filled(units, length()) + "x";
}

void FileMaker::damaged_tag(const std::string& name) {
  begin_line();
  const std::string value = filled(list("v|words |(x) |1. e4 "), length()) + "x";
  add(one_of({"[" + name + " \"" + value, "[" + name + " " + value, "[" + name + " " + value + "]",
              "[" + name + "]"}));
  add(line_end());
}

void FileMaker::tag(const std::string& name) {
  static const Words results = list("1-0|0-1|1/2-1/2|*|1/2|0-0|?|");
  add(one_of(list("[|[|[ ")) + name + one_of(list(" | ||   \t")) + '"');
  add(name == "Result" ? one_of(results) : tag_value());
  add(one_of(list("\"]|\"]|\" ]")));
  if (!once_in(8)) add(line_end());
}

void FileMaker::tag_section() {
  Words names = list(
      "Event|Site|Date|White|Black|Result|X1|Na\xEF"
      "ve");
  const std::size_t begin = text_.size();
  const std::size_t count = 1 + below(names.size());
  const bool may_repeat = once_in(20);
  bool damaged = false;
  if (breaks_off_) {
    names.erase(names.begin());
    add("[Event \"next\"]" + line_end());
    breaks_off_ = false;
  }
  for (std::size_t i = 0; i < count && !names.empty(); ++i) {
    const std::size_t n = below(names.size());
    const std::string name = names[n];
    if (!may_repeat) names.erase(names.begin() + static_cast<std::ptrdiff_t>(n));
    const bool is_damaged = once_in(30);
    damaged = damaged || is_damaged;
    if (is_damaged)
      damaged_tag(name);
    else
      tag(name);
    if (once_in(30)) escape_lines();
  }
  if (!damaged && once_in(15)) {  // the section again, or the next game's
    const std::string section = text_.substr(begin);
    begin_line();
    add(line_end() + section);
    if (once_in(2)) tag("Other");
  }
  if (!once_in(6)) begin_line();
  if (!once_in(6)) add(line_end());
  if (once_in(12)) text_line();
}

void FileMaker::ending(bool needs_result) {
  static const Words results = list(
      "1-0|0-1|1/2-1/2|*|1-0|0-1|1/2-1/2|*|1/2|1:0|0:1|1-O|O-1|\xBD-\xBD|\xC2\xBD-\xC2\xBD|{x} 0 : "
      "1"
      "|0\x96"
      "1|1\xE2\x80\x93"
      "0");
  needs_tags_ = false;
  if (!needs_result && once_in(12)) {
    needs_tags_ = true;
    breaks_off_ = !nested_ && once_in(4);
    if (breaks_off_) return add(" {" + comment_text() + line_end() + line_end());
  } else {
    add(one_of(results));
  }
  switch (below(16)) {
    case 1:
      add(" ");
      comment();
      break;
    case 2:
      add(" $20 {then} !");
      break;
    case 3:
      add(one_of(list(" (d4 d5 {or} Nf6) | ({words}) {then} (Kg1)")));
      needs_tags_ = true;
      break;
    case 4:
      add(one_of(list(" 1-0| *| 1/2-1/2 0-1")));
      break;
    case 5:
      add(" 99. Kg1 ");
      needs_tags_ = true;
      break;
    default:
      break;
  }
  if (!once_in(12) || !needs_tags_) add(line_end());
  if (!once_in(6)) add(line_end());
}

void FileMaker::game() {
  const bool tags = needs_tags_ || !once_in(6);
  if (tags) {
    tag_section();
    if (once_in(20)) variation(0);
    if (once_in(20)) comment();
  }
  const bool is_bare = tags && once_in(20);
  if (is_bare)
    add("{none}");
  else
    moves(0);
  ending(is_bare);
}

void FileMaker::between_games() {
  if (breaks_off_) return;
  switch (below(20)) {
    case 1:
      return escape_lines();
    case 2:
      text_line();
      needs_tags_ = true;
      return;
    case 3:
      for (std::size_t n = length() % 5000; n > 0; --n) add(line_end());
      return;
    case 4:
      return add(std::string(length(), ' ') + line_end());
    case 5:
      begin_line();
      if (needs_tags_) return;
      add("\xEF\xBB\xBF");
      needs_tags_ = true;
      return;
    default:
      return;
  }
}

std::string FileMaker::file() {
  line_ends_ = below(8) < 5 ? 0 : below(4);
  nested_ = once_in(2);
  if (once_in(12)) {
    add("\xEF\xBB\xBF");
    needs_tags_ = true;
  }
  do {
    between_games();
    game();
  } while (!choices_.used_up() && text_.size() < size_);
  if (!breaks_off_ && once_in(20)) escape_lines();
  if (!breaks_off_ && once_in(20)) text_line();
  if (once_in(10)) text_.resize(text_.size() - below(std::min<std::size_t>(text_.size(), 199) + 1));
  return std::move(text_);
}

std::size_t Choices::below(std::size_t n) {
  if (!from_bytes_) return random_() % n;
  std::size_t value = 0;
  for (std::size_t range = 1; range < n && !bytes_.empty(); range *= 256) {
    value = value * 256 + static_cast<unsigned char>(bytes_.front());
    bytes_.remove_prefix(1);
  }
  return value % n;
}

std::string made_file(Choices& choices, std::size_t size) {
  return FileMaker(choices, size).file();
}

std::string made_file(std::uint64_t seed) {
  Choices choices(seed);
  const std::size_t kind = choices.below(1000);
  const std::size_t size = kind == 0 ? 600'000 : kind < 30 ? 100'000 : kind < 200 ? 16'000 : 2'000;
  return made_file(choices, choices.below(size));
}

}  // namespace kairos::test
