// Every writer against its golden file, byte for byte.
#include "support/golden.hpp"

#include <catch2/catch.hpp>

#include "kairos/report/formats.hpp"

#include "support/report_fakes.hpp"

using namespace kairos;

namespace {

void check_golden(const report::Collection& collection, const std::string& folder) {
  for (const report::Format& format : report::formats()) {
    base::StringSink sink;
    REQUIRE(format.write(collection, sink).ok());
    test::check_golden(folder, std::string(format.file_name), sink.text);
  }
}

}  // namespace

TEST_CASE("every format writes the approved bytes of four games") {
  check_golden(test::fake_collection(), "report");
}

TEST_CASE("every format writes the approved bytes of an empty run") {
  check_golden(test::empty_collection(), "report-empty");
}

TEST_CASE("the same collection gives the same bytes every time") {
  const test::FakeCollection collection = test::fake_collection();
  for (const report::Format& format : report::formats()) {
    base::StringSink first, second;
    REQUIRE(format.write(collection, first).ok());
    REQUIRE(format.write(test::fake_collection(), second).ok());
    CHECK(first.text == second.text);
  }
}

TEST_CASE("formats have different names and different files") {
  const auto list = report::formats();
  for (std::size_t i = 0; i < list.size(); ++i) {
    for (std::size_t k = i + 1; k < list.size(); ++k) {
      CHECK(list[i].name != list[k].name);
      CHECK(list[i].file_name != list[k].file_name);
    }
  }
}

namespace {

class FailingSink final : public base::ByteSink {
 public:
  explicit FailingSink(int writes_that_work) : left_(writes_that_work) {}
  base::Status write(std::string_view) override {
    if (left_-- > 0) return base::done();
    return base::Fault{base::Code::disk_full, "", {}};
  }

 private:
  int left_;
};

}  // namespace

TEST_CASE("a sink that fails at any write fails the writer, and no write is lost in silence") {
  const test::FakeCollection collection = test::fake_collection();
  for (const report::Format& format : report::formats()) {
    CAPTURE(std::string(format.name));
    int working = 0;
    while (working < 100) {
      FailingSink sink(working);
      const base::Status status = format.write(collection, sink);
      if (status.ok()) break;
      CHECK(status.fault().code == base::Code::disk_full);
      ++working;
    }
    CHECK(working >= 1);
    CHECK(working < 100);
  }
}
