// A reason: one fact that says why a move works or fails, with what proves it. Plain data: the
// study finds it, the ledger stores it, the report alone puts it into words.
//
// All kinds of reasons share one record, so that a new kind needs a value here, a file that proves
// it and its words, but no change to what stores or prints records. A field that a kind does not
// use keeps its default. Names of roles, kinds and assertions stand in files and never change.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "kairos/rules/move.hpp"
#include "kairos/rules/piece.hpp"
#include "kairos/rules/square.hpp"
#include "kairos/search/score.hpp"

namespace kairos::study {

// Whose effect it is. The move in question is the one played, a trap's the tempting one, a claim's
// the one noted (move_in_question).
enum class Role : std::uint8_t {
  best,          // of the best move
  reply,         // of the reply to the move in question
  second_reply,  // of the reply to the second best move
  note,          // what the player's own notes say of the move in question
};
inline constexpr int role_count = 4;
std::string_view name_of(Role role);  // "best", "second_reply", ...

enum class ReasonKind : std::uint8_t {
  mates,          // proved: mate in exactly `mate_moves`
  leads_to_mate,  // the search sees a mate, and no proof of its length was found
  wins_material,  // proved: `gain` centipawns, the men of `men`
  wins_back,      // the same, but no more than what the move before has taken
  motif,          // how it works: `motif`, by its rule on the moment's own line
  assertion,      // what a note says and the verdict contradicts: `assertion`
  soon_wins,      // best play wins `men`: in the line, and by the score, but not proved
  draws,          // by force: perpetual check or stalemate, by `motif`, with the king's square; or
                  // with neither a position of the game that comes back
  threatens,      // proved: what it would do if the other side could pass: take on `squares`, or
                  // mate in `mate_moves` (squares: where the last move goes)
  prevents,       // the same of the other side's threat, which it meets
  attacks_king,   // counted: the men on all `squares` but the first bear on the king there; with
                  // no more than one square checks drive that king about
  opens_king,     // counted: the king on the first square loses the pawns before it on the others
  pawn_runs,      // a passed pawn goes on, in the line: from the first square to the second
  enters_ending,  // best play trades into an ending of `pieces`, which is then so by the score
  zugzwang,       // whoever has to move loses by it, and could pass: by the motif's rule
  // What the move does on the board, where no more is found; the line bears it out (definitions:
  // src/study/attacks_made.cpp, places_taken.cpp, men_placed.cpp).
  hits,             // it attacks the men on `squares`; more than one with the means `fork`
  takes,            // the same, having taken the man on the first square
  drives_off,       // the man on the first square; the second is what that no longer guards
  keeps_attack,     // the man on the square hangs, and did before the move
  leads_to_fork,    // the next move, to the first square, forks the men on the others
  leads_to_threat,  // the next move threatens mate in one on the square
  trades,           // men alike: of `pieces`, on the square; `gain`: the balance of men before
  offers_trade,     // the same, without a capture
  guards,           // its own man on the square, that falls after the other move; or goes from it
  comes_in,         // to the square, by what the move before gave up: `means`
  makes_passed,     // the pawn on the square becomes a passed pawn
  stops_pawn,       // goes before the passed pawn on the square
  behind_pawn,      // goes behind the passed pawn on the square
  open_file,        // the rook on the square takes a file without pawns
  seventh_rank,     // the rook on the square comes to the seventh rank
  avoids_check,     // what is taken on the square is no check, as it is after the other move
  sends_back,       // the man of the move before, from the first square, back to the second
  king_comes,       // the king goes, in the line, from the first square to the second
  pins,             // the piece on the first square to the king or queen on the second
  settles,          // the line brings a knight to the square, where no pawn can drive it off
  doubles_pawns,    // of the other side, which takes back on the square
  evades,           // its own piece, that hung on the square, goes to safety
  stops_castling,   // its check moves the king on the square, which might have castled
  keeps_man,        // its own man on the square, which falls after the other move
};
inline constexpr int reason_kind_count = 39;
std::string_view name_of(ReasonKind kind);  // "mates", "wins_material", ...

// How a man is won or a mate comes about (definitions: src/study/means.cpp). `means_squares` and
// `means_pieces` say where and by or of whom.
enum class Means : std::uint8_t {
  guard_gone,        // the move before left it without a guard: its square, where that now stands
  guard_shut,        // the move before stands in its guard's way: its square, the guard
  square_unguarded,  // the move before left the square of this move without a guard: square, guard
  line_opened,       // the move before opened the line: the slider, the square left, the target
  in_between,        // a move before taking back
  guard_taken,       // the guard
  guard_drawn_off,   // the guard
  discovered,        // the man behind, its target
  skewer,            // the man in front, the one behind
  fork,              // those forked
  pin,               // the pinned man, what stands behind it
  trapped,           // the man, and the squares it could go to
  trade,             // after a trade of men alike: where, and of what
};
inline constexpr int means_count = 13;
std::string_view name_of(Means means);  // "guard_gone", ...

// What a note says of its move, or of the position after it.
enum class Assertion : std::uint8_t {
  playable,         // by giving the move in a variation without a word against it
  good_move,        // $1, $3
  poor_move,        // $2, $4
  only_move,        // $7, $8
  level,            // $10..$12
  drawn,            // "draw"
  slightly_better,  // $14, $15: the side that it `favours`
  better,           // $16, $17
  won,              // $18..$21, "White wins"
  mate,             // "mate in 3": in `mate_moves`
};
inline constexpr int assertion_count = 10;
std::string_view name_of(Assertion assertion);  // "poor_move", "slightly_better", ...

// Motifs: the trade's names for how a move works (rules: motifs.hpp). Most telling first: the order
// in which they are named.
enum class Motif : std::uint8_t {
  smothered_mate,
  back_rank,
  double_check,
  discovered_check,
  stalemate,
  perpetual_check,
  underpromotion,
  zugzwang,
  in_between_move,
  interference,
  decoy,
  overloaded,
  deflection,
  removing_the_guard,
  x_ray,
  discovered_attack,
  skewer,
  fork,
  pin,
  trapped_piece,
  clearance,
  promotion,
  miscount,
  hanging_piece,
  sacrifice,
};
inline constexpr int motif_count = 25;

// "smothered mate", "back rank", "in-between move", ...: the term that people use and that files
// hold, so it never changes.
std::string_view name_of(Motif motif);

// How many men of each type, by PieceType.
using Men = std::array<std::int8_t, rules::piece_type_count>;

// The difference in men between two positions, from one side. Men traded for their like are left
// out, knights and bishops being alike; of those the one really taken is named.
struct MenWon {
  Men won{}, lost{};
  rules::PieceType promoted = rules::no_piece_type;  // a pawn became this; it is not in `lost`

  friend bool operator==(const MenWon&, const MenWon&) = default;
};

struct Reason {
  Role role = Role::best;
  ReasonKind kind = ReasonKind::mates;
  rules::Move move;                    // the one of the role
  std::vector<rules::Move> line;       // proves it, from `move` on; empty: the moment's own does
  std::vector<rules::Square> squares;  // mate: the king's; material: where men are taken
  int mate_moves = 0;                  // full moves
  search::Score gain = 0;              // centipawns, of the side that makes `move`
  MenWon men;                          // of that side
  rules::Square target = rules::no_square;  // where the one man won stands before the move
  std::optional<Motif> motif;
  std::optional<Assertion> assertion;
  std::optional<rules::Color> favours;   // whom the assertion names
  std::vector<rules::PieceType> pieces;  // what is on `squares`, in their order, where it matters
  std::optional<Means> means;
  std::vector<rules::Square> means_squares;
  std::vector<rules::PieceType> means_pieces;

  friend bool operator==(const Reason&, const Reason&) = default;
};

// Whether it is a mate, proved or seen by the search.
[[nodiscard]] bool is_mate(const Reason& reason);

}  // namespace kairos::study
