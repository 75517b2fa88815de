#include "labels.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/rules/san.hpp"
#include "kairos/study/expectation.hpp"

namespace kairos::report {

std::string_view machine_name(study::Kind kind) {
  constexpr std::array<std::string_view, study::kind_count> names = {
      "swing", "only_move", "quiet_win", "trap", "ended_early", "claim", "slide", "turn", "slip"};
  return names[static_cast<std::size_t>(kind)];
}

std::string_view machine_name(rules::Color side) {
  return side == rules::white ? "white" : "black";
}

search::Score from_white(search::Score score, rules::Color side) {
  return side == rules::white ? score : -score;
}

double from_white(double expectation, rules::Color side) {
  return side == rules::white ? expectation : 1.0 - expectation;
}

std::string score_text(search::Score white_score) {
  if (search::is_mate(white_score)) {
    const int moves = std::abs(search::mate_moves(white_score));
    const std::string winner = white_score > 0 ? "White" : "Black";
    if (moves == 0) return winner + " has mated";
    return winner + " mates in " + base::number(moves);
  }
  // Integer arithmetic: centipawns are exact, so the two digits are too.
  const int size = std::abs(white_score);
  const char* const sign = white_score > 0 ? "+" : white_score < 0 ? "-" : "";
  const int cents = size % 100;
  return sign + base::number(size / 100) + (cents < 10 ? ".0" : ".") + base::number(cents);
}

std::string percent(double expectation) {
  return base::number(std::lround(expectation * 100)) + " %";
}

// Words first: they are what is remembered; the figure says how sure they are.
std::string standing_text(double expectation) {
  return std::string(words(study::standing_of(expectation))) + ", " + percent(expectation);
}

std::string numbered(const rules::Position& position, rules::Move move) {
  if (!move) return "";
  return rules::to_numbered_san(position, std::span(&move, 1));
}

std::string plain_san(const rules::Position& position, rules::Move move) {
  return move ? rules::to_san(position, move) : "";
}

std::string numbered_line(const rules::Position& position, std::span<const rules::Move> line,
                          std::size_t most) {
  if (line.empty()) return "";
  if (most == 0 || line.size() <= most) return rules::to_numbered_san(position, line);
  return rules::to_numbered_san(position, line.first(most)) + " ...";
}

std::vector<rules::Move> joined(rules::Move move, std::span<const rules::Move> rest) {
  std::vector<rules::Move> line;
  if (!move) return line;
  line.reserve(rest.size() + 1);
  line.push_back(move);
  line.insert(line.end(), rest.begin(), rest.end());
  return line;
}

std::string player_text(std::string_view name, int elo) {
  const bool known = !base::trim(name).empty() && base::trim(name) != "?";
  std::string text = known ? base::isolated(base::trim(name)) : "unknown";
  if (elo > 0) text += " (" + base::number(elo) + ")";
  return text;
}

std::string players_text(const study::GameFacts& facts) {
  return player_text(facts.white) + " - " + player_text(facts.black);
}

namespace {

// Whether a tag says something: not empty, not all `?`, `.` and `-` (standard, 8.1.1).
bool is_known(std::string_view value) {
  return value.find_first_not_of("?.- ") != std::string_view::npos;
}

// "1913.05.??" (standard, 8.1.1.3) without the parts that are not known: "1913.05".
std::string date_text(std::string_view date) {
  while (date.size() > 3 && date.substr(date.size() - 3) == ".??") date.remove_suffix(3);
  return base::isolated(date);
}

}  // namespace

std::string occasion_text(const study::GameFacts& facts) {
  std::vector<std::string> parts;
  if (is_known(facts.event)) parts.push_back(base::isolated(facts.event));
  if (is_known(facts.site) && facts.site != facts.event)
    parts.push_back(base::isolated(facts.site));
  if (is_known(facts.round)) parts.push_back("round " + base::isolated(facts.round));
  if (is_known(facts.date)) parts.push_back(date_text(facts.date));
  return base::join(parts, ", ");
}

std::string place_text(const study::GameFacts& facts) {
  const std::string_view file = std::string_view(facts.file);
  const auto slash = file.rfind('/');
  std::string text =
      base::isolated(slash == std::string_view::npos ? file : file.substr(slash + 1));
  if (facts.line > 0) text += ":" + std::to_string(facts.line);
  return text;
}

std::string duration_text(int seconds) {
  if (seconds < 60) return std::to_string(seconds) + " s";
  const int minutes = seconds / 60;
  if (minutes < 60) return std::to_string(minutes) + " min";
  return std::to_string(minutes / 60) + (minutes % 60 < 10 ? " h 0" : " h ") +
         std::to_string(minutes % 60) + " min";
}

// The clock runs from the same player's reading two plies before.
int seconds_spent(const study::Study& study, std::size_t ply) {
  if (ply < 2 || ply >= study.notes.size()) return -1;
  const int before = study.notes[ply - 2].clock_seconds, after = study.notes[ply].clock_seconds;
  return before < 0 || after < 0 || after > before ? -1 : before - after;
}

MoveTimes times_of(const study::Study& study, const study::Moment& moment) {
  const auto ply = static_cast<std::size_t>(moment.ply);
  const bool in_game = moment.kind != study::Kind::claim && moment.played;
  if (!in_game || ply >= study.notes.size()) return {};
  return {study.notes[ply].clock_seconds, seconds_spent(study, ply)};
}

std::uint8_t position_nag(double white_expectation) {
  // Common practice in centipawns, told by the curve: slight from about a quarter of a pawn,
  // moderate from about seven tenths.
  constexpr double slight = 0.06, moderate = 0.17;
  const study::Standing standing = study::standing_of(white_expectation);
  if (standing == study::Standing::won) return 18;
  if (standing == study::Standing::lost) return 19;
  const double edge = white_expectation - 0.5;
  if (edge >= moderate) return 16;
  if (edge <= -moderate) return 17;
  if (edge >= slight) return 14;
  if (edge <= -slight) return 15;
  return 10;
}

std::string_view sign_of_nag(std::uint8_t nag) {
  switch (nag) {
    case 10:
      return "=";
    case 14:
      return "+/=";
    case 15:
      return "=/+";
    case 16:
      return "+/-";
    case 17:
      return "-/+";
    case 18:
      return "+-";
    case 19:
      return "-+";
    default:
      return "";
  }
}

std::string place_title(const study::Moment& moment) {
  const bool white = moment.position.side_to_move() == rules::white;
  return "Move " + std::to_string(moment.position.fullmove_number()) +
         (white ? ", White" : ", Black");
}

std::vector<double> white_expectations(const study::Study& study) {
  // A position without legal moves has no lines, but its value is certain.
  std::vector<double> values;
  rules::Position position = study.start;
  for (std::size_t i = 0; i < study.notes.size(); ++i) {
    const rules::Color side = position.side_to_move();
    if (!study.notes[i].lines.empty()) {
      values.push_back(from_white(study::expectation(study.notes[i].lines[0].score), side));
    } else if (!rules::has_legal_move(position)) {
      values.push_back(from_white(position.in_check() ? 0.0 : 0.5, side));
    } else {
      values.push_back(values.empty() ? 0.5 : values.back());  // not searched
    }
    if (i < study.moves.size()) position.play(study.moves[i]);
  }
  return values;
}

std::vector<double> told_expectations(const study::Study& study,
                                      const std::vector<TurningPoint>& points) {
  std::vector<double> values = white_expectations(study);
  for (const TurningPoint& point : points) {
    const study::Moment& m = point.lead();
    const auto at = static_cast<std::size_t>(std::max(m.ply, 0));
    const rules::Color side = m.position.side_to_move();
    if (at < values.size()) values[at] = from_white(m.best_expectation(), side);
    if (m.played && at + 1 < values.size()) {
      values[at + 1] = from_white(m.played_expectation(), side);
    }
  }
  return values;
}

std::string game_title(const study::GameFacts& facts) {
  return player_text(facts.white, facts.white_elo) + " - " +
         player_text(facts.black, facts.black_elo) + ", " + base::isolated(facts.result);
}

std::string loss_of(const RunFacts& facts, const study::Study& study) {
  return facts.candidates_open == 0 && facts.player.empty() ? loss_words(study) : "";
}

std::string story_text(const RunFacts& facts, const study::Study& study,
                       const std::vector<TurningPoint>& points) {
  return base::join(story_of(study, points, loss_of(facts, study)), " ");
}

namespace {

std::uint8_t nag_of(const study::Moment& moment) {
  // The standard leaves the marks to taste; ours follow the cost, and a found move is praised only
  // for what was verified about it.
  constexpr double very_poor = 0.40, poor = 0.22;  // a move is poor from a swing's cost on
  if (!moment.played || moment.kind == study::Kind::ended_early) return 0;
  if (moment.cost() >= very_poor) return 4;
  if (moment.cost() >= poor) return 2;
  if (moment.kind == study::Kind::slide || moment.kind == study::Kind::turn) return 6;
  if (!moment.found) return 0;
  if (moment.kind == study::Kind::only_move) return 8;
  if (moment.kind == study::Kind::quiet_win) return 1;
  return 0;
}

}  // namespace

std::uint8_t move_nag(const TurningPoint& point) {
  for (const study::Moment* const moment : point.moments) {
    if (const std::uint8_t nag = nag_of(*moment); nag != 0) return nag;
  }
  return 0;
}

}  // namespace kairos::report
