// Drawn for this project and licensed with it.
//
// Cut paper: straight cuts of the scissors above, long curves where the paper is turned below, and
// for each man a strip with an arched foot to stand on. What tells the men apart is the outline
// alone, so that it lasts where a video leaves little: a pawn is low with a flat head, a knight has
// steps down its mane, a bishop a tip and one cut, a rook three teeth, a queen five points, a king
// a cross over two shoulders.
#include "outlines.hpp"

namespace kairos::report {

// token switch: one man a case.
ManOutline outline_of(rules::PieceType type) {
  switch (type) {
    case rules::pawn:
      return {
          "M108 58H148L172 85Q172 120 148 136Q150 172 182 194H202V230Q128 218 54 230V194H74"
          "Q106 172 108 136Q84 120 84 85Z",
          "M74 194H182"};
    case rules::knight:
      return {
          "M202 230Q128 218 56 230V194H78Q104 180 142 148L130 126Q110 152 82 162Q60 168 48 158"
          "L34 130Q48 98 82 72L106 54L126 20L146 50L166 48L164 68L186 78L180 96L200 118L192 132"
          "Q204 160 202 194Z",
          "M78 194H202M88 98L114 106"};
    case rules::bishop:
      return {
          "M128 20L148 38L140 54Q190 90 188 125Q184 150 158 166Q162 182 184 194H202V230"
          "Q128 218 54 230V194H72Q94 182 98 166Q72 150 68 125Q66 90 116 54L108 38Z",
          "M72 194H184M98 166H158M116 132L156 66"};
    case rules::rook:
      return {
          "M46 44H86V67H108V44H148V67H170V44H210Q210 84 178 102Q174 158 190 194H204V230"
          "Q128 218 52 230V194H66Q82 158 78 102Q46 84 46 44Z",
          "M66 194H190M78 103Q128 116 178 103"};
    case rules::queen:
      return {
          "M24 62Q62 88 78 132L80 34Q104 68 112 114L128 24L144 114Q152 68 176 34L178 132"
          "Q194 88 232 62Q214 120 202 186V230Q128 218 54 230V186Q42 120 24 62Z",
          "M54 192Q128 180 202 192"};
    case rules::king:
      return {
          "M112 20H144V41H170V72H144V87Q150 98 166 104Q196 90 232 90Q230 144 202 190V230"
          "Q128 218 54 230V190Q26 144 24 90Q60 90 90 104Q106 98 112 87V72H86V41H112Z",
          "M54 192Q128 180 202 192M128 112V166"};
    case rules::no_piece_type:
      break;
  }
  return {};
}

}  // namespace kairos::report
