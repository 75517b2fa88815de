// What is made of a record once and asked for again and again: kept while there is room for it.
//
// The first values stay; what comes when `most_bytes` are reached is given back to whoever brought
// it and forgotten, to be made anew when it is asked for. Any thread may ask.
#pragma once

#include <cstddef>
#include <map>
#include <memory>
#include <mutex>
#include <utility>

namespace kairos::batch {

template <typename Key, typename T>
class Kept {
 public:
  explicit Kept(std::size_t most_bytes) : most_bytes_(most_bytes) {}

  // Null when it is not there.
  std::shared_ptr<const T> find(const Key& key) const {
    const std::lock_guard lock(mutex_);
    const auto at = values_.find(key);
    return at == values_.end() ? nullptr : at->second;
  }
  // `bytes` it takes, about.
  std::shared_ptr<const T> put(const Key& key, T value, std::size_t bytes) {
    auto shared = std::make_shared<const T>(std::move(value));
    const std::lock_guard lock(mutex_);
    if (bytes > most_bytes_ - bytes_) return shared;
    const auto [at, is_new] = values_.emplace(key, shared);
    if (is_new) bytes_ += bytes;
    return at->second;
  }

 private:
  const std::size_t most_bytes_;
  mutable std::mutex mutex_;
  std::size_t bytes_ = 0;
  std::map<Key, std::shared_ptr<const T>> values_;
};

}  // namespace kairos::batch
