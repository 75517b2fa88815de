// A verdict needs something to be measured by: the best of all moves compared, and of those that
// the search for the best brought up in between. Only what was searched with the most nodes counts,
// so that a move which looked best to fewer does not stay.
#include "kairos/audience/compare.hpp"

#include <algorithm>

#include "kairos/audience/typed.hpp"
#include "kairos/base/threads.hpp"
#include "kairos/people/shares.hpp"
#include "kairos/rules/san.hpp"
#include "kairos/study/all_moves.hpp"
#include "kairos/study/weigh.hpp"

namespace kairos::audience {

namespace {

constexpr std::size_t room = std::size_t{256} << 20;  // bytes, for all tables together
constexpr std::size_t most_table = search::default_table_bytes;
constexpr std::size_t least_table = std::size_t{1} << 20;

bool is_set(const std::atomic<bool>* stop) {
  return stop != nullptr && stop->load();
}

bool is_legal_for_the_other(const rules::Position& p, const std::string& text) {
  return !p.in_check() && static_cast<bool>(rules::read_san(p.after(rules::null_move), text).move);
}

}  // namespace

base::Result<std::vector<CalledMove>> called_moves(const rules::Position& position,
                                                   const std::vector<std::string>& words,
                                                   rules::Letters letters) {
  std::string text;
  for (const std::string& word : words) {
    const TypedMove first = read_typed_moves(position, word, letters).front();
    const bool ends = first.move || first.problem != base::Code::not_a_move;
    text += word + (ends ? " ; " : " ");  // what is a phrase by itself ends one
  }
  std::vector<CalledMove> called;
  for (const TypedMove& typed : read_typed_moves(position, text, letters)) {
    if (!typed.move && typed.problem == base::Code::not_a_move) {
      return base::Fault{base::Code::usage, "no move to weigh in these words", {}};
    }
    const bool known = std::ranges::find(called, typed.move, &CalledMove::move) != called.end();
    if (typed.move && known) continue;
    called.push_back({typed.move, typed.text, typed.problem, typed.why,
                      !typed.move && is_legal_for_the_other(position, typed.text)});
  }
  return called;
}

Level level_of(const Comparison& comparison, std::span<const rules::Key> earlier,
               const people::Before& before, int rating) {
  const std::vector<people::Judged> judged = study::judge_all_moves(comparison.position, earlier);
  const people::Shares shares = people::shares(comparison.position, before, judged, rating);
  Level level{
      .rating = rating, .shares = {}, .share_of_best = 0, .extrapolated = shares.extrapolated};
  for (const study::Weighed& w : comparison.weighed) {
    level.shares.push_back(people::share_of(w.move, judged, shares));
  }
  level.share_of_best = people::share_of(comparison.best.move, judged, shares);
  return level;
}

// One move and what is known of it.
struct Comparer::Entry {
  Entry(rules::Move m, std::vector<rules::Move> known, std::size_t table_bytes)
      : move(m), refutation(std::move(known)), searcher(table_bytes) {}

  // Of the position after the move; where a refutation is known, of that after it too: the
  // opponent takes what is worse for the move.
  study::MoveVerdict search(const rules::Position& p, const std::vector<rules::Key>& earlier,
                            std::uint64_t effort, const std::atomic<bool>* stop) {
    study::MoveVerdict own = study::search_move(p, earlier, move, effort, searcher, 1, stop);
    if (refutation.empty() || is_set(stop)) return own;
    std::vector<rules::Key> keys = earlier;
    keys.push_back(p.key());
    const study::MoveVerdict answer =
        study::search_move(p.after(move), keys, refutation.front(), effort, searcher, 1, stop);
    const search::Score score = study::seen_from_before(answer.score);
    own.nodes += answer.nodes;
    if (score > own.score) return own;
    own.score = score;
    own.replies = {refutation.front()};
    own.replies.insert(own.replies.end(), answer.replies.begin(), answer.replies.end());
    return own;
  }

  void keep(study::MoveVerdict made, std::uint64_t with_nodes) {
    verdict = std::move(made);
    nodes = with_nodes;
  }

  rules::Move move;
  std::vector<rules::Move> refutation;
  search::Searcher searcher;
  study::MoveVerdict verdict;
  std::uint64_t nodes = 0;  // asked for; 0: not searched yet
};

Comparer::Comparer(const rules::Position& position, std::vector<rules::Key> earlier,
                   const std::vector<rules::Move>& moves, const std::vector<puzzle::Try>& tries,
                   Best best, std::function<void()> fewer)
    : position_(position),
      earlier_(std::move(earlier)),
      table_bytes_(std::clamp(room / (moves.size() + 2), least_table, most_table)),
      how_best_(best),
      fewer_(std::move(fewer)),
      searcher_(best == Best::search ? most_table : least_table) {
  for (const rules::Move move : moves) {
    const puzzle::Try* const tried = puzzle::find_try(tries, move);
    entries_.push_back(std::make_unique<Entry>(
        move, tried == nullptr ? std::vector<rules::Move>{} : tried->refutation, table_bytes_));
  }
}

Comparer::~Comparer() = default;

void Comparer::find_best(std::uint64_t nodes, const std::atomic<bool>* stop) {
  search::Limits limits;
  limits.nodes = nodes;
  limits.stop = stop;
  const search::Verdict verdict = searcher_.search(position_, earlier_, limits);
  if (!is_set(stop)) found_ = verdict.lines.front().moves.front();
}

bool Comparer::deepen(std::uint64_t nodes, int threads, const std::atomic<bool>* stop) {
  std::vector<study::MoveVerdict> verdicts(entries_.size());
  const std::size_t first_move = how_best_ == Best::search ? 1 : 0;
  const base::Worker search_one = [&](std::size_t i) {
    if (i < first_move) {
      find_best(2 * nodes, stop);
    } else {
      Entry& entry = *entries_[i - first_move];
      verdicts[i - first_move] = entry.search(position_, earlier_, nodes, stop);
    }
  };
  base::share_out(
      entries_.size() + first_move, threads, [&] { return search_one; }, fewer_);
  Entry* const uncalled = uncalled_best();
  study::MoveVerdict of_best;
  if (uncalled != nullptr) of_best = uncalled->search(position_, earlier_, nodes, stop);
  if (is_set(stop)) return false;
  for (std::size_t i = 0; i < entries_.size(); ++i)
    entries_[i]->keep(std::move(verdicts[i]), nodes);
  if (uncalled != nullptr) uncalled->keep(std::move(of_best), nodes);
  return true;
}

// A best move that nobody named is searched too, or there would be nothing to compare with.
Comparer::Entry* Comparer::uncalled_best() {
  const auto is_found = [this](const auto& entry) { return entry->move == found_; };
  if (!found_ || std::ranges::any_of(entries_, is_found)) return nullptr;
  const auto known = std::ranges::find_if(uncalled_, is_found);
  if (known != uncalled_.end()) return known->get();
  uncalled_.push_back(std::make_unique<Entry>(found_, std::vector<rules::Move>{}, table_bytes_));
  return uncalled_.back().get();
}

// Of those searched with the most nodes; of equal ones the first named.
const Comparer::Entry& Comparer::best_entry() const {
  const Entry* best = nullptr;
  const auto consider = [&best](const auto& entry) {
    if (entry->nodes == 0) return;
    if (best == nullptr || entry->nodes > best->nodes ||
        (entry->nodes == best->nodes && entry->verdict.score > best->verdict.score)) {
      best = entry.get();
    }
  };
  std::ranges::for_each(entries_, consider);
  std::ranges::for_each(uncalled_, consider);
  return *best;
}

study::Weighed Comparer::weighed(const Entry& entry, search::Score best) const {
  return study::weigh(position_, entry.move, entry.verdict, best, entry.nodes);
}

std::vector<study::Weighed> Comparer::weighed() const {
  const search::Score best = best_entry().verdict.score;
  std::vector<study::Weighed> all;
  for (const auto& entry : entries_) all.push_back(weighed(*entry, best));
  return all;
}

Comparison Comparer::comparison(const std::vector<CalledMove>& called) const {
  Comparison made{position_, called, weighed(), {}, {}};
  const Entry& best = best_entry();
  const auto known = std::ranges::find(made.weighed, best.move, &study::Weighed::move);
  made.best = known != made.weighed.end() ? *known : weighed(best, best.verdict.score);
  if (called.empty()) {
    std::ranges::stable_sort(made.weighed, std::greater{}, &study::Weighed::score);
  }
  return made;
}

std::uint64_t Comparer::nodes() const {
  std::uint64_t sum = searcher_.nodes();
  for (const auto& entry : entries_) sum += entry->searcher.nodes();
  for (const auto& entry : uncalled_) sum += entry->searcher.nodes();
  return sum;
}

}  // namespace kairos::audience
