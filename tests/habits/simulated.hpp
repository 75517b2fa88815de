// Players drawn from the chances themselves, on real positions: tests/data/habits/decisions.txt has
// the decisions of both sides of sixty games (how it was made: src/habits/MEASURED.md).
#pragma once

#include <algorithm>
#include <fstream>
#include <map>
#include <random>
#include <sstream>
#include <string>
#include <vector>

#include "kairos/habits/chances.hpp"
#include "kairos/habits/find.hpp"

#include "calibration.hpp"

namespace kairos::test {

using habits::Decision;
using habits::TopicId;

class SimulatedPlayers {
 public:
  explicit SimulatedPlayers(std::uint64_t seed) : random_(seed) {
    std::ifstream in(KAIROS_TEST_DIR "/data/habits/decisions.txt");
    std::string line;
    std::map<char, std::string> words;
    while (std::getline(in, line) && !line.starts_with("game ")) {
      words[line.front()] = line.substr(2);
    }
    do {
      if (line.starts_with("game ")) {
        sides_.emplace_back();
        rating_ = std::stoi(line.substr(5));
      } else {
        sides_.back().push_back(decision_of(line, words));
      }
    } while (std::getline(in, line));
    for (const char* flaw : {"overlooking a threat that was already there",
                             "overlooking what the move itself allowed"}) {
      flaws_.push_back(topics_.id_of(flaw, habits::TopicKind::flaw));
    }
  }

  [[nodiscard]] const habits::Topics& topics() const { return topics_; }
  [[nodiscard]] std::size_t sides() const { return sides_.size(); }
  std::uint64_t below(std::uint64_t n) { return random_() % n; }
  double share() { return static_cast<double>(random_() >> 11) * 0x1.0p-53; }

  // The part of all errors to be expected that falls among those that have it, 0 .. 1; and how many
  // of the decisions with either have both.
  [[nodiscard]] double part_of(TopicId topic) const {
    double among = 0, all = 0;
    for (const auto& side : sides_) {
      for (const Decision& d : side) {
        all += habits::chance_of_error(d);
        among += has(d, topic) ? habits::chance_of_error(d) : 0;
      }
    }
    return among / all;
  }
  [[nodiscard]] double common_part(TopicId one, TopicId other) const {
    return count([&](const Decision& d) { return has(d, one) && has(d, other); }) /
           count([&](const Decision& d) { return has(d, one) || has(d, other); });
  }

  // So many games, each of another side of the file; chances are twice as great in these
  // circumstances, and in each game so many times as great as a number drawn for it says: between
  // one minus and one plus `swing`.
  std::vector<Decision> player(std::size_t games, const std::vector<TopicId>& doubled,
                               double swing = 0) {
    std::vector<std::size_t> order(sides_.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::shuffle(order.begin(), order.end(), random_);
    std::vector<Decision> all;
    for (std::size_t game = 0; game < games; ++game) {
      const double mood = 1 - swing + 2 * swing * share();
      for (Decision d : sides_[order[game]]) {
        d.place.game = static_cast<std::uint32_t>(game);
        double chance = habits::chance_of_error(d) * mood;
        for (const TopicId topic : doubled) chance *= has(d, topic) ? 2 : 1;
        d.error = share() < std::min(chance, 0.95);
        d.cost = d.error ? 0.2 : 0;
        for (const TopicId flaw : flaws_) {
          if (d.error && share() < *habits::part_of_errors(topics_.all()[flaw].words))
            d.topics.push_back(flaw);
        }
        all.push_back(std::move(d));
      }
    }
    return all;
  }

  // Two circumstances in which a tenth to a half of the errors are to be expected, that have little
  // in common.
  std::vector<TopicId> two_circumstances() {
    if (fit_.empty()) {
      for (TopicId t = 0; t < flaws_.front(); ++t) {
        if (part_of(t) >= 0.10 && part_of(t) <= 0.5) fit_.push_back(t);
      }
    }
    for (;;) {
      const TopicId one = fit_[below(fit_.size())], other = fit_[below(fit_.size())];
      if (one != other && common_part(one, other) < 0.25) return {one, other};
    }
  }

  static bool has(const Decision& d, TopicId topic) {
    return std::find(d.topics.begin(), d.topics.end(), topic) != d.topics.end();
  }

 private:
  Decision decision_of(const std::string& line, const std::map<char, std::string>& words) {
    std::istringstream in(line);
    Decision d;
    int gap = 0;
    std::string letters;
    for (int& chance : d.chances) in >> chance;
    in >> gap >> letters;
    d.rating = rating_;
    d.place.ply = static_cast<int>(sides_.back().size());
    d.log_odds = habits::by_gap() * gap / 1000;
    for (const char letter : letters) {
      const std::string& word = words.at(letter);
      d.topics.push_back(topics_.id_of(word, habits::TopicKind::circumstance));
      d.log_odds += habits::log_odds_of(word).value_or(0);
    }
    return d;
  }

  template <typename Holds>
  [[nodiscard]] double count(const Holds& holds) const {
    double n = 0;
    for (const auto& side : sides_) {
      for (const Decision& d : side) n += holds(d) ? 1 : 0;
    }
    return n;
  }

  std::mt19937_64 random_;
  habits::Topics topics_;
  std::vector<TopicId> flaws_, fit_;
  std::vector<std::vector<Decision>> sides_;
  int rating_ = 0;
};

}  // namespace kairos::test
