// The words that have a meaning in a typed move. All others are talk.
#include <array>

#include "kairos/base/text.hpp"

#include "typed_phrase.hpp"

namespace kairos::audience {

namespace {

using Kind = Word::Kind;

struct Group {
  Kind kind;
  rules::PieceType piece;
  std::string_view words;  // between blanks
};

constexpr std::array<Group, 17> dictionary{{
    {Kind::piece, rules::king, " king k "},
    {Kind::piece, rules::queen, " queen q "},
    {Kind::piece, rules::rook, " rook r "},
    {Kind::piece, rules::bishop, " bishop "},  // b alone may be the pawn
    {Kind::piece, rules::knight, " knight night horse n "},
    {Kind::piece, rules::pawn, " pawn p "},
    {Kind::takes, rules::no_piece_type, " x takes take taking captures capture capturing grabs "},
    {Kind::goes, rules::no_piece_type, " to into goes go going moves move jumps slides "},
    {Kind::from, rules::no_piece_type, " from on at "},
    {Kind::castles, rules::no_piece_type, " castle castles castling "},
    {Kind::short_side, rules::no_piece_type, " short kingside king's kings "},
    {Kind::long_side, rules::no_piece_type, " long queenside queen's queens "},
    {Kind::side, rules::no_piece_type, " side "},
    {Kind::becomes, rules::no_piece_type,
     " promotes promote promoting promotion underpromotes becomes becoming makes making "},
    {Kind::filler, rules::no_piece_type, " the an my our your his her their "},
    {Kind::verb, rules::no_piece_type, " play plays playing try "},
    {Kind::or_, rules::no_piece_type, " or "},
}};

constexpr std::string_view denials = " not never don't dont isn't isnt avoid avoids ";
constexpr std::string_view descriptions =
    " attacking attacks attack threatening threatens hitting hits defending defends protecting "
    "protects guarding guards covering covers controlling controls pinning pins forking forks "
    "winning wins losing loses hanging hangs blocking blocks eyeing targeting against behind "
    "weakening weakens ";

// "kinght", "bihsop", "quen": a long name with its first letter right and little else wrong.
rules::PieceType misspelt_man(const std::string& text) {
  if (text.size() < 4 || text.size() > 8) return rules::no_piece_type;
  if (text[0] == 'k' && base::edit_distance(text, "knight") <= 2) return rules::knight;
  if (text[0] == 'b' && base::edit_distance(text, "bishop") <= 2) return rules::bishop;
  if (text[0] == 'q' && base::edit_distance(text, "queen") <= 1) return rules::queen;
  return rules::no_piece_type;
}

bool holds(std::string_view words, const std::string& word) {
  return words.find(' ' + word + ' ') != std::string_view::npos;
}

}  // namespace

Word look_up(std::string_view written) {
  const std::string text = base::lower_case(written);
  Word word;
  if (text == "b") {
    word.kind = Kind::piece;
    word.piece = rules::bishop;
    word.file = 1;
    word.is_letter_b = true;
    word.in_order = written == "B";
    return word;
  }
  if (text.size() == 1 && text[0] >= 'a' && text[0] <= 'h') {
    word.kind = Kind::file;
    word.file = static_cast<std::int8_t>(text[0] - 'a');
    return word;
  }
  for (const Group& group : dictionary) {
    if (!holds(group.words, text)) continue;
    word.kind = group.kind;
    word.piece = group.piece;
    return word;
  }
  if (holds(denials, text)) {
    word.kind = Kind::not_;
  } else if (holds(descriptions, text)) {
    word.kind = Kind::describes;
  } else if (const rules::PieceType man = misspelt_man(text); man != rules::no_piece_type) {
    word.kind = Kind::piece;
    word.piece = man;
  }
  return word;
}

}  // namespace kairos::audience
