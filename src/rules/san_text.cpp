// A move text taken apart: first marks at its end, then castling and null moves, then the
// promotion, again from the end, then the letter in front; what is left must be files, ranks and
// their joints.
//
// From the end, because there the text is unambiguous: in "e8b" the b is a bishop, as it stands
// behind a rank, in "bxc3" it is a file, and a bishop in front is a capital. Nothing here knows the
// board. Leniencies are listed in kairos/rules/san.hpp and marked by their number here.
// Covered by tests/rules/san_test.cpp.
#include "san_text.hpp"

#include <algorithm>
#include <array>
#include <cstddef>

#include "kairos/rules/san.hpp"

namespace kairos::rules {

namespace {

constexpr bool is_file(char c) {
  return 'a' <= c && c <= 'h';
}
constexpr bool is_rank(char c) {
  return '1' <= c && c <= '8';
}

constexpr bool is_ascii(char c) {
  return static_cast<unsigned char>(c) < 0x80;
}

// A character beyond ASCII that stands for one of ASCII in a move: its size in bytes and what it
// stands for; 0 bytes when there is none. Figures are U+2654 to U+265F, White's king first; dashes
// U+2010 to U+2015, the minus sign U+2212, and 0x96 and 0x97 of Windows.
struct Foreign {
  std::size_t size = 0;
  char meant = 0;
};
constexpr Foreign foreign_character(std::string_view text) {
  const auto third = text.size() < 3 ? 0U : static_cast<unsigned char>(text[2]);
  if (text.starts_with("\xE2\x99") && third >= 0x94 && third <= 0x9F) {
    return {3, "KQRBNP"[(third - 0x94) % 6]};
  }
  if (text.starts_with("\xE2\x80") && third >= 0x90 && third <= 0x95) return {3, '-'};
  if (text.starts_with("\xE2\x88\x92")) return {3, '-'};
  if (text.starts_with('\x96') || text.starts_with('\x97')) return {1, '-'};
  return {};
}

constexpr PieceType type_of_letter(char c) {
  const Piece man = piece_of_letter(c);
  return man == no_piece || color_of(man) == black ? no_piece_type : type_of(man);
}

bool take_suffix(std::string_view& text, std::string_view suffix) {
  if (!text.ends_with(suffix)) return false;
  text.remove_suffix(suffix.size());
  return true;
}

// (1) (2) (7) Check marks, judgements, the words for en passant: none tells one move from another.
void strip_marks(std::string_view& text) {
  for (;;) {
    while (!text.empty() && std::string_view("+#!? ").find(text.back()) != std::string_view::npos) {
      text.remove_suffix(1);
    }
    if (!take_suffix(text, "e.p.") && !take_suffix(text, "ep")) return;
  }
}

// (3) Two rings or three, of any kind, with or without hyphens and blanks.
MoveText read_castling(std::string_view text) {
  int rings = 0;
  for (const char c : text) {
    if (c == 'O' || c == 'o' || c == '0') {
      ++rings;
    } else if (c != '-' && c != ' ') {
      return {};
    }
  }
  MoveText move;
  if (rings == 2) move.kind = MoveText::Kind::short_castling;
  if (rings == 3) move.kind = MoveText::Kind::long_castling;
  return move;
}

// (4) "=Q", "Q", "(Q)", "/Q", small letters too; only behind a rank, so that a file is not taken
// for it.
PieceType take_promotion(std::string_view& text) {
  std::string_view rest = text;
  const bool bracket = take_suffix(rest, ")");
  if (rest.size() < 3) return no_piece_type;
  const std::size_t n = std::string_view("NBRQnbrq").find(rest.back());
  if (n == std::string_view::npos) return no_piece_type;
  rest.remove_suffix(1);
  if (bracket) {
    if (!take_suffix(rest, "(")) return no_piece_type;
  } else if (!take_suffix(rest, "=")) {
    take_suffix(rest, "/");
  }
  if (!is_rank(rest.back())) return no_piece_type;
  text = rest;
  return static_cast<PieceType>(knight + n % 4);
}

// (5) (6) (7) Files and ranks in their order, joined by "x", ":" or "-"; the last two are the
// target, up to two before them the start.
MoveText read_squares(std::string_view text, MoveText move) {
  std::array<char, 4> named{};
  std::size_t size = 0;
  for (const char c : text) {
    if (is_file(c) || is_rank(c)) {
      if (size == named.size()) return {};
      named[size++] = c;
    } else if (c != 'x' && c != ':' && (c != '-' || size == 0)) {
      return {};
    }
  }
  if (size < 2 || text.back() != named[size - 1] || !is_file(named[size - 2]) ||
      !is_rank(named[size - 1])) {
    return {};
  }
  move.to = square_at(named[size - 2] - 'a', named[size - 1] - '1');
  for (std::size_t n = 0; n + 2 < size; ++n) {
    if (is_rank(named[n])) {
      if (n + 3 != size) return {};
      move.from_rank = static_cast<std::int8_t>(named[n] - '1');
    } else if (move.from_file < 0) {
      move.from_file = static_cast<std::int8_t>(named[n] - 'a');
    } else {
      return {};
    }
  }
  move.kind = MoveText::Kind::man;
  return move;
}

// (8) Small letters too, but for b, which is a file.
constexpr PieceType piece_named_by(char c) {
  const bool is_small = c == 'n' || c == 'r' || c == 'q' || c == 'k';
  return type_of_letter(is_small ? static_cast<char>(c - 'a' + 'A') : c);
}

}  // namespace

AsciiMove::AsciiMove(std::string_view text) noexcept : text_(text) {
  if (std::ranges::all_of(text, is_ascii)) return;
  std::size_t size = 0;
  for (std::string_view rest = text; !rest.empty();) {
    const Foreign foreign = is_ascii(rest[0]) ? Foreign{1, rest[0]} : foreign_character(rest);
    if (foreign.size == 0 || size == room_.size()) return;
    room_[size++] = foreign.meant;
    rest.remove_prefix(foreign.size);
  }
  text_ = {room_.data(), size};
}

MoveText read_move_text(std::string_view written) noexcept {
  const AsciiMove ascii(written);  // (10)
  std::string_view text = ascii.text();
  MoveText move;
  // (9)
  for (const std::string_view null : {"--", "Z0", "null", "@@@@"}) {
    if (text == null) {
      move.kind = MoveText::Kind::null;
      return move;
    }
  }
  strip_marks(text);
  if (text.size() < 2) return move;
  const char head = text.front();
  if (head == 'O' || head == 'o' || head == '0') return read_castling(text);
  move.promoted = take_promotion(text);
  const PieceType named = piece_named_by(text.front());  // (8) among them
  if (named != no_piece_type) {
    move.man = named;
    text.remove_prefix(1);
    return read_squares(text, move);
  }
  move = read_squares(text, move);
  // "g1f3": whoever stands there.
  if (move.from_file >= 0 && move.from_rank >= 0) move.man = no_piece_type;
  return move;
}

}  // namespace kairos::rules
