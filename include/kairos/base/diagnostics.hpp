// What can go wrong, where, and in what words.
//
// `Code` is the one closed list of everything kairos can complain about, grouped by part; `words`
// gives each its plain sentence and `advice` says what to do about it (both are total: the compiler
// refuses a code without words). A `Fault` is a code with its place and the particulars; `Result`
// (result.hpp) carries faults up, and a `Diagnostics` sink collects those that do not stop the
// work, such as one bad game among many. Plain data, no ownership beyond strings, no threads.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace kairos::base {

enum class Code : std::uint8_t {
  // files
  cannot_open,
  is_a_directory,
  cannot_read,
  cannot_write,
  disk_full,
  gzip_damaged,
  gzip_truncated,
  file_empty,
  no_games,
  encoding_unsupported,
  // positions and moves
  fen_fields,
  fen_board,
  fen_side,
  fen_castling,
  fen_en_passant,
  fen_counter,
  king_count,
  too_many_pieces,
  pawn_on_last_rank,
  opponent_in_check,
  too_many_checkers,
  castling_right_impossible,
  en_passant_impossible,
  not_a_move,
  illegal_move,
  ambiguous_move,
  no_such_piece,
  // PGN and EPD
  variant_unsupported,
  setup_bad,
  setup_missing,
  tag_damaged,
  tag_cut,
  tag_repeated,
  comment_unclosed,
  comment_cut,
  variation_unclosed,
  variation_stray_close,
  stray_text,
  token_unknown,
  nag_unknown,
  result_missing,
  result_differs,
  result_both_lost,
  result_contradicts_board,
  game_too_long,
  duplicate_game,
  epd_operation,
  epd_counts,
  // ledger and runs
  ledger_version,
  ledger_evaluation,
  ledger_settings_differ,
  ledger_damaged,
  ledger_in_use,
  ledger_torn_tail,
  ledger_part_missing,
  ledger_unfinished,
  not_a_ledger,
  output_belongs_to_other_run,
  json_damaged,
  // the quiz
  not_a_score_file,
  score_damaged,
  // bounds: what is beyond them is counted and not kept
  too_many_games,
  line_too_long,
  too_many_positions,
  file_too_long,
  more_faults,
  // command line
  usage,
};

// The codes in declaration order; `code_count` is one past the last.
inline constexpr int code_count = static_cast<int>(Code::usage) + 1;

std::string_view words(Code code);
std::string_view advice(Code code);

// Where a fault lies. Numbers count from 1; 0 or an empty name means "not known".
struct Place {
  std::string file;
  std::uint64_t line = 0;
  std::uint64_t column = 0;
  std::uint64_t game = 0;

  friend bool operator==(const Place&, const Place&) = default;
};

struct Fault {
  Code code = Code::usage;
  std::string detail;  // the particulars, for instance the move as written; may be empty
  Place place;
};

// "file:line:column: game 12: illegal move: Bf3. Advice." with the parts that are known.
std::string describe(const Fault& fault);

// Receives faults that do not stop the work.
class Diagnostics {
 public:
  virtual ~Diagnostics() = default;
  virtual void report(Fault fault) = 0;
};

inline constexpr std::size_t most_faults = 1000;    // that are kept of one input
inline constexpr std::size_t longest_detail = 300;  // bytes of a kept fault's particulars

// "482,113 faults beyond those told": what stands at the end of a list that left some out.
Fault more_faults(std::uint64_t number);

// Keeps the first faults in order of arrival, their particulars cut to `longest_detail`, and counts
// the others, so that the worst input takes no more than half a megabyte.
class FaultList final : public Diagnostics {
 public:
  explicit FaultList(std::size_t most = most_faults) : most_(most) {}
  void report(Fault fault) override;
  // Those kept and, where there were more, their number as the last (Code::more_faults).
  std::vector<Fault> all() &&;

  std::vector<Fault> faults;
  std::uint64_t more = 0;  // reported beyond them

 private:
  std::size_t most_;
};

}  // namespace kairos::base
