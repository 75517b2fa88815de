// Reads the text of a turning point as a reader does who has the lines printed under it and a
// board: what the text says of a move must be there. Knows nothing of reasons or scores but what is
// printed.
#pragma once

#include <algorithm>
#include <cmath>
#include <optional>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include "kairos/base/text.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/draws.hpp"
#include "kairos/rules/san.hpp"
#include "kairos/study/expectation.hpp"

namespace kairos::test {

// A printed line on the board: positions[i] is the one before moves[i]; the last is its end.
struct Replayed {
  std::vector<rules::Position> positions;
  std::vector<rules::Move> moves;
  std::vector<std::string> names;  // "26... Qxe5"
  std::string score;
  bool cut = false;     // "..." stands at its end
  bool answer = false;  // it is the right one
};

inline std::string number_of(const rules::Position& p) {
  return base::number(p.fullmove_number()) + (p.side_to_move() == rules::white ? "." : "...");
}

// Nothing where a move cannot be played.
inline std::optional<Replayed> replayed(const rules::Position& start,
                                        const report::ShownLine& line) {
  Replayed made{{start}, {}, {}, line.score, false, line.answer};
  for (const std::string_view word : base::fields(line.text)) {
    if (word == "...") made.cut = true;
    if (word.find_first_not_of("0123456789.") == std::string_view::npos) continue;
    const rules::Position p = made.positions.back();
    const auto move = rules::parse_san(p, word);
    if (!move) return std::nullopt;
    made.names.push_back(number_of(p) + " " + std::string(word));
    made.moves.push_back(*move);
    made.positions.push_back(p.after(*move));
  }
  return made;
}

inline int men_value(const rules::Position& p, rules::Color side) {
  constexpr int values[] = {1, 3, 3, 5, 9, 0};
  int sum = 0;
  for (int t = rules::pawn; t <= rules::king; ++t) {
    const auto type = static_cast<rules::PieceType>(t);
    sum += values[t] * (rules::count(p.pieces(side, type)) - rules::count(p.pieces(~side, type)));
  }
  return sum;
}

// The men that `side` takes in a line from move `from` on. What a pawn has become in the line is
// that pawn still.
inline study::Men taken_in(const Replayed& line, std::size_t from, rules::Color side) {
  study::Men taken{};
  std::set<rules::Square> promoted;  // where such men stand
  for (std::size_t i = 0; i < line.moves.size(); ++i) {
    const rules::Position& p = line.positions[i];
    const rules::Move move = line.moves[i];
    const bool was_pawn = promoted.erase(move.to()) > 0;
    if (i >= from && p.side_to_move() == side && p.is_capture(move)) {
      const rules::Piece man = p.piece_on(move.to());
      ++taken[man == rules::no_piece ? rules::pawn : rules::type_of(man)];
      if (was_pawn) ++taken[rules::pawn];
    }
    if (promoted.erase(move.from()) > 0 || move.is_promotion()) promoted.insert(move.to());
  }
  return taken;
}

class Reader {
 public:
  Reader(const study::Study& study, const report::TurningPoint& point) : study_(study) {
    text_ = report::text_of(study, point);
    for (const report::ShownLine& line : report::shown_lines(point)) {
      if (auto made = replayed(point.lead().position, line)) {
        lines_.push_back(std::move(*made));
      } else {
        wrong_.push_back("cannot be played: " + line.text);
      }
    }
    for (const study::Moment* const m : point.moments) {
      for (const study::Step& step : m->steps) named_.push_back(step.position, step.move);
    }
  }

  // What is wrong with the text; empty when all is true.
  std::vector<std::string> wrong() {
    moves_are_there();
    mates_are_mates();
    mates_allowed_are_mates();
    men_are_taken();
    men_stand_where_it_says();
    standings_are_those_of_the_line();
    costs_are_those_of_the_lines();
    for (std::string& fault : wrong_) fault += "  <- " + text_;
    return wrong_;
  }

 private:
  struct Names {
    std::vector<std::string> all;
    void push_back(const rules::Position& p, rules::Move m) {
      all.push_back(number_of(p) + " " + rules::to_san(p, m));
    }
  };
  struct Place {
    const Replayed* line;
    std::size_t at;
  };

  static constexpr const char* move_pattern =
      R"((\d+\.(?:\.\.)?) ((?:O-O(?:-O)?|[KQRBN]?[a-h]?[1-8]?x?[a-h][1-8](?:=[QRBN])?)[+#]?))";

  [[nodiscard]] std::vector<std::smatch> matches(const std::string& pattern) const {
    const std::regex expression(pattern);
    return {std::sregex_iterator(text_.begin(), text_.end(), expression), std::sregex_iterator{}};
  }

  [[nodiscard]] static std::size_t offset_of(const std::smatch& match) {
    return static_cast<std::size_t>(match.position(1));
  }

  // Where a move named at `offset` of the text stands: in the line whose first move was named last
  // before it.
  [[nodiscard]] std::optional<Place> find(const std::string& name,
                                          std::size_t offset = std::string::npos) const {
    std::optional<Place> best;
    std::size_t last = 0;
    for (const Replayed& line : lines_) {
      const auto at = std::find(line.names.begin(), line.names.end(), name);
      if (at == line.names.end()) continue;
      const auto named = text_.rfind(line.names.front(), offset);
      const std::size_t place = named == std::string::npos ? 0 : named + 1;
      if (best && place <= last) continue;
      best = Place{&line, static_cast<std::size_t>(at - line.names.begin())};
      last = place;
    }
    return best;
  }

  [[nodiscard]] bool is_of_the_game(const std::string& name) const {
    rules::Position p = study_.start;
    for (const rules::Move m : study_.moves) {
      if (number_of(p) + " " + rules::to_san(p, m) == name) return true;
      p.play(m);
    }
    return false;
  }

  void moves_are_there() {
    for (const auto& match : matches(move_pattern)) {
      const std::string name = match[1].str() + " " + match[2].str();
      const auto& all = named_.all;
      const bool known = find(name) || is_of_the_game(name) ||
                         std::find(all.begin(), all.end(), name) != all.end();
      if (!known) wrong_.push_back("not in the lines: " + name);
    }
  }

  void mates_are_mates() {
    for (const auto& match :
         matches(std::string(move_pattern) + "(?:,)?(?: which)? (is mate|mates in (\\d+))")) {
      const auto place = find(match[1].str() + " " + match[2].str(), offset_of(match));
      if (!place) continue;
      const Replayed& line = *place->line;
      const std::size_t moves =
          match[4].matched ? static_cast<std::size_t>(std::stoi(match[4].str())) : 1;
      const std::size_t end = place->at + 2 * moves - 1;
      const bool shown = line.positions.size() > end;
      if (shown && !rules::is_checkmate(line.positions[end])) wrong_.push_back("no mate");
      if (!shown && !line.cut) wrong_.push_back("the line ends before the mate");
    }
  }

  // "allows mate: 53... Qe1#".
  void mates_allowed_are_mates() {
    for (const auto& match : matches("allow(?:s|ed) mate: " + std::string(move_pattern))) {
      if (!match[2].str().ends_with('#')) wrong_.push_back("no mate: " + match.str());
    }
  }

  // "wins a knight", "wins a rook for a bishop": each man named is taken in the line, and at its
  // end the balance is better than before, what the move before took counted too.
  void men_are_taken() {
    for (const auto& match : matches(std::string(move_pattern) +
                                     "(?:,)?(?: which)?(?: soon)? wins (?!back)([a-z ]+)")) {
      const auto place = find(match[1].str() + " " + match[2].str(), offset_of(match));
      // What it costs and how it is won stand behind.
      std::string men = match[3].str();
      for (const char* const behind : {" for ", " by ", " along ", " after ", " and meets "}) {
        men.resize(std::min(men.size(), men.find(behind)));
      }
      if (!place || men.find("new") != std::string::npos) continue;
      const Replayed& line = *place->line;
      const rules::Color side = line.positions[place->at].side_to_move();
      const study::Men taken = taken_in(line, place->at, side);
      for (int t = rules::pawn; t < rules::king; ++t) {
        const std::string name(report::words(static_cast<rules::PieceType>(t)));
        const bool named = men.find(name) != std::string::npos ||
                           (t == rules::rook && men.find("exchange") != std::string::npos);
        if (named && taken[static_cast<std::size_t>(t)] == 0 && !line.cut) {
          wrong_.push_back("no " + name + " is taken in the line of " + match[2].str());
        }
      }
      const int before = men_value(line.positions.front(), side);
      if (men_value(line.positions.back(), side) <= before && !line.cut) {
        wrong_.push_back("nothing is won in the line of " + match[2].str());
      }
    }
  }

  // "the knight on e5": such a man stands there in one of the lines.
  void men_stand_where_it_says() {
    for (const auto& match : matches("the (pawn|knight|bishop|rook|queen) on ([a-h][1-8])")) {
      const std::string man = match[1].str(), square = match[2].str();
      const auto stands = [&](const rules::Position& p) {
        const auto s = rules::square_at(square[0] - 'a', square[1] - '1');
        return !p.is_empty(s) && report::words(rules::type_of(p.piece_on(s))) == man;
      };
      const bool found = std::any_of(lines_.begin(), lines_.end(), [&](const Replayed& line) {
        return std::any_of(line.positions.begin(), line.positions.end(), stands);
      });
      if (!found && !lines_.empty()) wrong_.push_back("no " + man + " stands on " + square);
    }
  }

  static std::optional<double> white_expectation(const std::string& score) {
    if (score.starts_with("White")) return 1.0;
    if (score.starts_with("Black")) return 0.0;
    if (score.empty()) return std::nullopt;
    return study::expectation(static_cast<search::Score>(std::lround(std::stod(score) * 100)));
  }

  // "after 26... Qxe5 White is worse": by the score printed behind the line with that move.
  void standings_are_those_of_the_line() {
    const std::string state =
        "(White|Black|the position) is (?:only )?(lost|worse|level|better|winning)";
    for (const auto& match :
         matches("[Aa]fter (?:the next best, )?" + std::string(move_pattern) + ",? " + state)) {
      stands(match, match[3].str(), match[4].str());
    }
    for (const auto& match :
         matches(std::string(move_pattern) + "(?:,| instead; it) leaves (White|Black|the position) "
                                             "(lost|worse|level|better)")) {
      stands(match, match[3].str(), match[4].str());
    }
  }

  // By the score behind the line with the move that `match` begins with.
  void stands(const std::smatch& match, const std::string& side, const std::string& told) {
    const auto place = find(match[1].str() + " " + match[2].str(), offset_of(match));
    if (!place) return;
    const auto white = white_expectation(place->line->score);
    if (!white) return;
    const double of_side = side == "Black" ? 1 - *white : *white;
    if (report::words(study::standing_of(of_side)) != told) {
      wrong_.push_back(side + " is not " + told + " by " + place->line->score);
    }
  }

  // "36. Qe1 lets the win slip": by the scores behind its line and that of the right move.
  void costs_are_those_of_the_lines() {
    using Standings = std::set<std::string_view>;
    const struct {
      std::string words;
      Standings from, to;
    } costs[] = {{"throws the win away and loses", {"winning"}, {"lost"}},
                 {"throws the win away", {"winning"}, {"worse"}},
                 {"lets the win slip", {"winning"}, {"better", "level"}},
                 {"gives the advantage away", {"better"}, {"level", "worse"}},
                 {"gives part of the advantage away", {"better"}, {"better"}},
                 {"makes the win harder", {"winning"}, {"winning"}},
                 {"gives ground", {"level"}, {"level"}},
                 {"makes things worse", {"worse"}, {"worse"}},
                 {"spoils a level position", {"level"}, {"worse"}},
                 {"loses", {"winning", "better", "level", "worse"}, {"lost"}},
                 {"fails", {"winning", "better", "level", "worse"}, {"worse", "lost"}}};
    const auto right = std::ranges::find_if(lines_, [](const Replayed& l) { return l.answer; });
    if (right == lines_.end()) return;
    for (const auto& cost : costs) {
      for (const auto& match : matches(std::string(move_pattern) + "(?:,| instead; it)? " +
                                       cost.words + "(?! and loses)")) {
        const auto place = find(match[1].str() + " " + match[2].str(), offset_of(match));
        if (!place || place->at != 0) continue;
        const bool black = place->line->positions.front().side_to_move() == rules::black;
        const auto best = white_expectation(right->score);
        const auto left = white_expectation(place->line->score);
        if (!best || !left) continue;
        const auto standing = [black](double white) {
          return report::words(study::standing_of(black ? 1 - white : white));
        };
        if (!cost.from.contains(standing(*best)) || !cost.to.contains(standing(*left))) {
          wrong_.push_back("not what it cost: " + match.str());
        }
      }
    }
  }

  const study::Study& study_;
  std::string text_;
  std::vector<Replayed> lines_;
  Names named_;
  std::vector<std::string> wrong_;
};

}  // namespace kairos::test
