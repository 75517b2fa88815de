// The reasons of one move, in the order in which they are told.
//
// The first that holds is told, and at most `most_reasons`: a mate; a draw by force; men won, with
// how; an attack on the king; a passed pawn; a threat; an ending; zugzwang; a king opened; what the
// move does on the board (`deeds`). Men won tell all where the score is no more than they are
// worth; where it is more, a pawn is not told at all. A pawn won some moves later stands behind
// what the move does at once, and so do men behind a threat of mate.
#include "move_reasons.hpp"

#include <algorithm>

#include "kairos/search/settled.hpp"
#include "kairos/study/expectation.hpp"
#include "kairos/study/forced.hpp"

#include "attacks_made.hpp"
#include "board_facts.hpp"
#include "line_ends.hpp"
#include "line_gain.hpp"
#include "means.hpp"
#include "men_placed.hpp"
#include "places_taken.hpp"
#include "played_line.hpp"
#include "threats.hpp"

namespace kairos::study {

namespace {

constexpr std::size_t most_reasons = 2;  // of one move, its motif apart
constexpr std::size_t proved_plies = 4;  // a line no longer than this tells nothing against a proof
constexpr std::size_t soon_plies = 5;    // men that fall later are told behind what the move does

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
    if (explains && !found_.empty() && is_way_to(found_.front(), men->target)) found_.clear();
    if (explains && (found_.empty() || !is_vague(*men))) keep(std::move(men));
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
    keep(promotion_stopped(f_));
    if (found_.empty()) keep(attack_on_king(f_));
    pawn_on_its_way();
    if (!found_.empty()) return;
    keep(man_evaded(f_));
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

  // Not where a pawn that promotes is told already.
  void pawn_on_its_way() {
    if (!found_.empty() && found_.front().men.promoted != rules::no_piece_type) return;
    auto runs = running_pawn(f_);
    if (!runs) return;
    // Of the pawn's way and the rook that goes behind it the rook is told.
    auto met = passed_pawn_met(f_);
    const bool backed = met && met->kind == ReasonKind::behind_pawn &&
                        met->squares.front() == runs->squares.front();
    keep(backed ? std::move(met) : std::move(runs));
  }

  // Not the man that stands where mate is threatened. One driven off by its like declines a trade.
  void hit() {
    auto men = men_hit(f_);
    if (!men || (!found_.empty() && found_.front().squares == men->squares)) return;
    const rules::Piece man = f_.position.piece_on(f_.move().from());
    if (men->kind == ReasonKind::drives_off && men->pieces.front() == rules::type_of(man)) {
      if (auto offered = trade_made(f_)) men = std::move(offered);
    }
    const bool is_one = men->kind == ReasonKind::hits || men->kind == ReasonKind::drives_off;
    auto pin = is_one && !men->means ? man_pinned(f_) : std::nullopt;
    keep(pin && pin->squares.front() == men->squares.front() ? std::move(pin) : std::move(men));
  }

  // What is told where nothing stronger is: one of each sort.
  void deeds() {
    keep(man_left_taken(f_));
    keep(castling_stopped(f_));
    keep(man_kept_under_attack(f_));
    keep(man_pinned(f_));
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
    if (found_.empty()) keep(knight_settled(f_));
    if (found_.empty()) keep(pawns_doubled(f_));
    if (found_.empty() && is_level_or_better()) keep(quiet_threat(f_));
    if (found_.empty()) keep(man_taken(f_));
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

  // Whether the deed only goes for the man on that square.
  [[nodiscard]] static bool is_way_to(const Reason& deed, rules::Square target) {
    const bool goes = deed.kind == ReasonKind::hits || deed.kind == ReasonKind::king_comes;
    return goes && !deed.means && std::ranges::count(deed.squares, target) > 0;
  }

  // A pawn won late, and no one can say which.
  [[nodiscard]] static bool is_vague(const Reason& men) {
    return men.gain < a_piece && men.target == rules::no_square && !comes_at_once(men);
  }

  // Taken by the move or the next one.
  [[nodiscard]] static bool comes_at_once(const Reason& men) { return men.line.size() <= 3; }

  // A mate or men, proved or by best play.
  std::optional<Reason> forced() {
    Proof proof = prove_forced(f_.position, f_.move(), f_.score, limit_, since_);
    nodes_ += proof.nodes;
    std::optional<Reason> told = std::move(proof.reason);
    if (!told || !is_mate(*told)) told = men(std::move(told));
    if (told) count_from_the_board(*told);
    if (told && told->kind != ReasonKind::wins_back) tell_means(*told, f_);
    if (told) leave_out_recapture(*told);
    return told;
  }

  // Of a best move the men are those between the board as it stands and the end of the line: what
  // the move before took is gone from sight, and counts for the gain alone.
  void count_from_the_board(Reason& men) const {
    const bool counts = men.kind == ReasonKind::wins_material || men.kind == ReasonKind::soon_wins;
    if (!counts || f_.role != Role::best || since_ == nullptr || men.line.empty()) return;
    const PlayedLine line(f_.position, men.line, {});
    const auto seen = men_won(f_.position, line.end(), f_.side());
    if (!seen) return;
    men.men = *seen;
    name_what_is_taken(men, f_.position);
  }

  // What takes back is told by what is won in the end, not by what it takes.
  void leave_out_recapture(Reason& men) const {
    if (!f_.takes_back() || men.squares.size() < 2 || men.squares.front() != f_.move().to()) return;
    men.squares.erase(men.squares.begin());
    if (!men.pieces.empty()) men.pieces.erase(men.pieces.begin());
  }

  // The proof says what is won at least, the line what is won against best play.
  std::optional<Reason> men(std::optional<Reason> proved) {
    const bool is_plain = f_.role == Role::best && f_.takes_back();
    if (f_.score == search::draw_score || is_plain) return std::nullopt;
    const rules::Position& since = since_ != nullptr ? *since_ : f_.position;
    auto in_line = gain_in_line(f_, since, nodes_);
    if (in_line && is_offered_pawn(*in_line)) in_line.reset();
    if (proved && proved->kind == ReasonKind::wins_material && f_.line.size() > proved_plies &&
        (!line_takes_on(proved->squares) || !keeps_to_the_end(f_, since, proved->gain, nodes_))) {
      proved.reset();  // it could be had, but best play does otherwise
    }
    if (proved && proved->kind == ReasonKind::wins_material) {
      if (!in_line || in_line->gain < proved->gain) return proved;
      if (in_line->gain == proved->gain) in_line->kind = ReasonKind::wins_material;
      return in_line;
    }
    if (in_line) return in_line;
    if (proved && wins_back_more(*proved)) return proved;
    if (auto back = proved ? std::nullopt : regained()) return back;
    auto late = gain_in_line(f_, since, nodes_, Pawns::late);
    return late && costs_no_piece(*late) && !is_offered_pawn(*late) ? late : std::nullopt;
  }

  [[nodiscard]] static bool costs_no_piece(const Reason& men) {
    const auto& lost = men.men.lost;
    return std::all_of(lost.begin() + rules::knight, lost.end(), [](int n) { return n == 0; });
  }

  // What best play wins back later of what the move before took.
  std::optional<Reason> regained() {
    if (f_.role != Role::best || since_ == nullptr) return std::nullopt;
    auto back = gain_in_line(f_, f_.position, nodes_);
    if (!back || !wins_back_more(*back)) return std::nullopt;
    back->kind = ReasonKind::wins_back;
    return back;
  }

  // Whether best play takes all the men named where they are named.
  [[nodiscard]] bool line_takes_on(const std::vector<rules::Square>& squares) const {
    return std::ranges::all_of(squares, [this](rules::Square square) {
      for (std::size_t i = 0; i < f_.line.size(); i += 2) {
        if (f_.line[i].to() == square) return true;
      }
      return false;
    });
  }

  // A pawn that falls later, to a side that is no better for it.
  [[nodiscard]] bool is_offered_pawn(const Reason& men) const {
    return f_.role == Role::best && men.gain < a_piece && men.line.size() > 1 &&
           standing_of(expectation(f_.score)) <= Standing::level;
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

}  // namespace

bool is_deed(const Reason& reason) {
  return reason.kind >= ReasonKind::hits;
}

std::vector<Reason> reasons_of_move(const MoveFacts& facts, const rules::Position* since,
                                    std::uint64_t limit, std::uint64_t& nodes) {
  MoveReasons reasons(facts, since, limit);
  std::vector<Reason> found = reasons.find();
  nodes += reasons.nodes();
  return found;
}

}  // namespace kairos::study
