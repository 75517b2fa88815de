// Moves as typed: whatever the message, every move read from it is legal where it is read, a
// refusal says why, both readers tell the same of the first move, and neither letter case nor
// anything behind the longest message changes a reading; and of what is meant (meaning.hpp) each
// vote is a move that the message names. An input begins with a position (position_taker.hpp). The
// rest is the message; it is read as it is and, since few random bytes are words, with a word for
// every byte.
#include <algorithm>
#include <array>
#include <cctype>
#include <string>
#include <vector>

#include "kairos/audience/meaning.hpp"
#include "kairos/audience/typed.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"

#include "position_taker.hpp"
#include "property.hpp"

using namespace kairos;
using namespace kairos::audience;
using namespace kairos::rules;
using base::Code;
using fuzz::must_hold;

namespace {

// Bytes below 128 are a word each, the others a square.
std::string in_words(std::string_view bytes) {
  static constexpr std::array words{
      "rook ",   "knight ",    "bishop ",    "queen ",    "king ",  "pawn ",       "R",
      "n",       "b",          "B",          "q",         "takes ", "x",           "to ",
      "from ",   "on ",        "the ",       "a ",        "e ",     "d-",          "castles ",
      "short ",  "0-0 ",       "o-o-o",      "oo",        "=",      "promotes ",   "or ",
      "not ",    "attacking ", "mate ",      "e.p. ",     "+",      "! ",          ", ",
      "12.",     "...",        "queenside ", "captures ", "-",      " ",           "(",
      "makes ",  "b",          "c",          "no wait ",  "why ",   "he played ",  "I like ",
      "is bad ", "better ",    "because ",   "then ",     "? ",     "Springer ",   "D",
      "nach ",   "auf ",       "fou ",       "prend ",    "torre ", "l'",          "S",
      "C",       "kon ",       "\320\232",   "\321\201",  "u",      "\342\231\230"};
  std::string text;
  for (const char c : bytes.substr(0, longest_typed)) {
    const auto byte = static_cast<std::uint8_t>(c);
    text += byte < 128 ? words[byte % words.size()] : to_string(static_cast<Square>(byte % 64));
  }
  return text;
}

std::string in_case(std::string_view text, int (*change)(int)) {
  std::string changed(text);
  std::transform(changed.begin(), changed.end(), changed.begin(), [change](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte < 128 ? static_cast<char>(change(byte)) : c;
  });
  return changed;
}

bool is_refusal(const TypedMove& typed) {
  if (typed.move) return false;
  if (typed.problem == Code::not_a_move) return typed.text.empty();
  return !typed.text.empty() && !typed.why.empty() &&
         (typed.problem == Code::illegal_move || typed.problem == Code::ambiguous_move ||
          typed.problem == Code::no_such_piece);
}

bool same(const TypedMove& a, const TypedMove& b) {
  return a.move == b.move && a.text == b.text && (a.move || a.problem == b.problem);
}

void check_line(Position position, const TypedLine& line) {
  for (const Move m : line.moves) {
    must_hold(is_legal(position, m), "every move of a line is legal");
    position.play(m);
  }
  if (line.moves.empty()) must_hold(is_refusal(line.refused), "no line has its reason");
}

// The vote of a message: legal as a line, a move that is named, and the same in one letter case.
void check_meaning(const Position& position, std::string_view text,
                   const std::vector<TypedMove>& phrases, Letters letters) {
  const Meant meant = read_meant(position, text, {}, letters);
  check_line(position, meant.line);
  if (!meant.line.moves.empty()) {
    must_hold(!meant.names_unmeant, "where a move is meant it is not said that none is");
    const Move vote = meant.line.moves.front();
    must_hold(std::any_of(phrases.begin(), phrases.end(),
                          [&](const TypedMove& typed) { return typed.move == vote; }),
              "what is meant is named");
  }
  must_hold(read_meant(position, text.substr(0, longest_typed), {}, letters).line.moves ==
                meant.line.moves,
            "what lies behind means nothing");
  must_hold(read_meant(position, in_case(text, std::toupper), {}, letters).line.moves ==
                read_meant(position, in_case(text, std::tolower), {}, letters).line.moves,
            "all capitals mean what all small letters mean");
}

void check_message(const Position& position, std::string_view text, Letters letters) {
  const TypedLine line = read_typed_line(position, text, {}, letters);
  check_line(position, line);

  const std::vector<TypedMove> phrases = read_typed_moves(position, text, letters);
  must_hold(!phrases.empty(), "a message without a phrase is told as one that is not a move");
  Move first;
  for (const TypedMove& typed : phrases) {
    must_hold(typed.move ? is_legal(position, typed.move) : is_refusal(typed),
              "every phrase is a legal move or has its reason");
    must_hold(typed.move || typed.problem != Code::not_a_move || phrases.size() == 1,
              "what is not a move is told only when there is nothing else");
    if (!first) first = typed.move;
  }
  if (!line.moves.empty()) must_hold(line.moves[0] == first, "both readers begin with one move");

  const std::string_view near = text.substr(0, longest_typed);
  must_hold(read_typed_line(position, near, {}, letters).moves == line.moves,
            "what lies behind is not read");
  const std::vector<TypedMove> again = read_typed_moves(position, std::string(near) + " ", letters);
  must_hold(std::equal(phrases.begin(), phrases.end(), again.begin(), again.end(), same),
            "a blank behind changes nothing");
  must_hold(read_typed_line(position, in_case(text, std::toupper), {}, letters).moves ==
                read_typed_line(position, in_case(text, std::tolower), {}, letters).moves,
            "all capitals are read like all small letters");

  check_meaning(position, text, phrases, letters);

  MoveList moves;
  legal_moves(position, moves);
  if (moves.empty()) return;
  const Move own = moves[text.size() % moves.size()];
  MoveList replies;
  legal_moves(position.after(own), replies);
  std::vector<Move> known{own};
  if (!replies.empty()) known.push_back(replies[text.size() % replies.size()]);
  check_line(position, read_typed_line(position, text, known, letters));
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  std::string_view text = fuzz::text_of(data, size);
  const Position position = fuzz::take_position(text);
  // In any tongue, by the size of the message.
  const Letters letters = alphabets()[text.size() % alphabets().size()].letters;
  check_message(position, text, letters);
  check_message(position, in_words(text), letters);

  MoveList moves;
  legal_moves(position, moves);
  for (const Move move : moves) {
    const std::string written = in_letters(to_san(position, move), letters);
    const TypedLine again = read_typed_line(position, written, {}, letters);
    must_hold(again.moves.empty() ? again.refused.problem == Code::ambiguous_move
                                  : again.moves == std::vector<Move>{move},
              "what is written for a move is read as that move, or may be bishop and b-pawn");
  }
  return 0;
}
