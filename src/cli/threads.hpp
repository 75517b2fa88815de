// The threads of a command (base/threads.hpp): how many, and what is said where there are fewer.
// Their number changes how fast a command is, never what it prints.
#pragma once

namespace CLI {
class App;
}

namespace kairos::cli {

// --threads N, 0 for one on each core of the machine.
void add_threads_option(CLI::App& command, int& threads);

// Warns, but once a process, that there are fewer threads than were asked for.
void tell_fewer_threads();

}  // namespace kairos::cli
