#include "ledger_file.hpp"

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <fcntl.h>
#include <optional>
#include <sys/stat.h>
#include <unistd.h>
#include <utility>

#include "kairos/base/checksum.hpp"
#include "kairos/base/files.hpp"
#include "kairos/base/hexadecimal.hpp"
#include "kairos/base/lines.hpp"
#include "kairos/base/text.hpp"

namespace kairos::batch {

namespace {

constexpr std::string_view version_line = "kairos ledger 2\n";
constexpr std::string_view version_start = "kairos ledger ";
constexpr std::size_t crc_digits = 8;
constexpr std::size_t prefix_size = crc_digits + 1;
constexpr std::chrono::seconds sync_interval{5};

std::string line_of(std::string_view payload) {
  std::string line = base::to_hexadecimal(base::crc32(payload), crc_digits);
  line.reserve(prefix_size + payload.size() + 1);
  line += ' ';
  line += payload;
  return line += '\n';
}

// Without its line feed.
bool is_version(std::string_view line) {
  return line == version_line.substr(0, version_line.size() - 1);
}

// Some version, of kairos now or another.
bool names_a_version(std::string_view start) {
  if (!start.starts_with(version_start)) return false;
  const std::string_view line = start.substr(0, start.find('\n'));
  return line.find_first_not_of("0123456789", version_start.size()) == std::string_view::npos;
}

// Without its line feed.
bool is_good(std::string_view line) {
  if (line.size() < prefix_size || line[crc_digits] != ' ') return false;
  const auto crc = base::parse_hexadecimal(line.substr(0, crc_digits));
  return crc && *crc == base::crc32(line.substr(prefix_size));
}

bool is_whole(const base::TextLine& line) {
  return line.is_ended && !line.is_cut() && is_good(line.text);
}

// The file from its first byte on, apart from where it is written.
class LedgerBytes final : public base::ByteSource {
 public:
  LedgerBytes(int descriptor, const std::string& path) : descriptor_(descriptor), path_(path) {}

  base::Result<std::size_t> read(std::span<char> room) override {
    ssize_t n = 0;
    do {
      n = ::pread(descriptor_, room.data(), room.size(), offset_);
    } while (n < 0 && errno == EINTR);
    if (n < 0) return base::system_fault(base::Code::cannot_read, path_, errno);
    offset_ += n;
    return static_cast<std::size_t>(n);
  }

 private:
  int descriptor_;
  const std::string& path_;
  off_t offset_ = 0;
};

base::Fault fault_at(base::Code code, const std::string& path, std::uint64_t line,
                     std::string detail = "") {
  return {code, std::move(detail), {.file = path, .line = line, .column = 0, .game = 0}};
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
      lines_(other.lines_),
      synced_(other.synced_) {}

LedgerFile& LedgerFile::operator=(LedgerFile&& other) noexcept {
  std::swap(descriptor_, other.descriptor_);
  std::swap(path_, other.path_);
  std::swap(end_, other.end_);
  std::swap(lines_, other.lines_);
  std::swap(synced_, other.synced_);
  return *this;
}

LedgerFile::~LedgerFile() {
  if (descriptor_ >= 0) ::close(descriptor_);  // gives up the lock
}

base::Result<LedgerFile> LedgerFile::open_locked(const std::string& path) {
  const auto descriptor = base::open_locked(path, base::IfLocked::give_up);
  if (!descriptor) return descriptor.faults();
  if (!*descriptor) return fault_at(base::Code::ledger_in_use, path, 0);
  return LedgerFile(**descriptor, path);
}

base::Result<LedgerFile> LedgerFile::open(const std::string& path, Mode mode) {
  if (mode == Mode::write) {
    auto file = open_locked(path);
    if (!file) return file;
    if (auto ours = file->check_start(); !ours) return std::move(ours).faults();
    return file;
  }
  const int descriptor = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
  if (descriptor < 0) return base::system_fault(base::Code::cannot_open, path, errno);
  LedgerFile file(descriptor, path);
  if (auto ours = file.check_start(); !ours) return std::move(ours).faults();
  return file;
}

base::Status LedgerFile::cut_tail() {
  if (auto cut = truncate(end_); !cut) return cut;
  if (end_ != 0) return base::done();
  if (auto begun = write_at_end(version_line); !begun) return begun;
  lines_ = 1;
  sync_folder_of(path_);
  return base::done();
}

// The old file stays locked until the new one is.
base::Status LedgerFile::keep(const std::vector<Extent>& records) {
  auto whole = base::WholeFile::open(path_);
  if (!whole) return std::move(whole).faults();
  auto written = whole->write(version_line);
  for (const Extent& extent : records) {
    if (!written) return written;
    auto payload = read(extent);
    if (!payload) return std::move(payload).faults();
    written = whole->write(line_of(*payload));
  }
  if (written) written = whole->commit();
  if (!written) return written;
  auto anew = open_locked(path_);
  if (!anew) return std::move(anew).faults();
  *this = std::move(*anew);
  return base::done();
}

bool LedgerFile::consists_of(const std::vector<Extent>& records) const {
  std::uint64_t at = version_line.size();
  for (const Extent& extent : records) {
    if (extent.offset != at + prefix_size) return false;
    at = extent.offset + extent.size + 1;
  }
  return at == end_;
}

// The first bytes must be the version line, or the start of it where that is all there is. A ledger
// that was hurt there has good records near its start. Looked at first, so that a large file that
// is something else is not read in search of a line end.
base::Status LedgerFile::check_start() const {
  std::string room(std::size_t{1} << 16, '\0');
  const ssize_t n = ::pread(descriptor_, room.data(), room.size(), 0);
  if (n < 0) return base::system_fault(base::Code::cannot_read, path_, errno);
  const std::string_view start = std::string_view(room).substr(0, static_cast<std::size_t>(n));
  if (start.starts_with(version_line) || version_line.starts_with(start)) return base::done();
  const bool other_version = names_a_version(start);
  const auto lines = base::split(start, '\n');
  if (!other_version && std::any_of(lines.begin(), lines.end(), is_good)) return base::done();
  return fault_at(other_version ? base::Code::ledger_version : base::Code::not_a_ledger, path_, 1);
}

void LedgerFile::find(const std::function<bool(std::string_view payload)>& is_it) const {
  LedgerBytes bytes(descriptor_, path_);
  base::LineReader lines(bytes, longest_record);
  while (const auto line = lines.next()) {
    if (is_whole(*line) && is_it(line->text.substr(prefix_size))) return;
  }
}

base::Result<bool> LedgerFile::scan(base::Diagnostics& diagnostics, const Take& take) {
  LedgerBytes bytes(descriptor_, path_);
  base::LineReader lines(bytes, longest_record);
  bool damaged = false;
  end_ = lines_ = 0;
  while (const auto line = lines.next()) {
    if (!line->is_ended) {
      diagnostics.report(fault_at(base::Code::ledger_torn_tail, path_, line->number));
      break;
    }
    end_ = lines.bytes();
    lines_ = line->number;
    if (lines_ == 1 && is_version(line->text)) continue;
    // Where the version should stand, a good record is taken, and told all the same.
    if (!is_whole(*line) || lines_ == 1) {
      damaged = true;
      diagnostics.report(fault_at(base::Code::ledger_damaged, path_, lines_));
    }
    if (!is_whole(*line)) continue;
    const Extent extent{line->offset + prefix_size, line->size - prefix_size, lines_};
    if (auto taken = take(line->text.substr(prefix_size), extent); !taken) {
      damaged = true;
      diagnostics.report(damage(extent, taken.fault()));
    }
  }
  if (lines.failure()) return *lines.failure();
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
  const Extent extent{end_ + prefix_size, payload.size(), lines_ + 1};
  if (auto written = write_at_end(line_of(payload)); !written) return std::move(written).faults();
  ++lines_;
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

base::Fault LedgerFile::damage(Extent extent, const base::Fault& what) const {
  return fault_at(base::Code::ledger_damaged, path_, extent.line, what.detail);
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
