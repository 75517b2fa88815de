// Motifs by rules: a line is played out once (PlayedLine), and every rule is asked of it in the
// order in which the motifs tell most; those that hold are named. The rules with their definitions
// stand in motifs_lines.cpp, motifs_guards.cpp and motifs_ends.cpp; here is what they share, and
//
//   sacrifice: the key leaves a man to be taken, by the exchange count; it is not refuted at once
//   by
//     a line that opens behind the taker or by an exchange that wins as much back; and when it is
//     not taken, it takes nothing worth more (that is an attack).
//   the point of a combination: a key that gives check or is taken, and by itself shows nothing but
//     a sacrifice at most, only prepares; then what the solver's next move shows is named.
#include "kairos/study/motifs.hpp"

#include <algorithm>
#include <array>
#include <optional>

#include "kairos/rules/draws.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/search/searcher.hpp"
#include "kairos/search/settled.hpp"

#include "motifs_wider.hpp"

namespace kairos::study {

namespace {

constexpr int king_worth = 10'000;
constexpr int piece_worth = 300;
constexpr int sacrifice_from = -200;

struct Rule {
  Motif motif;
  bool (*holds)(const PlayedLine&);
};

// Whether taking so opens one of the solver's lines to a man worth more than the one taken.
bool is_punished_behind(const PlayedLine& s, rules::Move take) {
  const rules::Position& p = s.after(0);
  const rules::Position next = p.after(take);
  rules::Bitboard sliders = rules::aligned_sliders(p, take.from()) & p.pieces(s.mine());
  while (sliders != 0) {
    const rules::Square slider = rules::take_first(sliders);
    rules::Bitboard men = attacks_from(next, slider) & ~attacks_from(p, slider) &
                          next.pieces(s.theirs()) & rules::line_through(slider, take.from());
    while (men != 0) {
      const rules::Square target = rules::take_first(men);
      if (target != take.to() && worth(next, target) > worth(p, s.key().to())) return true;
    }
  }
  return false;
}

// Whether the solver can at once take as much with profit, by exchanges, as the taking has won.
bool is_won_back(const PlayedLine& s, rules::Move take) {
  const rules::Position next = s.after(0).after(take);
  rules::MoveList captures;
  rules::legal_moves(next, captures, rules::Moves::noisy);
  return std::any_of(captures.begin(), captures.end(), [&](rules::Move m) {
    return next.is_capture(m) && search::exchange_value(next, m) >= worth(s.after(0), take.to());
  });
}

// A man that only a pinned man can take is none given up, nor one for which as much falls at once.
// And what, not taken, takes a man worth more is an attack.
bool gives_up_material(const PlayedLine& s) {
  if (!is_sacrifice(s.at(0), s.key())) return false;
  const bool strikes = s.size() >= 3 && s.move(2).from() == s.key().to() && s.takes_piece(2);
  if (strikes && worth(s.at(2), s.move(2).to()) > worth(s.after(0), s.key().to())) return false;
  rules::MoveList takes;
  rules::legal_moves(s.after(0), takes, rules::Moves::noisy);
  return std::any_of(takes.begin(), takes.end(), [&](rules::Move take) {
    return take.to() == s.key().to() && !is_punished_behind(s, take) && !is_won_back(s, take);
  });
}

template <bool (*narrow)(const PlayedLine&), bool (*wider)(const PlayedLine&)>
bool any_of(const PlayedLine& s) {
  return narrow(s) || wider(s);
}

// In the order of the enumeration: most telling first.
constexpr std::array<Rule, motif_count> rules_in_order = {{
    {Motif::smothered_mate, is_smothered_mate},
    {Motif::back_rank, is_back_rank},
    {Motif::double_check, is_double_check},
    {Motif::discovered_check, is_discovered_check},
    {Motif::stalemate, is_stalemate_trick},
    {Motif::perpetual_check, is_perpetual},
    {Motif::underpromotion, is_underpromotion},
    {Motif::zugzwang, is_zugzwang},
    {Motif::in_between_move, is_in_between_move},
    {Motif::interference, is_interference},
    {Motif::decoy, is_decoy},
    {Motif::overloaded, is_overloaded},
    {Motif::deflection, any_of<is_deflection, is_wider_deflection>},
    {Motif::removing_the_guard, is_guard_removed},
    {Motif::x_ray, is_x_ray},
    {Motif::discovered_attack, any_of<is_discovered_attack, is_wider_discovered_attack>},
    {Motif::skewer, any_of<is_skewer, is_front_of_skewer_won>},
    {Motif::fork, is_fork},
    {Motif::pin, is_pin},
    {Motif::trapped_piece, is_trapped_piece},
    {Motif::clearance, is_clearance},
    {Motif::promotion, is_promotion},
    {Motif::miscount, is_miscount},
    {Motif::hanging_piece, is_hanging_piece},
    {Motif::sacrifice, gives_up_material},
}};

// What may be the point of a combination: told of the solver's second move. After a sacrifice a
// check that happens to be discovered is only how it goes on.
constexpr std::array points = {Motif::interference, Motif::decoy,
                               Motif::overloaded,   Motif::deflection,
                               Motif::skewer,       Motif::removing_the_guard,
                               Motif::fork,         Motif::discovered_attack,
                               Motif::pin};
constexpr std::array points_without_sacrifice = {Motif::double_check, Motif::discovered_check,
                                                 Motif::sacrifice};

// The key prepares: it gives check, or its man is taken where it went, and by itself it shows
// nothing but that it gives something up. Then the point is what the next move shows.
bool only_prepares(const PlayedLine& s, const std::vector<Motif>& found) {
  if (s.size() < 5) return false;
  const bool more =
      std::any_of(found.begin(), found.end(), [](Motif m) { return m < Motif::clearance; });
  return !more && (s.at(0).gives_check(s.key()) || s.move(1).to() == s.key().to());
}

template <std::size_t size>
bool is_among(Motif motif, const std::array<Motif, size>& motifs) {
  return std::find(motifs.begin(), motifs.end(), motif) != motifs.end();
}

std::optional<Motif> point_of(const PlayedLine& s, std::span<const rules::Move> line) {
  const PlayedLine rest(s.at(2), line.subspan(2), {});
  const bool gave_up = gives_up_material(s);
  for (const Rule& rule : rules_in_order) {
    const bool is_point = is_among(rule.motif, points) ||
                          (!gave_up && is_among(rule.motif, points_without_sacrifice));
    if (is_point && rule.holds(rest)) return rule.motif;
  }
  return std::nullopt;
}

}  // namespace

PlayedLine::PlayedLine(const rules::Position& position, std::span<const rules::Move> line,
                       const Prelude& prelude)
    : moves_(line.begin(), line.end()), positions_{position}, prelude_(prelude) {
  for (const rules::Move m : moves_) positions_.push_back(positions_.back().after(m));
}

bool PlayedLine::takes_piece(std::size_t i) const {
  return i < size() && !at(i).is_empty(move(i).to()) && is_piece(at(i), move(i).to());
}

bool PlayedLine::ends_in_mate() const {
  return size() % 2 == 1 && rules::is_checkmate(end());
}

std::size_t PlayedLine::capture_on(rules::Square square, std::size_t from) const {
  const rules::Piece man = after(0).piece_on(square);
  for (std::size_t i = from; i < size(); i += 2) {
    if (at(i).piece_on(square) != man) return size();
    if (move(i).to() == square) return i;
  }
  return size();
}

rules::Bitboard attacks_from(const rules::Position& p, rules::Square s) {
  const rules::Piece man = p.piece_on(s);
  if (rules::type_of(man) == rules::pawn) return rules::pawn_attacks(rules::color_of(man), s);
  return rules::attacks_of(rules::type_of(man), s, p.occupied());
}

rules::PieceType taken_type(const rules::Position& p, rules::Move capture) {
  return capture.is_en_passant() ? rules::pawn : rules::type_of(p.piece_on(capture.to()));
}

int worth(const rules::Position& p, rules::Square s) {
  if (p.is_empty(s)) return 0;
  const rules::PieceType type = rules::type_of(p.piece_on(s));
  return type == rules::king ? king_worth : search::nominal_value(type);
}

bool is_piece(const rules::Position& p, rules::Square s) {
  return worth(p, s) >= piece_worth;
}

bool threatens_mate(const PlayedLine& s) {
  const rules::Position& p = s.after(0);
  if (p.in_check() || !rules::has_legal_move(p)) return false;
  const rules::Position passed = p.after(rules::null_move);
  rules::MoveList moves;
  rules::legal_moves(passed, moves);
  return std::any_of(moves.begin(), moves.end(),
                     [&](rules::Move m) { return rules::is_checkmate(passed.after(m)); });
}

bool hangs(const rules::Position& p, rules::Square s) {
  rules::MoveList takes;
  rules::legal_moves(p, takes, rules::Moves::noisy);
  return std::any_of(takes.begin(), takes.end(), [&](rules::Move t) {
    return t.to() == s && search::exchange_value(p, t) >= profit;
  });
}

std::string_view name_of(Motif motif) {
  constexpr std::array<std::string_view, motif_count> names = {"smothered mate",
                                                               "back rank",
                                                               "double check",
                                                               "discovered check",
                                                               "stalemate",
                                                               "perpetual check",
                                                               "underpromotion",
                                                               "zugzwang",
                                                               "in-between move",
                                                               "interference",
                                                               "decoy",
                                                               "overloaded piece",
                                                               "deflection",
                                                               "removing the guard",
                                                               "x-ray",
                                                               "discovered attack",
                                                               "skewer",
                                                               "fork",
                                                               "pin",
                                                               "trapped piece",
                                                               "clearance",
                                                               "promotion",
                                                               "miscount",
                                                               "hanging piece",
                                                               "sacrifice"};
  return names[static_cast<std::size_t>(motif)];
}

bool is_sacrifice(const rules::Position& position, rules::Move move) {
  return search::exchange_value(position, move) <= sacrifice_from;
}

std::vector<Motif> motifs_of(const rules::Position& position, std::span<const rules::Move> line,
                             const Prelude& prelude) {
  std::vector<Motif> found;
  if (line.empty()) return found;
  const PlayedLine played(position, line, prelude);
  for (const Rule& rule : rules_in_order) {
    if (rule.holds(played)) found.push_back(rule.motif);
  }
  if (only_prepares(played, found)) {
    if (const auto point = point_of(played, line)) {
      found.insert(std::upper_bound(found.begin(), found.end(), *point), *point);
    }
  }
  return found;
}

}  // namespace kairos::study
