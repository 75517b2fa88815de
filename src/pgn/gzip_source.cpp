// Games from plain or gzip files (RFC 1952), told apart by the first two bytes.
//
// A gzip file may be several members end to end, as concatenation makes them; zero bytes behind the
// last are padding. A stream that breaks off or does not fit its checksum gives out all that came
// before and then its fault. The one place that knows zlib, but for the packing of
// pictures (src/report/picture/png.cpp).
#include "kairos/pgn/gzip_source.hpp"

#include <algorithm>
#include <cstring>
#include <vector>
#include <zlib.h>

#include "kairos/base/files.hpp"
#include "kairos/pgn/reader.hpp"

namespace kairos::pgn {

namespace {

constexpr std::size_t packed_room = 1 << 16;

// Bytes read ahead, then the source itself.
class Unread final : public base::ByteSource {
 public:
  Unread(std::string front, std::unique_ptr<base::ByteSource> rest)
      : front_(std::move(front)), rest_(std::move(rest)) {}

  base::Result<std::size_t> read(std::span<char> room) override {
    if (taken_ == front_.size()) return rest_->read(room);
    const std::size_t n = std::min(room.size(), front_.size() - taken_);
    std::memcpy(room.data(), front_.data() + taken_, n);
    taken_ += n;
    return n;
  }

 private:
  std::string front_;
  std::size_t taken_ = 0;
  std::unique_ptr<base::ByteSource> rest_;
};

class GzipSource final : public base::ByteSource {
 public:
  GzipSource(std::unique_ptr<base::ByteSource> packed, std::string name)
      : packed_(std::move(packed)), name_(std::move(name)), input_(packed_room) {
    constexpr int gzip_only = 16;
    ready_ = ::inflateInit2(&stream_, MAX_WBITS + gzip_only) == Z_OK;
  }
  GzipSource(const GzipSource&) = delete;
  GzipSource& operator=(const GzipSource&) = delete;
  ~GzipSource() override { ::inflateEnd(&stream_); }

  base::Result<std::size_t> read(std::span<char> room) override;

 private:
  // False when the packed bytes are at their end; a fault of theirs goes to `fault_`.
  bool refill();
  bool next_member();
  void stop(base::Code code, std::string detail) {
    done_ = true;
    fault_ = base::Fault{code, std::move(detail), {.file = name_}};
  }

  std::unique_ptr<base::ByteSource> packed_;
  std::string name_;
  std::vector<char> input_;
  z_stream stream_{};
  bool ready_ = false;
  bool between_members_ = false;
  bool done_ = false;
  std::optional<base::Fault> fault_;
};

bool GzipSource::refill() {
  auto n = packed_->read(input_);
  if (!n) stop(n.fault().code, n.fault().detail);
  if (!n || *n == 0) return false;
  stream_.next_in = reinterpret_cast<Bytef*>(input_.data());
  stream_.avail_in = static_cast<uInt>(*n);
  return true;
}

// Behind a member: whether another begins.
bool GzipSource::next_member() {
  for (;;) {
    if (stream_.avail_in == 0 && !refill()) return false;
    if (*stream_.next_in != 0) break;
    ++stream_.next_in;
    --stream_.avail_in;
  }
  between_members_ = false;
  ::inflateReset(&stream_);
  return true;
}

base::Result<std::size_t> GzipSource::read(std::span<char> room) {
  if (!ready_) stop(base::Code::cannot_read, "no memory to unpack");
  stream_.next_out = reinterpret_cast<Bytef*>(room.data());
  stream_.avail_out = static_cast<uInt>(std::min<std::size_t>(room.size(), 1U << 30));
  const uInt asked = stream_.avail_out;
  while (!done_ && stream_.avail_out == asked) {
    if (between_members_) {
      done_ = !next_member();
      continue;
    }
    if (stream_.avail_in == 0 && !refill()) {
      if (!done_) stop(base::Code::gzip_truncated, {});
      continue;
    }
    const int state = ::inflate(&stream_, Z_NO_FLUSH);
    if (state == Z_STREAM_END) {
      between_members_ = true;
    } else if (state != Z_OK && state != Z_BUF_ERROR) {
      stop(base::Code::gzip_damaged, stream_.msg == nullptr ? "" : stream_.msg);
    }
  }
  const std::size_t given = asked - stream_.avail_out;
  if (given == 0 && fault_) return *fault_;
  return given;
}

}  // namespace

base::Result<std::unique_ptr<base::ByteSource>> unpacked(std::unique_ptr<base::ByteSource> source,
                                                         const std::string& name) {
  std::string front(2, '\0');
  std::size_t size = 0;
  while (size < front.size()) {
    auto n = source->read({front.data() + size, front.size() - size});
    if (!n) return std::move(n).faults();
    if (*n == 0) break;
    size += *n;
  }
  front.resize(size);
  const bool packed = front == "\x1F\x8B";
  std::unique_ptr<base::ByteSource> all =
      std::make_unique<Unread>(std::move(front), std::move(source));
  if (packed) all = std::make_unique<GzipSource>(std::move(all), name);
  return all;
}

base::Result<std::unique_ptr<base::ByteSource>> open_games(const std::string& path) {
  auto source = base::open_source(path);
  if (!source) return std::move(source).faults();
  return unpacked(std::move(source).value(), path == "-" ? "standard input" : path);
}

}  // namespace kairos::pgn
