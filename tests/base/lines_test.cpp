// Lines of any length come whole or cut, at every size of the pieces they are read in, and no line
// is kept beyond what was asked for.
#include "kairos/base/lines.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <memory>

using namespace kairos::base;

namespace {

struct Seen {
  std::string text;
  std::uint64_t size, number, offset;
  bool is_ended;

  friend bool operator==(const Seen&, const Seen&) = default;
};

std::vector<Seen> lines_of(std::string_view bytes, std::size_t longest, std::size_t piece) {
  MemorySource source(bytes, piece);
  LineReader lines(source, longest);
  std::vector<Seen> seen;
  while (const auto line = lines.next()) {
    seen.push_back(
        {std::string(line->text), line->size, line->number, line->offset, line->is_ended});
    CHECK(line->is_cut() == (line->size > line->text.size()));
  }
  CHECK_FALSE(lines.failure());
  CHECK(lines.bytes() == bytes.size());
  return seen;
}

// Gives its bytes, then a fault.
class Failing final : public ByteSource {
 public:
  explicit Failing(std::string bytes) : bytes_(std::move(bytes)) {}
  Result<std::size_t> read(std::span<char> room) override {
    if (bytes_.empty()) return Fault{Code::cannot_read, "gone", {}};
    bytes_.copy(room.data(), bytes_.size());
    return std::exchange(bytes_, {}).size();
  }

 private:
  std::string bytes_;
};

}  // namespace

TEST_CASE("lines are the text between line feeds, in pieces of any size") {
  const std::string text = "one\n\ntwo \r\nlonger than it may be\nlast";
  const std::vector<Seen> expected = {{"one", 3, 1, 0, true},
                                      {"", 0, 2, 4, true},
                                      {"two \r", 5, 3, 5, true},
                                      {"longer than", 21, 4, 11, true},
                                      {"last", 4, 5, 33, false}};
  for (std::size_t piece = 1; piece <= text.size(); ++piece) {
    CAPTURE(piece);
    CHECK(lines_of(text, 11, piece) == expected);
  }
}

TEST_CASE("a line feed at the end begins no line, and no bytes are no line") {
  for (const std::size_t piece : {1U, 2U, 100U}) {
    CHECK(lines_of("", 10, piece).empty());
    CHECK(lines_of("\n", 10, piece).size() == 1);
    CHECK(lines_of("a\n", 10, piece).size() == 1);
  }
}

TEST_CASE("lines that cross the pieces of the reader come whole") {
  // Around the 65,536 bytes that are read at once.
  for (std::size_t length = 65'530; length < 65'545; ++length) {
    CAPTURE(length);
    const std::string line(length, 'x');
    const auto seen = lines_of(line + "\nnext\n" + line, length, 1 << 20);
    REQUIRE(seen.size() == 3);
    CHECK(seen[0].text == line);
    CHECK(seen[1].text == "next");
    CHECK(seen[2] == Seen{line, length, 3, length + 6, false});
  }
}

TEST_CASE("when the source fails there is no half a line, but the fault") {
  Failing source("whole\nhalf");
  LineReader lines(source, 100);
  const auto whole = lines.next();
  REQUIRE(whole);
  CHECK(whole->text == "whole");
  CHECK_FALSE(lines.next());
  REQUIRE(lines.failure());
  CHECK(lines.failure()->detail == "gone");
  CHECK_FALSE(lines.next());
}

TEST_CASE("what has no end is read as far as the limit, and then told") {
  class Endless final : public ByteSource {
   public:
    Result<std::size_t> read(std::span<char> room) override {
      std::fill(room.begin(), room.end(), 'x');
      return room.size();
    }
  };
  LimitedSource source(std::make_unique<Endless>(), 1'000'000, {Code::file_too_long, "", {}});
  LineReader lines(source, 10);
  CHECK_FALSE(lines.next());
  REQUIRE(lines.failure());
  CHECK(lines.failure()->code == Code::file_too_long);
  LimitedSource enough(std::make_unique<MemorySource>("one\ntwo"), 7,
                       {Code::file_too_long, "", {}});
  LineReader whole(enough, 10);
  CHECK(whole.next()->text == "one");
  CHECK(whole.next()->text == "two");
  CHECK_FALSE(whole.next());
  CHECK_FALSE(whole.failure());
}
