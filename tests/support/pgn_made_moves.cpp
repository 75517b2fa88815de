// The moves of made games, and what stands between them.
#include <algorithm>

#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"

#include "support/pgn_file_maker.hpp"

namespace kairos::test {

namespace {

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

}  // namespace

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

}  // namespace kairos::test
