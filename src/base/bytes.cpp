#include "kairos/base/bytes.hpp"

#include <algorithm>
#include <cstring>

namespace kairos::base {

Result<std::size_t> MemorySource::read(std::span<char> room) {
  const std::size_t n = std::min({room.size(), rest_.size(), piece_});
  if (n != 0) std::memcpy(room.data(), rest_.data(), n);
  rest_.remove_prefix(n);
  return n;
}

Result<std::size_t> LimitedSource::read(std::span<char> room) {
  if (read_ > most_) return beyond_;
  auto n = source_->read(room);
  if (n) read_ += *n;
  return n;
}

}  // namespace kairos::base
