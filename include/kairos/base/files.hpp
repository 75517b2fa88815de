// Files: reading as a ByteSource, and whole-file writing that never leaves half a file.
//
// A WholeFile is opened before the work starts (so an unwritable folder is told at once), written
// to a temporary name beside the target, and renamed over it by `commit`; without `commit` nothing
// of it remains. POSIX only. Errors are Faults with the file's name and the system's reason.
#pragma once

#include <memory>
#include <optional>
#include <string>

#include "kairos/base/bytes.hpp"
#include "kairos/base/result.hpp"

namespace kairos::base {

// Opens a file for reading; "-" is standard input. A directory is refused by name.
Result<std::unique_ptr<ByteSource>> open_source(const std::string& path);

// All bytes of a file that is read as one: a score, a report. What never ends is no such file, so
// more than `longest_file` bytes are a fault (file_too_long).
inline constexpr std::size_t longest_file = std::size_t{1} << 26;
Result<std::string> read_file(const std::string& path);

class WholeFile final : public ByteSink {
 public:
  static Result<WholeFile> open(const std::string& path);
  WholeFile(WholeFile&& other) noexcept;
  WholeFile& operator=(WholeFile&&) = delete;
  ~WholeFile() override;

  Status write(std::string_view bytes) override;
  // Flushes to the disk and takes the target's name; the object is spent afterwards.
  Status commit();

 private:
  WholeFile(int descriptor, std::string path, std::string temporary);
  Status flush();

  int descriptor_;
  std::string path_;
  std::string temporary_;
  std::string pending_;
};

// The file with these bytes: all of them or the file that was there.
Status write_whole_file(const std::string& path, std::string_view bytes);

// Opens the file to read and write, made where there is none, and locks it against other processes
// until the descriptor is closed. The lock is one of the file that has the name, also when another
// process has put a new one in its place meanwhile. Nothing: another process has it locked and is
// not to be waited for.
enum class IfLocked { wait, give_up };
Result<std::optional<int>> open_locked(const std::string& path, IfLocked if_locked);

// Creates the folder and those above it; done when it is there already.
Status make_folder(const std::string& path);

// The system's reason for `error` (an errno value) as a fault on `path`.
Fault system_fault(Code code, const std::string& path, int error);

}  // namespace kairos::base
