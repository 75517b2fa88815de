#include "kairos/audience/verdicts.hpp"

#include <algorithm>
#include <new>

#include "kairos/base/threads.hpp"
#include "kairos/study/weigh.hpp"

namespace kairos::audience {

namespace {

// Small: a verdict takes some hundred thousand nodes, and a tally must not need much memory.
constexpr std::size_t table_bytes = std::size_t{4} << 20;
constexpr std::size_t most_threads = 8;

}  // namespace

Verdicts::Verdicts(const puzzle::Exercise& exercise, std::uint64_t nodes, int threads)
    : exercise_(exercise), nodes_(nodes) {
  const auto wanted = static_cast<std::size_t>(base::thread_count(threads, most_threads));
  for (const rules::Move key : exercise.keys) hand_in(key);
  const Lock lock(mutex_);  // none gives up before it has been counted
  threads_ = base::start_threads(wanted, [this](const std::stop_token& end) { work(end); });
  at_work_ = threads_.size();
  lacks_threads_ = at_work_ < wanted;
}

Verdicts::~Verdicts() = default;

void Verdicts::hand_in(rules::Move move) {
  const Lock lock(mutex_);
  tasks_.push_back({move});
  ++open_;
  changed_.notify_all();
}

void Verdicts::finish() {
  Lock lock(mutex_);
  changed_.wait(lock, [this] { return open_ == 0 || at_work_ == 0; });
  if (open_ == 0) return;
  search::Searcher searcher(table_bytes);
  while (open_ > 0) do_next(lock, searcher);
}

// Everything is measured by the key, which the puzzle's maker has proved or checked. Each move is
// weighed once: that takes a proof.
void Verdicts::complete(Tally& tally) {
  const Known verdicts = known();
  std::optional<search::Score> best;
  for (const rules::Move key : exercise_.keys) {
    const auto found = verdicts.find(key.raw());
    if (found == verdicts.end()) return;
    best = std::max(best.value_or(found->second.score), found->second.score);
  }
  for (Tally::Row& row : tally.rows) {
    const auto found = verdicts.find(row.move.raw());
    if (found == verdicts.end()) continue;
    auto told = weighed_.find(row.move.raw());
    if (told == weighed_.end()) {
      const rules::Position& p = exercise_.puzzle.position;
      told =
          weighed_.emplace(row.move.raw(), study::weigh(p, row.move, found->second, *best, nodes_))
              .first;
    }
    row.weighed = told->second;
  }
}

Verdicts::Known Verdicts::known() const {
  const Lock lock(mutex_);
  Known known;
  for (const Task& task : tasks_) {
    if (task.verdict) known.emplace(task.move.raw(), *task.verdict);
  }
  return known;
}

// A thread without memory leaves the moves to the others, or to `finish`.
void Verdicts::work(const std::stop_token& end) {
  try {
    search::Searcher searcher(table_bytes);
    Lock lock(mutex_);
    while (changed_.wait(lock, end, [this] { return waiting() != nullptr; })) {
      do_next(lock, searcher);
    }
  } catch (const std::bad_alloc&) {
    const Lock lock(mutex_);
    --at_work_;
    changed_.notify_all();
  }
}

Verdicts::Task* Verdicts::waiting() {
  const auto found = std::ranges::find(tasks_, false, &Task::is_taken);
  return found == tasks_.end() ? nullptr : &*found;
}

// The lock is held before and after, but not while the move is searched.
void Verdicts::do_next(Lock& lock, search::Searcher& searcher) {
  Task& next = *waiting();
  next.is_taken = true;
  lock.unlock();
  std::optional<study::MoveVerdict> verdict;
  try {
    searcher.clear();
    verdict = study::search_move(exercise_.puzzle.position, {}, next.move, nodes_, searcher);
  } catch (const std::bad_alloc&) {  // told below
  }
  lock.lock();
  next.is_taken = verdict.has_value();
  if (!verdict) throw std::bad_alloc();
  next.verdict = std::move(verdict);
  --open_;
  changed_.notify_all();
}

}  // namespace kairos::audience
