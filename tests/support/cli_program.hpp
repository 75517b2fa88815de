// Runs the real program as its user does: arguments, folder, environment and standard input in;
// exit code, standard output and standard error out, each apart. On pipes or on a pseudo-terminal.
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace kairos::test {

struct Invocation {
  std::vector<std::string> arguments;                            // without the program's name
  std::string folder = ".";                                      // where it runs
  std::string input;                                             // on standard input
  std::vector<std::pair<std::string, std::string>> environment;  // set beyond the test's own
  // Instead of `input`, where it is not empty: opened for writing too, so that a FIFO stays open.
  std::string input_file = {};
  std::string output_file = {};  // of Running, instead of nowhere; opened in the same way
};

struct Outcome {
  int exit_code = -1;  // 128 + the signal when one ended it, as shells count
  std::string out;
  std::string err;
  long peak_kilobytes = 0;  // the most memory that it, or a program it waited for, had at once
};

Outcome run_program(const Invocation& invocation);
// Standard output and standard error are one terminal of 80 columns: both come as `out`.
Outcome run_on_terminal(const Invocation& invocation);
// The same, and standard input is that terminal too, at which `input` is typed at once: all of it
// must fit into what a terminal holds (4,095 bytes). What is typed is not echoed.
Outcome run_at_terminal(const Invocation& invocation);
// A command line of the shell, in which `kairos` is the program under test.
Outcome run_shell(const std::string& command, const std::string& folder);

// A program that goes on by itself, to be sent signals.
class Running {
 public:
  explicit Running(const Invocation& invocation);  // its messages go nowhere
  Running(const Running&) = delete;
  Running& operator=(const Running&) = delete;
  ~Running();

  void send(int signal_number) const;
  // Sends it to a program that is asleep, and waits until that is over (true) or sleeps on.
  bool obeys(int signal_number);
  void wait_until_it_sleeps();  // or is over
  [[nodiscard]] bool is_over();
  [[nodiscard]] unsigned long long bytes_read() const;
  // Waits for its end and returns the exit code.
  int wait();

 private:
  [[nodiscard]] bool is_asleep() const;  // waits for something, and no signal waits for it
  [[nodiscard]] std::string from_proc(const std::string& file, const std::string& name) const;

  int process_;
  int exit_code_ = -1;
  bool over_ = false;
};

// Lines of a text, the last one without a line end included.
std::vector<std::string> lines_of(const std::string& text);

}  // namespace kairos::test
