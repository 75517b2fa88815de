#include "table.hpp"

#include <algorithm>
#include <limits>
#include <memory>
#include <new>
#include <sys/mman.h>

namespace kairos::search {

namespace {
constexpr std::size_t huge_page = std::size_t{2} << 20;
// How many plies of depth an entry loses in worth for each search it was not seen in.
constexpr int age_cost = 3;
}  // namespace

Table::Table(std::size_t bytes) {
  count_ = std::max<std::size_t>(1, bytes / sizeof(Cluster));
  bytes_ = (count_ * sizeof(Cluster) + huge_page - 1) / huge_page * huge_page;
  void* memory = ::operator new (bytes_, std::align_val_t{huge_page});
  // Only a wish: a table on huge pages saves most of the misses of the address cache.
  (void)madvise(memory, bytes_, MADV_HUGEPAGE);
  clusters_ = static_cast<Cluster*>(memory);
  clear();
}

Table::~Table() {
  ::operator delete (clusters_, std::align_val_t{huge_page});
}

void Table::clear() {
  std::uninitialized_fill_n(clusters_, count_, Cluster{});
  generation_ = 1;
}

Found Table::probe(rules::Key key) const {
  const Cluster& cluster = clusters_[slot(key)];
  const auto check = static_cast<std::uint32_t>(key);
  for (const Entry& e : cluster.entries) {
    if (e.check != check || e.info == 0) continue;
    Found found;
    found.move = rules::Move::from_raw(e.move);
    found.score = e.score;
    found.evaluation = e.evaluation == INT16_MAX ? no_score : e.evaluation;
    found.depth = e.depth;
    found.bound = static_cast<Bound>(e.info & 3);
    found.was_pv = (e.info & 4) != 0;
    found.hit = true;
    if (found.bound == Bound::none) found.score = no_score;
    return found;
  }
  return {};
}

int Table::worth(const Entry& e) const {
  if (e.info == 0) return -1000;
  int age = generation_ - (e.info >> 3);
  if (age < 0) age += generations;
  return e.depth + ((e.info & 4) != 0 ? 2 : 0) - age_cost * age;
}

void Table::store(rules::Key key, rules::Move move, Score score, Score evaluation, int depth,
                  Bound bound, bool pv) {
  Cluster& cluster = clusters_[slot(key)];
  const auto check = static_cast<std::uint32_t>(key);
  Entry* place = nullptr;
  int least = std::numeric_limits<int>::max();
  for (Entry& e : cluster.entries) {
    if (e.info != 0 && e.check == check) {
      place = &e;
      break;
    }
    const int value = worth(e);
    if (value >= least) continue;
    least = value;
    place = &e;
  }
  const bool same = place->info != 0 && place->check == check;
  if (same) {
    if (!move) move = rules::Move::from_raw(place->move);
    // A much deeper result of this search is worth more than a fresh shallow bound.
    const bool current = (place->info >> 3) == generation_;
    if (current && bound != Bound::exact && depth + 3 < place->depth) {
      place->move = move.raw();
      return;
    }
  }
  place->check = check;
  place->move = move.raw();
  place->score = static_cast<std::int16_t>(bound == Bound::none ? 0 : score);
  place->evaluation = static_cast<std::int16_t>(evaluation == no_score ? INT16_MAX : evaluation);
  place->depth = static_cast<std::int8_t>(depth);
  place->info =
      static_cast<std::uint8_t>(static_cast<int>(bound) | (pv ? 4 : 0) | generation_ << 3);
}

}  // namespace kairos::search
