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
  // One line without its end; or several, each with its own.
  void line(std::string_view text);
  void text(std::string_view lines);
  void flush();

 private:
  Output() = default;
  std::string pending_;
};

}  // namespace kairos::cli
