// The circumstances of a decision. Each is a phrase that completes "errs more often ...".
//
//   phase      study::phase_of; endings go by their pieces
//   colour, move number (bands of ten), piece moved
//   standing   study::standing_of the best move's expectation; an advantage is better or won
//   clock      %clk: under a tenth of the starting time; a long think took a tenth of it at once, a
//              quick move less than a two-hundredth
//   opening    the ECO tag, else the first two half-moves
//   castling   until the ending: castled or not
//   error      whether the opponent's last move gave away a tenth of the expectation
//   surprise   whether the move before was among the two that the survey thought best
//   choice     whether the second best move costs 0.10 and more
#include <algorithm>
#include <array>

#include "kairos/rules/san.hpp"
#include "kairos/study/expectation.hpp"
#include "kairos/study/phase.hpp"

#include "calibration.hpp"
#include "situation.hpp"

namespace kairos::habits {

namespace {

using rules::PieceType;

int count(const rules::Position& p, PieceType type) {
  return rules::count(p.pieces(type));
}

std::string_view ending_words(const rules::Position& p) {
  const int queens = count(p, PieceType::queen), rooks = count(p, PieceType::rook);
  const int minors = count(p, PieceType::knight) + count(p, PieceType::bishop);
  if (queens + rooks + minors == 0) return "in pawn endings";
  if (queens + minors == 0) return "in rook endings";
  if (queens + rooks == 0) return "in endings of minor pieces";
  if (rooks + minors == 0) return "in queen endings";
  return "in endings of mixed pieces";
}

void add_phase_and_castling(const Situation& s, Words& words) {
  const study::Phase phase = study::phase_of(s.position);
  if (phase == study::Phase::ending) {
    words.emplace_back("in endings");
    words.emplace_back(ending_words(s.position));
    return;
  }
  const bool opening = phase == study::Phase::opening;
  words.emplace_back(opening ? "in the opening" : "in the middlegame");
  if (!opening) words.emplace_back(s.castled ? "with the king castled" : "without having castled");
}

std::string_view standing_words(study::Standing standing) {
  switch (standing) {
    case study::Standing::won:
      return "in won positions";
    case study::Standing::better:
      return "in better positions";
    case study::Standing::level:
      return "in level positions";
    case study::Standing::worse:
      return "in worse positions";
    case study::Standing::lost:
      return "in lost positions";
  }
  return "";
}

std::string move_band(int number) {
  constexpr std::array<int, 6> ends{10, 20, 30, 40, 60, 10'000};
  const auto end = std::find_if(ends.begin(), ends.end(), [&](int e) { return number <= e; });
  const int first = end == ends.begin() ? 1 : *(end - 1) + 1;
  if (*end > 1000) return "after move 60";
  return "in moves " + std::to_string(first) + " to " + std::to_string(*end);
}

std::string piece_words(const Situation& s) {
  if (s.played().is_castling()) return "when castling";
  switch (rules::type_of(s.position.piece_on(s.played().from()))) {
    case PieceType::pawn:
      return "when moving a pawn";
    case PieceType::knight:
      return "when moving a knight";
    case PieceType::bishop:
      return "when moving a bishop";
    case PieceType::rook:
      return "when moving a rook";
    case PieceType::queen:
      return "when moving the queen";
    default:
      return "when moving the king";
  }
}

constexpr std::array<std::string_view, 4> clock_words = {"with less than a tenth of the time left",
                                                         "with time left", "after a long think",
                                                         "when moving at once"};

void add_clock(const Situation& s, Words& words) {
  if (s.starting_seconds <= 0) return;
  const int before = s.ply >= 2 ? s.note(s.ply - 2).clock_seconds : s.starting_seconds;
  const int after = s.note(s.ply).clock_seconds;
  if (before < 0) return;
  const auto& [little_left, enough_left, long_think, at_once] = clock_words;
  words.emplace_back(is_short_of_time(before, s.starting_seconds) ? little_left : enough_left);
  if (after < 0) return;
  const int spent = before - after;
  if (is_long_think(spent, s.starting_seconds)) words.emplace_back(long_think);
  if (is_quick(spent, s.starting_seconds)) words.emplace_back(at_once);
}

std::string opening_words(const study::Study& study) {
  if (const std::string& eco = study.facts.eco; eco.size() >= 3 && eco.size() <= 5) {
    return "in openings of ECO " + eco.substr(0, 3);
  }
  if (study.moves.size() < 2 || study.start != rules::Position::start()) return "";
  const rules::Position p = rules::Position::start();
  return "in games that begin 1. " + rules::to_san(p, study.moves[0]) + " " +
         rules::to_san(p.after(study.moves[0]), study.moves[1]);
}

void add_surprise(const Situation& s, Words& words) {
  if (s.ply == 0) return;
  const study::Note& before = s.note(s.ply - 1);
  const rules::Move last = s.study.moves[static_cast<std::size_t>(s.ply) - 1];
  const bool expected =
      std::any_of(before.lines.begin(), before.lines.end(),
                  [&](const search::Line& line) { return line.moves.front() == last; });
  words.emplace_back(expected ? "after an expected move" : "after an unexpected move");
}

}  // namespace

bool is_short_of_time(int left, int starting) {
  return left * 10 < starting;
}

double gap_of(const Situation& s) {
  return std::min(most_gap, s.best() - study::expectation(s.note(s.ply).lines[1].score));
}

bool is_of_the_clock(std::string_view circumstance) {
  return std::ranges::find(clock_words, circumstance) != clock_words.end();
}

bool is_long_think(int spent, int starting) {
  return spent * 10 >= starting;
}

bool is_quick(int spent, int starting) {
  return spent * 200 < starting;
}

Words contexts_of(const Situation& s) {
  Words words;
  add_phase_and_castling(s, words);
  words.emplace_back(s.position.side_to_move() == rules::white ? "with White" : "with Black");
  words.emplace_back(standing_words(study::standing_of(s.best())));
  const bool ahead = study::standing_of(s.best()) >= study::Standing::better;
  words.emplace_back(ahead ? with_advantage : without_advantage);
  if (was_given(s, chance)) words.emplace_back(after_error);
  words.push_back(move_band(s.position.fullmove_number()));
  words.push_back(piece_words(s));
  add_clock(s, words);
  if (std::string opening = opening_words(s.study); !opening.empty()) {
    words.push_back(std::move(opening));
  }
  add_surprise(s, words);
  const double second = study::expectation(s.note(s.ply).lines[1].score);
  words.emplace_back(s.best() - second >= only_one_good ? "where only one move is good"
                                                        : "where several moves are good");
  return words;
}

}  // namespace kairos::habits
