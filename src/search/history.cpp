#include "history.hpp"

#include <algorithm>

namespace kairos::search {

Histories::Histories() : captures_(14 * 64), continuations_(14 * 64 + 1) {}

void Histories::clear() {
  quiets_ = {};
  std::fill(captures_.begin(), captures_.end(), std::array<std::int16_t, 8>{});
  std::fill(continuations_.begin(), continuations_.end(), Row{});
}

}  // namespace kairos::search
