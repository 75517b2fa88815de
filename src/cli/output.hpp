// Standard output: results and nothing else, buffered.
//
// When the reader of a pipe has gone (`kairos check ... | head`), writing throws BrokenPipe; when
// it takes nothing and a signal comes, Interrupted; any other failure throws OutputFailed. All are
// caught in `guarded` (command.hpp), which ends the program quietly for the first two and with an
// error for the last. What is printed as a line or as text is made visible (base/foreign.hpp):
// whatever a name holds, it does nothing to a terminal. One thread only.
#pragma once

#include <string>
#include <string_view>

#include "kairos/base/bytes.hpp"
#include "kairos/rules/letters.hpp"

namespace kairos::cli {

struct BrokenPipe {};
struct Interrupted {};
struct OutputFailed {
  base::Fault fault;
};

class Output final : public base::ByteSink {
 public:
  static Output& get();

  // The bytes as they are. Never returns a fault (it throws); a Status for the sake of the
  // interface.
  base::Status write(std::string_view bytes) override;
  // Lines and texts write moves in these letters from now on: not for those who print data.
  void set_letters(rules::Letters letters) { letters_ = letters; }
  // One line without its end; or several, each with its own.
  void line(std::string_view text);
  void text(std::string_view lines);
  void flush();

 private:
  Output() = default;
  std::string shown(std::string_view line) const;

  rules::Letters letters_ = rules::Letters::english;
  std::string pending_;
};

}  // namespace kairos::cli
