// The ledger as a file of checked lines: what stands in them is ledger.cpp's.
//
// Opened to write, the file is locked. What is not wanted any more (a torn tail, damaged lines)
// goes with `cut_tail` or by writing the file anew. `append` writes a whole line or, when the disk
// is full, nothing. Not thread-safe, but for `read`, which may run beside everything else.
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

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
  std::uint64_t line = 0;  // from 1

  [[nodiscard]] bool empty() const { return size == 0; }
  friend bool operator==(const Extent&, const Extent&) = default;
};

class LedgerFile {
 public:
  // Says what is wrong with a record, if anything is.
  using Take = std::function<base::Status(std::string_view payload, Extent extent)>;
  enum class Mode { write, read };

  // Refuses what is no ledger. To write: made when there is none, and locked.
  static base::Result<LedgerFile> open(const std::string& path, Mode mode);
  LedgerFile(LedgerFile&& other) noexcept;
  LedgerFile& operator=(LedgerFile&& other) noexcept;
  ~LedgerFile();

  // Gives records with the right checksum to `is_it`, in order, until it says so.
  void find(const std::function<bool(std::string_view payload)>& is_it) const;
  // Gives every record with the right checksum to `take`, in order. Lines that are damaged or that
  // `take` refuses are told, and so is a torn tail. Returns whether there are such lines.
  base::Result<bool> scan(base::Diagnostics& diagnostics, const Take& take);
  // Behind the last whole line; begins the file when it is empty. After `scan`.
  base::Status cut_tail();
  // The file anew with these records alone, in this order, under the old name. They have other
  // places then: `scan` again.
  base::Status keep(const std::vector<Extent>& records);

  // Whether these records in this order are all of the file.
  [[nodiscard]] bool consists_of(const std::vector<Extent>& records) const;

  base::Result<Extent> append(std::string_view payload);
  [[nodiscard]] base::Result<std::string> read(Extent extent) const;
  // Everything written so far is on the disk.
  base::Status sync();
  // Cuts the file to `size` bytes, which must be the end of a line.
  base::Status truncate(std::uint64_t size);

  [[nodiscard]] std::uint64_t size() const { return end_; }
  [[nodiscard]] const std::string& path() const { return path_; }
  // A fault of the record there, named by file and line.
  [[nodiscard]] base::Fault damage(Extent extent, const base::Fault& what) const;

 private:
  LedgerFile(int descriptor, std::string path) : descriptor_(descriptor), path_(std::move(path)) {}
  static base::Result<LedgerFile> open_locked(const std::string& path);
  [[nodiscard]] base::Status check_start() const;
  base::Status write_at_end(std::string_view line);

  int descriptor_ = -1;
  std::string path_;
  std::uint64_t end_ = 0;    // behind the last whole line
  std::uint64_t lines_ = 0;  // up to there
  std::chrono::steady_clock::time_point synced_ = std::chrono::steady_clock::now();
};

}  // namespace kairos::batch
