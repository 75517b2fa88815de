#include "standard_streams.hpp"

#include <cerrno>
#include <fcntl.h>
#include <unistd.h>

namespace kairos::cli {

// The lowest free number is given out, so going upwards each stand-in gets the one it stands for.
// Opened the wrong way round: reading standard input, or writing the others, fails as before.
bool hold_standard_streams() {
  for (int stream = STDIN_FILENO; stream <= STDERR_FILENO; ++stream) {
    if (::fcntl(stream, F_GETFD) >= 0 || errno != EBADF) continue;
    if (::open("/dev/null", stream == STDIN_FILENO ? O_WRONLY : O_RDONLY) != stream) return false;
  }
  return true;
}

}  // namespace kairos::cli
