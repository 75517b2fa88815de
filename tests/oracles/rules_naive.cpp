#include "oracles/rules_naive.hpp"

#include <cctype>
#include <cstdlib>
#include <sstream>
#include <utility>

namespace kairos::oracles {

namespace {

using Steps = std::vector<std::pair<int, int>>;
const Steps straight{{0, 1}, {1, 0}, {0, -1}, {-1, 0}};
const Steps diagonal{{1, 1}, {1, -1}, {-1, -1}, {-1, 1}};
const Steps all_ways{{0, 1}, {1, 0}, {0, -1}, {-1, 0}, {1, 1}, {1, -1}, {-1, -1}, {-1, 1}};
const Steps leaps{{1, 2}, {2, 1}, {2, -1}, {1, -2}, {-1, -2}, {-2, -1}, {-2, 1}, {-1, 2}};

char man_at(const NaiveBoard& board, int square) {
  return board.men[static_cast<std::size_t>(square)];
}
char& man_at(NaiveBoard& board, int square) {
  return board.men[static_cast<std::size_t>(square)];
}

bool is_white(char man) {
  return std::isupper(static_cast<unsigned char>(man)) != 0;
}
char upper(char man) {
  return static_cast<char>(std::toupper(static_cast<unsigned char>(man)));
}
char colored(char letter, bool white) {
  return white ? letter : static_cast<char>(std::tolower(static_cast<unsigned char>(letter)));
}
bool on_board(int file, int rank) {
  return file >= 0 && file < 8 && rank >= 0 && rank < 8;
}
std::string square_name(int square) {
  return {static_cast<char>('a' + square % 8), static_cast<char>('1' + square / 8)};
}

// Adds the moves of the man on `from` along `steps`, once or as far as the way is free.
void add_steps(const NaiveBoard& board, int from, const Steps& steps, bool far,
               std::vector<NaiveMove>& moves) {
  for (const auto& [file_step, rank_step] : steps) {
    int file = from % 8 + file_step, rank = from / 8 + rank_step;
    while (on_board(file, rank)) {
      const int to = rank * 8 + file;
      const char there = man_at(board, to);
      if (there == ' ' || is_white(there) != is_white(man_at(board, from))) {
        moves.push_back({from, to});
      }
      if (there != ' ' || !far) break;
      file += file_step;
      rank += rank_step;
    }
  }
}

void add_pawn_move(int from, int to, std::vector<NaiveMove>& moves) {
  if (to / 8 == 0 || to / 8 == 7) {
    for (const char promotion : {'Q', 'R', 'B', 'N'}) moves.push_back({from, to, promotion});
  } else {
    moves.push_back({from, to});
  }
}

void add_pawn_moves(const NaiveBoard& board, int from, std::vector<NaiveMove>& moves) {
  const bool white = is_white(man_at(board, from));
  const int up = white ? 8 : -8, home = white ? 1 : 6;
  if (man_at(board, from + up) == ' ') {
    add_pawn_move(from, from + up, moves);
    if (from / 8 == home && man_at(board, from + 2 * up) == ' ') {
      moves.push_back({from, from + 2 * up});
    }
  }
  for (const int side : {-1, 1}) {
    if (!on_board(from % 8 + side, 0)) continue;
    const int to = from + up + side;
    const char there = man_at(board, to);
    if ((there != ' ' && is_white(there) != white) || to == board.en_passant) {
      add_pawn_move(from, to, moves);
    }
  }
}

// Moves as the men go, without regard to check, castling left out.
std::vector<NaiveMove> free_moves(const NaiveBoard& board, bool white) {
  std::vector<NaiveMove> moves;
  for (int from = 0; from < 64; ++from) {
    const char man = man_at(board, from);
    if (man == ' ' || is_white(man) != white) continue;
    switch (upper(man)) {
      case 'P':
        add_pawn_moves(board, from, moves);
        break;
      case 'N':
        add_steps(board, from, leaps, false, moves);
        break;
      case 'B':
        add_steps(board, from, diagonal, true, moves);
        break;
      case 'R':
        add_steps(board, from, straight, true, moves);
        break;
      case 'Q':
        add_steps(board, from, all_ways, true, moves);
        break;
      default:
        add_steps(board, from, all_ways, false, moves);
        break;
    }
  }
  return moves;
}

// Whether `by_white` could take something on the square: an enemy is put there and the moves tried.
bool is_attacked(NaiveBoard board, int square, bool by_white) {
  man_at(board, square) = by_white ? 'n' : 'N';
  for (const NaiveMove& move : free_moves(board, by_white)) {
    if (move.to == square) return true;
  }
  return false;
}

int king_square(const NaiveBoard& board, bool white) {
  for (int s = 0; s < 64; ++s) {
    if (man_at(board, s) == (white ? 'K' : 'k')) return s;
  }
  return -1;
}

// FIDE Laws, article 3.8.2.
void add_castling(const NaiveBoard& board, std::vector<NaiveMove>& moves) {
  const bool white = board.white_to_move;
  const int home = white ? 4 : 60;
  const auto safe = [&](int s) { return !is_attacked(board, s, !white); };
  const auto empty = [&](int s) { return man_at(board, s) == ' '; };
  const auto right = [&](char letter) {
    return board.castling.find(colored(letter, white)) != std::string::npos;
  };
  if (right('K') && empty(home + 1) && empty(home + 2) && safe(home) && safe(home + 1) &&
      safe(home + 2)) {
    moves.push_back({home, home + 2});
  }
  if (right('Q') && empty(home - 1) && empty(home - 2) && empty(home - 3) && safe(home) &&
      safe(home - 1) && safe(home - 2)) {
    moves.push_back({home, home - 2});
  }
}

void lose_right(NaiveBoard& board, char letter) {
  const std::size_t at = board.castling.find(letter);
  if (at != std::string::npos) board.castling.erase(at, 1);
}

// Rights end when king or rook leaves home, or the rook is taken there.
void lose_rights(NaiveBoard& board, int square) {
  if (square == 4 || square == 7) lose_right(board, 'K');
  if (square == 4 || square == 0) lose_right(board, 'Q');
  if (square == 60 || square == 63) lose_right(board, 'k');
  if (square == 60 || square == 56) lose_right(board, 'q');
}

bool en_passant_is_legal(const NaiveBoard& board) {
  if (board.en_passant < 0) return false;
  for (const NaiveMove& move : naive_moves(board)) {
    if (move.to == board.en_passant && upper(man_at(board, move.from)) == 'P') return true;
  }
  return false;
}

bool is_castling(const NaiveBoard& board, const NaiveMove& move) {
  return upper(man_at(board, move.from)) == 'K' && std::abs(move.to - move.from) == 2;
}

bool takes(const NaiveBoard& board, const NaiveMove& move) {
  return man_at(board, move.to) != ' ' ||
         (upper(man_at(board, move.from)) == 'P' && move.from % 8 != move.to % 8);
}

// The move with `start` for where it comes from.
std::string written(const NaiveBoard& board, const NaiveMove& move, const std::string& start) {
  const char man = upper(man_at(board, move.from));
  std::string text = man == 'P' ? "" : std::string(1, man);
  text += start;
  if (takes(board, move)) text += 'x';
  text += square_name(move.to);
  if (move.promotion != ' ') text += std::string("=") + move.promotion;
  return text;
}

}  // namespace

NaiveBoard naive_board(const std::string& fen) {
  std::istringstream stream(fen);
  std::string men, side, castling, en_passant;
  NaiveBoard board;
  stream >> men >> side >> castling >> en_passant >> board.halfmove_clock >> board.fullmove_number;
  board.men.fill(' ');
  int square = 56;
  for (const char c : men) {
    if (c == '/') {
      square -= 16;
    } else if (c >= '1' && c <= '8') {
      square += c - '0';
    } else {
      man_at(board, square++) = c;
    }
  }
  board.white_to_move = side == "w";
  if (castling != "-") board.castling = castling;
  if (en_passant != "-") board.en_passant = (en_passant[1] - '1') * 8 + en_passant[0] - 'a';
  return board;
}

std::string naive_fen(const NaiveBoard& board) {
  std::string text;
  for (int rank = 7; rank >= 0; --rank) {
    for (int file = 0; file < 8; ++file) text += man_at(board, rank * 8 + file);
    if (rank > 0) text += '/';
  }
  for (int run = 8; run > 0; --run) {
    const std::string gap(static_cast<std::size_t>(run), ' ');
    for (std::size_t at = text.find(gap); at != std::string::npos; at = text.find(gap)) {
      text.replace(at, gap.size(), std::to_string(run));
    }
  }
  text += board.white_to_move ? " w " : " b ";
  text += board.castling.empty() ? "-" : board.castling;
  text += ' ';
  text += en_passant_is_legal(board) ? square_name(board.en_passant) : "-";
  return text + ' ' + std::to_string(board.halfmove_clock) + ' ' +
         std::to_string(board.fullmove_number);
}

bool naive_in_check(const NaiveBoard& board, bool white) {
  return is_attacked(board, king_square(board, white), !white);
}

std::vector<NaiveMove> naive_moves(const NaiveBoard& board) {
  std::vector<NaiveMove> tried = free_moves(board, board.white_to_move), legal;
  add_castling(board, tried);
  for (const NaiveMove& move : tried) {
    if (!naive_in_check(naive_play(board, move), board.white_to_move)) legal.push_back(move);
  }
  return legal;
}

NaiveBoard naive_play(NaiveBoard board, const NaiveMove& move) {
  const char man = man_at(board, move.from);
  const bool is_pawn = upper(man) == 'P', white = board.white_to_move;
  board.halfmove_clock = is_pawn || man_at(board, move.to) != ' ' ? 0 : board.halfmove_clock + 1;
  if (is_pawn && move.to == board.en_passant) man_at(board, move.to + (white ? -8 : 8)) = ' ';
  if (is_castling(board, move)) {
    const bool is_short = move.to > move.from;
    man_at(board, is_short ? move.to + 1 : move.to - 2) = ' ';
    man_at(board, is_short ? move.to - 1 : move.to + 1) = colored('R', white);
  }
  man_at(board, move.from) = ' ';
  man_at(board, move.to) = move.promotion == ' ' ? man : colored(move.promotion, white);
  board.en_passant =
      is_pawn && std::abs(move.to - move.from) == 16 ? (move.from + move.to) / 2 : -1;
  lose_rights(board, move.from);
  lose_rights(board, move.to);
  board.white_to_move = !white;
  if (!white) ++board.fullmove_number;
  return board;
}

std::string naive_name(const NaiveMove& move) {
  std::string name = square_name(move.from) + square_name(move.to);
  if (move.promotion != ' ') name += move.promotion;
  return name;
}

std::string naive_san(const NaiveBoard& board, const NaiveMove& move) {
  const auto texts = naive_texts(board);
  std::string text;
  const std::string from = square_name(move.from);
  for (const std::string& start : {std::string(), from.substr(0, 1), from.substr(1, 1), from}) {
    text = written(board, move, start);
    const auto found = texts.find(text);
    if (found != texts.end() && found->second.size() == 1) break;
  }
  if (is_castling(board, move)) text = move.to > move.from ? "O-O" : "O-O-O";
  const NaiveBoard after = naive_play(board, move);
  if (!naive_in_check(after, after.white_to_move)) return text;
  return text + (naive_moves(after).empty() ? '#' : '+');
}

std::map<std::string, std::vector<NaiveMove>> naive_texts(const NaiveBoard& board) {
  std::map<std::string, std::vector<NaiveMove>> texts;
  for (const NaiveMove& move : naive_moves(board)) {
    const std::string from = square_name(move.from);
    const bool is_pawn_taking = upper(man_at(board, move.from)) == 'P' && takes(board, move);
    if (is_castling(board, move)) texts[move.to > move.from ? "O-O" : "O-O-O"].push_back(move);
    if (!is_pawn_taking) texts[written(board, move, "")].push_back(move);
    texts[written(board, move, from.substr(0, 1))].push_back(move);
    texts[written(board, move, from.substr(1, 1))].push_back(move);
    texts[written(board, move, from)].push_back(move);
  }
  return texts;
}

}  // namespace kairos::oracles
