#include "kairos/batch/runner.hpp"

#include <algorithm>
#include <condition_variable>
#include <exception>
#include <functional>
#include <map>
#include <mutex>
#include <vector>

#include "kairos/base/threads.hpp"
#include "kairos/batch/schedule.hpp"

#include "estimate.hpp"
#include "tasks.hpp"

namespace kairos::batch {

namespace {

// So many tasks may be done before an earlier one is: a thread that is further ahead waits.
constexpr std::uint64_t most_ahead = 1000;

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
  // Puts what a task found into the ledger; called under the lock. Empty when it was given up.
  using Keep = std::function<base::Status()>;
  struct Turn {
    std::uint64_t number = 0;  // tasks are counted as they are taken
    Task task;
  };
  struct Ready {
    Task task;
    double seconds = 0;
    Keep keep;
  };

  // A turn under way, which goes back when memory ends it.
  struct Held {
    ~Held() {
      if (!is_done) crew.give_back(turn);
    }
    Crew& crew;
    const Turn& turn;
    bool is_done = false;
  };

  void work();
  std::optional<Turn> take();
  void give_back(const Turn& turn);
  base::Result<Keep> do_survey(const Task& task, search::Searcher& searcher);
  base::Result<Keep> do_verify(const Task& task, search::Searcher& searcher);
  base::Result<Ready> carry_out(const Task& task, search::Searcher& searcher);
  [[nodiscard]] bool must_stop(const Lock& lock);
  void keep(std::uint64_t number, base::Result<Ready> ready);
  base::Status keep_all_whose_turn_it_is();
  void finish(const Ready& ready);

  Ledger& ledger_;
  const Input& input_;
  const RunPlan& plan_;
  Clock& clock_;
  Progress& progress_;

  std::mutex mutex_;
  std::condition_variable changed_;
  Schedule schedule_;
  std::vector<Turn> given_back_;  // by threads that had no memory for them
  std::uint64_t taken_ = 0;       // turns
  std::uint64_t kept_ = 0;
  std::map<std::uint64_t, Ready> ready_;  // by turn: done, but not those before them
  Estimate estimate_;
  Snapshot snapshot_;
  Clock::Time begun_;
  Ending ending_ = Ending::finished;
  base::Faults faults_;
  std::exception_ptr thrown_;
};

base::Result<Ending> Crew::run() {
  const unsigned threads = std::max(1u, plan_.threads);
  given_back_.reserve(threads);  // when memory has run out is no time to ask for more
  base::in_threads(
      threads, [this] { work(); },
      [this] {
        const Lock lock(mutex_);
        progress_.go_on_with_fewer_threads();
      });
  if (thrown_) std::rethrow_exception(thrown_);
  if (!faults_.empty()) return std::move(faults_);
  if (auto synced = ledger_.sync(); !synced) return std::move(synced).faults();
  return ending_;
}

void Crew::work() {
  search::Searcher searcher;
  while (const auto turn = take()) {
    Held held{*this, *turn};
    auto ready = carry_out(turn->task, searcher);
    held.is_done = true;
    keep(turn->number, std::move(ready));
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

std::optional<Crew::Turn> Crew::take() {
  Lock lock(mutex_);
  for (;;) {
    if ((given_back_.empty() && schedule_.is_over()) || must_stop(lock)) break;
    if (!given_back_.empty()) {
      const Turn turn = given_back_.back();
      given_back_.pop_back();
      return turn;
    }
    if (taken_ - kept_ < most_ahead) {
      if (auto task = schedule_.next()) return Turn{taken_++, *task};
    }
    changed_.wait(lock);  // a survey under way may bring candidates
  }
  changed_.notify_all();
  return std::nullopt;
}

void Crew::give_back(const Turn& turn) {
  const Lock lock(mutex_);
  given_back_.push_back(turn);
  changed_.notify_all();
}

base::Result<Crew::Ready> Crew::carry_out(const Task& task, search::Searcher& searcher) {
  const auto now = [this] {
    const Lock lock(mutex_);
    return clock_.now();
  };
  const Clock::Time begun = now();
  auto keep =
      task.what == Task::What::survey ? do_survey(task, searcher) : do_verify(task, searcher);
  if (!keep) return std::move(keep).faults();
  return Ready{task, seconds_between(begun, now()), std::move(*keep)};
}

// Without memory for this the run ends: nobody else could do it.
void Crew::keep(std::uint64_t number, base::Result<Ready> ready) {
  const Lock lock(mutex_);
  try {
    if (ready && ready->keep) ready_.emplace(number, std::move(*ready));
    const base::Status status = ready ? keep_all_whose_turn_it_is() : ready.faults();
    if (!status && faults_.empty()) faults_ = status.faults();
  } catch (...) {
    thrown_ = std::current_exception();
  }
  changed_.notify_all();
}

base::Status Crew::keep_all_whose_turn_it_is() {
  while (faults_.empty() && !ready_.empty() && ready_.begin()->first == kept_) {
    const Ready ready = std::move(ready_.extract(ready_.begin()).mapped());
    if (auto status = ready.keep(); !status) return status;
    ++kept_;
    finish(ready);
  }
  return base::done();
}

base::Result<Crew::Keep> Crew::do_survey(const Task& task, search::Searcher& searcher) {
  const GameKey& key = input_.games[task.game].key;
  auto text = ledger_.game_text(key);
  if (!text) return std::move(text).faults();
  auto surveyed = survey_text(*text, plan_.settings, searcher, plan_.stop);
  if (!surveyed) return std::move(surveyed).faults();
  if (!*surveyed) return Keep();
  study::Study& study = **surveyed;
  auto candidates = study::candidates(study, plan_.settings);
  study.pgn = {};  // the ledger has it
  return Keep([this, &key, study = std::move(study), candidates = std::move(candidates)] {
    for (const study::Note& note : study.notes) snapshot_.nodes += note.nodes;
    return ledger_.put_survey(key, study, candidates);
  });
}

base::Result<Crew::Keep> Crew::do_verify(const Task& task, search::Searcher& searcher) {
  const GameKey& key = input_.games[task.game].key;
  auto study = ledger_.survey(key);
  if (!study) return std::move(study).faults();
  Findings found = verify_and_compose(std::move(*study), task.candidate, plan_.settings, searcher);
  return Keep([this, &key, findings = std::move(found)] {
    snapshot_.moments += findings.moments.size();
    snapshot_.puzzles += findings.puzzles.size();
    snapshot_.nodes += findings.nodes;
    return ledger_.put_findings(key, findings);
  });
}

// What follows on a task that is in the ledger.
void Crew::finish(const Ready& ready) {
  schedule_.finish(ready.task);
  if (ready.task.what == Task::What::survey) {
    const auto length = ledger_.length(input_.games[ready.task.game].key);
    estimate_.add_survey(ready.seconds, static_cast<std::size_t>(length) + 1);
  } else {
    estimate_.add_verify(ready.seconds);
  }
  const Schedule::Counts& counts = schedule_.counts();
  snapshot_.games = counts.games;
  snapshot_.surveyed = counts.surveyed;
  snapshot_.candidates = counts.candidates;
  snapshot_.verified = counts.verified;
  snapshot_.seconds = seconds_between(begun_, clock_.now());
  snapshot_.seconds_left = estimate_.seconds_left(counts);
  progress_.show(snapshot_);
}

}  // namespace

base::Result<Ending> run(Ledger& ledger, const Input& input, const RunPlan& plan, Clock& clock,
                         Progress& progress) {
  return Crew(ledger, input, plan, clock, progress).run();
}

}  // namespace kairos::batch
