// Words that say what is meant by the moves beside them; the tables are in cues.cpp, what follows
// of them in meaning.cpp.
#pragma once

#include <cstdint>
#include <vector>

#include "kairos/rules/piece.hpp"

#include "typed_phrase.hpp"

namespace kairos::audience {

enum class Cue : std::uint8_t {
  none,
  neutral,    // looks like one of the others and is none: "not bad", "no doubt"
  refuses,    // the next move: "don't like"
  proposes,   // "what about"
  asks,       // about the moves of its clause: "why not"
  supposes,   // what the opponent may do: "if he"
  game,       // at the begin of a clause, what was played: "in the game"
  tells,      // a verb of the past: "played"
  own,        // whose verb tells nothing of the game: "I", "should"
  opens,      // a new clause: "but"
  reason,     // behind a refusal: "because"
  no,         // takes the move before it back, where it stands alone or a move follows
  withdraws,  // takes the move before it back: "no wait"
  corrects    // as `withdraws`, where a move follows: "I mean"
};

struct CueAt {
  Cue cue = Cue::none;
  std::size_t words = 1;
};
// The longest cue that begins with word `at`. `mover`: "he" and the other colour are the opponent.
CueAt cue_at(const std::vector<Word>& words, std::size_t at, rules::Color mover);

// What is said of a move behind it.
struct Remark {
  enum class Kind : std::uint8_t { none, blames, tells, praises };
  Kind kind = Kind::none;
  std::size_t end = 0;  // one past its last word
};
Remark remark_at(const std::vector<Word>& words, std::size_t at, rules::Color mover);

bool is_sign(const Word& word);        // ends a clause
bool ends_sentence(const Word& word);  // . ! ? ;
bool is_light(const Word& word);       // may stand between a correction and its move

}  // namespace kairos::audience
