#include "judges.hpp"

#include "threads.hpp"

namespace kairos::cli {

namespace {

// Small: a verdict takes some hundred thousand nodes, and a tally must not need much memory.
constexpr std::size_t table_bytes = std::size_t{4} << 20;
constexpr std::size_t most_threads = 8;

}  // namespace

Judges::Judges(const rules::Position& position, std::uint64_t nodes, int threads)
    : position_(position), nodes_(nodes) {
  for (int i = 0; i < thread_count(threads, most_threads); ++i) {
    threads_.emplace_back([this](const std::stop_token& end) { work(end); });
  }
}

Judges::~Judges() = default;

void Judges::hand_in(rules::Move move) {
  const std::lock_guard lock(mutex_);
  waiting_.push_back(move);
  ++open_;
  changed_.notify_all();
}

void Judges::finish() {
  std::unique_lock lock(mutex_);
  changed_.wait(lock, [this] { return open_ == 0; });
}

std::map<std::uint16_t, study::MoveVerdict> Judges::judged() const {
  const std::lock_guard lock(mutex_);
  return judged_;
}

void Judges::work(const std::stop_token& end) {
  search::Searcher searcher(table_bytes);
  for (;;) {
    std::unique_lock lock(mutex_);
    if (!changed_.wait(lock, end, [this] { return !waiting_.empty(); })) return;
    const rules::Move move = waiting_.front();
    waiting_.pop_front();
    lock.unlock();
    searcher.clear();
    study::MoveVerdict judgement = study::search_move(position_, {}, move, nodes_, searcher);
    lock.lock();
    judged_[move.raw()] = std::move(judgement);
    --open_;
    changed_.notify_all();
  }
}

}  // namespace kairos::cli
