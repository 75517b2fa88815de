// Where bytes come from and go to, as two small interfaces.
//
// A ByteSource hands out bytes front to back in pieces of any size; a ByteSink takes them. Files,
// gzip streams, standard input, memory and (in tests) hostile piece sizes all look the same to the
// readers and writers. Not thread-safe; the caller owns source and sink for as long as they are
// used.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <string_view>

#include "kairos/base/result.hpp"

namespace kairos::base {

class ByteSource {
 public:
  virtual ~ByteSource() = default;
  // Fills at most `room` and returns how many bytes were written there; 0 means the end.
  virtual Result<std::size_t> read(std::span<char> room) = 0;
};

class ByteSink {
 public:
  virtual ~ByteSink() = default;
  virtual Status write(std::string_view bytes) = 0;
};

// Reads from text that outlives it, `piece` bytes at a time (the default: all at once).
class MemorySource final : public ByteSource {
 public:
  explicit MemorySource(std::string_view text, std::size_t piece = static_cast<std::size_t>(-1))
      : rest_(text), piece_(piece) {}
  Result<std::size_t> read(std::span<char> room) override;

 private:
  std::string_view rest_;
  std::size_t piece_;
};

// A source as far as it is read at most, for what may have no end: behind `most` bytes comes the
// fault.
class LimitedSource final : public ByteSource {
 public:
  LimitedSource(std::unique_ptr<ByteSource> source, std::uint64_t most, Fault beyond)
      : source_(std::move(source)), most_(most), beyond_(std::move(beyond)) {}
  Result<std::size_t> read(std::span<char> room) override;

 private:
  std::unique_ptr<ByteSource> source_;
  std::uint64_t most_, read_ = 0;
  Fault beyond_;
};

class StringSink final : public ByteSink {
 public:
  Status write(std::string_view bytes) override {
    text.append(bytes);
    return done();
  }
  std::string text;
};

}  // namespace kairos::base
