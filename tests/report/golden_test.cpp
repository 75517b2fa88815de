// Every writer against its golden file, byte for byte. What was written lies afterwards under
// golden/report/ in the build folder; scripts/approve copies it over tests/golden/report/ when the
// difference is meant.
#include <catch2/catch.hpp>

#include "kairos/base/files.hpp"
#include "kairos/base/text.hpp"
#include "kairos/report/formats.hpp"

#include "support/report_fakes.hpp"

using namespace kairos;

namespace {

// The first line in which the two differ, for the message.
std::string first_difference(std::string_view wanted, std::string_view written) {
  const auto a = base::split(wanted, '\n'), b = base::split(written, '\n');
  for (std::size_t i = 0; i < std::max(a.size(), b.size()); ++i) {
    const std::string_view x = i < a.size() ? a[i] : "(end)", y = i < b.size() ? b[i] : "(end)";
    if (x == y) continue;
    return "line " + std::to_string(i + 1) + "\n- " + std::string(x) + "\n+ " + std::string(y);
  }
  return "";
}

void check_golden(const report::Collection& collection, const std::string& folder) {
  const std::string out = std::string(KAIROS_GOLDEN_OUT) + "/" + folder;
  REQUIRE(base::make_folder(out).ok());
  for (const report::Format& format : report::formats()) {
    CAPTURE(folder, std::string(format.file_name));
    base::StringSink sink;
    REQUIRE(format.write(collection, sink).ok());
    auto file = base::WholeFile::open(out + "/" + std::string(format.file_name));
    REQUIRE(file.ok());
    REQUIRE(file->write(sink.text).ok());
    REQUIRE(file->commit().ok());
    const auto golden = base::read_file(std::string(KAIROS_TEST_DIR) + "/golden/" + folder + "/" +
                                        std::string(format.file_name));
    CHECK(golden.ok());
    if (!golden.ok()) continue;
    INFO(first_difference(*golden, sink.text));
    CHECK(*golden == sink.text);
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
