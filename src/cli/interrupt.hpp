// Ctrl-C and SIGTERM.
//
// Nothing on the disk is ever half done, so a signal may end the program at any place, also where
// it waits for input that does not come: with exit code 130. Work that is worth finishing catches
// signals: then the first asks it to finish what it holds and to stop, and only a second one ends
// the program at once.
#pragma once

#include <atomic>

namespace kairos::cli {

// Called first of all: a signal ends the program at once.
void end_at_interrupts();

// From now on the first signal makes this true, and no more.
const std::atomic<bool>& catch_interrupts();

// Whether the first signal has come, where signals are caught.
bool is_interrupted();

// Catches the signals, and becomes true as well when so many seconds have passed; 0: never. Counts
// without a thread, which might not be had. One limit at a time: called again it counts anew.
const std::atomic<bool>& catch_interrupts_or_stop_after(double seconds);

}  // namespace kairos::cli
