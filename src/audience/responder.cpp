// Two rounds of searches. First the position, the moves asked about, and a short look at every
// move: a quiet move that a search of the position passes over may look best once it is made (29...
// Qb2 of Bernstein-Capablanca, Moscow 1914, is found by it). Then what the first round thinks best.
// Only what was searched with the most nodes counts, so that a move which looked best to fewer does
// not stay.
#include "kairos/audience/responder.hpp"

#include <algorithm>

#include "kairos/audience/compare.hpp"
#include "kairos/base/threads.hpp"
#include "kairos/rules/movegen.hpp"
#include "kairos/search/searcher.hpp"
#include "kairos/study/asked.hpp"
#include "kairos/study/expectation.hpp"

namespace kairos::audience {

namespace {

constexpr std::size_t table_bytes = std::size_t{8} << 20;
constexpr std::size_t quick_table_bytes = std::size_t{1} << 20;
constexpr std::uint64_t short_look_divisor = 16;
constexpr std::uint64_t of_all_divisor = 8;  // there are some thirty moves

bool is_set(const std::atomic<bool>* stop) {
  return stop != nullptr && stop->load();
}

std::vector<rules::Move> all_moves(const rules::Position& p) {
  rules::MoveList legal;
  rules::legal_moves(p, legal);
  return {legal.begin(), legal.end()};
}

}  // namespace

bool changes(const Opinion& from, const Opinion& to) {
  constexpr double enough = 0.08;  // of the expectation: less is no change of mind
  const auto moved = [](double a, double b) {
    return study::standing_of(a) != study::standing_of(b) &&
           std::max(a, b) - std::min(a, b) > enough;
  };
  if (moved(from.best_expectation, to.best_expectation)) return true;
  if (from.best != to.best && to.best_expectation - from.best_expectation > enough) return true;
  for (std::size_t i = 0; i < std::min(from.expectations.size(), to.expectations.size()); ++i) {
    if (moved(from.expectations[i], to.expectations[i])) return true;
  }
  return false;
}

class Responder::Implementation {
 public:
  Implementation(Question question, std::function<void()> fewer)
      : question_(std::move(question)),
        fewer_(std::move(fewer)),
        legal_(all_moves(question_.position)),
        searcher_(table_bytes) {
    if (question_.kind == Question::Kind::all) {
      comparer_ = std::make_unique<Comparer>(question_.position, question_.earlier, legal_,
                                             std::vector<puzzle::Try>{},
                                             Comparer::Best::among_the_moves, fewer_);
    }
    for (const rules::Move move : question_.moves) (void)entry_of(move);
  }

  bool deepen(std::uint64_t nodes, int threads, const std::atomic<bool>* stop) {
    if (comparer_) {
      const std::uint64_t each = std::max<std::uint64_t>(nodes / of_all_divisor, 1);
      if (!comparer_->deepen(each, threads, stop)) return false;
      with_nodes_ = nodes;
      return true;
    }
    const std::vector<rules::Move>& asked = question_.moves;
    std::vector<study::JudgedMove> judged(asked.size());
    std::vector<study::JudgedMove> looked(legal_.size());
    search::Verdict verdict;
    const auto first_round = [&] {
      auto quick = std::make_shared<search::Searcher>(quick_table_bytes);
      return [&, quick](std::size_t i) {
        if (i == 0) {
          verdict = search_position(2 * nodes, stop);
        } else if (i <= asked.size()) {
          judged[i - 1] = search_move(asked[i - 1], nodes, entry_of(asked[i - 1]).searcher, stop);
        } else {
          const std::size_t at = i - 1 - asked.size();
          quick->clear();
          looked[at] = search_move(legal_[at], nodes / short_look_divisor, *quick, stop);
        }
      };
    };
    base::share_out(1 + asked.size() + legal_.size(), threads, first_round, fewer_);
    if (is_set(stop)) return false;
    const std::vector<rules::Move> others = likely_best(verdict, std::move(looked));
    for (const rules::Move move : others) (void)entry_of(move);  // threads only look it up
    judged.resize(asked.size() + others.size());
    const auto second_round = [&] {
      return [&](std::size_t i) {
        judged[asked.size() + i] =
            search_move(others[i], nodes, entry_of(others[i]).searcher, stop);
      };
    };
    base::share_out(others.size(), threads, second_round, fewer_);
    if (is_set(stop)) return false;
    judged_ = std::move(judged);
    with_nodes_ = nodes;
    return true;
  }

  [[nodiscard]] Response response() const {
    Response made{.question = question_, .moments = {}, .ranked = {}};
    if (comparer_) {
      made.ranked = comparer_->comparison({}).weighed;
      return made;
    }
    if (question_.kind == Question::Kind::best) {
      made.moments.push_back(moment_of(study::best_of(judged_)));
    }
    for (std::size_t i = 0; i < question_.moves.size(); ++i) made.moments.push_back(moment_of(i));
    return made;
  }

  [[nodiscard]] Opinion opinion() const {
    if (comparer_) return {};
    const study::JudgedMove& best = judged_[study::best_of(judged_)];
    Opinion made{best.move, study::expectation(best.verdict.score), {}};
    for (std::size_t i = 0; i < question_.moves.size(); ++i) {
      made.expectations.push_back(study::expectation(judged_[i].verdict.score));
    }
    return made;
  }

  [[nodiscard]] const Question& question() const { return question_; }
  [[nodiscard]] std::uint64_t effort() const { return with_nodes_; }
  [[nodiscard]] std::uint64_t nodes() const {
    std::uint64_t sum = searcher_.nodes() + (comparer_ ? comparer_->nodes() : 0);
    for (const auto& entry : entries_) sum += entry->searcher.nodes();
    return sum;
  }

 private:
  // A move with the searcher that looks at the position after it.
  struct Entry {
    explicit Entry(rules::Move m) : move(m), searcher(table_bytes) {}
    rules::Move move;
    search::Searcher searcher;
  };

  Entry& entry_of(rules::Move move) {
    const auto known =
        std::ranges::find_if(entries_, [move](const auto& entry) { return entry->move == move; });
    if (known != entries_.end()) return **known;
    return *entries_.emplace_back(std::make_unique<Entry>(move));
  }

  // The best two by each, but for those asked about.
  [[nodiscard]] std::vector<rules::Move> likely_best(const search::Verdict& verdict,
                                                     std::vector<study::JudgedMove> looked) const {
    constexpr std::size_t of_each = 2;
    std::ranges::stable_sort(looked, std::greater{},
                             [](const study::JudgedMove& one) { return one.verdict.score; });
    looked.resize(std::min(looked.size(), of_each));
    std::vector<rules::Move> moves;
    const auto add = [&](rules::Move move) {
      const auto holds = [move](const std::vector<rules::Move>& list) {
        return std::ranges::find(list, move) != list.end();
      };
      if (!holds(question_.moves) && !holds(moves)) moves.push_back(move);
    };
    for (const search::Line& line : verdict.lines) add(line.moves.front());
    for (const study::JudgedMove& one : looked) add(one.move);
    return moves;
  }

  search::Verdict search_position(std::uint64_t nodes, const std::atomic<bool>* stop) {
    search::Limits limits;
    limits.nodes = nodes;
    limits.lines = 2;
    limits.stop = stop;
    return searcher_.search(question_.position, question_.earlier, limits);
  }

  study::JudgedMove search_move(rules::Move move, std::uint64_t nodes, search::Searcher& searcher,
                                const std::atomic<bool>* stop) {
    return {move, study::search_move(question_.position, question_.earlier, move, nodes, searcher,
                                     1, stop)};
  }

  // Of the move at index `i`: it is put in front.
  [[nodiscard]] study::Moment moment_of(std::size_t i) const {
    std::vector<study::JudgedMove> judged = judged_;
    std::rotate(judged.begin(), judged.begin() + static_cast<std::ptrdiff_t>(i),
                judged.begin() + static_cast<std::ptrdiff_t>(i) + 1);
    const study::AskedPlace place{.position = question_.position,
                                  .earlier = question_.earlier,
                                  .before = question_.before,
                                  .last = question_.last};
    return study::moment_of_asked(place, judged, with_nodes_);
  }

  Question question_;
  std::function<void()> fewer_;
  std::vector<rules::Move> legal_;
  search::Searcher searcher_;           // of the position
  std::unique_ptr<Comparer> comparer_;  // of `all`
  std::vector<std::unique_ptr<Entry>> entries_;
  std::vector<study::JudgedMove> judged_;  // those asked about, in order, and the best others
  std::uint64_t with_nodes_ = 0;
};

Responder::Responder(Question question, std::function<void()> fewer)
    : implementation_(std::make_unique<Implementation>(std::move(question), std::move(fewer))) {}
Responder::~Responder() = default;

bool Responder::deepen(std::uint64_t nodes, int threads, const std::atomic<bool>* stop) {
  return implementation_->deepen(nodes, threads, stop);
}
Response Responder::response() const {
  return implementation_->response();
}
Opinion Responder::opinion() const {
  return implementation_->opinion();
}
const Question& Responder::question() const {
  return implementation_->question();
}
std::uint64_t Responder::effort() const {
  return implementation_->effort();
}
std::uint64_t Responder::nodes() const {
  return implementation_->nodes();
}

}  // namespace kairos::audience
