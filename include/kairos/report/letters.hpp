// The one place where reports change letters: what is written for people passes through here on
// its way to the file, and every move in it (rules/letters.hpp) comes out in their letters.
//
// Names and texts of others are changed too where they hold a move; boards keep the letters of FEN.
#pragma once

#include <string>

#include "kairos/base/bytes.hpp"
#include "kairos/rules/letters.hpp"

namespace kairos::report {

class LettersSink final : public base::ByteSink {
 public:
  // The sink must outlive it.
  LettersSink(base::ByteSink& sink, rules::Letters letters) : sink_(sink), letters_(letters) {}

  base::Status write(std::string_view bytes) override;
  // Writes what is kept back: the last bytes may have been the begin of a move.
  base::Status finish();

 private:
  base::ByteSink& sink_;
  rules::Letters letters_;
  std::string kept_;
};

}  // namespace kairos::report
