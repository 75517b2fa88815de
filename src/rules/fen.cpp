// FEN and the position fields of EPD, read field by field and written back.
//
// Each field is read by itself and adds its own faults, so that a bad text names all of them; the
// sense of what was read is judged afterwards by make_position. Leniencies are listed in fen.hpp
// and marked by their number here. Example: "8/8/8/4k3/8/8/8/4K3 w KQ e3" is read with no rights
// (4), no en passant square (3) and counters 0 and 1 (2). Covered by tests/rules/fen_test.cpp.
#include "kairos/rules/fen.hpp"

#include <optional>

#include "kairos/base/text.hpp"

namespace kairos::rules {

namespace {

using base::Code;

// One field after the other into a Setup; faults gather on the way and do not stop the reading.
class SetupReader {
 public:
  base::Result<Setup> read(std::string_view fen) {
    const std::vector<std::string_view> parts = base::fields(fen);  // (1)
    if (parts.size() < 4 || parts.size() > 6) {
      add(Code::fen_fields, base::number(static_cast<std::int64_t>(parts.size())) +
                                " fields, expected 6 (or 4 without counters)");
    }
    if (!parts.empty()) read_board(parts[0]);
    if (parts.size() > 1) read_side(parts[1]);
    if (parts.size() > 2) read_castling(parts[2]);
    if (parts.size() > 3) read_en_passant(parts[3]);
    if (parts.size() > 4) setup_.halfmove_clock = read_counter(parts[4], 0);  // (2) (7)
    if (parts.size() > 5) setup_.fullmove_number = read_counter(parts[5], 1);
    if (setup_.fullmove_number == 0) setup_.fullmove_number = 1;  // (5)
    if (!faults_.faults.empty()) return std::move(faults_).all();
    return setup_;
  }

 private:
  void add(Code code, std::string detail) { faults_.report({code, std::move(detail), {}}); }

  void read_board(std::string_view text) {
    const std::vector<std::string_view> ranks = base::split(text, '/');
    if (ranks.size() != 8) {
      add(Code::fen_board,
          base::number(static_cast<std::int64_t>(ranks.size())) + " ranks, expected 8");
    }
    for (std::size_t n = 0; n < ranks.size() && n < 8; ++n) {
      read_rank(ranks[n], 7 - static_cast<int>(n));
    }
  }

  // Goes on after a wrong letter or too many squares, so that the count in the fault is the whole.
  void read_rank(std::string_view text, int rank) {
    const std::string name = "rank " + base::number(rank + 1);
    int file = 0;
    for (const char c : text) {
      if ('1' <= c && c <= '8') {
        file += c - '0';
        continue;
      }
      const Piece man = piece_of_letter(c);
      if (man == no_piece) {
        add(Code::fen_board, name + " has \"" + std::string(1, c) + "\"");
      } else if (file < 8) {
        setup_.board[square_at(file, rank)] = man;
      }
      ++file;
    }
    if (file != 8) add(Code::fen_board, name + " has " + base::number(file) + " squares");
  }

  void read_side(std::string_view text) {
    const std::string side = base::lower_case(text);  // (9)
    if (side == "w" || side == "b") {
      setup_.side_to_move = side == "w" ? white : black;
    } else {
      add(Code::fen_side, std::string(text));
    }
  }

  void read_castling(std::string_view text) {
    if (text == "-") return;
    for (const char c : text) {  // (4)
      const std::size_t n = std::string_view("KQkq").find(c);
      if (n != std::string_view::npos) {
        setup_.castling = static_cast<std::uint8_t>(setup_.castling | 1U << n);
      } else if (('A' <= c && c <= 'H') || ('a' <= c && c <= 'h')) {
        read_rook_file(c);
      } else {
        add(Code::fen_castling, std::string(text));
        return;
      }
    }
  }

  void read_rook_file(char c) {  // (6)
    const std::size_t n = std::string_view("HAha").find(c);
    const bool is_white = c < 'a';
    if (n != std::string_view::npos &&
        setup_.board[is_white ? e1 : e8] == (is_white ? white_king : black_king)) {
      setup_.castling = static_cast<std::uint8_t>(setup_.castling | 1U << n);
    } else {
      add(Code::variant_unsupported,
          "castling with a rook on another file or a king not on the e-file (shuffled start)");
    }
  }

  void read_en_passant(std::string_view text) {
    if (text == "-") return;
    if (text.size() == 2 && 'a' <= text[0] && text[0] <= 'h' && '1' <= text[1] && text[1] <= '8') {
      setup_.en_passant = square_at(text[0] - 'a', text[1] - '1');
    } else {
      add(Code::fen_en_passant, std::string(text));
    }
  }

  int read_counter(std::string_view text, int left_out) {
    if (text == "-") return left_out;  // (8)
    const std::optional<std::int64_t> value = base::to_integer(text);
    if (value && 0 <= *value && *value <= 9999) return static_cast<int>(*value);
    add(Code::fen_counter, std::string(text));
    return left_out;
  }

  Setup setup_;
  base::FaultList faults_{most_fen_faults};
};

// Ranks from the eighth down, runs of empty squares as numbers.
std::string board_field(const Position& p) {
  std::string text;
  for (int rank = 7; rank >= 0; --rank) {
    int empty = 0;
    for (int file = 0; file < 8; ++file) {
      const Piece man = p.piece_on(square_at(file, rank));
      if (man == no_piece) {
        ++empty;
        continue;
      }
      if (empty != 0) text += static_cast<char>('0' + empty);
      empty = 0;
      text += letter_of(man);
    }
    if (empty != 0) text += static_cast<char>('0' + empty);
    if (rank != 0) text += '/';
  }
  return text;
}

std::string castling_field(std::uint8_t rights) {
  std::string text;
  for (std::size_t n = 0; n < 4; ++n) {
    if ((rights >> n & 1) != 0) text += "KQkq"[n];
  }
  return text.empty() ? "-" : text;
}

}  // namespace

base::Result<Setup> parse_setup(std::string_view fen) {
  return SetupReader().read(fen);
}

// What is dropped here would be a fault to make_position: real files carry it, and it cannot be
// meant.
base::Result<Position> parse_fen(std::string_view fen) {
  base::Result<Setup> read = parse_setup(fen);
  if (!read) return std::move(read).faults();
  read->castling = possible_castling(*read);                         // (4)
  if (!en_passant_is_possible(*read)) read->en_passant = no_square;  // (3)
  return make_position(*read);
}

std::string to_fen(const Position& p) {
  return to_epd_fields(p) + ' ' + base::number(p.halfmove_clock()) + ' ' +
         base::number(p.fullmove_number());
}

std::string to_epd_fields(const Position& p) {
  return board_field(p) + (p.side_to_move() == white ? " w " : " b ") +
         castling_field(p.castling()) + ' ' + to_string(p.en_passant());
}

}  // namespace kairos::rules
