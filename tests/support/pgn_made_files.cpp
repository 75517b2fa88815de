#include "support/pgn_made_files.hpp"

#include <algorithm>
#include <array>
#include <vector>

#include "kairos/base/text.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"

namespace kairos::test {

namespace {

using Words = std::vector<std::string>;

// The parts between bars.
Words list(std::string_view text) {
  Words words;
  for (const std::string_view part : base::split(text, '|')) words.emplace_back(part);
  return words;
}

bool is_high(char c) {
  return static_cast<unsigned char>(c) >= 0x80;
}

// Moves of legal games from the start position, the same in every run.
const std::vector<Words>& legal_games() {
  static const std::vector<Words> games = [] {
    std::mt19937_64 random(1);
    std::vector<Words> all(16);
    for (Words& game : all) {
      rules::Position position = rules::Position::start();
      for (int ply = 0; ply < 100; ++ply) {
        rules::MoveList moves;
        rules::legal_moves(position, moves);
        if (moves.empty()) break;
        const rules::Move move = moves[random() % moves.size()];
        game.push_back(rules::to_san(position, move));
        position.play(move);
      }
    }
    return all;
  }();
  return games;
}

class FileMaker {
 public:
  FileMaker(Choices& choices, std::size_t size) : choices_(choices), size_(size) {}
  std::string file();

 private:
  std::size_t below(std::size_t n) { return choices_.below(n); }
  bool once_in(std::size_t n) { return choices_.once_in(n); }
  std::string one_of(const Words& words) { return words[below(words.size())]; }
  void add(std::string_view text) { text_ += text; }
  [[nodiscard]] bool at_line_begin() const {
    return text_.empty() || text_.back() == '\n' || text_.back() == '\r';
  }
  [[nodiscard]] bool at_line_begin_but_blanks() const {
    const std::size_t last = text_.find_last_not_of(" \t");
    return last == std::string::npos || text_[last] == '\n' || text_[last] == '\r';
  }
  std::size_t length();
  std::string filled(const Words& units, std::size_t bytes);
  std::string line_end();
  void begin_line();
  void space();

  void between_games();
  void escape_lines();
  void text_line();
  void game();
  void tag_section();
  void tag(const std::string& name);
  std::string tag_value();
  void damaged_tag(const std::string& name);
  void moves(std::size_t depth);
  void number(std::size_t ply);
  void glued(const std::string& move);
  void annotations(std::size_t depth);
  std::string comment_text();
  void comment();
  void variation(std::size_t depth);
  void odd_word();
  void ending(bool needs_result);

  Choices& choices_;
  std::size_t size_;
  std::string text_;
  std::size_t line_ends_ = 0;
  bool nested_ = false;      // braces in comments: nested ones in this file, or lone ones
  bool needs_tags_ = false;  // the next game must begin with tags ...
  bool breaks_off_ = false;  // in a comment, which ends before an Event tag
};

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

void FileMaker::number(std::size_t ply) {
  const std::string n = std::to_string(once_in(40) ? below(300) : ply / 2 + 1);
  if (ply % 2 == 1 && !once_in(8)) return;
  switch (below(12)) {
    case 6:
      if (!text_.ends_with(' ')) add(" ");
      return add(n + one_of(list(
                         ".|...||) |)|: |- | . |.\xA0|.\xC2\xA0|\xE2\x80\xA6|.\xE2\x80\x8B|\x85")));
    case 7:
      add(n);
      return space();
    case 8:
      return;
    case 9:
      add(n + ".");
      return space();
    default:
      return add(n + (once_in(2) ? "." : ". "));
  }
}

// What stands behind a move without a blank.
void FileMaker::glued(const std::string& move) {
  const bool ends_with_rank = move.back() >= '1' && move.back() <= '8';
  switch (below(20)) {
    case 1:
      return add(one_of(list("!|?|!!|??|!?|?!|!!!")));
    case 2:
      return add(ends_with_rank ? one_of(list("=|+-|-+|+/-|-/+|+/=|=/+")) : "");
    case 3:
      return add(one_of(list(",|$1|{glued}|(=)|$12$3|!$5")));
    default:
      return;
  }
}

std::string FileMaker::comment_text() {
  static const Words units = list("words |w|e4 |[%clk 1:00]|(|) |1-0 |\xC3\xA9|\xE9|%|;|\"|x  ");
  std::string text = filled(units, length());
  for (std::size_t n = once_in(4) ? 1 + below(6) : 0; n > 0; --n) {
    text += once_in(3) ? line_end() + "[White \"x\"] " : line_end();
    if (once_in(3)) text += line_end();
    text += ' ' + filled(units, length());
  }
  if (text.size() > 60'000) std::replace_if(text.begin(), text.end(), is_high, 'e');
  return text;
}

void FileMaker::comment() {
  if (once_in(6)) {
    add(";" + filled(list("words |e4 |{|% "), length()) + (nested_ ? "}" : "") + line_end());
  } else if (once_in(8)) {  // braces inside: nested, or as in :-{
    add(nested_ ? "{a { b } c " + filled(list("d|words "), length() % 3000) + "{e}}" : "{a :-{ }");
  } else {
    add('{' + comment_text() + '}');
  }
}

void FileMaker::odd_word() {
  static const Words words = list(
      "&|better|<x y>|]|\"q\"|+|#|)|,|ed|P-K4|N|e.p.|--|Z0|exd|$300|$|O - "
      "O|O-O-O+|0-0|e8(Q)|(=)|+-|="
      "|-/+|+--|\\|[a b]|1e4|\xE2\x99\x98"
      "f3");
  switch (below(12)) {
    case 1:
      return add(std::string(length(), 'w'));
    case 2:
      return add(std::string(1 + length() % 1000, '7'));
    case 3:
      return add("$" + std::string(length() % 1000, '0') + "19");
    case 4:
      return add(std::string(length(), "&\"%~"[below(4)]) + 'w');
    case 5:
      return add(std::string(length() % 200, "!?,+"[below(4)]));
    case 6:
      return add("<" + filled(list("x |y|e4 "), length() % 200) + ">");
    case 7:
      return add(nested_ ? "}" : "]");
    default:
      return add(one_of(words));
  }
}

// Section 8.2.5, and leniencies 21 to 24.
void FileMaker::variation(std::size_t depth) {
  add("(");
  if (once_in(20)) return add(one_of(list(")| )|{only words})|{a} {b} )")));
  if (once_in(40)) {  // deep
    const std::size_t levels = length() % 2000;
    const std::string opening = one_of(list("e4 (|("));
    for (std::size_t n = 0; n < levels; ++n) add(opening);
    return add(one_of(list("d4|{x}")) + std::string(levels + 1, ')'));
  }
  if (once_in(8)) comment();
  if (once_in(10)) add("$3 ");
  moves(depth + 1);
  if (once_in(20)) add(one_of(list(" 1-0| * | 1/2-1/2 {x}")));
  if (!once_in(60)) add(")");
}

void FileMaker::annotations(std::size_t depth) {
  switch (below(once_in(4) ? 8 : 40)) {
    case 1:
    case 2:
      space();
      return comment();
    case 3:
      return add(" $" + std::to_string(below(256)));
    case 4:
    case 5:
      if (depth > 6) return;
      space();
      return variation(depth);
    case 6:
      space();
      return odd_word();
    case 7:
      return add(one_of(list(" !| ?| !? | +- | = | -/+")));
    default:
      return;
  }
}

void FileMaker::moves(std::size_t depth) {
  const Words& legal = legal_games()[below(legal_games().size())];
  const std::size_t first = depth == 0 ? 0 : below(legal.size() - 1);
  const std::size_t count = depth == 0 ? 1 + below(once_in(8) ? 90 : 12) : 1 + below(4);
  for (std::size_t ply = first; ply < std::min(first + count, legal.size()); ++ply) {
    number(ply);
    add(legal[ply]);
    glued(legal[ply]);
    annotations(depth);
    space();
  }
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

}  // namespace

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
