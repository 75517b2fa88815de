// Standard output: results and nothing else, buffered.
//
// When the reader of a pipe has gone (`kairos check ... | head`), writing throws BrokenPipe; when
// it takes nothing and a signal comes, Interrupted; any other failure throws OutputFailed. All are
// caught in `guarded` (command.hpp), which ends the program quietly for the first two and with an
// error for the last. One thread only.
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

  // Never returns a fault (it throws); a Status for the sake of the interface.
  base::Status write(std::string_view bytes) override;
  // Writes `text` as it is; or with a line end.
  void text(std::string_view text);
  void line(std::string_view text);
  void flush();

 private:
  Output() = default;
  std::string pending_;
};

}  // namespace kairos::cli
