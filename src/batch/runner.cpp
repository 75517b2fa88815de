#include "kairos/batch/runner.hpp"

#include <algorithm>
#include <condition_variable>
#include <exception>
#include <functional>
#include <map>
#include <mutex>
#include <new>
#include <optional>
#include <vector>

#include "kairos/base/threads.hpp"
#include "kairos/batch/schedule.hpp"

#include "estimate.hpp"
#include "kept.hpp"
#include "tasks.hpp"

namespace kairos::batch {

namespace {

// So many tasks may be done before an earlier one is: a thread that is further ahead waits.
constexpr std::uint64_t most_ahead = 1000;
// Of the surveys that are kept to verify their candidates; and of one position in them, about.
constexpr std::size_t most_bytes_of_studies = std::size_t{32} << 20;
constexpr std::size_t bytes_of_note = 256;

double seconds_between(Clock::Time from, Clock::Time to) {
  return std::max(0.0, std::chrono::duration<double>(to - from).count());
}

// What all threads share: one schedule, one ledger, one progress, under one mutex. Searching is
// done outside of it.
class Runner {
 public:
  Runner(Ledger& ledger, const Input& input, const RunPlan& plan, Clock& clock, Progress& progress)
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
  using Put = std::function<base::Status()>;
  struct NumberedTask {
    std::uint64_t number = 0;  // tasks are counted as they are taken
    Task task;
  };
  struct Done {
    Task task;
    double seconds = 0;
    Put put;
  };

  // A task under way, which goes back when memory ends it.
  struct UnderWay {
    ~UnderWay() {
      if (!is_done) runner.give_back(task);
    }
    Runner& runner;
    const NumberedTask& task;
    bool is_done = false;
  };

  void work();
  std::optional<NumberedTask> take();
  void give_back(const NumberedTask& task);
  base::Result<Put> do_survey(const Task& task, search::Searcher& searcher);
  base::Result<Put> do_verify(const Task& task, search::Searcher& searcher);
  base::Result<Done> carry_out(const Task& task, search::Searcher& searcher);
  [[nodiscard]] bool must_stop(const Lock& lock);
  void hand_in(std::uint64_t number, base::Result<Done> done);
  base::Status put_all_whose_turn_it_is();
  base::Status put_findings(const GameKey& key, const std::vector<Findings>& found);
  void finish(const Done& done);
  std::shared_ptr<const study::Study> keep_study(std::size_t game, study::Study study);

  Ledger& ledger_;
  const Input& input_;
  const RunPlan& plan_;
  Clock& clock_;
  Progress& progress_;

  std::mutex mutex_;
  std::condition_variable changed_;
  Schedule schedule_;
  std::vector<NumberedTask> given_back_;  // by threads that had no memory for them
  std::uint64_t taken_ = 0;
  std::uint64_t put_ = 0;
  std::map<std::uint64_t, Done> done_;  // by number: those before them are not done yet
  Kept<std::size_t, study::Study> studies_{most_bytes_of_studies};  // by game, of the survey
  Estimate estimate_;
  Snapshot snapshot_;
  Clock::Time begun_;
  Ending ending_ = Ending::finished;
  base::Faults faults_;
  std::exception_ptr thrown_;
};

base::Result<Ending> Runner::run() {
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

void Runner::work() {
  search::Searcher searcher;
  while (const auto next = take()) {
    UnderWay under_way{*this, *next};
    auto done = carry_out(next->task, searcher);
    under_way.is_done = true;
    hand_in(next->number, std::move(done));
  }
}

bool Runner::must_stop(const Lock&) {
  if (thrown_ || !faults_.empty() || ending_ != Ending::finished) return true;
  if (plan_.stop != nullptr && plan_.stop->load()) {
    ending_ = Ending::interrupted;
  } else if (plan_.deadline && clock_.now() >= *plan_.deadline) {
    ending_ = Ending::out_of_time;
  }
  return ending_ != Ending::finished;
}

std::optional<Runner::NumberedTask> Runner::take() {
  Lock lock(mutex_);
  for (;;) {
    if ((given_back_.empty() && schedule_.is_over()) || must_stop(lock)) break;
    if (!given_back_.empty()) {
      const NumberedTask next = given_back_.back();
      given_back_.pop_back();
      return next;
    }
    if (taken_ - put_ < most_ahead) {
      if (auto task = schedule_.next()) return NumberedTask{taken_++, *task};
    }
    changed_.wait(lock);  // a survey under way may bring candidates
  }
  changed_.notify_all();
  return std::nullopt;
}

void Runner::give_back(const NumberedTask& task) {
  const Lock lock(mutex_);
  given_back_.push_back(task);
  changed_.notify_all();
}

base::Result<Runner::Done> Runner::carry_out(const Task& task, search::Searcher& searcher) {
  const auto now = [this] {
    const Lock lock(mutex_);
    return clock_.now();
  };
  const Clock::Time begun = now();
  auto put =
      task.what == Task::What::survey ? do_survey(task, searcher) : do_verify(task, searcher);
  if (!put) return std::move(put).faults();
  return Done{task, seconds_between(begun, now()), std::move(*put)};
}

// Without memory for this the run ends, and one thread takes it up again.
void Runner::hand_in(std::uint64_t number, base::Result<Done> done) {
  const Lock lock(mutex_);
  try {
    if (done && done->put) done_.emplace(number, std::move(*done));
    const base::Status status = done ? put_all_whose_turn_it_is() : done.faults();
    if (!status && faults_.empty()) faults_ = status.faults();
  } catch (...) {
    thrown_ = std::current_exception();
  }
  changed_.notify_all();
}

base::Status Runner::put_all_whose_turn_it_is() {
  while (faults_.empty() && !done_.empty() && done_.begin()->first == put_) {
    const Done done = std::move(done_.extract(done_.begin()).mapped());
    if (auto status = done.put(); !status) return status;
    ++put_;
    finish(done);
  }
  return base::done();
}

base::Result<Runner::Put> Runner::do_survey(const Task& task, search::Searcher& searcher) {
  const GameKey& key = input_.games[task.game].key;
  const auto sheet = ledger_.scoresheet(key);
  if (!sheet) return sheet.faults();
  auto surveyed = study::survey(**sheet, plan_.settings, searcher, plan_.stop);
  if (!surveyed) return Put();
  auto candidates = study::candidates(**sheet, *surveyed, plan_.settings);
  const auto study = keep_study(task.game, std::move(*surveyed));
  return Put([this, &key, study, candidates = std::move(candidates)] {
    for (const study::Note& note : study->notes) snapshot_.nodes += note.nodes;
    return ledger_.put_survey(key, *study, candidates);
  });
}

base::Result<Runner::Put> Runner::do_verify(const Task& task, search::Searcher& searcher) {
  const GameKey& key = input_.games[task.game].key;
  const auto sheet = ledger_.scoresheet(key);
  if (!sheet) return sheet.faults();
  auto study = studies_.find(task.game);
  if (!study) {
    auto read = ledger_.survey(key);
    if (!read) return std::move(read).faults();
    study = keep_study(task.game, std::move(*read));
  }
  auto found = verify_and_compose(**sheet, *study, task.stretch, plan_.settings, searcher);
  return Put([this, &key, found = std::move(found)] { return put_findings(key, found); });
}

// Those of a stretch that a run before this one had put stay as they are: they are the same.
base::Status Runner::put_findings(const GameKey& key, const std::vector<Findings>& found) {
  const std::vector<int> done = ledger_.plies(key);
  for (const Findings& findings : found) {
    if (std::ranges::binary_search(done, findings.ply)) continue;
    std::optional<base::Fault> refused;
    if (auto put = put_with_reasons_or_without(ledger_, key, findings, refused); !put) return put;
    if (refused) progress_.go_on_without_reasons(*refused);
    snapshot_.moments += static_cast<std::uint64_t>(std::ranges::count_if(
        findings.moments,
        [](const study::Moment& moment) { return moment.kind != study::Kind::slip; }));
    snapshot_.puzzles += findings.puzzles.size();
    snapshot_.nodes += findings.nodes;
  }
  return base::done();
}

std::shared_ptr<const study::Study> Runner::keep_study(std::size_t game, study::Study study) {
  const std::size_t bytes = study.notes.size() * bytes_of_note;
  return studies_.put(game, std::move(study), bytes);
}

// What follows on a task that is in the ledger.
void Runner::finish(const Done& done) {
  schedule_.finish(done.task);
  if (done.task.what == Task::What::survey) {
    const auto length = ledger_.length(input_.games[done.task.game].key);
    estimate_.add_survey(done.seconds, static_cast<std::size_t>(length) + 1);
  } else {
    estimate_.add_verify(done.seconds, done.task.places);
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
  if (plan.threads > 1) {
    try {
      return Runner(ledger, input, plan, clock, progress).run();
    } catch (const std::bad_alloc&) {
      // What many threads had no memory for one may have: it goes on from the ledger, like any run.
      progress.go_on_with_fewer_threads();
    }
  }
  RunPlan alone = plan;
  alone.threads = 1;
  return Runner(ledger, input, alone, clock, progress).run();
}

}  // namespace kairos::batch
