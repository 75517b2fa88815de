// annotated.pgn: the games as they were read, with the turning points written into them.
//
// The game's own comments, signs and variations stay. Ours come behind them: in front of the first
// move the story, at a turning point its text, and variations with the better line and what refutes
// an error, twelve half-moves at most, a sign of the position at their ends. Signs (NAGs, PGN
// standard section 10) are added only where the game has none of that sort: $1..$9 judge a move,
// $10..$19 a position. With RunFacts::bare_pgn no comment is added: the bare analysis. Example:
//
//   23. Qxb7 $4 $10 {Lets the win slip: after 23... Rb8 the position is level.} (23. Rd1 Kg7 $18)
//
// Covered by tests/report/annotated_pgn_test.cpp.
#include <algorithm>
#include <optional>

#include "kairos/base/text.hpp"
#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/writer.hpp"
#include "kairos/report/words.hpp"

#include "labels.hpp"
#include "notes.hpp"
#include "phrases.hpp"
#include "writers.hpp"

namespace kairos::report {

namespace {

using study::Kind;

// Writes one study's turning points into its game.
class Annotator {
 public:
  Annotator(const study::Study& study, pgn::Game& game, bool bare)
      : study_(study),
        game_(game),
        bare_(bare),
        main_line_(game.main_line()),
        own_from_(static_cast<pgn::NodeId>(game.nodes.size())) {}

  void add_story(const std::string& story) { add_comment(0, story); }

  void add(const TurningPoint& point) {
    const study::Moment& moment = point.lead();
    const pgn::NodeId node = node_of(game_, main_line_, moment, own_from_);
    if (!moment.played || node == pgn::no_node) {
      add_without_move(point);
      return;
    }
    add_move_sign(node, move_nag(point));
    add_position_sign(node, moment.played_expectation(), moment);
    add_comment(node, said_after_the_move(moment, text_of(study_, point)));
    add_best_line(point, node);
    const study::Moment* const trap = point.find(Kind::trap);
    if (trap != nullptr) add_trap(*trap, node);
    if (moment.kind == Kind::swing && !moment.punished) add_punishment(point, node);
  }

 private:
  // The comment stands behind the move: it need not be named again.
  static std::string said_after_the_move(const study::Moment& moment, std::string text) {
    const std::string move = numbered(moment.position, moment.played) + " ";
    const bool leads = moment.kind == Kind::swing && text.starts_with(move);
    return leads ? capital(text.substr(move.size())) : text;
  }

  // One comment a move: there is software that stumbles over two in a row. Two only where one would
  // be too long to be read again.
  void add_comment(pgn::NodeId node, std::string_view words) {
    if (bare_ || words.empty()) return;
    constexpr std::size_t longest = pgn::ReaderLimits{}.comment_bytes;
    auto& comments = game_.annotate(node).comments;
    const std::string ours(base::trim(words));
    if (comments.empty() || comments.back().size() + 1 + ours.size() >= longest) {
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

  // `expectation` is that of the side to move at the moment.
  void add_position_sign(pgn::NodeId node, double expectation, const study::Moment& moment) {
    const rules::Color side = moment.position.side_to_move();
    add_sign(node, position_nag(from_white(expectation, side)), 10, 19);
  }

  // A variation of ours: `line`, cut, in place of what follows `parent`. Returns its first and last
  // node, or nothing where its first move is that of the game or of a variation added before.
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
    for (const rules::Move move : line.first(std::min(line.size(), shown_plies)).subspan(1)) {
      last = game_.add_child(last, move);
    }
    return std::pair(first, last);
  }

  // The best line in place of the move, judged at its end.
  void add_best_line(const TurningPoint& point, pgn::NodeId node) {
    const study::Moment& moment = point.lead();
    if (!moment.best || moment.best == moment.played) return;
    const auto ends = add_variation(game_.nodes[node].parent, best_line(point));
    if (ends) add_position_sign(ends->second, moment.best_expectation(), moment);
  }

  // The move that was avoided, with what refutes it.
  void add_trap(const study::Moment& trap, pgn::NodeId node) {
    const auto ends =
        add_variation(game_.nodes[node].parent, joined(trap.tempting, reply_line(alone(trap))));
    if (!ends) return;
    add_move_sign(ends->first, 2);
    add_position_sign(ends->second, study::expectation(trap.tempting_score), trap);
  }

  // How an error could have been punished, where the game went on in another way.
  void add_punishment(const TurningPoint& point, pgn::NodeId node) {
    const std::vector<rules::Move> replies = reply_line(point);
    const pgn::NodeId next = game_.nodes[node].first_child;
    if (replies.empty() || next == pgn::no_node || game_.nodes[next].move == replies.front()) {
      return;
    }
    const auto ends = add_variation(node, replies);
    const study::Moment& moment = point.lead();
    if (ends) add_position_sign(ends->second, moment.played_expectation(), moment);
  }

  // Where no move was made there is nothing to put a variation beside: the line goes into words.
  void add_without_move(const TurningPoint& point) {
    const study::Moment& moment = point.lead();
    const auto ply = static_cast<std::size_t>(std::max(0, point.ply));
    const std::size_t before = std::min(ply, main_line_.size());
    const pgn::NodeId node = before == 0 ? 0 : main_line_[before - 1];
    std::string text = text_of(study_, point);
    const std::vector<rules::Move> line = best_line(point);
    if (line.size() > 1) text += " (" + numbered_line(moment.position, line, shown_plies) + ")";
    add_comment(node, text);
  }

  const study::Study& study_;
  pgn::Game& game_;
  bool bare_;
  std::vector<pgn::NodeId> main_line_;
  pgn::NodeId own_from_;  // nodes from here on are ours
};

}  // namespace

base::Status write_annotated_pgn(const Collection& collection, base::ByteSink& sink) {
  const RunFacts& facts = collection.facts();
  for (std::size_t i = 0; i < collection.size(); ++i) {
    const study::Study study = collection.load(i);
    const std::vector<TurningPoint> points = turning_points(study);
    pgn::Game game = collection.game(i);
    const NotesCheck notes = check_notes(game, study);
    Annotator annotator(study, game, facts.bare_pgn);
    annotator.add_story(story_text(facts, study, points));
    for (const TurningPoint& point : points) annotator.add(point);
    for (const study::Moment* const hole : notes.holes) annotator.add(alone(*hole));
    if (base::Status status = sink.write(pgn::to_pgn(game)); !status) return status;
  }
  return base::done();
}

}  // namespace kairos::report
