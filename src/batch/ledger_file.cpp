#include "ledger_file.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdio>
#include <fcntl.h>
#include <optional>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>
#include <utility>

#include "kairos/base/checksum.hpp"
#include "kairos/base/files.hpp"
#include "kairos/base/text.hpp"

#include "hexadecimal.hpp"

namespace kairos::batch {

namespace {

constexpr std::string_view version_line = "kairos ledger 2\n";
constexpr std::string_view version_start = "kairos ledger ";
constexpr std::size_t crc_digits = 8;
constexpr std::size_t prefix_size = crc_digits + 1;
constexpr std::chrono::seconds sync_interval{5};

std::string line_of(std::string_view payload) {
  std::string line = to_hexadecimal(base::crc32(payload), crc_digits);
  line.reserve(prefix_size + payload.size() + 1);
  line += ' ';
  line += payload;
  return line += '\n';
}

// Without its line feed.
bool is_good(std::string_view line) {
  if (line.size() < prefix_size || line[crc_digits] != ' ') return false;
  const auto crc = parse_hexadecimal(line.substr(0, crc_digits));
  return crc && *crc == base::crc32(line.substr(prefix_size));
}

// The file in pieces, handed out line by line. `rest` is what follows the last line feed.
class Lines {
 public:
  explicit Lines(int descriptor) : descriptor_(descriptor) {}

  // The next line without its line feed, or nothing at the end. Negative errno on failure.
  std::optional<std::string_view> next() {
    for (;;) {
      const auto feed = buffer_.find('\n', std::max(begin_, searched_));
      if (feed != std::string::npos) {
        const std::string_view line(buffer_.data() + begin_, feed - begin_);
        offset_ = read_ - buffer_.size() + begin_;
        begin_ = searched_ = feed + 1;
        return line;
      }
      searched_ = buffer_.size();
      if (!fill()) return std::nullopt;
    }
  }
  [[nodiscard]] std::uint64_t offset() const { return offset_; }  // of the line given last
  [[nodiscard]] std::string_view rest() const { return std::string_view(buffer_).substr(begin_); }
  [[nodiscard]] int error() const { return error_; }

 private:
  bool fill() {
    constexpr std::size_t piece = std::size_t{1} << 18;
    buffer_.erase(0, begin_);
    searched_ -= begin_;
    begin_ = 0;
    const std::size_t old = buffer_.size();
    buffer_.resize(old + piece);
    ssize_t n = 0;
    do {
      n = ::pread(descriptor_, buffer_.data() + old, piece, static_cast<off_t>(read_));
    } while (n < 0 && errno == EINTR);
    if (n < 0) error_ = errno;
    buffer_.resize(old + static_cast<std::size_t>(std::max<ssize_t>(n, 0)));
    read_ += static_cast<std::uint64_t>(std::max<ssize_t>(n, 0));
    return n > 0;
  }

  int descriptor_;
  std::string buffer_;
  std::size_t begin_ = 0;     // of the next line in the buffer
  std::size_t searched_ = 0;  // no line feed before
  std::uint64_t read_ = 0;    // bytes taken from the file
  std::uint64_t offset_ = 0;
  int error_ = 0;
};

base::Fault fault_at(base::Code code, const std::string& path, std::uint64_t line,
                     std::string detail = "") {
  return {code, std::move(detail), {.file = path, .line = line, .column = 0, .game = 0}};
}

bool is_same_file(int descriptor, const std::string& path) {
  struct stat held {};
  struct stat named {};
  return ::fstat(descriptor, &held) == 0 && ::stat(path.c_str(), &named) == 0 &&
         held.st_ino == named.st_ino && held.st_dev == named.st_dev;
}

// So that a new name in the folder outlives a power cut; folders that cannot be synced are left.
void sync_folder_of(const std::string& path) {
  const auto slash = path.rfind('/');
  const std::string folder = slash == std::string::npos ? "." : path.substr(0, slash + 1);
  const int descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor < 0) return;
  (void)::fsync(descriptor);
  ::close(descriptor);
}

}  // namespace

LedgerFile::LedgerFile(LedgerFile&& other) noexcept
    : descriptor_(std::exchange(other.descriptor_, -1)),
      path_(std::move(other.path_)),
      end_(other.end_),
      synced_(other.synced_) {}

LedgerFile& LedgerFile::operator=(LedgerFile&& other) noexcept {
  std::swap(descriptor_, other.descriptor_);
  std::swap(path_, other.path_);
  std::swap(end_, other.end_);
  std::swap(synced_, other.synced_);
  return *this;
}

LedgerFile::~LedgerFile() {
  if (descriptor_ >= 0) ::close(descriptor_);  // gives up the lock
}

// The lock belongs to the file behind the name: when another process has replaced it between
// opening and locking, try again with the new one.
base::Result<LedgerFile> LedgerFile::open_locked(const std::string& path) {
  for (;;) {
    const int descriptor = ::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0666);
    if (descriptor < 0) return base::system_fault(base::Code::cannot_write, path, errno);
    LedgerFile file(descriptor, path);
    if (::flock(descriptor, LOCK_EX | LOCK_NB) != 0) {
      if (errno == EWOULDBLOCK) return fault_at(base::Code::ledger_in_use, path, 0);
      return base::system_fault(base::Code::cannot_write, path, errno);
    }
    if (is_same_file(descriptor, path)) return file;
  }
}

base::Result<LedgerFile> LedgerFile::open(const std::string& path, Mode mode,
                                          base::Diagnostics& diagnostics, const Take& take) {
  if (mode == Mode::read) {
    const int descriptor = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
    if (descriptor < 0) return base::system_fault(base::Code::cannot_open, path, errno);
    LedgerFile file(descriptor, path);
    auto damaged = file.scan(diagnostics, take);
    if (!damaged) return std::move(damaged).faults();
    return file;
  }
  auto file = open_locked(path);
  if (!file) return file;
  auto damaged = file->scan(diagnostics, take);
  if (!damaged) return std::move(damaged).faults();
  if (*damaged) {
    file = write_anew(std::move(*file));
    if (!file) return file;
    base::FaultList told_already;
    damaged = file->scan(told_already, take);
    if (!damaged) return std::move(damaged).faults();
  }
  if (auto cut = file->truncate(file->end_); !cut) return std::move(cut).faults();
  if (file->end_ != 0) return file;
  if (auto begun = file->write_at_end(version_line); !begun) return std::move(begun).faults();
  sync_folder_of(path);
  return file;
}

// The good lines in a new file under the old name. The old one stays locked until the new one is.
base::Result<LedgerFile> LedgerFile::write_anew(LedgerFile old) {
  auto whole = base::WholeFile::open(old.path_);
  if (!whole) return std::move(whole).faults();
  auto written = whole->write(version_line);
  Lines lines(old.descriptor_);
  while (const auto line = lines.next()) {
    if (!written) return std::move(written).faults();
    if (is_good(*line)) written = whole->write(std::string(*line) + '\n');
  }
  if (written) written = whole->commit();
  if (!written) return std::move(written).faults();
  return open_locked(old.path_);
}

// The first bytes must be the version line, or the start of it where that is all there is. Looked
// at first, so that a large file that is something else is not read in search of a line end.
base::Status LedgerFile::check_start() const {
  std::array<char, version_line.size()> room;
  const ssize_t n = ::pread(descriptor_, room.data(), room.size(), 0);
  if (n < 0) return base::system_fault(base::Code::cannot_read, path_, errno);
  const std::string_view start(room.data(), static_cast<std::size_t>(n));
  if (version_line.starts_with(start)) return base::done();
  const bool other_version = start.starts_with(version_start);
  return fault_at(other_version ? base::Code::ledger_version : base::Code::not_a_ledger, path_, 1);
}

// Returns whether lines in the middle were damaged.
base::Result<bool> LedgerFile::scan(base::Diagnostics& diagnostics, const Take& take) {
  if (auto ours = check_start(); !ours) return std::move(ours).faults();
  Lines lines(descriptor_);
  bool damaged = false;
  std::uint64_t number = 0;
  while (const auto line = lines.next()) {
    ++number;
    if (number > 1 && is_good(*line)) {
      take(line->substr(prefix_size), {lines.offset() + prefix_size, line->size() - prefix_size});
    } else if (number > 1) {
      damaged = true;
      diagnostics.report(fault_at(base::Code::ledger_damaged, path_, number));
    }
    end_ = lines.offset() + line->size() + 1;
  }
  if (lines.error() != 0) {
    return base::system_fault(base::Code::cannot_read, path_, lines.error());
  }
  const std::string_view rest = lines.rest();
  if (!rest.empty()) diagnostics.report(fault_at(base::Code::ledger_torn_tail, path_, number + 1));
  return damaged;
}

base::Status LedgerFile::write_at_end(std::string_view line) {
  std::uint64_t at = end_;
  while (!line.empty()) {
    const ssize_t n = ::pwrite(descriptor_, line.data(), line.size(), static_cast<off_t>(at));
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) {
      auto fault = base::system_fault(base::Code::cannot_write, path_, errno);
      (void)::ftruncate(descriptor_, static_cast<off_t>(end_));  // no half a line
      return fault;
    }
    line.remove_prefix(static_cast<std::size_t>(n));
    at += static_cast<std::uint64_t>(n);
  }
  end_ = at;
  return base::done();
}

base::Result<Extent> LedgerFile::append(std::string_view payload) {
  const Extent extent{end_ + prefix_size, payload.size()};
  if (auto written = write_at_end(line_of(payload)); !written) return std::move(written).faults();
  if (std::chrono::steady_clock::now() - synced_ >= sync_interval) {
    if (auto synced = sync(); !synced) return std::move(synced).faults();
  }
  return extent;
}

base::Result<std::string> LedgerFile::read(Extent extent) const {
  std::string payload(extent.size, '\0');
  std::size_t got = 0;
  while (got < payload.size()) {
    const ssize_t n = ::pread(descriptor_, payload.data() + got, payload.size() - got,
                              static_cast<off_t>(extent.offset + got));
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return base::system_fault(base::Code::cannot_read, path_, errno);
    if (n == 0) return fault_at(base::Code::ledger_damaged, path_, 0, "it became shorter");
    got += static_cast<std::size_t>(n);
  }
  return payload;
}

base::Status LedgerFile::sync() {
  synced_ = std::chrono::steady_clock::now();
  if (::fdatasync(descriptor_) == 0 || errno == EINVAL || errno == EROFS) return base::done();
  return base::system_fault(base::Code::cannot_write, path_, errno);  // EINVAL: not a disk file
}

base::Status LedgerFile::truncate(std::uint64_t size) {
  struct stat status {};
  const bool fits =
      ::fstat(descriptor_, &status) == 0 && static_cast<std::uint64_t>(status.st_size) == size;
  if (!fits && ::ftruncate(descriptor_, static_cast<off_t>(size)) != 0 && errno != EINVAL) {
    return base::system_fault(base::Code::cannot_write, path_, errno);
  }
  end_ = size;
  return base::done();
}

}  // namespace kairos::batch
