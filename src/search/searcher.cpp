#include "kairos/search/searcher.hpp"

#include "worker.hpp"

namespace kairos::search {

class Searcher::Implementation : public Worker {
 public:
  using Worker::Worker;
  std::uint64_t nodes_of_all = 0;
};

Searcher::Searcher(std::size_t table_bytes)
    : implementation_(std::make_unique<Implementation>(table_bytes)) {}
Searcher::~Searcher() = default;
Searcher::Searcher(Searcher&&) noexcept = default;
Searcher& Searcher::operator=(Searcher&&) noexcept = default;

Verdict Searcher::search(const rules::Position& root, std::span<const rules::Key> earlier,
                         const Limits& limits) {
  Verdict verdict = implementation_->run(root, earlier, limits);
  implementation_->nodes_of_all += verdict.nodes;
  return verdict;
}

void Searcher::clear() {
  implementation_->clear();
}

std::uint64_t Searcher::nodes() const {
  return implementation_->nodes_of_all;
}

}  // namespace kairos::search
