// annotated.pgn: the games as they were read, with the moments written into them.
//
// The game's own comments, signs and variations stay; what kairos adds can be told apart: in a
// comment all that follows "kairos:" is ours, and our variations stand behind the game's own with
// such a comment at their first move. Signs (NAGs, PGN standard section 10) are added only where
// the game has none of that sort: $1..$9 judge a move, $10..$19 a position. Example:
//
//   23. Qxb7 $2 $10 {kairos: swing, not punished. ...} (23. Rd1 {kairos: better, +3.10} Kg7 $18)
//
// Covered by tests/report/annotated_pgn_test.cpp.
#include <algorithm>
#include <optional>

#include "kairos/base/text.hpp"
#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/writer.hpp"
#include "kairos/report/words.hpp"

#include "labels.hpp"
#include "writers.hpp"

namespace kairos::report {

namespace {

constexpr std::string_view mark = "kairos: ";

// Writes one study's moments into its game.
class Annotator {
 public:
  Annotator(const study::Study& study, pgn::Game& game)
      : study_(study),
        game_(game),
        main_line_(game.main_line()),
        own_from_(static_cast<pgn::NodeId>(game.nodes.size())) {}

  void add(const study::Moment& moment) {
    const pgn::NodeId node = node_of(moment);
    if (!moment.played || node == pgn::no_node) {
      add_without_move(moment);
      return;
    }
    const rules::Color side = moment.position.side_to_move();
    add_move_sign(node, move_nag(moment));
    add_position_sign(node, moment.played_expectation(), side);
    add_comment(node,
                heading(moment) + sentence_of(study_, moment) + " " + change_text(moment) + ".");
    add_best_line(moment, node);
    if (moment.kind == study::Kind::trap) add_trap(moment, node);
    if (moment.kind == study::Kind::swing && !moment.punished) add_punishment(moment, node);
  }

 private:
  // "swing, not punished. "
  static std::string heading(const study::Moment& moment) {
    std::string text(words(moment.kind));
    if (const auto outcome = outcome_words(moment); !outcome.empty()) {
      text += ", " + std::string(outcome);
    }
    return text + ". ";
  }

  // The node of the move the moment speaks of: in the main line, or (claims) in a variation.
  [[nodiscard]] pgn::NodeId node_of(const study::Moment& moment) const {
    const auto ply = static_cast<std::size_t>(std::max(0, moment.ply));
    if (ply < main_line_.size() && leads_to(main_line_[ply], moment)) return main_line_[ply];
    for (pgn::NodeId id = 1; id < own_from_; ++id) {
      if (leads_to(id, moment)) return id;
    }
    return pgn::no_node;
  }

  // Comparing moves first keeps this cheap: a position is played out only for the few that fit.
  [[nodiscard]] bool leads_to(pgn::NodeId id, const study::Moment& moment) const {
    const pgn::Node& node = game_.nodes[id];
    return node.move == moment.played && node.parent != pgn::no_node &&
           pgn::position_at(game_, node.parent) == moment.position;
  }

  // One comment a move: there is software that stumbles over two in a row. Two only where one would
  // be too long to be read again.
  void add_comment(pgn::NodeId node, std::string_view words) {
    constexpr std::size_t longest = pgn::ReaderLimits{}.comment_bytes;
    auto& comments = game_.annotate(node).comments;
    const std::string ours = std::string(mark) + std::string(base::trim(words));
    if (comments.empty() || comments.back().size() + ours.size() >= longest) {
      comments.push_back(ours);
    } else {
      comments.back() += " " + ours;
    }
  }

  // Only where the annotator has given no sign between `first` and `last`: his word stands.
  void add_sign(pgn::NodeId node, std::uint8_t nag, std::uint8_t first, std::uint8_t last) {
    if (nag == 0) return;
    auto& nags = game_.annotate(node).nags;
    const bool taken = std::any_of(nags.begin(), nags.end(), [first, last](std::uint8_t given) {
      return given >= first && given <= last;
    });
    if (!taken) nags.push_back(nag);
  }

  void add_move_sign(pgn::NodeId node, std::uint8_t nag) { add_sign(node, nag, 1, 9); }

  void add_position_sign(pgn::NodeId node, double expectation, rules::Color side) {
    add_sign(node, position_nag(from_white(expectation, side)), 10, 19);
  }

  // A variation of ours: `line` in place of what follows `parent`. Returns its first and last node,
  // or nothing where its first move is that of the game or of a variation we have added before.
  std::optional<std::pair<pgn::NodeId, pgn::NodeId>> add_variation(
      pgn::NodeId parent, std::span<const rules::Move> line) {
    if (line.empty()) return std::nullopt;
    const pgn::NodeId played = game_.nodes[parent].first_child;
    for (pgn::NodeId id = played; id != pgn::no_node; id = game_.nodes[id].next_sibling) {
      const bool told = id == played || id >= own_from_;
      if (told && game_.nodes[id].move == line.front()) return std::nullopt;
    }
    const pgn::NodeId first = game_.add_child(parent, line.front());
    pgn::NodeId last = first;
    for (const rules::Move move : line.subspan(1)) last = game_.add_child(last, move);
    return std::pair(first, last);
  }

  // The best line in place of the move, judged at its end.
  void add_best_line(const study::Moment& moment, pgn::NodeId node) {
    if (!moment.best || moment.best == moment.played || moment.line.empty()) return;
    const auto ends = add_variation(game_.nodes[node].parent, moment.line);
    if (!ends) return;
    const rules::Color side = moment.position.side_to_move();
    add_comment(ends->first, (moment.found ? "also, " : "better, ") +
                                 score_text(from_white(moment.best_score, side)));
    add_position_sign(ends->second, moment.best_expectation(), side);
  }

  // The move that was avoided, and why it was well avoided.
  void add_trap(const study::Moment& moment, pgn::NodeId node) {
    const auto ends =
        add_variation(game_.nodes[node].parent, joined(moment.tempting, moment.refutation));
    if (!ends) return;
    add_comment(ends->first, "the trap");
    add_move_sign(ends->first, 2);
  }

  // How an error could have been punished, where the game went on in another way.
  void add_punishment(const study::Moment& moment, pgn::NodeId node) {
    if (moment.refutation.empty()) return;
    const pgn::NodeId next = game_.nodes[node].first_child;
    if (next == pgn::no_node || game_.nodes[next].move == moment.refutation.front()) return;
    const auto ends = add_variation(node, moment.refutation);
    if (!ends) return;
    const rules::Color side = moment.position.side_to_move();
    add_comment(ends->first, "punishes, " + score_text(from_white(moment.played_score, side)));
    add_position_sign(ends->second, moment.played_expectation(), side);
  }

  // Where no move was made there is nothing to put a variation beside: the line goes into words.
  void add_without_move(const study::Moment& moment) {
    const auto ply = static_cast<std::size_t>(std::max(0, moment.ply));
    const std::size_t before = std::min(ply, main_line_.size());
    const pgn::NodeId node = before == 0 ? 0 : main_line_[before - 1];
    std::string text = heading(moment) + sentence_of(study_, moment);
    if (!moment.line.empty()) text += " " + numbered_line(moment.position, moment.line) + ".";
    add_comment(node, text + " " + change_text(moment) + ".");
  }

  const study::Study& study_;
  pgn::Game& game_;
  std::vector<pgn::NodeId> main_line_;
  pgn::NodeId own_from_;  // nodes from here on are ours
};

}  // namespace

base::Status write_annotated_pgn(const Collection& collection, base::ByteSink& sink) {
  for (std::size_t i = 0; i < collection.size(); ++i) {
    const study::Study study = collection.load(i);
    pgn::Game game = collection.game(i);
    Annotator annotator(study, game);
    for (const study::Moment& moment : study.moments) annotator.add(moment);
    if (base::Status status = sink.write(pgn::to_pgn(game)); !status) return status;
  }
  return base::done();
}

}  // namespace kairos::report
