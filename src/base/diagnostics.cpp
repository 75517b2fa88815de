#include "kairos/base/diagnostics.hpp"

#include "kairos/base/text.hpp"

namespace kairos::base {

namespace {

struct Words {
  std::string_view what;
  std::string_view advice;
};

// token switch: one line a code, no default, so that the compiler names a code without words.
// NOLINTNEXTLINE(readability-function-size)
Words words_of(Code code) {
  switch (code) {
    case Code::cannot_open:
      return {"cannot open", "check the name and the permissions"};
    case Code::is_a_directory:
      return {"is a folder, not a file", "name the files in it, for instance FOLDER/*.pgn"};
    case Code::cannot_read:
      return {"cannot read", "check the disk or the connection and try again"};
    case Code::cannot_write:
      return {"cannot write", "choose a folder you may write to with -o"};
    case Code::disk_full:
      return {"the disk is full", "free some space and run the same command again"};
    case Code::gzip_damaged:
      return {"damaged gzip data", "fetch the file again; what came before the damage was read"};
    case Code::gzip_truncated:
      return {"the gzip data ends too early",
              "fetch the file again; what came before the end was read"};
    case Code::file_empty:
      return {"the file is empty", "check that this is the file you meant"};
    case Code::no_games:
      return {"no game found", "check that this is a PGN file"};
    case Code::encoding_unsupported:
      return {"the text is in units of two bytes", "save the file as UTF-8 and try again"};
    case Code::fen_fields:
      return {"wrong number of FEN fields", "write: men, side, castling, en passant, two counters"};
    case Code::fen_board:
      return {"the men of the FEN do not fill eight ranks of eight", "check the first field"};
    case Code::fen_side:
      return {"the side to move must be w or b", "check the second field"};
    case Code::fen_castling:
      return {"castling rights must be - or letters of KQkq", "check the third field"};
    case Code::fen_en_passant:
      return {"the en passant square must be - or on the third or sixth rank",
              "check the fourth field"};
    case Code::fen_counter:
      return {"a move counter is not a number in range", "check the last two fields"};
    case Code::king_count:
      return {"each side must have one king", "check the men"};
    case Code::too_many_pieces:
      return {"more men than a side can have", "check the men"};
    case Code::pawn_on_last_rank:
      return {"a pawn stands on the first or last rank", "check the men"};
    case Code::opponent_in_check:
      return {"the side that is not to move is in check", "check the side to move"};
    case Code::too_many_checkers:
      return {"the king is checked by more men than possible", "check the men"};
    case Code::castling_right_impossible:
      return {"a castling right without its king or rook at home", "check the third field"};
    case Code::en_passant_impossible:
      return {"no pawn can just have passed the en passant square", "check the fourth field"};
    case Code::not_a_move:
      return {"not a move", "write a move like Nf3, exd5, O-O or e8=Q"};
    case Code::illegal_move:
      return {"illegal move", "compare with the score sheet"};
    case Code::ambiguous_move:
      return {"several men can make this move", "add the file or rank it starts from"};
    case Code::no_such_piece:
      return {"no such man can move there", "compare with the score sheet"};
    case Code::variant_unsupported:
      return {"not standard chess", "kairos studies standard chess only"};
    case Code::setup_bad:
      return {"the FEN of this game is not a legal position", "mend the FEN tag"};
    case Code::setup_missing:
      return {
          "the SetUp tag says that this game begins from a position of its own, and no FEN tag "
          "holds it",
          "add the FEN tag, or take the SetUp tag out"};
    case Code::tag_damaged:
      return {"damaged tag", "write it as [Name \"value\"]"};
    case Code::tag_cut:
      return {"a very long tag was cut", "the moves are not affected"};
    case Code::tag_repeated:
      return {"a tag stands more than once in one game", "the first one counts"};
    case Code::comment_unclosed:
      return {"a comment is not closed", "add the missing }"};
    case Code::comment_cut:
      return {"a very long comment was cut", "the moves are not affected"};
    case Code::variation_unclosed:
      return {"a variation is not closed", "add the missing )"};
    case Code::variation_stray_close:
      return {"a ) without its (", "take it out"};
    case Code::stray_text:
      return {"text that is no part of a game", "it was passed over"};
    case Code::token_unknown:
      return {"cannot be read as a move or a sign", "it was passed over"};
    case Code::nag_unknown:
      return {"a NAG must be $0 to $255", "it was passed over"};
    case Code::result_missing:
      return {"the game has no result at its end",
              "the Result tag was taken, or without one the game read as unfinished"};
    case Code::result_differs:
      return {"the result after the moves differs from the Result tag",
              "the one after the moves was taken"};
    case Code::result_both_lost:
      return {"the Result tag says that both players lost",
              "no result of the PGN standard says so, the game was read as unfinished"};
    case Code::result_contradicts_board:
      return {"the result contradicts the last position", "compare with the score sheet"};
    case Code::game_too_long:
      return {"more than kairos reads of one game", "the rest was passed over"};
    case Code::duplicate_game:
      return {"the same game stands in the input twice", "the first one counts"};
    case Code::epd_operation:
      return {"damaged EPD operation", "write: opcode operands;"};
    case Code::epd_counts:
      return {"damaged perft counts", "write: FEN ;D1 20 ;D2 400"};
    case Code::ledger_version:
      return {"the ledger was written by another version", "use another folder with -o"};
    case Code::ledger_evaluation:
      return {"the ledger's games were judged by another evaluation or other definitions",
              "the two are never mixed; scan the games again into another folder with -o"};
    case Code::ledger_settings_differ:
      return {"the ledger belongs to other games or settings",
              "use the same ones, or another folder with -o"};
    case Code::ledger_damaged:
      return {"a damaged ledger record", "that part will be studied again"};
    case Code::ledger_in_use:
      return {"another kairos works in this folder", "wait for it, or use another folder with -o"};
    case Code::ledger_torn_tail:
      return {"the last ledger record was torn", "that part will be studied again"};
    case Code::ledger_part_missing:
      return {"a part of the run is missing", "join it with the others when it is done"};
    case Code::ledger_unfinished:
      return {"this run did not get as far as reading its games",
              "give the same scan command again to finish it"};
    case Code::not_a_ledger:
      return {"not a kairos ledger", "name the folder of a scan, or the ledger in it"};
    case Code::output_belongs_to_other_run:
      return {"the folder holds the results of another run", "use another folder with -o"};
    case Code::json_damaged:
      return {"damaged JSON", "check the line"};
    case Code::not_a_score_file:
      return {"not a score file of this command", "nothing was changed; name another with --score"};
    case Code::score_damaged:
      return {"a damaged line of a score file",
              "nothing was changed; mend the line, or name another file with --score"};
    case Code::too_many_games:
      return {"more games than one scan takes", "scan the rest into another folder"};
    case Code::line_too_long:
      return {"a line longer than kairos reads", "it was passed over"};
    case Code::too_many_positions:
      return {"more positions than kairos keeps of one file", "split the file"};
    case Code::file_too_long:
      return {"the file is longer than any of its kind", "check that this is the file you meant"};
    case Code::more_faults:
      return {"there are more faults than told", "mend those first, then look again"};
    case Code::usage:
      return {"cannot do that", "see --help"};
  }
  return {};
}

}  // namespace

std::string_view words(Code code) {
  return words_of(code).what;
}
std::string_view advice(Code code) {
  return words_of(code).advice;
}

std::string describe(const Fault& fault) {
  std::string text = fault.place.file;
  const auto add_number = [&text](std::uint64_t n) {
    if (n != 0) text += ":" + number(static_cast<std::int64_t>(n));
  };
  add_number(fault.place.line);
  if (fault.place.line != 0) add_number(fault.place.column);
  if (!text.empty()) text += ": ";
  if (fault.place.game != 0) {
    text += "game " + number(static_cast<std::int64_t>(fault.place.game)) + ": ";
  }
  text += words(fault.code);
  if (!fault.detail.empty()) text += ": " + fault.detail;
  text += " (";
  text += advice(fault.code);
  return text += ")";
}

Fault more_faults(std::uint64_t number) {
  return {Code::more_faults, grouped(number) + " more", {}};
}

void FaultList::report(Fault fault) {
  if (faults.size() == most_) {
    ++more;
    return;
  }
  if (fault.detail.size() > longest_detail) fault.detail = cut(fault.detail, longest_detail);
  faults.push_back(std::move(fault));
}

std::vector<Fault> FaultList::all() && {
  if (more > 0) faults.push_back(more_faults(more));
  return std::move(faults);
}

}  // namespace kairos::base
