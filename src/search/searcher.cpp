#include "kairos/search/searcher.hpp"

#include "worker.hpp"

namespace kairos::search {

class Searcher::Implementation : public Worker {
 public:
  using Worker::Worker;
};

Searcher::Searcher(std::size_t table_bytes)
    : implementation_(std::make_unique<Implementation>(table_bytes)) {}
Searcher::~Searcher() = default;
Searcher::Searcher(Searcher&&) noexcept = default;
Searcher& Searcher::operator=(Searcher&&) noexcept = default;

Verdict Searcher::search(const rules::Position& root, std::span<const rules::Key> earlier,
                         const Limits& limits) {
  return implementation_->run(root, earlier, limits);
}

void Searcher::clear() {
  implementation_->clear();
}

}  // namespace kairos::search
