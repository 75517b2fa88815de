#include "judges.hpp"

#include <algorithm>
#include <new>

#include "kairos/base/threads.hpp"

#include "threads.hpp"

namespace kairos::cli {

namespace {

// Small: a verdict takes some hundred thousand nodes, and a tally must not need much memory.
constexpr std::size_t table_bytes = std::size_t{4} << 20;
constexpr std::size_t most_threads = 8;

}  // namespace

Judges::Judges(const rules::Position& position, std::uint64_t nodes, int threads)
    : position_(position), nodes_(nodes) {
  const auto wanted = static_cast<std::size_t>(thread_count(threads, most_threads));
  const Lock lock(mutex_);  // none gives up before it has been counted
  threads_ = base::start_threads(wanted, [this](const std::stop_token& end) { work(end); });
  at_work_ = threads_.size();
  if (at_work_ < wanted) tell_fewer_threads();
}

Judges::~Judges() = default;

void Judges::hand_in(rules::Move move) {
  const Lock lock(mutex_);
  cases_.push_back({move, false, std::nullopt});
  ++open_;
  changed_.notify_all();
}

void Judges::finish() {
  Lock lock(mutex_);
  changed_.wait(lock, [this] { return open_ == 0 || at_work_ == 0; });
  if (open_ == 0) return;
  search::Searcher searcher(table_bytes);
  while (open_ > 0) judge_next(lock, searcher);
}

std::map<std::uint16_t, study::MoveVerdict> Judges::judged() const {
  const Lock lock(mutex_);
  std::map<std::uint16_t, study::MoveVerdict> judged;
  for (const Case& c : cases_) {
    if (c.judgement) judged.emplace(c.move.raw(), *c.judgement);
  }
  return judged;
}

// A thread without memory leaves the moves to the others, or to `finish`.
void Judges::work(const std::stop_token& end) {
  try {
    search::Searcher searcher(table_bytes);
    Lock lock(mutex_);
    while (changed_.wait(lock, end, [this] { return waiting() != nullptr; })) {
      judge_next(lock, searcher);
    }
  } catch (const std::bad_alloc&) {
    const Lock lock(mutex_);
    --at_work_;
    changed_.notify_all();
  }
}

Judges::Case* Judges::waiting() {
  const auto found = std::ranges::find(cases_, false, &Case::is_taken);
  return found == cases_.end() ? nullptr : &*found;
}

// The lock is held before and after, but not while the move is judged.
void Judges::judge_next(Lock& lock, search::Searcher& searcher) {
  Case& next = *waiting();
  next.is_taken = true;
  lock.unlock();
  std::optional<study::MoveVerdict> judgement;
  try {
    searcher.clear();
    judgement = study::search_move(position_, {}, next.move, nodes_, searcher);
  } catch (const std::bad_alloc&) {  // told below
  }
  lock.lock();
  next.is_taken = judgement.has_value();
  if (!judgement) throw std::bad_alloc();
  next.judgement = std::move(judgement);
  --open_;
  changed_.notify_all();
}

}  // namespace kairos::cli
