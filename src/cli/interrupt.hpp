// Ctrl-C and SIGTERM as a flag that long work looks at.
//
// The first signal asks the work to finish what it holds and stop (exit code 130); a second one
// ends the program at once, as if nobody had caught it.
#pragma once

#include <atomic>

namespace kairos::cli {

// Catches the signals from now on; the flag becomes true at the first.
const std::atomic<bool>& catch_interrupts();

}  // namespace kairos::cli
