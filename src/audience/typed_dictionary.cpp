// The words that have a meaning in a typed move, in the nine tongues of which words are known:
// English, German, French, Spanish, Italian, Portuguese, Dutch, Polish, Russian. All others are
// talk.
//
// Words are written as plain_letters leaves them: without marks on letters, Russian ones in Latin
// letters. Those of all tongues are known at once; a word that means something else in English
// counts only where its tongue is asked for. Sources: the words that players use (common practice,
// from memory).
#include <array>
#include <span>

#include "kairos/base/text.hpp"

#include "typed_phrase.hpp"

namespace kairos::audience {

namespace {

using Kind = Word::Kind;
using rules::Letters;

struct Group {
  Kind kind;
  rules::PieceType piece;
  std::string_view words;           // between blanks
  Letters only = Letters::english;  // another: where that tongue is asked for
};

constexpr rules::PieceType none = rules::no_piece_type;

constexpr std::array<Group, 32> dictionary{{
    {Kind::piece, rules::king, " king k konig koenig roi rey rei koning krol "},
    {Kind::piece, rules::queen,
     " queen q dame reine dama reina donna regina rainha koningin hetman krolowa "},
    {Kind::piece, rules::rook, " rook r turm tour torre toren wieza wieze "},
    // b alone may be the pawn
    {Kind::piece, rules::bishop,
     " bishop laufer laeufer fou alfil alfiere bispo loper goniec gonca "},
    {Kind::piece, rules::knight,
     " knight night horse n springer pferd cavalier caballo cavallo cavalo paard skoczek skoczka "
     "kon konia konik "},
    {Kind::piece, rules::pawn, " pawn p bauer pion peon pedone peao pionek pionka piona "},
    {Kind::takes, none,
     " x takes take taking captures capture capturing grabs schlagt schlaegt schlagen nimmt prend "
     "prends capturer mange toma tomar captura capturar prende prendere mangia cattura slaat neemt "
     "pakt bije bierze zbija por "},
    {Kind::takes, none, " come comer ", Letters::spanish},
    {Kind::takes, none, " come comer ", Letters::portuguese},
    {Kind::takes, none, " per ", Letters::italian},
    {Kind::goes, none,
     " to into goes go going moves move jumps slides nach zieht geht vers va joue hacia mueve para "
     "naar gaat speelt idzie "},
    {Kind::goes, none, " do ", Letters::polish},
    {Kind::stands, none, " auf en na su op "},
    {Kind::stands, none, " in ", Letters::italian},
    {Kind::stands, none, " em ", Letters::portuguese},
    {Kind::from, none, " from on at von vom de du depuis desde del da dal dalla van "},
    {Kind::from, none, " z ze ", Letters::polish},
    {Kind::castles, none,
     " castle castles castling rochade rochiert rochieren roque roquer roquent enroque enroca "
     "enrocar arrocco arrocca arroccare rokade rokeert rocheert roszada "},
    {Kind::short_side, none,
     " short kingside king's kings kurz kurze petit petite corto corta curto kort korte krotka "
     "pequeno kleine "},
    {Kind::long_side, none,
     " long queenside queen's queens lang lange grand grande gran largo lungo longo groot grote "
     "dluga grosse grose "},
    {Kind::side, none, " side "},
    {Kind::becomes, none,
     " promotes promote promoting promotion underpromotes becomes becoming makes making wird "
     "umwandlung devient corona promociona promuove diventa promove promoveert wordt przemienia "},
    {Kind::filler, none,
     " the an my our your his her their der das den dem mein meine meinen le la les l mon ma el "
     "los las mi il lo het mijn "},
    {Kind::piece, rules::king, " re ", Letters::italian},
    {Kind::filler, none, " o ", Letters::portuguese},
    {Kind::filler, none, " die ", Letters::german},
    {Kind::verb, none, " play plays playing try "},
    {Kind::or_, none, " or oder ou oppure lub albo "},
    {Kind::or_, none, " o ", Letters::spanish},
    {Kind::or_, none, " o ", Letters::italian},
    {Kind::or_, none, " of ", Letters::dutch},
}};

// Behind the mark of Cyrillic words; a letter alone is a word too.
constexpr std::array<Group, 16> russian{{
    {Kind::piece, rules::king, " korolj korolem korolya kr "},
    {Kind::piece, rules::queen, " ferzj ferzem ferzya koroleva korolevoj "},
    {Kind::piece, rules::rook, " ladjya ladjej ladjyu tura turoj turu "},
    {Kind::piece, rules::bishop, " slon slonom slona oficer oficerom "},
    {Kind::piece, rules::knight, " konj konem konya loshadj loshadjyu "},
    {Kind::piece, rules::pawn, " peshka peshkoj peshku "},
    {Kind::takes, none, " bjet beret vzyatj vzyal zabiraet esht rubit h "},
    {Kind::goes, none, " idet hodit v k "},
    {Kind::stands, none, " na "},
    {Kind::from, none, " s so iz "},
    {Kind::castles, none, " rokirovka rokirovku rokiruetsya rokirovatjsya "},
    {Kind::short_side, none, " korotkaya korotkuyu korotko "},
    {Kind::long_side, none, " dlinnaya dlinnuyu dlinno "},
    {Kind::becomes, none, " prevraschaetsya stanovitsya "},
    {Kind::or_, none, " ili libo "},
    {Kind::not_, none, " ne "},
}};
constexpr std::string_view denials =
    " not never don't dont isn't isnt avoid avoids nicht kein keine niemals pas jamais non nunca "
    "mai "
    "niet geen nie nao ";
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

bool find(std::span<const Group> groups, const std::string& text, Letters letters, Word& word) {
  for (const Group& group : groups) {
    if (group.only != Letters::english && group.only != letters) continue;
    if (!holds(group.words, text)) continue;
    word.kind = group.kind;
    word.piece = group.piece;
    return true;
  }
  return false;
}

}  // namespace

Word look_up(std::string_view written, Letters letters) {
  std::string text = base::lower_case(written);
  if (text.starts_with("l'") || text.starts_with("d'")) text.erase(0, 2);  // "l'alfiere"
  Word word;
  if (text.empty()) return word;
  if (const rules::PieceType man = man_of_sign(text[0]); text.size() == 1 && man != none) {
    word.kind = Kind::piece;
    word.piece = man;
    return word;
  }
  if (text == "b") {
    word.kind = Kind::piece;
    word.piece = rules::bishop;
    word.file = 1;
    word.is_letter_b = true;
    word.is_capital = written == "B";
    return word;
  }
  if (text.size() == 1 && text[0] >= 'a' && text[0] <= 'h') {
    word.kind = Kind::file;
    word.file = static_cast<std::int8_t>(text[0] - 'a');
    return word;
  }
  if (text[0] == cyrillic_mark) {
    find(russian, text.substr(1), letters, word);
    return word;
  }
  if (find(dictionary, text, letters, word)) return word;
  if (holds(denials, text)) {
    word.kind = Kind::not_;
  } else if (holds(descriptions, text)) {
    word.kind = Kind::describes;
  } else if (const rules::PieceType man = misspelt_man(text); man != none) {
    word.kind = Kind::piece;
    word.piece = man;
  }
  return word;
}

}  // namespace kairos::audience
