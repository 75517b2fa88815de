// The ledger as a file of checked lines: what stands in them is ledger.cpp's.
//
// Opened to write, the file is locked, a torn tail is cut off, and lines damaged in the middle are
// left behind by writing the file anew. `append` writes a whole line or, when the disk is full,
// nothing. Not thread-safe, but for `read`, which may run beside everything else.
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <string>
#include <string_view>

#include "kairos/base/diagnostics.hpp"
#include "kairos/base/result.hpp"

namespace kairos::batch {

// Bytes of a line. The list of all games of the largest run and the study of the longest game stay
// below; what is longer is damage, passed over without being kept.
inline constexpr std::size_t longest_record = std::size_t{1} << 26;

// Where a record's payload lies in the file.
struct Extent {
  std::uint64_t offset = 0;
  std::uint64_t size = 0;

  [[nodiscard]] bool empty() const { return size == 0; }
};

class LedgerFile {
 public:
  using Take = std::function<void(std::string_view payload, Extent extent)>;
  enum class Mode { write, read };

  // Gives every good record to `take`, in order; again from the start, with new places, when the
  // file was written anew. Faults that do not stop it go to `diagnostics`.
  static base::Result<LedgerFile> open(const std::string& path, Mode mode,
                                       base::Diagnostics& diagnostics, const Take& take);
  LedgerFile(LedgerFile&& other) noexcept;
  LedgerFile& operator=(LedgerFile&& other) noexcept;
  ~LedgerFile();

  base::Result<Extent> append(std::string_view payload);
  [[nodiscard]] base::Result<std::string> read(Extent extent) const;
  // Everything written so far is on the disk.
  base::Status sync();
  // Cuts the file to `size` bytes, which must be the end of a line.
  base::Status truncate(std::uint64_t size);

  [[nodiscard]] std::uint64_t size() const { return end_; }
  [[nodiscard]] const std::string& path() const { return path_; }

 private:
  LedgerFile(int descriptor, std::string path) : descriptor_(descriptor), path_(std::move(path)) {}
  static base::Result<LedgerFile> open_locked(const std::string& path);
  [[nodiscard]] base::Status check_start() const;
  base::Result<bool> scan(base::Diagnostics& diagnostics, const Take& take);
  static base::Result<LedgerFile> write_anew(LedgerFile old);
  base::Status write_at_end(std::string_view line);

  int descriptor_ = -1;
  std::string path_;
  std::uint64_t end_ = 0;  // behind the last good line
  std::chrono::steady_clock::time_point synced_ = std::chrono::steady_clock::now();
};

}  // namespace kairos::batch
