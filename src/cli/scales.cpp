#include "scales.hpp"

#include <algorithm>

#include "threads.hpp"

namespace kairos::cli {

namespace {

constexpr std::size_t room = std::size_t{256} << 20;  // bytes, for all tables together
constexpr std::size_t most_table = search::default_table_bytes;
constexpr std::size_t least_table = std::size_t{1} << 20;

bool is_set(const std::atomic<bool>* stop) {
  return stop != nullptr && stop->load();
}

}  // namespace

// One move and what is known of it.
struct Scales::Pan {
  Pan(rules::Move m, std::vector<rules::Move> known, std::size_t table_bytes)
      : move(m), refutation(std::move(known)), searcher(table_bytes) {}

  // Of the position after the move; where a refutation is known, of that after it too: the
  // opponent takes what is worse for the move.
  study::MoveVerdict judged(const rules::Position& p, const std::vector<rules::Key>& earlier,
                            std::uint64_t effort, const std::atomic<bool>* stop) {
    study::MoveVerdict j = study::search_move(p, earlier, move, effort, searcher, 1, stop);
    if (refutation.empty() || is_set(stop)) return j;
    std::vector<rules::Key> keys = earlier;
    keys.push_back(p.key());
    const study::MoveVerdict answer =
        study::search_move(p.after(move), keys, refutation.front(), effort, searcher, 1, stop);
    const search::Score score = study::seen_from_before(answer.score);
    j.nodes += answer.nodes;
    if (score > j.score) return j;
    j.score = score;
    j.replies = {refutation.front()};
    j.replies.insert(j.replies.end(), answer.replies.begin(), answer.replies.end());
    return j;
  }

  void keep(study::MoveVerdict judged, std::uint64_t with_nodes) {
    judgement = std::move(judged);
    nodes = with_nodes;
  }

  rules::Move move;
  std::vector<rules::Move> refutation;
  search::Searcher searcher;
  study::MoveVerdict judgement;
  std::uint64_t nodes = 0;  // asked for; 0: not judged yet
};

Scales::Scales(const rules::Position& position, std::vector<rules::Key> earlier, std::size_t moves,
               Best best)
    : position_(position),
      earlier_(std::move(earlier)),
      table_bytes_(std::clamp(room / (moves + 2), least_table, most_table)),
      how_best_(best),
      searcher_(best == Best::search ? most_table : least_table) {}

Scales::~Scales() = default;

void Scales::add(rules::Move move, const std::vector<rules::Move>& refutation) {
  pans_.push_back(std::make_unique<Pan>(move, refutation, table_bytes_));
}

void Scales::find_best(std::uint64_t nodes, const std::atomic<bool>* stop) {
  search::Limits limits;
  limits.nodes = nodes;
  limits.stop = stop;
  const search::Verdict verdict = searcher_.search(position_, earlier_, limits);
  if (!is_set(stop)) found_ = verdict.lines.front().moves.front();
}

bool Scales::deepen(std::uint64_t nodes, int threads, const std::atomic<bool>* stop) {
  std::vector<study::MoveVerdict> judged(pans_.size());
  const std::size_t first_move = how_best_ == Best::search ? 1 : 0;
  const std::size_t tasks = pans_.size() + first_move;
  const auto weigh_one = [&](std::size_t i) {
    if (i < first_move) {
      find_best(2 * nodes, stop);
    } else {
      Pan& pan = *pans_[i - first_move];
      judged[i - first_move] = pan.judged(position_, earlier_, nodes, stop);
    }
  };
  share_out(tasks, threads, [&]() -> Worker { return weigh_one; });
  Pan* const hidden = unasked_best();
  study::MoveVerdict of_best;
  if (hidden != nullptr) of_best = hidden->judged(position_, earlier_, nodes, stop);
  if (is_set(stop)) return false;
  for (std::size_t i = 0; i < pans_.size(); ++i) pans_[i]->keep(std::move(judged[i]), nodes);
  if (hidden != nullptr) hidden->keep(std::move(of_best), nodes);
  return true;
}

// A best move that nobody asked about is weighed too, or there would be nothing to compare with.
Scales::Pan* Scales::unasked_best() {
  const auto is_found = [this](const auto& pan) { return pan->move == found_; };
  if (!found_ || std::any_of(pans_.begin(), pans_.end(), is_found)) return nullptr;
  const auto known = std::find_if(hidden_.begin(), hidden_.end(), is_found);
  if (known != hidden_.end()) return known->get();
  hidden_.push_back(std::make_unique<Pan>(found_, std::vector<rules::Move>{}, table_bytes_));
  return hidden_.back().get();
}

// Of those judged with the most nodes; of equal ones the first asked about.
const Scales::Pan& Scales::best_pan() const {
  const Pan* best = nullptr;
  const auto consider = [&best](const auto& pan) {
    if (pan->nodes == 0) return;
    if (best == nullptr || pan->nodes > best->nodes ||
        (pan->nodes == best->nodes && pan->judgement.score > best->judgement.score)) {
      best = pan.get();
    }
  };
  std::for_each(pans_.begin(), pans_.end(), consider);
  std::for_each(hidden_.begin(), hidden_.end(), consider);
  return *best;
}

std::vector<study::Weighed> Scales::weighed() const {
  const search::Score best = best_pan().judgement.score;
  std::vector<study::Weighed> all;
  for (const auto& pan : pans_) {
    all.push_back(study::weigh(position_, pan->move, pan->judgement, best, pan->nodes));
  }
  return all;
}

rules::Move Scales::best_move() const {
  return best_pan().move;
}

study::Weighed Scales::weighed_best() const {
  const Pan& pan = best_pan();
  return study::weigh(position_, pan.move, pan.judgement, pan.judgement.score, pan.nodes);
}

std::uint64_t Scales::nodes() const {
  std::uint64_t sum = searcher_.nodes();
  for (const auto& pan : pans_) sum += pan->searcher.nodes();
  for (const auto& pan : hidden_) sum += pan->searcher.nodes();
  return sum;
}

}  // namespace kairos::cli
