#include "support/cli_program.hpp"

#include <array>
#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <fcntl.h>
#include <filesystem>
#include <fstream>
#include <poll.h>
#include <pty.h>
#include <stdexcept>
#include <sys/resource.h>
#include <sys/wait.h>
#include <termios.h>
#include <unistd.h>

namespace kairos::test {

namespace {

constexpr int no_descriptor = -1;

struct Pipe {
  int read_end = no_descriptor;
  int write_end = no_descriptor;
};

Pipe make_pipe() {
  std::array<int, 2> ends{};
  if (::pipe2(ends.data(), O_CLOEXEC) != 0) throw std::runtime_error("no pipe");
  return {ends[0], ends[1]};
}

// Standard input comes from a file that has no name any more, so that nobody waits for a reader.
int input_file(const std::string& text) {
  std::string name = (std::filesystem::temp_directory_path() / "kairos-input-XXXXXX").string();
  const int descriptor = ::mkostemp(name.data(), O_CLOEXEC);
  if (descriptor < 0) throw std::runtime_error("no temporary file");
  ::unlink(name.c_str());
  const auto size = static_cast<ssize_t>(text.size());
  if (::write(descriptor, text.data(), text.size()) != size) throw std::runtime_error("no room");
  ::lseek(descriptor, 0, SEEK_SET);
  return descriptor;
}

// In the child: becomes the program, or ends with 127.
[[noreturn]] void become(const Invocation& invocation, const std::string& program) {
  ::signal(SIGPIPE, SIG_DFL);
  for (const auto& [name, value] : invocation.environment) {
    ::setenv(name.c_str(), value.c_str(), 1);
  }
  if (::chdir(invocation.folder.c_str()) != 0) ::_exit(127);
  std::vector<std::string> words = {program};
  words.insert(words.end(), invocation.arguments.begin(), invocation.arguments.end());
  std::vector<char*> pointers;
  for (std::string& word : words) pointers.push_back(word.data());
  pointers.push_back(nullptr);
  ::execv(program.c_str(), pointers.data());
  ::_exit(127);
}

pid_t start(const Invocation& invocation, const std::string& program, int out, int err,
            int typed = no_descriptor) {
  const int input = typed != no_descriptor ? ::dup(typed)
                    : invocation.input_file.empty()
                        ? input_file(invocation.input)
                        : ::open(invocation.input_file.c_str(), O_RDWR | O_CLOEXEC);
  if (input < 0) throw std::runtime_error("no standard input");
  const pid_t process = ::fork();
  if (process == 0) {
    ::dup2(input, STDIN_FILENO);
    ::dup2(out, STDOUT_FILENO);
    ::dup2(err, STDERR_FILENO);
    become(invocation, program);
  }
  ::close(input);
  return process;
}

int code_of(int status) {
  return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

// Its exit code and, where asked for, its peak of memory.
int wait_for(pid_t process, long* peak_kilobytes = nullptr) {
  int status = 0;
  rusage usage{};
  while (::wait4(process, &status, 0, &usage) < 0 && errno == EINTR) {
  }
  if (peak_kilobytes != nullptr) *peak_kilobytes = usage.ru_maxrss;
  return code_of(status);
}

// Takes what there is; false at the end (a terminal whose other side has gone fails with EIO).
bool drain(int descriptor, std::string& text) {
  std::array<char, 4096> room;
  const ssize_t n = ::read(descriptor, room.data(), room.size());
  if (n < 0 && errno == EINTR) return true;
  if (n <= 0) return false;
  text.append(room.data(), static_cast<std::size_t>(n));
  return true;
}

Outcome run_on_pipes(const Invocation& invocation, const std::string& program) {
  const Pipe out = make_pipe();
  const Pipe err = make_pipe();
  const pid_t process = start(invocation, program, out.write_end, err.write_end);
  ::close(out.write_end);
  ::close(err.write_end);
  Outcome outcome;
  std::array<pollfd, 2> ends = {pollfd{out.read_end, POLLIN, 0}, pollfd{err.read_end, POLLIN, 0}};
  while (ends[0].fd >= 0 || ends[1].fd >= 0) {
    ::poll(ends.data(), ends.size(), -1);
    if (ends[0].revents != 0 && !drain(out.read_end, outcome.out)) ends[0].fd = no_descriptor;
    if (ends[1].revents != 0 && !drain(err.read_end, outcome.err)) ends[1].fd = no_descriptor;
  }
  ::close(out.read_end);
  ::close(err.read_end);
  outcome.exit_code = wait_for(process, &outcome.peak_kilobytes);
  return outcome;
}

}  // namespace

Outcome run_program(const Invocation& invocation) {
  return run_on_pipes(invocation, KAIROS_PROGRAM);
}

Outcome run_shell(const std::string& command, const std::string& folder) {
  const std::string folder_of_program =
      std::filesystem::path(KAIROS_PROGRAM).parent_path().string();
  const char* path = std::getenv("PATH");
  Invocation invocation{.arguments = {"-c", command},
                        .folder = folder,
                        .input = {},
                        .environment = {{"PATH", folder_of_program + ":" + (path ? path : "")}},
                        .input_file = {},
                        .output_file = {}};
  return run_on_pipes(invocation, "/bin/sh");
}

namespace {

Outcome run_with_terminal(const Invocation& invocation, bool is_typed) {
  int master = no_descriptor;
  int slave = no_descriptor;
  winsize size{.ws_row = 24, .ws_col = 80, .ws_xpixel = 0, .ws_ypixel = 0};
  if (::openpty(&master, &slave, nullptr, nullptr, &size) != 0) {
    throw std::runtime_error("no pseudo-terminal");
  }
  ::fcntl(master, F_SETFD, FD_CLOEXEC);
  if (is_typed) {
    termios looks{};
    ::tcgetattr(slave, &looks);
    looks.c_lflag &= ~static_cast<tcflag_t>(ECHO);
    ::tcsetattr(slave, TCSANOW, &looks);
    const auto length = static_cast<ssize_t>(invocation.input.size());
    if (::write(master, invocation.input.data(), invocation.input.size()) != length) {
      throw std::runtime_error("the terminal takes no more");
    }
  }
  const pid_t process =
      start(invocation, KAIROS_PROGRAM, slave, slave, is_typed ? slave : no_descriptor);
  ::close(slave);
  Outcome outcome;
  while (drain(master, outcome.out)) {
  }
  ::close(master);
  outcome.exit_code = wait_for(process);
  return outcome;
}

}  // namespace

Outcome run_on_terminal(const Invocation& invocation) {
  return run_with_terminal(invocation, false);
}

Outcome run_at_terminal(const Invocation& invocation) {
  return run_with_terminal(invocation, true);
}

Running::Running(const Invocation& invocation) {
  const std::string file = invocation.output_file.empty() ? "/dev/null" : invocation.output_file;
  const int out = ::open(file.c_str(), O_RDWR | O_CLOEXEC);
  const int nowhere = ::open("/dev/null", O_WRONLY | O_CLOEXEC);
  process_ = start(invocation, KAIROS_PROGRAM, out, nowhere);
  ::close(out);
  ::close(nowhere);
}

Running::~Running() {
  if (over_) return;
  send(SIGKILL);
  (void)wait();
}

void Running::send(int signal_number) const {
  ::kill(process_, signal_number);
}

bool Running::obeys(int signal_number) {
  send(signal_number);
  wait_until_it_sleeps();
  return is_over();
}

// A program that starts or ends may be asleep for a moment, too: many looks in a row find it so.
void Running::wait_until_it_sleeps() {
  constexpr int enough = 100;
  for (int looks = 0; looks < enough && !is_over(); looks = is_asleep() ? looks + 1 : 0) {
    ::usleep(1'000);
  }
}

unsigned long long Running::bytes_read() const {
  return std::strtoull(from_proc("io", "rchar:").c_str(), nullptr, 10);
}

bool Running::is_asleep() const {
  const auto pending = [this](const char* name) {
    return from_proc("status", name).find_first_not_of('0') != std::string::npos;
  };
  return from_proc("status", "State:") == "S" && !pending("SigPnd:") && !pending("ShdPnd:");
}

// The word behind the name; nothing when the program is over.
std::string Running::from_proc(const std::string& file, const std::string& name) const {
  std::ifstream lines("/proc/" + std::to_string(process_) + "/" + file);
  for (std::string word; lines >> word;) {
    if (word == name && lines >> word) return word;
  }
  return "";
}

bool Running::is_over() {
  int status = 0;
  if (!over_ && ::waitpid(process_, &status, WNOHANG) == process_) {
    over_ = true;
    exit_code_ = code_of(status);
  }
  return over_;
}

int Running::wait() {
  if (!over_) exit_code_ = wait_for(process_);
  over_ = true;
  return exit_code_;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    lines.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return lines;
}

}  // namespace kairos::test
