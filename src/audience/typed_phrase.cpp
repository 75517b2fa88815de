// From words to phrases: [man] [where from] [takes] [where to] [what it becomes].
//
// A phrase needs a man or a square that goes somewhere; "the e5 pawn", "bishop on d4" and "queen"
// alone only describe. Where words can be put together in two ways ("e2 e4": one move from square
// to square, or two pawn moves), both are given and the board decides.
#include "typed_phrase.hpp"

#include <algorithm>

namespace kairos::audience {

namespace {

using Kind = Word::Kind;

std::int8_t file_number(rules::Square s) {
  return static_cast<std::int8_t>(file_of(s));
}

std::int8_t rank_number(rules::Square s) {
  return static_cast<std::int8_t>(rank_of(s));
}

bool is_last_rank(rules::Square s) {
  return s != rules::no_square && (rank_of(s) == 0 || rank_of(s) == 7);
}

bool promotes_to(rules::PieceType t) {
  return t == rules::queen || t == rules::rook || t == rules::bishop || t == rules::knight;
}

class Grammar {
 public:
  explicit Grammar(const std::vector<Word>& words) : words_(words) {}

  std::vector<Phrase> at(std::size_t at) {
    found_.clear();
    switch (word(at).kind) {
      case Kind::notation:
        add(word(at).readings, at + 1);
        break;
      case Kind::castles:
        castling_word(at);
        break;
      case Kind::short_side:
      case Kind::long_side:
        if (const std::size_t next = skip(at + 1, Kind::side); word(next).kind == Kind::castles) {
          add_castling(word(at).kind, next + 1);
        }
        break;
      case Kind::square:
        square(at);
        break;
      case Kind::from:
        if (word(at + 1).kind == Kind::square) from_to(at + 1, true);
        break;
      case Kind::takes:
        unnamed_capture(at);
        break;
      case Kind::file:
        if (word(at + 1).piece == rules::pawn && word(at + 1).kind == Kind::piece) {
          pawn_of_file(at, at + 2);
        } else if (word(at + 1).kind == Kind::takes) {
          pawn_of_file(at, at + 1);
        }
        break;
      case Kind::piece:
        piece(at);
        break;
      default:
        break;
    }
    return std::move(found_);
  }

 private:
  [[nodiscard]] const Word& word(std::size_t at) const {
    static const Word talk;
    return at < words_.size() ? words_[at] : talk;
  }
  [[nodiscard]] const Word& before(std::size_t at) const { return word(at - 1); }

  [[nodiscard]] std::size_t skip(std::size_t at, Kind kind) const {
    while (word(at).kind == kind) ++at;
    return at;
  }

  // Behind words that say that something goes to what follows.
  [[nodiscard]] std::size_t toward(std::size_t at) const {
    while (word(at).kind == Kind::goes || word(at).kind == Kind::stands) ++at;
    return at;
  }

  void add(std::vector<Reading> readings, std::size_t end) {
    if (readings.empty()) return;
    end = promotion(readings, end);
    found_.push_back({std::move(readings), end});
  }

  static bool may_promote(const Reading& reading) {
    return (reading.man == rules::pawn || reading.man == rules::no_piece_type) &&
           reading.promoted == rules::no_piece_type &&
           (is_last_rank(reading.to) || reading.to_file >= 0);
  }

  // "= queen", "promotes to a knight", "queen" behind a pawn's move to the last rank.
  std::size_t promotion(std::vector<Reading>& readings, std::size_t at) const {
    if (std::none_of(readings.begin(), readings.end(), may_promote)) return at;
    const bool paused = word(at).kind == Kind::other && word(at + 1).kind == Kind::becomes;
    const bool said = paused || word(at).kind == Kind::becomes;
    std::size_t end = skip(at + (paused ? 1 : 0), Kind::becomes);
    end = skip(toward(end), Kind::filler);
    if (is_article(end)) ++end;
    const Word& piece = word(end);
    if (piece.kind != Kind::piece || !promotes_to(piece.piece)) return at;
    // "e8 queen takes d8" is two moves; "exd knight" may be the begin of another.
    const bool known = is_last_rank(readings.front().to);
    if (!said && (!known || end != at || !Grammar(words_).at(at).empty())) return at;
    for (Reading& reading : readings) {
      if (may_promote(reading)) reading.promoted = piece.piece;
    }
    return end + 1;
  }

  void add_castling(Kind side, std::size_t end) {
    Reading reading;
    reading.kind = side == Kind::short_side  ? Reading::Kind::short_castling
                   : side == Kind::long_side ? Reading::Kind::long_castling
                                             : Reading::Kind::castling;
    add({reading}, end);
  }

  // "castles", "castle long", "castles king side", "castle to the queenside".
  void castling_word(std::size_t at) {
    std::size_t end = toward(at + 1);
    end = skip(skip(end, Kind::from), Kind::filler);
    const Word& side = word(end);
    if (side.kind == Kind::short_side || side.kind == Kind::long_side) {
      add_castling(side.kind, skip(end + 1, Kind::side));
    } else if (side.kind == Kind::piece &&
               (side.piece == rules::king || side.piece == rules::queen)) {
      const Kind named = side.piece == rules::king ? Kind::short_side : Kind::long_side;
      add_castling(named, skip(end + 1, Kind::side));
    } else {
      add_castling(Kind::castles, at + 1);
    }
  }

  // Behind "attacking" or "on" a square is where something is, not where it goes.
  [[nodiscard]] bool is_described(std::size_t at) const {
    if (at == 0) return false;
    const Kind kind = before(at).kind;
    return kind == Kind::describes || kind == Kind::from || kind == Kind::filler;
  }
  // "a" before a man.
  [[nodiscard]] bool is_article(std::size_t at) const {
    return word(at).kind == Kind::file && word(at).file == 0 && word(at + 1).kind == Kind::piece;
  }

  void square(std::size_t at) {
    if (word(at + 1).kind == Kind::piece) {
      described_man(at);
    } else if (!is_described(at)) {
      add({pawn_to(word(at).square)}, at + 1);
    }
    from_to(at, false);
  }

  static Reading pawn_to(rules::Square to) {
    Reading reading;
    reading.man = rules::pawn;
    reading.to = to;
    return reading;
  }

  // "e5 pawn takes d6" is the pawn on e5; "e4 knight f3" may also be two moves; "e8 queen"
  // promotes; "the e5 pawn" is only talked of.
  void described_man(std::size_t at) {
    const rules::Square from = word(at).square;
    for (Phrase phrase : Grammar(words_).at(at + 1)) {
      for (Reading& reading : phrase.readings) {
        reading.from_file = file_number(from);
        reading.from_rank = rank_number(from);
      }
      found_.push_back(std::move(phrase));
    }
    const bool promotes = is_last_rank(from) && promotes_to(word(at + 1).piece);
    if ((!found_.empty() || promotes) && !is_described(at)) add({pawn_to(from)}, at + 1);
  }

  // "e2 e4", "e4 to e5", "e4 takes d5". `needed`: a word has said that the first is the origin.
  void from_to(std::size_t at, bool needed) {
    Reading reading;
    reading.from_file = file_number(word(at).square);
    reading.from_rank = rank_number(word(at).square);
    std::size_t end = at + 1;
    const bool joined = word(end).kind == Kind::goes || word(end).kind == Kind::takes;
    if (!finish(reading, end)) return;
    if (joined && !needed) found_.clear();
    add({reading}, end);
  }

  // [goes] [takes [on]] [the] target, from `at`, which moves behind it.
  bool finish(Reading& reading, std::size_t& at) const {
    std::size_t end = skip(at, Kind::filler);
    end = toward(end);
    if (word(end).kind == Kind::takes) {
      reading.takes = true;
      ++end;
      if (word(end).kind == Kind::from) ++end;
    }
    end = skip(toward(end), Kind::filler);
    const bool is_to = end > at && word(end).kind == Kind::file && word(end).file == 0 &&
                       word(end + 1).kind == Kind::square;  // "va a h3"
    if (is_article(end) || is_to) ++end;
    if (word(end).kind == Kind::square) {
      reading.to = word(end).square;
      at = end + 1;
      return true;
    }
    if (reading.takes && word(end).kind == Kind::piece) {
      reading.taken = word(end).piece;
      at = end + 1;
      if (word(at).kind == Kind::from && word(at + 1).kind == Kind::square) {
        reading.to = word(at + 1).square;
        at += 2;
      }
      return true;
    }
    return finish_notation(reading, word(end), end, at);
  }

  // "knight bd2", "bishop xd4", "pawn e8n": the rest of the way is notation of its own.
  static bool finish_notation(Reading& reading, const Word& rest, std::size_t end,
                              std::size_t& at) {
    if (rest.kind != Kind::notation) return false;
    for (const Reading& way : rest.readings) {
      if (way.kind != Reading::Kind::man || way.to == rules::no_square) continue;
      if (way.man != rules::pawn && way.man != rules::no_piece_type) continue;
      if (way.from_file >= 0) {
        if (reading.from_file >= 0 || reading.takes) continue;
        reading.from_file = way.from_file;
        reading.from_rank = way.from_rank;
      }
      reading.takes = reading.takes || (way.man == rules::no_piece_type && way.takes);
      reading.promoted = way.promoted;
      reading.to = way.to;
      at = end + 1;
      return true;
    }
    return false;
  }

  // "takes d4" with no man named.
  void unnamed_capture(std::size_t at) {
    Reading reading;
    std::size_t end = at;
    if (finish(reading, end)) add({reading}, end);
  }

  // "e pawn takes d5", "e x d", "a pawn to b5" (where the a may be the article).
  void pawn_of_file(std::size_t at, std::size_t rest) {
    Reading reading;
    reading.man = rules::pawn;
    std::size_t end = rest;
    if (word(rest).kind == Kind::takes && word(rest + 1).kind == Kind::file) {
      reading.takes = true;
      reading.to_file = word(rest + 1).file;
      end = rest + 2;
    } else if (!finish(reading, end)) {
      return;
    }
    const Reading any_file = reading;
    reading.from_file = word(at).file;
    add({reading}, end);
    if (word(at).file == 0 && any_file.to != rules::no_square) add({any_file}, end);
  }

  void piece(std::size_t at) {
    const Word& man = word(at);
    const bool is_side = word(at + 1).kind == Kind::side && word(at + 2).kind == Kind::castles;
    if (is_side && (man.piece == rules::king || man.piece == rules::queen)) {
      add_castling(man.piece == rules::king ? Kind::short_side : Kind::long_side, at + 3);
      return;
    }
    if (man.is_letter_b && word(at + 1).piece == rules::pawn) {
      pawn_of_file(at, at + 2);
      return;
    }
    straight(at);
    with_origin(at);
  }

  // "rook e4", "R takes e4", "b takes c3" (bishop or pawn).
  void straight(std::size_t at) {
    Reading reading;
    reading.man = word(at).piece;
    std::size_t end = at + 1;
    if (!finish(reading, end)) return;
    std::vector<Reading> readings{reading};
    if (word(at).is_letter_b && reading.to != rules::no_square) {
      Reading by_pawn = reading;
      by_pawn.man = rules::pawn;
      by_pawn.from_file = 1;
      by_pawn.takes = true;
      by_pawn.rank = word(at).is_capital ? 1 : 0;
      readings.push_back(by_pawn);
    }
    add(std::move(readings), end);
  }

  // "knight from b1 to d2", "knight b1 d2", "knight b d2", "rook a takes d1". An a is the file
  // before it is the "to" of several tongues ("torre a d1").
  void with_origin(std::size_t at) {
    Reading reading;
    reading.man = word(at).piece;
    std::size_t end = at + 1;
    const bool stands = word(end).kind == Kind::stands;
    if (stands || word(end).kind == Kind::from) end = skip(end + 1, Kind::filler);
    const Word& origin = word(end);
    if (origin.kind == Kind::square) {
      reading.from_file = file_number(origin.square);
      reading.from_rank = rank_number(origin.square);
    } else if (origin.kind == Kind::file || origin.is_letter_b) {
      reading.from_file = origin.file;
    } else {
      return;
    }
    ++end;
    const bool joined = word(end).kind == Kind::goes || word(end).kind == Kind::takes;
    if (stands && !joined) return;
    if (!finish(reading, end)) return;
    if (joined) found_.clear();
    std::vector<Reading> readings{reading};
    if (origin.kind == Kind::file && origin.file == 0 && !joined) {
      reading.from_file = -1;
      reading.rank = last_rank;
      readings.push_back(reading);
    }
    add(std::move(readings), end);
  }

  const std::vector<Word>& words_;
  std::vector<Phrase> found_;
};

}  // namespace

std::vector<Phrase> phrases_at(const std::vector<Word>& words, std::size_t at) {
  return Grammar(words).at(at);
}

}  // namespace kairos::audience
