#include "kairos/base/files.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <sys/file.h>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>

namespace kairos::base {

namespace {

class FileSource final : public ByteSource {
 public:
  FileSource(int descriptor, std::string path) : descriptor_(descriptor), path_(std::move(path)) {}
  FileSource(const FileSource&) = delete;
  FileSource& operator=(const FileSource&) = delete;
  ~FileSource() override {
    if (descriptor_ != STDIN_FILENO) ::close(descriptor_);
  }

  Result<std::size_t> read(std::span<char> room) override {
    for (;;) {
      const ssize_t n = ::read(descriptor_, room.data(), room.size());
      if (n >= 0) return static_cast<std::size_t>(n);
      if (errno != EINTR) return system_fault(Code::cannot_read, path_, errno);
    }
  }

 private:
  int descriptor_;
  std::string path_;
};

bool is_same_file(int descriptor, const std::string& path) {
  struct stat held {};
  struct stat named {};
  return ::fstat(descriptor, &held) == 0 && ::stat(path.c_str(), &named) == 0 &&
         held.st_ino == named.st_ino && held.st_dev == named.st_dev;
}

}  // namespace

Fault system_fault(Code code, const std::string& path, int error) {
  if (error == ENOSPC || error == EDQUOT) code = Code::disk_full;
  return {code, std::generic_category().message(error), {.file = path}};
}

Result<std::unique_ptr<ByteSource>> open_source(const std::string& path) {
  if (path == "-")
    return std::unique_ptr<ByteSource>(new FileSource(STDIN_FILENO, "standard input"));
  const int descriptor = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
  if (descriptor < 0) return system_fault(Code::cannot_open, path, errno);
  auto source = std::make_unique<FileSource>(descriptor, path);
  struct stat status {};
  if (::fstat(descriptor, &status) == 0 && S_ISDIR(status.st_mode)) {
    return Fault{Code::is_a_directory, "", {.file = path}};
  }
  return std::unique_ptr<ByteSource>(std::move(source));
}

Result<std::string> read_file(const std::string& path) {
  auto source = open_source(path);
  if (!source) return std::move(source).faults();
  std::string text;
  std::array<char, 1 << 16> room;
  for (;;) {
    auto n = (*source)->read(room);
    if (!n) return std::move(n).faults();
    if (*n == 0) return text;
    if (text.size() + *n > longest_file) return Fault{Code::file_too_long, "", {.file = path}};
    text.append(room.data(), *n);
  }
}

WholeFile::WholeFile(int descriptor, std::string path, std::string temporary)
    : descriptor_(descriptor), path_(std::move(path)), temporary_(std::move(temporary)) {}

WholeFile::WholeFile(WholeFile&& other) noexcept
    : descriptor_(std::exchange(other.descriptor_, -1)),
      path_(std::move(other.path_)),
      temporary_(std::move(other.temporary_)),
      pending_(std::move(other.pending_)) {}

WholeFile::~WholeFile() {
  if (descriptor_ < 0) return;
  ::close(descriptor_);
  ::unlink(temporary_.c_str());
}

Result<WholeFile> WholeFile::open(const std::string& path) {
  std::error_code ignored;
  if (std::filesystem::is_directory(path, ignored)) {
    return Fault{Code::is_a_directory, "", {.file = path}};
  }
  std::string temporary = path + "." + std::to_string(::getpid()) + ".tmp";
  const int descriptor = ::open(temporary.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
  if (descriptor < 0) return system_fault(Code::cannot_write, path, errno);
  return WholeFile(descriptor, path, std::move(temporary));
}

Status WholeFile::flush() {
  std::string_view rest = pending_;
  while (!rest.empty()) {
    const ssize_t n = ::write(descriptor_, rest.data(), rest.size());
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return system_fault(Code::cannot_write, path_, errno);
    rest.remove_prefix(static_cast<std::size_t>(n));
  }
  pending_.clear();
  return done();
}

Status WholeFile::write(std::string_view bytes) {
  constexpr std::size_t enough = 1 << 16;
  while (!bytes.empty()) {
    pending_.append(bytes.substr(0, enough));
    bytes.remove_prefix(std::min(enough, bytes.size()));
    if (pending_.size() < enough) break;
    if (auto flushed = flush(); !flushed) return flushed;
  }
  return done();
}

Status WholeFile::commit() {
  if (auto flushed = flush(); !flushed) return flushed;
  const bool on_disk = ::fsync(descriptor_) == 0 || errno == EINVAL;  // EINVAL: not a disk file
  int error = on_disk ? 0 : errno;
  if (::close(std::exchange(descriptor_, -1)) != 0 && error == 0) error = errno;
  if (error == 0 && std::rename(temporary_.c_str(), path_.c_str()) != 0) error = errno;
  if (error == 0) return done();
  ::unlink(temporary_.c_str());
  return system_fault(Code::cannot_write, path_, error);
}

Status write_whole_file(const std::string& path, std::string_view bytes) {
  auto file = WholeFile::open(path);
  if (!file) return std::move(file).faults();
  if (Status written = file->write(bytes); !written) return written;
  return file->commit();
}

Result<std::optional<int>> open_locked(const std::string& path, IfLocked if_locked) {
  const int how = LOCK_EX | (if_locked == IfLocked::give_up ? LOCK_NB : 0);
  for (;;) {
    const int descriptor = ::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0666);
    if (descriptor < 0) return system_fault(Code::cannot_write, path, errno);
    int error = 0;
    while ((error = ::flock(descriptor, how) == 0 ? 0 : errno) == EINTR) {
    }
    if (error == 0 && is_same_file(descriptor, path)) return std::optional(descriptor);
    ::close(descriptor);
    if (error == EWOULDBLOCK) return std::optional<int>();
    if (error != 0) return system_fault(Code::cannot_write, path, error);
  }
}

Status make_folder(const std::string& path) {
  std::error_code error;
  std::filesystem::create_directories(path, error);
  if (error) return system_fault(Code::cannot_write, path, error.value());
  if (!std::filesystem::is_directory(path, error)) {
    return Fault{Code::cannot_write, "a file of that name is in the way", {.file = path}};
  }
  return done();
}

}  // namespace kairos::base
