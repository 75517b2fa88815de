// Which facts are looked for, by the kind of moment: what the reply to an error or a trap does,
// what the best move does and meets, why the second best fails, and the motif of the move that
// makes the moment. A fact that is not sure is left out rather than guessed.
//
// Of one move the first that holds is told, and at most `most_reasons` of them: a mate; a draw by
// force; men won, with how; an attack on the king; a passed pawn; a threat; an ending; zugzwang; a
// king opened; what the move does on the board (`deeds`). Men won tell all where the score is no
// more than they are worth; where it is more, a pawn is not told at all. A pawn won some moves
// later stands behind what the move does at once, and so do men behind a threat of mate.
#include "reasons.hpp"

#include <algorithm>

#include "kairos/search/settled.hpp"
#include "kairos/study/expectation.hpp"
#include "kairos/study/forced.hpp"
#include "kairos/study/motifs.hpp"

#include "attacks_made.hpp"
#include "board_facts.hpp"
#include "line_ends.hpp"
#include "line_gain.hpp"
#include "means.hpp"
#include "places_taken.hpp"
#include "played_line.hpp"
#include "threats.hpp"

namespace kairos::study {

namespace {

constexpr std::size_t most_reasons = 2;  // of one move, its motif apart
constexpr search::Score a_piece = 200;   // or the exchange
constexpr std::size_t proved_plies = 4;  // a line no longer than this tells nothing against a proof
constexpr std::size_t soon_plies = 7;    // men that fall later are told behind what the move does

bool is_mate(const Reason& reason) {
  return reason.kind == ReasonKind::mates || reason.kind == ReasonKind::leads_to_mate;
}

// What a move does on the board, not what comes of it.
bool is_deed(const Reason& reason) {
  return reason.kind >= ReasonKind::hits;
}

// The reasons of one move, in the order in which they are told.
class MoveReasons {
 public:
  // Men are counted from `since`, what the move before took against the move itself.
  MoveReasons(MoveFacts facts, const rules::Position* since, std::uint64_t nodes)
      : f_(std::move(facts)), since_(since), limit_(nodes) {}

  std::vector<Reason> find() {
    keep(draw_by_force(f_, nodes_));
    if (!found_.empty()) return std::move(found_);
    std::optional<Reason> men = forced();
    const bool explains = men && (is_mate(*men) || !tells_of_more(*men));
    if (explains && (is_mate(*men) || comes_at_once(*men))) {
      keep(std::move(men));
      return std::move(found_);
    }
    // Where the score tells of something greater a pawn, or men by the way, explain nothing.
    const bool is_told_first =
        men && wins_piece(*men) && (explains || men->kind != ReasonKind::wins_back);
    if (is_told_first) {
      if (!comes_at_once(*men)) keep(threat_of_mate());
      keep(men);
      if (explains) return std::move(found_);
    }
    look_at_the_board(explains && men->line.size() <= soon_plies);
    const bool same = explains && !found_.empty() && found_.front().kind == ReasonKind::hits &&
                      !found_.front().means &&
                      std::ranges::count(found_.front().squares, men->target) > 0;
    if (same) found_.clear();
    if (explains) keep(std::move(men));
    return std::move(found_);
  }

  [[nodiscard]] std::uint64_t nodes() const { return nodes_; }

 private:
  void keep(std::optional<Reason> reason) {
    if (!reason || found_.size() == most_reasons) return;
    reason->role = f_.role;
    found_.push_back(std::move(*reason));
  }

  // Beside men that explain the score only what is attacked.
  void look_at_the_board(bool beside_men) {
    keep(attack_on_king(f_));
    keep(running_pawn(f_));
    if (!found_.empty()) return;
    keep(threat_of_mate());
    hit();
    if (found_.empty()) keep(threat());
    keep(ending_entered(f_));
    keep(zugzwang());
    if (found_.empty()) keep(fork_to_come(f_));
    if (beside_men) return;
    if (found_.empty()) keep(opened_king(f_));
    if (found_.empty()) deeds();
  }

  // Not the man that stands where mate is threatened. One driven off by its like declines a trade.
  void hit() {
    auto men = men_hit(f_);
    if (!men || (!found_.empty() && found_.front().squares == men->squares)) return;
    const rules::Piece man = f_.position.piece_on(f_.move().from());
    if (men->kind == ReasonKind::drives_off && men->pieces.front() == rules::type_of(man)) {
      if (auto offered = trade_made(f_)) men = std::move(offered);
    }
    keep(std::move(men));
  }

  // What is told where nothing stronger is: one of each sort.
  void deeds() {
    keep(man_left_taken(f_));
    keep(man_kept_under_attack(f_));
    keep(man_guarded(f_));
    keep(check_avoided(f_));
    keep(mate_threat_to_come(f_));
    keep(square_used(f_));
    keep(man_sent_back(f_));
    keep(trade_made(f_));
    keep(pawn_placed(f_));
    keep(passed_pawn_met(f_));
    keep(rook_placed(f_));
    if (found_.empty()) keep(king_brought(f_));
    if (found_.empty() && is_level_or_better()) keep(quiet_threat(f_));
  }

  [[nodiscard]] bool is_level_or_better() const {
    return standing_of(expectation(f_.score)) >= Standing::level;
  }

  // Looked for once.
  std::optional<Reason> threat() {
    if (!threat_is_known_ && is_level_or_better()) threat_ = threat_of(f_, nodes_);
    threat_is_known_ = true;
    return threat_;
  }

  std::optional<Reason> threat_of_mate() {
    const auto found = threat();
    return found && found->mate_moves > 0 ? found : std::nullopt;
  }

  [[nodiscard]] static bool wins_piece(const Reason& men) {
    for (int t = rules::knight; t <= rules::queen; ++t) {
      if (men.men.won[static_cast<std::size_t>(t)] > 0) return true;
    }
    return men.gain >= a_piece || men.men.promoted != rules::no_piece_type;
  }

  // Taken by the move or the next one.
  [[nodiscard]] static bool comes_at_once(const Reason& men) { return men.line.size() <= 3; }

  // A mate or men, proved or by best play.
  std::optional<Reason> forced() {
    Proof proof = prove_forced(f_.position, f_.move(), f_.score, limit_, since_);
    nodes_ += proof.nodes;
    std::optional<Reason> told = std::move(proof.reason);
    if (!told || !is_mate(*told)) told = men(std::move(told));
    if (told && told->kind != ReasonKind::wins_back) tell_means(*told, f_);
    if (told) leave_out_recapture(*told);
    return told;
  }

  // What takes back is told by what is won in the end, not by what it takes.
  void leave_out_recapture(Reason& men) const {
    const bool back = f_.last && f_.before.is_capture(f_.last) && f_.last.to() == f_.move().to();
    if (!back || men.squares.size() < 2 || men.squares.front() != f_.move().to()) return;
    men.squares.erase(men.squares.begin());
    if (!men.pieces.empty()) men.pieces.erase(men.pieces.begin());
  }

  // The proof says what is won at least, the line what is won against best play.
  std::optional<Reason> men(std::optional<Reason> proved) {
    if (f_.score == search::draw_score || takes_back()) return std::nullopt;
    auto in_line = gain_in_line(f_, since_ != nullptr ? *since_ : f_.position, nodes_);
    if (in_line && is_offered_pawn(*in_line)) in_line.reset();
    if (proved && proved->kind == ReasonKind::wins_material && f_.line.size() > proved_plies &&
        !keeps_to_the_end(f_, since_ != nullptr ? *since_ : f_.position, proved->gain, nodes_)) {
      proved.reset();  // it could be had, but best play does otherwise
    }
    if (proved && proved->kind == ReasonKind::wins_material) {
      if (!in_line || in_line->gain < proved->gain) return proved;
      if (in_line->gain == proved->gain) in_line->kind = ReasonKind::wins_material;
      return in_line;
    }
    if (in_line) return in_line;
    return proved && wins_back_more(*proved) ? proved : std::nullopt;
  }

  // A pawn that falls later, to a side that is no better for it.
  [[nodiscard]] bool is_offered_pawn(const Reason& men) const {
    return f_.role == Role::best && men.gain < a_piece && men.line.size() > 1 &&
           standing_of(expectation(f_.score)) <= Standing::level;
  }

  // Of a best move alone: a recapture is plain.
  [[nodiscard]] bool takes_back() const {
    return f_.role == Role::best && f_.last && f_.before.is_capture(f_.last) &&
           f_.move().to() == f_.last.to();
  }

  // Of a best move alone: to take back is no refutation. What was not taken cannot be won back, and
  // a pawn for a piece is none won back.
  [[nodiscard]] bool wins_back_more(const Reason& back) const {
    if (f_.role != Role::best || !f_.last) return false;
    const search::Score taken = search::nominal_balance(f_.position, ~f_.side()) -
                                search::nominal_balance(f_.before, ~f_.side());
    return back.gain <= taken && 2 * back.gain >= taken;
  }

  [[nodiscard]] bool tells_of_more(const Reason& men) const {
    return f_.score > f_.material() + men.gain + more_than_men;
  }

  std::optional<Reason> zugzwang() const {
    if (!is_level_or_better() || !found_.empty()) return {};
    if (!is_zugzwang(PlayedLine(f_.position, f_.line, {}))) return {};
    return f_.reason(ReasonKind::zugzwang);
  }

  MoveFacts f_;
  const rules::Position* since_;
  std::uint64_t limit_;  // of one proof
  std::uint64_t nodes_ = 0;
  std::vector<Reason> found_;
  bool threat_is_known_ = false;
  std::optional<Reason> threat_;
};

class Reasoning {
 public:
  Reasoning(const Evidence& evidence, Moment& moment, const Settings& settings)
      : e_(evidence), m_(moment), nodes_(proof_nodes(settings.effort.verify_nodes)) {}

  // Of the best move; `other` was made, or would be, in its place.
  void of_best(rules::Move other) {
    MoveFacts facts;
    facts.role = Role::best;
    facts.before = e_.before;
    facts.last = e_.last;
    facts.position = m_.position;
    facts.line = m_.line;
    facts.score = m_.best_score;
    facts.earlier = e_.earlier;
    if (other == m_.second) facts.other = m_.second_refutation;
    if (other == m_.played) facts.other = m_.refutation;
    if (other) facts.other.insert(facts.other.begin(), other);
    const bool took = e_.last && e_.before.is_capture(e_.last);
    const std::size_t first = m_.reasons.size();
    explain(facts, took ? &e_.before : nullptr);
    if (other == m_.best || facts.score <= -search::min_mate_score) return;
    what_it_meets(facts, other, first);
  }

  // Of the reply to a move in question, whose score is `score`, from the side that makes it. What
  // that move took counts against the reply.
  void of_reply(Role role, const std::vector<rules::Move>& replies, search::Score score) {
    if (replies.empty()) return;
    MoveFacts facts;
    facts.role = role;
    facts.before = m_.position;
    facts.last = role == Role::reply ? move_in_question(m_) : m_.second;
    facts.position = position_of(m_, role);
    facts.line = replies;
    facts.score = seen_from_before(score);
    facts.earlier = e_.earlier;
    if (answers_the_best_too(facts)) return;
    const std::size_t first = m_.reasons.size();
    explain(facts, &m_.position);
    m_.reasons.erase(
        std::remove_if(m_.reasons.begin() + static_cast<std::ptrdiff_t>(first), m_.reasons.end(),
                       [&](const Reason& r) { return holds_of_the_best_too(r); }),
        m_.reasons.end());
  }

  // A move that is told for what it wins: before what it does for that, but for a pawn won late.
  void men_first() {
    constexpr std::size_t late = 5;
    std::stable_partition(m_.reasons.begin(), m_.reasons.end(), [](const Reason& reason) {
      const bool wins =
          reason.kind == ReasonKind::wins_material || reason.kind == ReasonKind::soon_wins;
      return wins ? reason.gain >= a_piece || reason.line.size() <= late : !is_deed(reason);
    });
  }

  void motif_of_best() {
    motif(Role::best, m_.best,
          motifs_of(m_.position, m_.line, {e_.last ? &e_.before : nullptr, e_.last}));
  }

  void motif_of_reply() {
    if (m_.refutation.empty()) return;
    motif(Role::reply, m_.refutation.front(),
          motifs_of(position_of(m_, Role::reply), m_.refutation,
                    {&m_.position, move_in_question(m_)}));
  }

 private:
  // Stands before what the move only does on the board; its reasons begin at index `first`.
  void what_it_meets(const MoveFacts& facts, rules::Move other, std::size_t first) {
    std::vector<Reason>& all = m_.reasons;
    if (all.size() > first && is_mate(all.back())) return;
    const bool bare = all.size() == first || is_deed(all[first]);
    auto met = prevented_by(facts, other, m_.nodes);
    if (!met && bare) met = mate_met(facts);
    if (!met) return;
    std::erase_if(all, [&](const Reason& reason) {
      return reason.role == Role::best && reason.kind == ReasonKind::guards &&
             reason.squares == met->squares;
    });
    const auto at = bare ? all.begin() + static_cast<std::ptrdiff_t>(first) : all.end();
    all.insert(at, std::move(*met));
  }

  void explain(const MoveFacts& facts, const rules::Position* since) {
    MoveReasons reasons(facts, since, nodes_);
    std::vector<Reason> found = reasons.find();
    m_.nodes += reasons.nodes();
    for (Reason& reason : found) m_.reasons.push_back(std::move(reason));
  }

  // A capture that the best move's own line answers it with as well, and that wins as much there by
  // counting the exchange, refutes nothing.
  [[nodiscard]] bool answers_the_best_too(const MoveFacts& facts) const {
    const rules::Move reply = facts.move();
    if (m_.line.size() < 2 || m_.line[1] != reply) return false;
    const rules::Position after_best = m_.position.after(m_.best);
    if (!facts.position.is_capture(reply) || !after_best.is_capture(reply)) return false;
    const search::Score wins = search::exchange_value(facts.position, reply);
    return wins > 0 && search::exchange_value(after_best, reply) >= wins;
  }

  // What a reply only does on the board, or the man it wins, is no reason where the line of the
  // best move holds the same.
  [[nodiscard]] bool holds_of_the_best_too(const Reason& reason) const {
    const auto& line = m_.line;
    const bool at_once = line.size() > 1 && line[1] == reason.move;
    // What comes later all the same is none but for a fork or a mate.
    const bool greater = reason.means == Means::fork || reason.mate_moves > 0;
    const bool soon = at_once || (!greater && line.size() > 3 && line[3] == reason.move);
    switch (reason.kind) {
      case ReasonKind::wins_material:
      case ReasonKind::soon_wins:
        return at_once && reason.target != rules::no_square && is_lost_in(line, reason.target);
      case ReasonKind::threatens:  // of a mate it is told: there it may be met
        return soon && reason.mate_moves == 0;
      case ReasonKind::attacks_king:
      case ReasonKind::opens_king:
        return soon;
      default:
        return soon && is_deed(reason);
    }
  }

  void motif(Role role, rules::Move move, const std::vector<Motif>& motifs) {
    if (motifs.empty()) return;
    Reason& reason = m_.reasons.emplace_back();
    reason.role = role;
    reason.kind = ReasonKind::motif;
    reason.move = move;
    reason.motif = motifs.front();
  }

  const Evidence& e_;
  Moment& m_;
  std::uint64_t nodes_;  // of one proof
};

}  // namespace

void give_reasons(const Evidence& evidence, const Settings& settings, Moment& m) {
  Reasoning reasoning(evidence, m, settings);
  switch (m.kind) {
    case Kind::swing:
    case Kind::slip:
    case Kind::slide:
    case Kind::turn:
      reasoning.of_reply(Role::reply, m.refutation, m.played_score);
      reasoning.of_best(m.played);
      return reasoning.motif_of_reply();
    case Kind::only_move:
      reasoning.of_reply(Role::second_reply, m.second_refutation, m.second_score);
      reasoning.of_best(m.second);
      return reasoning.motif_of_best();
    case Kind::trap:
      reasoning.of_reply(Role::reply, m.refutation, m.tempting_score);
      return reasoning.motif_of_reply();
    case Kind::quiet_win:
      reasoning.of_best(m.second);
      reasoning.men_first();
      return reasoning.motif_of_best();
    case Kind::ended_early:
      reasoning.of_best(m.second);
      return reasoning.motif_of_best();
    case Kind::claim:
      return;
  }
}

}  // namespace kairos::study
