// From phrases to moves: what fits the board, and in what order a message is gone through.
//
// A message is cut into words (typed_words.cpp), words make phrases, each with one or more ways to
// be read (typed_phrase.cpp), and a phrase is a move when exactly one legal move fits one of its
// ways. Only this last step sees the board, so a phrase that fits nothing can still be told what is
// wrong with it. Covered by tests/audience/typed_test.cpp.
#include "kairos/audience/typed.hpp"

#include <algorithm>
#include <optional>

#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"

#include "typed_found.hpp"

namespace kairos::audience {

namespace {

using base::Code;
using Kind = Word::Kind;

constexpr std::string_view men = "PNBRQK?";

bool is_castling(const rules::Position& p, rules::Move m, bool is_short) {
  const rules::PieceType man = type_of(p.piece_on(m.from()));
  return man == rules::king && file_of(m.from()) == 4 && file_of(m.to()) == (is_short ? 6 : 2);
}

bool fits_castling(const rules::Position& p, rules::Move m, Reading::Kind kind) {
  return (kind != Reading::Kind::long_castling && is_castling(p, m, true)) ||
         (kind != Reading::Kind::short_castling && is_castling(p, m, false));
}

// The man taken by a capture; en passant takes a pawn.
rules::PieceType taken_by(const rules::Position& p, rules::Move m) {
  return p.is_empty(m.to()) ? rules::pawn : type_of(p.piece_on(m.to()));
}

// A pawn's capture is always said, or its file is; a man's may be left out or put in.
bool fits_capture(const rules::Position& p, rules::Move m, const Reading& r) {
  const bool captures = p.is_capture(m);
  if (r.taken != rules::no_piece_type && (!captures || taken_by(p, m) != r.taken)) return false;
  if (r.takes)
    return captures || (r.man != rules::pawn && r.man != rules::no_piece_type) || r.from_rank >= 0;
  return !captures || r.man != rules::pawn || r.from_rank >= 0;
}

bool fits(const rules::Position& p, rules::Move m, const Reading& r) {
  if (r.kind != Reading::Kind::man) return fits_castling(p, m, r.kind);
  if (r.man != rules::no_piece_type && type_of(p.piece_on(m.from())) != r.man) return false;
  if (r.to != rules::no_square && m.to() != r.to) return false;
  if (r.to_file >= 0 && file_of(m.to()) != r.to_file) return false;
  if (r.from_file >= 0 && file_of(m.from()) != r.from_file) return false;
  if (r.from_rank >= 0 && rank_of(m.from()) != r.from_rank) return false;
  const rules::PieceType promoted = m.is_promotion() ? m.promoted() : rules::no_piece_type;
  const rules::PieceType wanted =
      m.is_promotion() && r.promoted == rules::no_piece_type ? rules::queen : r.promoted;
  return promoted == wanted && fits_capture(p, m, r);
}

struct Fitting {
  std::vector<rules::Move> moves;
  std::uint8_t rank = 0;  // of the readings that they fit
};

// Of the lowest rank of which any fits.
Fitting moves_that_fit(const rules::Position& p, std::span<const Reading> readings) {
  rules::MoveList legal;
  rules::legal_moves(p, legal);
  Fitting fitting;
  for (; fitting.rank <= last_rank; ++fitting.rank) {
    for (const rules::Move m : legal) {
      const auto means = [&](const Reading& r) { return r.rank == fitting.rank && fits(p, m, r); };
      if (std::ranges::any_of(readings, means)) fitting.moves.push_back(m);
    }
    if (!fitting.moves.empty()) break;
  }
  return fitting;
}

// The phrase in short: "Rxe4", "exd", "e7e8=N", "O-O".
std::string short_text(const Reading& r) {
  if (r.kind == Reading::Kind::long_castling) return "O-O-O";
  if (r.kind != Reading::Kind::man) return "O-O";
  std::string text;
  if (r.man != rules::no_piece_type && r.man != rules::pawn)
    text += men[static_cast<std::size_t>(r.man)];
  if (r.from_file >= 0) text += static_cast<char>('a' + r.from_file);
  if (r.from_rank >= 0) text += static_cast<char>('1' + r.from_rank);
  if (r.takes) text += 'x';
  if (r.to != rules::no_square) {
    text += to_string(r.to);
  } else if (r.to_file >= 0) {
    text += static_cast<char>('a' + r.to_file);
  } else if (r.taken != rules::no_piece_type) {
    text += men[static_cast<std::size_t>(r.taken)];
  }
  if (r.promoted != rules::no_piece_type) {
    text += '=';
    text += men[static_cast<std::size_t>(r.promoted)];
  }
  return text;
}

// The first reading of a man that the side to move has; else the first.
const Reading& likelier(const rules::Position& p, const Phrase& phrase) {
  const auto has = [&p](const Reading& r) {
    return r.man == rules::no_piece_type || p.pieces(p.side_to_move(), r.man) != 0;
  };
  const auto found = std::ranges::find_if(phrase.readings, has);
  return found == phrase.readings.end() ? phrase.readings.front() : *found;
}

TypedMove illegal(const rules::Position& p, const Phrase& phrase) {
  const Reading& reading = likelier(p, phrase);
  TypedMove refused;
  refused.text = short_text(reading);
  const bool complete = reading.kind != Reading::Kind::man || reading.to != rules::no_square;
  // Short notation may be read more leniently than the phrase was ("e8" for a promotion).
  const rules::SanReading read = rules::read_san(p, refused.text);
  refused.problem = complete && !read.move && read.problem != Code::not_a_move ? read.problem
                                                                               : Code::illegal_move;
  if (complete && !read.move) refused.why = rules::why_not(p, refused.text);
  if (refused.why.empty()) refused.why = "no legal move fits";
  return refused;
}

TypedMove ambiguous(const rules::Position& p, const Phrase& phrase, const Fitting& fitting) {
  constexpr std::size_t most_named = 4;
  TypedMove refused;
  refused.problem = Code::ambiguous_move;
  for (const Reading& reading : phrase.readings) {
    if (reading.rank > fitting.rank) continue;
    refused.text = short_text(reading);  // the last: a b as it was written
    if (reading.kind == Reading::Kind::castling) refused.text = "castles";
  }
  refused.why = "it may be ";
  for (std::size_t i = 0; i < std::min(most_named, fitting.moves.size()); ++i) {
    if (i > 0) refused.why += " or ";
    refused.why += rules::to_san(p, fitting.moves[i]);
  }
  return refused;
}

TypedMove resolve(const rules::Position& p, const Phrase& phrase) {
  const Fitting fitting = moves_that_fit(p, phrase.readings);
  if (fitting.moves.empty()) return illegal(p, phrase);
  if (fitting.moves.size() > 1) return ambiguous(p, phrase, fitting);
  TypedMove typed;
  typed.move = fitting.moves.front();
  typed.text = rules::to_san(p, typed.move);
  return typed;
}

// Goes through the phrases of a message, but for those that are spoken against ("not Nf3").
class Phrases {
 public:
  Phrases(std::string_view text, rules::Letters letters) : words_(typed_words(text, letters)) {}

  // The phrases that begin at the next place where any does; none at the end.
  std::vector<Phrase> next() {
    bool denied = false;
    while (at_ < words_.size()) {
      const Kind kind = words_[at_].kind;
      std::vector<Phrase> phrases = phrases_at(words_, at_);
      if (phrases.empty()) {
        if (kind == Kind::not_) denied = true;
        if (kind == Kind::other) denied = false;
        if (kind == Kind::or_) after_or_ = true;
        ++at_;
      } else if (denied) {
        at_ = phrases.front().end;
        denied = false;
      } else {
        return phrases;
      }
    }
    return {};
  }
  void go_on_at(std::size_t at) {
    at_ = at;
    after_or_ = false;
  }
  // Whether an "or" stood before what `next` gave.
  [[nodiscard]] bool after_or() const { return after_or_; }

 private:
  std::vector<Word> words_;
  std::size_t at_ = 0;
  bool after_or_ = false;
};

}  // namespace

Found resolve(const rules::Position& p, const std::vector<Phrase>& phrases) {
  Found refused;
  for (const Phrase& phrase : phrases) {
    TypedMove typed = resolve(p, phrase);
    if (typed.move) return {std::move(typed), phrase.end};
    if (refused.end == 0 ||
        (typed.problem == Code::ambiguous_move && refused.typed.problem != Code::ambiguous_move)) {
      refused = {std::move(typed), phrase.end};
    }
  }
  return refused;
}

std::optional<rules::Move> left_out(const rules::Position& p, const std::vector<Phrase>& phrases,
                                    std::span<const rules::Move> moves,
                                    std::span<const rules::Move> known) {
  const std::size_t n = moves.size();
  if (n % 2 == 0 || known.size() < n + 2) return std::nullopt;
  if (!std::equal(moves.begin(), moves.end(), known.begin())) return std::nullopt;
  const Found after = resolve(p.after(known[n]), phrases);
  if (after.typed.move != known[n + 1]) return std::nullopt;
  return known[n];
}

TypedLine read_typed_line(const rules::Position& p, std::string_view text,
                          std::span<const rules::Move> known, rules::Letters letters) {
  Phrases phrases(text, letters);
  rules::Position position = p;
  TypedLine line;
  for (std::vector<Phrase> next = phrases.next(); !next.empty(); next = phrases.next()) {
    if (!line.moves.empty() && phrases.after_or()) break;
    Found found = resolve(position, next);
    if (const auto reply = left_out(position, next, line.moves, known)) {
      if (found.typed.move != *reply) {
        line.moves.push_back(*reply);
        position = position.after(*reply);
        found = resolve(position, next);
      }
    }
    phrases.go_on_at(found.end);
    if (found.typed.move) {
      line.moves.push_back(found.typed.move);
      position = position.after(found.typed.move);
    } else if (line.moves.empty()) {
      if (line.refused.text.empty()) line.refused = std::move(found.typed);
    } else {
      line.ended_by = std::move(found.typed);
      break;
    }
  }
  if (!line.moves.empty()) line.refused = {};
  return line;
}

std::vector<TypedMove> read_typed_moves(const rules::Position& p, std::string_view text,
                                        rules::Letters letters) {
  Phrases phrases(text, letters);
  std::vector<TypedMove> moves;
  for (std::vector<Phrase> next = phrases.next(); !next.empty(); next = phrases.next()) {
    Found found = resolve(p, next);
    phrases.go_on_at(found.end);
    moves.push_back(std::move(found.typed));
  }
  if (moves.empty()) moves.emplace_back();
  return moves;
}

}  // namespace kairos::audience
