// Which move of a line of chat is the vote. The rules, each with rows in
// tests/audience/meaning_lines.inc; "clause" is what stands between signs (. , ; ! ? :) and words
// such as "but", "so", "then", "I say"; the words of each rule are in cues.cpp.
//
//  1. The vote is the first move that can be played and that rules 2 to 6 do not take out; what
//     follows on it is his line, up to an "or".
//  2. Refused is the next move, within five words and in its clause, behind "not", "don't like",
//     "never", "anything but", "instead of", "than" and their like, and those joined to it by "or",
//     "nor", "and". So is a move with blame right behind it ("is bad", "just loses", "doesn't
//     work", "isn't good"; behind a comma or "?" only where the blame ends the clause: "a4? that's
//     bad"); blame for the opponent or denied ("is bad for Black", "can't be bad", "loses nothing")
//     is praise, and so is blame for a reply in a line of moves. Where a refusal has a reason
//     ("because", "loses to") the moves of the reason are no votes but for one that is called
//     better.
//  3. "??" is the sign of a blunder: no vote, unless the words before it propose ("is it Qh5??").
//     "?", "?!", "!?" say nothing: who doubts or asks still names his move, the first of several.
//  4. Told, so no vote in that clause: behind a verb of the past ("played", "went", "said") that
//     has no "I", "we", "should", "would" before it; behind "in the game" at the begin of a clause;
//     before "was played".
//  5. A question that proposes is a vote: "what about", "how about", "is it", "isn't Qh5 good?",
//     "why don't we". No vote, in its clause: "why (not) a4?", "what's wrong with a4?", "what does
//     Black do after a4?", and what the opponent may do ("if he plays a4").
//  6. A correction replaces the nearest move before it, in its line, that it can stand for, also
//     where it cannot be played itself: "no", "no wait", "scratch that", "I mean", "sorry",
//     "actually", "change to" with a move next. "No wait" and their like, and a "no" that stands
//     alone right behind the move ("a4? no"; but not "a4, no?"), take it back even if none follows.
#include "kairos/audience/meaning.hpp"

#include "cues.hpp"
#include "typed_found.hpp"

namespace kairos::audience {

namespace {

constexpr std::size_t refusal_reach = 5;     // words from the refusing word to the move
constexpr std::size_t correction_reach = 8;  // light words and signs to the move

class Reader {
 public:
  Reader(const rules::Position& p, std::string_view text, std::span<const rules::Move> known,
         rules::Letters letters)
      : root_(p), position_(p), known_(known), words_(typed_words(text, letters)) {}

  Meant read() {
    while (at_ < words_.size()) {
      const std::vector<Phrase> phrases = phrases_at(words_, at_);
      if (phrases.empty()) {
        take_word();
      } else {
        take_phrase(phrases);
      }
    }
    if (!meant_.line.moves.empty()) meant_.line.refused = {};
    const bool is_refused = !meant_.line.refused.text.empty();
    meant_.names_unmeant = names_unmeant_ && meant_.line.moves.empty() && !is_refused;
    return std::move(meant_);
  }

 private:
  enum class Silence : std::uint8_t { none, told, asked, reason };  // whose moves are no votes

  void open_clause() {
    refuses_ = own_ = blamed_in_clause_ = false;
    silence_ = Silence::none;
    clause_begin_ = at_;
  }

  void take_word() {
    const Word& word = words_[at_];
    if (is_sign(word)) {
      take_sign(word);
      return;
    }
    const CueAt cue = cue_at(words_, at_, root_.side_to_move());
    const std::size_t begin = at_;
    const bool goes_on = word.kind == Word::Kind::or_ || word.said == "and" || word.said == "nor";
    if (word.kind == Word::Kind::or_) after_or_ = true;
    at_ += cue.words;
    if (goes_on && refused_last_) refuse_from(begin);
    refused_last_ = false;
    if (word.said == "to" && blamed_in_clause_ && !phrases_at(words_, at_).empty()) {
      silence_ = Silence::reason;
    }
    take_cue(cue.cue, begin);
  }

  void take_sign(const Word& sign) {
    const bool behind_frame = at_ == frame_end_;
    ++at_;
    refused_last_ = false;
    if (ends_sentence(sign)) proposes_ = refused_in_sentence_ = false;
    if (!behind_frame) open_clause();
  }

  void refuse_from(std::size_t at) {
    refuses_ = true;
    refuses_since_ = at;
  }

  void take_cue(Cue cue, std::size_t begin) {
    switch (cue) {
      case Cue::refuses:
        if (is_asking_not(begin)) {
          proposes_ = true;
        } else {
          refuse_from(at_ - 1);
        }
        break;
      case Cue::proposes:
        proposes_ = true;
        break;
      case Cue::asks:
      case Cue::supposes:
        silence_ = Silence::asked;
        break;
      case Cue::game:
        if (begin != clause_begin_) break;
        silence_ = Silence::told;
        frame_end_ = at_;
        break;
      case Cue::tells:
        if (!own_) silence_ = Silence::told;
        break;
      case Cue::own:
        own_ = true;
        if (silence_ == Silence::told) silence_ = Silence::none;
        break;
      case Cue::opens:
        open_clause();
        own_ = words_[begin].said == "i";
        break;
      case Cue::reason:
        open_clause();
        if (refused_in_sentence_) silence_ = Silence::reason;
        break;
      case Cue::no:
      case Cue::withdraws:
      case Cue::corrects:
        take_correction(cue, begin);
        break;
      case Cue::none:
      case Cue::neutral:
        break;
    }
  }

  // "Isn't Qh5 good?" asks; "it isn't Qh5", "the answer isn't Qh5" refuse.
  [[nodiscard]] bool is_asking_not(std::size_t at) const {
    const std::string& word = words_[at].said;
    const bool may_ask = word == "doesnt" || word == "wont" || word == "wouldnt";
    if (word != "isnt" && !(may_ask && !phrases_at(words_, at + 1).empty())) return false;
    if (at == clause_begin_) return true;
    const std::string& before = words_[at - 1].said;
    return before == "hmm" || before == "well" || before == "and" || before == "oh";
  }

  void take_correction(Cue cue, std::size_t begin) {
    std::size_t next = at_;
    const auto is_move = [this](std::size_t at) { return !phrases_at(words_, at).empty(); };
    while (next < at_ + correction_reach && next < words_.size() && !is_move(next) &&
           is_light(words_[next])) {
      ++next;
    }
    const bool move_next = next < words_.size() && is_move(next);
    bool holds = move_next || cue == Cue::withdraws;
    if (cue == Cue::no && !holds && begin == last_end_) {
      holds = at_ == words_.size() || (is_sign(words_[at_]) && words_[at_].said != "?");
    }
    if (!holds) return;
    open_clause();
    const std::vector<rules::Move>& moves = meant_.line.moves;
    if (moves.empty()) return;
    corrects_ = true;
    slot_ = moves.size() - 1;
    if (cue == Cue::corrects) return;
    keep(slot_);
    names_unmeant_ = true;
  }

  void take_phrase(const std::vector<Phrase>& phrases) {
    const Found found = read(phrases);
    const std::size_t begin = at_;
    const Remark remark = remark_at(words_, found.end, root_.side_to_move());
    at_ = found.end;
    // Blame for the opponent's move of a line is praise for the line.
    const bool is_reply = meant_.line.moves.size() % 2 == 1 && found.typed.move;
    const bool blamed = remark.kind == Remark::Kind::blames && !is_reply && !is_asked_twice(remark);
    const bool refused = (refuses_ && begin - refuses_since_ <= refusal_reach) || blamed;
    const bool silent = silence_ == Silence::reason
                            ? remark.kind != Remark::Kind::praises
                            : silence_ != Silence::none || remark.kind == Remark::Kind::tells;
    at_ = std::max(at_, remark.end);
    refuses_ = false;
    refused_last_ = refused;
    blamed_in_clause_ = blamed_in_clause_ || blamed;
    refused_in_sentence_ = refused_in_sentence_ || refused;
    if (refused || silent) {
      names_unmeant_ = true;
    } else {
      take_vote(phrases, found);
    }
    after_or_ = false;
  }

  // "??" behind a proposal.
  [[nodiscard]] bool is_asked_twice(const Remark& remark) const {
    return proposes_ && words_[remark.end - 1].said == "?";
  }

  // In the position behind the line so far, with a reply left out where `known` has it.
  Found read(const std::vector<Phrase>& phrases) {
    if (closed_ && !corrects_) return {.typed = {}, .end = phrases.front().end};
    reply_ = left_out(position_, phrases, meant_.line.moves, known_);
    const Found found = resolve(position_, phrases);
    if (reply_ && found.typed.move != *reply_) return resolve(position_.after(*reply_), phrases);
    reply_.reset();
    return found;
  }

  [[nodiscard]] rules::Position behind(std::size_t moves) const {
    rules::Position position = root_;
    for (std::size_t i = 0; i < moves; ++i) position = position.after(meant_.line.moves[i]);
    return position;
  }

  void add(rules::Move move) {
    meant_.line.moves.push_back(move);
    position_ = position_.after(move);
  }
  void keep(std::size_t moves) {
    meant_.line.moves.resize(moves);
    position_ = behind(moves);
  }

  void take_vote(const std::vector<Phrase>& phrases, const Found& found) {
    const std::vector<rules::Move>& moves = meant_.line.moves;
    last_end_ = behind_signs(at_);
    if (corrects_) {
      correct(phrases);
      return;
    }
    if (closed_ || (after_or_ && !moves.empty())) {
      closed_ = true;
    } else if (found.typed.move) {
      if (reply_) add(*reply_);
      add(found.typed.move);
    } else if (!moves.empty()) {
      closed_ = true;
    } else if (meant_.line.refused.text.empty()) {
      meant_.line.refused = found.typed;
    }
  }

  // Puts the move where it can be played, as near to the end of the line as may be.
  void correct(const std::vector<Phrase>& phrases) {
    corrects_ = closed_ = false;
    Found found;
    for (std::size_t slot = slot_ + 1; slot-- > 0;) {
      found = resolve(behind(slot), phrases);
      if (!found.typed.move) continue;
      keep(slot);
      add(found.typed.move);
      return;
    }
    keep(0);
    meant_.line.refused = found.typed;
  }

  [[nodiscard]] std::size_t behind_signs(std::size_t at) const {
    const auto is_laugh = [](const Word& w) { return w.said == "lol" || w.said == "haha"; };
    while (at < words_.size() && (is_sign(words_[at]) || is_laugh(words_[at]))) ++at;
    return at;
  }

  const rules::Position root_;
  rules::Position position_;  // behind the line so far
  const std::span<const rules::Move> known_;
  const std::vector<Word> words_;
  Meant meant_;
  std::size_t at_ = 0;
  // Of the clause.
  std::size_t clause_begin_ = 0;
  Silence silence_ = Silence::none;
  bool refuses_ = false;  // the next move
  std::size_t refuses_since_ = 0;
  bool own_ = false;
  bool blamed_in_clause_ = false;
  std::size_t frame_end_ = 0;  // behind "in the game", where a comma ends nothing
  // Of the sentence.
  bool proposes_ = false;
  bool refused_in_sentence_ = false;
  // Of the message.
  bool refused_last_ = false;  // the last thing read was a refused move
  bool after_or_ = false;
  bool closed_ = false;  // the line has ended
  bool corrects_ = false;
  std::size_t slot_ = 0;      // of the line, where the correction may stand at the latest
  std::size_t last_end_ = 0;  // behind the last move and the signs on it
  std::optional<rules::Move> reply_;
  bool names_unmeant_ = false;
};

}  // namespace

Meant read_meant(const rules::Position& p, std::string_view text,
                 std::span<const rules::Move> known, rules::Letters letters) {
  return Reader(p, text, known, letters).read();
}

}  // namespace kairos::audience
