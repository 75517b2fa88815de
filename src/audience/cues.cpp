// The words of cues.hpp, in small letters without apostrophes ("dont"); HIM is any word for the
// opponent. Of cues that begin alike the longest holds. The rules are in meaning.cpp.
#include "cues.hpp"

#include <algorithm>
#include <array>
#include <span>
#include <string_view>
#include <unordered_map>

#include "kairos/base/text.hpp"

namespace kairos::audience {

namespace {

struct Group {
  Cue cue;
  std::string_view phrases;  // with "; " between them
};

constexpr std::string_view neutral_phrases =
    "cant be anything but; cannot be anything but; nothing works except; nothing works but; "
    "nothing except; everything loses except; everything loses but; everything fails except; "
    "everything else loses but; all moves lose except; dont sleep on; dont forget; dont miss; "
    "dont overlook; dont underestimate; dont you think; dont you see; never forget; not to "
    "mention; if not; cant find better than; dont see better than; cant beat; cant resist; "
    "cant lose with; cant argue with; not sure; not certain; not bad; not only; not 100; im "
    "not sure; dont know; dont know why; dont know if; do not know; dont mind; dont laugh; "
    "dont hate me; dont kill me; dont see why not; dont see anything but; dont see anything "
    "better than; dont see a better move than; never mind; nothing but; nothing beats; "
    "nothing better than; nothing is better than; cant find anything but; cant see anything "
    "but; cant see anything better than; cant go wrong with; cant decide; cant wait; cant "
    "see; cant find; cant believe; no doubt; no question; no idea; no brainer; no clue; no "
    "time; no more; no other; no problem; no better; has no; have no; theres no; there is no; "
    "with no; leaves no; leaving no; thats why; that is why; which is why; this is why; no "
    "wonder; wait for; better than nothing; without doubt; without a doubt; without question; "
    "would not mind; wouldnt mind; not that hard; not hard; not easy; not so fast; why am i; "
    "dont worry; no worries; do not worry; not kidding; not joking; not gonna lie";
constexpr std::string_view refuses_phrases =
    "not; never; dont; do not; doesnt; does not; didnt; did not; isnt; is not; aint; wasnt; "
    "cant; cannot; can not; wont; wouldnt; shouldnt; mustnt; couldnt; avoid; avoids; "
    "avoiding; hate; hates; dislike; anything but; everything but; all but; anything except; "
    "everything except; except; except for; apart from; instead of; rather than; than; "
    "neither; nor; forget; forget about; against; without; no to; losing move is; worst move "
    "is; wrong move is; bad move is; mistake is; blunder is; refuse to play; stop playing; "
    "nobody plays; no way; no chance; theres no way; there is no way; not a fan of; please "
    "no; stop saying; stop suggesting; enough of; i take back; change from; changing from; "
    "switch from; switching from; no one plays; nicht; kein; keine; niemals; pas; jamais; non; "
    "nunca; mai; niet; geen; nie; nao; \007ne";
constexpr std::string_view proposes_phrases =
    "what about; how about; what if; is it; isnt it; is it not; could it be; can it be; might "
    "it be; why dont we; why dont you; why dont i; why doesnt HIM; why doesnt white; why "
    "doesnt black; maybe; perhaps; think; guess; could be; might be; wouldnt it be; cant we; "
    "cant you; cant i; cant white; cant black; cant he; cant she; dont we; shouldnt we; "
    "shouldnt it be";
constexpr std::string_view asks_phrases =
    "why; why not; why isnt; why isnt it; why is it not; why cant; why cant we; why did; why "
    "would; why is; whats wrong with; whats the problem with; whats the point of; what is the "
    "problem with; what is the point of; did HIM; did white; did black; what is wrong with; "
    "wrong with; what happens; what happens if; what does; what do; what would; what will; "
    "what did; whats the reply; what is the reply; whats HIM; how does; how do; how would; "
    "how did; how can HIM; how should HIM; what can HIM; what should HIM; who plays; who "
    "played";
constexpr std::string_view supposes_phrases =
    "if HIM; what if HIM; when HIM; unless HIM; once HIM; in case HIM; and if HIM; but if "
    "HIM; after HIM; threat is HIM";
constexpr std::string_view game_phrases =
    "in the game; in game; in the actual game; in the real game; the game went; game went; "
    "the game continued; game continued; the game was; the game move was; game move was; last "
    "move; last move was; the last move was; the move played was";
constexpr std::string_view tells_phrases =
    "played; went; chose; picked; tried; pushed; blundered; captured; took; moved; sacked; "
    "sacrificed; said; suggested; answered; voted; castled; had played; has played; have "
    "played";
constexpr std::string_view own_phrases =
    "i; id; ive; im; we; wed; weve; lets; should; shouldve; shoulda; could; couldve; coulda; "
    "would; wouldve; woulda; must; mustve; needs; ought; to be";
constexpr std::string_view opens_phrases =
    "but; so; then; i say; i said; i vote; i prefer; i like; i go; i choose; i pick; i want; "
    "my vote; my move; my answer; my pick; best is; better is; better was; best was; better "
    "would be; correct is; correct was; right is; should be";
constexpr std::string_view reason_phrases =
    "because; because of; cause; cuz; cos; coz; bc; since; due to; as; runs into; met by; "
    "refuted by; answered by; allows; walks into; in view of";
constexpr std::string_view no_alone_phrases =
    "no; nope; nah; no no; no no no; wrong; nvm; nevermind; naw; noo; nooo; oh no; ah no";
constexpr std::string_view withdraws_phrases =
    "no wait; wait no; no no wait; nope wait; oh wait no; no sorry; sorry no; scratch that; "
    "scrap that; strike that; ignore that; cancel that; forget that; take that back; i take "
    "that back; take it back; i take it back; no i mean; no i meant; no actually; actually "
    "no; no change to; hold on no";
constexpr std::string_view corrects_phrases =
    "wait; oh wait; hold on; i mean; i meant; meant; sorry; my bad; oops; ops; oopsie; "
    "whoops; actually; correction; change to; changing to; i change to; changed to; change it "
    "to; change my vote to; change my answer to; change my move to; switch to; switching to; "
    "make that; make it; or rather; rather; or better; instead; edit; typo; on second "
    "thought; on second thoughts; i changed my mind; changed my mind; changing my mind";

constexpr std::array<Group, 13> table{{
    {Cue::neutral, neutral_phrases},
    {Cue::refuses, refuses_phrases},
    {Cue::proposes, proposes_phrases},
    {Cue::asks, asks_phrases},
    {Cue::supposes, supposes_phrases},
    {Cue::game, game_phrases},
    {Cue::tells, tells_phrases},
    {Cue::own, own_phrases},
    {Cue::opens, opens_phrases},
    {Cue::reason, reason_phrases},
    {Cue::no, no_alone_phrases},
    {Cue::withdraws, withdraws_phrases},
    {Cue::corrects, corrects_phrases},
}};

// Behind a move.
constexpr std::string_view blaming =
    " bad terrible awful horrible lose loses losing lost blunder blunders blundering mistake weak "
    "wrong dubious hangs drops dropping allows invites met fails fail sucks stinks trash "
    "garbage rubbish worse worst useless "
    "pointless nonsense suicide slow passive unsound refuted inaccurate inferior stupid dumb "
    "silly ";
constexpr std::string_view denying =
    " isnt doesnt cant cannot wont wouldnt wasnt aint couldnt didnt not no dont ";
constexpr std::string_view weakly_denying = " not no dont ";  // only with praise: "not good"
constexpr std::string_view praising =
    " good great best better right correct working work works playable possible enough ideal "
    "sound strong stronger convincing worth legal ";
constexpr std::string_view harmless =
    " stopped met answered beaten refuted parried just taken captured recaptured hard difficult "
    "easy "
    "obvious clear defended hurt only ";
constexpr std::string_view light_remark =
    " just simply is was looks look seems its it thats that this really clearly probably obviously "
    "surely totally also too so very a an the would will be kinda completely does do i think "
    "actually even pretty quite ";
constexpr std::string_view light =
    " i id think its it is im play go with to say vote mean meant want wanted oh ah hmm hm lol the "
    "actually sorry wait maybe my should be we lets that no make move ";
constexpr std::array<Group, 2> remarks{{
    {Cue::tells,
     "was played; was chosen; was the game; was tried; was the move; got played; happened; in the "
     "game; has been played; had been played; was game move; was already played; was the game "
     "move"},
    {Cue::refuses,
     "makes no sense; is out of the question; is out; is never good; never works; gets taken; "
     "gets captured; gives away; leads nowhere; goes nowhere; does nothing; is illegal"},
}};

bool holds(std::string_view words, std::string_view word) {
  if (word.empty()) return false;
  return words.find(' ' + std::string(word) + ' ') != std::string_view::npos;
}

bool is_opponent(const std::string& word, rules::Color mover) {
  return holds(" he she they him her them his their hes theyre opponent opp ", word) ||
         holds(mover == rules::white ? " black blacks " : " white whites ", word);
}

struct Pattern {
  Cue cue;
  std::vector<std::string_view> words;
};
using Patterns = std::unordered_map<std::string_view, std::vector<Pattern>>;

// By their first word, longest first.
Patterns make_patterns(std::span<const Group> groups) {
  Patterns patterns;
  for (const Group& group : groups) {
    std::string_view rest = group.phrases;
    while (!rest.empty()) {
      const std::size_t end = std::min(rest.find(';'), rest.size());
      Pattern pattern{group.cue, base::fields(rest.substr(0, end))};
      patterns[pattern.words.front()].push_back(std::move(pattern));
      rest.remove_prefix(std::min(end + 1, rest.size()));
    }
  }
  for (auto& [first, alike] : patterns) {
    std::ranges::stable_sort(alike, std::greater{},
                             [](const Pattern& p) { return p.words.size(); });
  }
  return patterns;
}

bool says(const std::vector<Word>& words, std::size_t at, const std::vector<std::string_view>& said,
          rules::Color mover) {
  if (at + said.size() > words.size()) return false;
  for (std::size_t i = 0; i < said.size(); ++i) {
    const std::string& word = words[at + i].said;
    if (said[i] == "HIM" ? !is_opponent(word, mover) : word != said[i]) return false;
  }
  return true;
}

const std::string& said(const std::vector<Word>& words, std::size_t at) {
  static const std::string nothing;
  return at < words.size() ? words[at].said : nothing;
}

CueAt find(const Patterns& patterns, const std::vector<Word>& words, std::size_t at,
           rules::Color mover) {
  const auto alike = patterns.find(said(words, at));
  if (alike == patterns.end()) return {};
  for (const Pattern& pattern : alike->second) {
    if (says(words, at, pattern.words, mover)) return {pattern.cue, pattern.words.size()};
  }
  return {};
}

bool is_clause_end(const std::vector<Word>& words, std::size_t at) {
  return at >= words.size() || is_sign(words[at]);
}

// The first of the next three words of a clause that is in `list`; else the end of all words.
std::size_t soon(const std::vector<Word>& words, std::size_t at, std::string_view list) {
  for (std::size_t i = at; i < at + 3 && !is_clause_end(words, i); ++i) {
    if (words[i].said.empty() || words[i].said == "but" || words[i].said == "and") break;
    if (holds(list, words[i].said)) return i;
  }
  return words.size();
}

bool is_for_opponent(const std::vector<Word>& words, std::size_t at, rules::Color mover) {
  const std::size_t to = soon(words, at, " for ");
  return is_opponent(said(words, to + 1), mover);
}

// "isn't good", "can't be stopped", "not bad": behind the light words.
Remark denied_at(const std::vector<Word>& words, std::size_t at) {
  const std::size_t saved = std::min(soon(words, at + 1, blaming), soon(words, at + 1, harmless));
  if (saved < words.size()) return {Remark::Kind::none, saved + 1};
  if (said(words, at + 1) == "it") return {Remark::Kind::blames, at + 2};
  const std::size_t praise = soon(words, at + 1, praising);
  if (praise < words.size()) return {Remark::Kind::blames, praise + 1};
  const bool alone = !holds(weakly_denying, words[at].said) &&
                     (is_clause_end(words, at + 1) || !words[at + 1].said.empty());
  return alone ? Remark{Remark::Kind::blames, at + 1} : Remark{};
}

}  // namespace

bool is_sign(const Word& word) {
  return word.said.size() == 1 && holds(" . , ; ! ? : ", word.said);
}

bool ends_sentence(const Word& word) {
  return is_sign(word) && word.said != "," && word.said != ":";
}

bool is_light(const Word& word) {
  return is_sign(word) || holds(light, word.said);
}

CueAt cue_at(const std::vector<Word>& words, std::size_t at, rules::Color mover) {
  static const Patterns patterns = make_patterns(table);
  return find(patterns, words, at, mover);
}

Remark remark_at(const std::vector<Word>& words, std::size_t at, rules::Color mover) {
  if (said(words, at) == "?" && said(words, at + 1) == "?") return {Remark::Kind::blames, at + 2};
  static const Patterns patterns = make_patterns(remarks);
  if (const CueAt cue = find(patterns, words, at, mover); cue.cue != Cue::none) {
    const bool tells = cue.cue == Cue::tells;
    return {tells ? Remark::Kind::tells : Remark::Kind::blames, at + cue.words};
  }
  std::size_t i = at;
  for (; i < at + 2 && (said(words, i) == "?" || said(words, i) == "!" || said(words, i) == ",");)
    ++i;
  const bool paused = i > at;
  for (std::size_t n = 0; n < 4 && holds(light_remark, said(words, i)); ++n) ++i;
  const std::string& word = said(words, i);
  if (holds(denying, word)) {
    if (cue_at(words, i, mover).cue == Cue::neutral) return {};
    const Remark denied = denied_at(words, i);
    return paused && !is_clause_end(words, denied.end) ? Remark{} : denied;
  }
  if (holds(" better best stronger ", word)) return {Remark::Kind::praises, i + 1};
  if (!holds(blaming, word)) return {};
  const std::size_t end = said(words, i + 1) == "than" ? i + 2 : i + 1;
  if (paused && !is_clause_end(words, end)) return {};
  const bool for_nothing = said(words, end) == "nothing" ||
                           (said(words, end) == "to" && said(words, end + 1) == "nothing");
  const bool harms = !for_nothing && !is_for_opponent(words, i + 1, mover);
  return {harms ? Remark::Kind::blames : Remark::Kind::none, end};
}

}  // namespace kairos::audience
