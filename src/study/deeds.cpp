#include "deeds.hpp"

#include <vector>

#include "kairos/base/text.hpp"
#include "kairos/rules/san.hpp"
#include "kairos/study/moment.hpp"

namespace kairos::study {

std::string numbered(const rules::Position& p, rules::Move move) {
  const std::vector<rules::Move> line{move};
  return rules::to_numbered_san(p, line);
}

std::string side(rules::Color c) {
  return std::string(side_words(c));
}

std::string mate_words(const Spoils& spoils) {
  if (spoils.mate_moves == 1) return "is mate";
  if (spoils.mate_moves > 1) return "mates in " + base::number(spoils.mate_moves);
  return "leads to mate";
}

std::string deed(const rules::Position& p, rules::Move move, search::Score score,
                 std::uint64_t& nodes, const rules::Position* since) {
  const Spoils spoils = spoils_of(p, move, score, since);
  nodes += spoils.nodes;
  if (score >= search::min_mate_score) return " " + mate_words(spoils);
  return spoils.what.empty() ? "" : " wins " + spoils.what;
}

}  // namespace kairos::study
