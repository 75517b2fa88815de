#include "kairos/report/letters.hpp"

#include <utility>

namespace kairos::report {

base::Status LettersSink::write(std::string_view bytes) {
  if (letters_ == rules::Letters::english) return sink_.write(bytes);
  kept_ += bytes;
  const std::size_t whole = kept_.size() - rules::unfinished_move(kept_);
  const std::string text = rules::in_letters(std::string_view(kept_).substr(0, whole), letters_);
  kept_.erase(0, whole);
  return sink_.write(text);
}

base::Status LettersSink::finish() {
  return sink_.write(rules::in_letters(std::exchange(kept_, {}), letters_));
}

}  // namespace kairos::report
