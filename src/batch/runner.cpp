#include "kairos/batch/runner.hpp"

#include <algorithm>
#include <condition_variable>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

#include "kairos/batch/schedule.hpp"

#include "estimate.hpp"
#include "tasks.hpp"

namespace kairos::batch {

namespace {

double seconds_between(Clock::Time from, Clock::Time to) {
  return std::max(0.0, std::chrono::duration<double>(to - from).count());
}

// What all threads share: one schedule, one ledger, one progress, under one mutex. Searching is
// done outside of it.
class Crew {
 public:
  Crew(Ledger& ledger, const Input& input, const RunPlan& plan, Clock& clock, Progress& progress)
      : ledger_(ledger),
        input_(input),
        plan_(plan),
        clock_(clock),
        progress_(progress),
        schedule_(input, ledger, plan_.focus),
        estimate_(plan.settings.effort, std::max(1u, plan.threads)),
        begun_(clock.now()) {}

  base::Result<Ending> run();

 private:
  using Lock = std::unique_lock<std::mutex>;

  void work();
  std::optional<Task> take();
  void do_task(const Task& task, search::Searcher& searcher);
  base::Status do_survey(const Task& task, search::Searcher& searcher);
  base::Status do_verify(const Task& task, search::Searcher& searcher);
  [[nodiscard]] bool must_stop(const Lock& lock);
  void finish(const Task& task, double seconds, const base::Status& status);

  Ledger& ledger_;
  const Input& input_;
  const RunPlan& plan_;
  Clock& clock_;
  Progress& progress_;

  std::mutex mutex_;
  std::condition_variable changed_;
  Schedule schedule_;
  Estimate estimate_;
  Snapshot snapshot_;
  Clock::Time begun_;
  Ending ending_ = Ending::finished;
  base::Faults faults_;
  std::exception_ptr thrown_;
};

base::Result<Ending> Crew::run() {
  {
    std::vector<std::jthread> threads;
    for (unsigned i = 0; i < std::max(1u, plan_.threads); ++i) {
      threads.emplace_back([this] { work(); });
    }
  }
  if (thrown_) std::rethrow_exception(thrown_);
  if (!faults_.empty()) return std::move(faults_);
  if (auto synced = ledger_.sync(); !synced) return std::move(synced).faults();
  return ending_;
}

void Crew::work() {
  try {
    search::Searcher searcher;
    while (const auto task = take()) do_task(*task, searcher);
  } catch (...) {  // no memory: the others stop too, and the caller hears of it
    const Lock lock(mutex_);
    thrown_ = std::current_exception();
    changed_.notify_all();
  }
}

bool Crew::must_stop(const Lock&) {
  if (thrown_ || !faults_.empty() || ending_ != Ending::finished) return true;
  if (plan_.stop != nullptr && plan_.stop->load()) {
    ending_ = Ending::interrupted;
  } else if (plan_.deadline && clock_.now() >= *plan_.deadline) {
    ending_ = Ending::out_of_time;
  }
  return ending_ != Ending::finished;
}

std::optional<Task> Crew::take() {
  Lock lock(mutex_);
  for (;;) {
    if (schedule_.is_over() || must_stop(lock)) break;
    if (auto task = schedule_.next()) return task;
    changed_.wait(lock);  // a survey under way may bring candidates
  }
  changed_.notify_all();
  return std::nullopt;
}

void Crew::do_task(const Task& task, search::Searcher& searcher) {
  const auto now = [this] {
    const Lock lock(mutex_);
    return clock_.now();
  };
  const Clock::Time begun = now();
  const base::Status status =
      task.what == Task::What::survey ? do_survey(task, searcher) : do_verify(task, searcher);
  finish(task, seconds_between(begun, now()), status);
}

base::Status Crew::do_survey(const Task& task, search::Searcher& searcher) {
  const GameKey& key = input_.games[task.game].key;
  auto text = ledger_.game_text(key);
  if (!text) return std::move(text).faults();
  auto study = survey_text(*text, plan_.settings, searcher);
  if (!study) return std::move(study).faults();
  if (auto put = ledger_.put_survey(key, *study, study::candidates(*study, plan_.settings)); !put) {
    return put;
  }
  const Lock lock(mutex_);
  for (const study::Note& note : study->notes) snapshot_.nodes += note.nodes;
  return base::done();
}

base::Status Crew::do_verify(const Task& task, search::Searcher& searcher) {
  const GameKey& key = input_.games[task.game].key;
  auto study = ledger_.survey(key);
  if (!study) return std::move(study).faults();
  const Findings findings =
      verify_and_compose(std::move(*study), task.candidate, plan_.settings, searcher);
  if (auto put = ledger_.put_findings(key, findings); !put) return put;
  const Lock lock(mutex_);
  snapshot_.moments += findings.moments.size();
  snapshot_.puzzles += findings.puzzles.size();
  for (const study::Moment& moment : findings.moments) snapshot_.nodes += moment.nodes;
  for (const puzzle::Puzzle& puzzle : findings.puzzles) snapshot_.nodes += puzzle.nodes;
  return base::done();
}

void Crew::finish(const Task& task, double seconds, const base::Status& status) {
  const Lock lock(mutex_);
  if (!status) {
    if (faults_.empty()) faults_ = status.faults();
    changed_.notify_all();
    return;
  }
  schedule_.finish(task);
  if (task.what == Task::What::survey) {
    const auto length = ledger_.length(input_.games[task.game].key);
    estimate_.add_survey(seconds, static_cast<std::size_t>(length) + 1);
  } else {
    estimate_.add_verify(seconds);
  }
  const Schedule::Counts& counts = schedule_.counts();
  snapshot_.games = counts.games;
  snapshot_.surveyed = counts.surveyed;
  snapshot_.candidates = counts.candidates;
  snapshot_.verified = counts.verified;
  snapshot_.seconds = seconds_between(begun_, clock_.now());
  snapshot_.seconds_left = estimate_.seconds_left(counts);
  progress_.show(snapshot_);
  changed_.notify_all();
}

}  // namespace

base::Result<Ending> run(Ledger& ledger, const Input& input, const RunPlan& plan, Clock& clock,
                         Progress& progress) {
  return Crew(ledger, input, plan, clock, progress).run();
}

}  // namespace kairos::batch
