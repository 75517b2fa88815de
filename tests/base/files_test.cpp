// Files are whole or not there. The full disk is /dev/full and a limit on the size of files.
#include "kairos/base/files.hpp"

#include <catch2/catch.hpp>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "support/temporary_folder.hpp"

using namespace kairos::base;
using kairos::test::TemporaryFolder;

namespace fs = std::filesystem;

namespace {

// Runs `check` in a child process and tells whether it returned true.
template <typename Check>
bool holds_in_child(Check check) {
  const pid_t child = ::fork();
  if (child == 0) ::_exit(check() ? 0 : 1);
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

}  // namespace

TEST_CASE("a whole file takes its name at commit and not before") {
  const TemporaryFolder folder;
  const std::string path = folder / "report.txt";
  {
    auto file = WholeFile::open(path);
    REQUIRE(file.ok());
    REQUIRE(file->write("one\n").ok());
    REQUIRE(file->write(std::string(200'000, 'x')).ok());
    CHECK_FALSE(fs::exists(path));
    REQUIRE(file->commit().ok());
  }
  CHECK(read_file(path).value() == "one\n" + std::string(200'000, 'x'));
  CHECK(folder.names() == std::vector<std::string>{"report.txt"});
}

TEST_CASE("without commit nothing is left and the old file stays") {
  const TemporaryFolder folder;
  folder.write("report.txt", "old");
  {
    auto file = WholeFile::open(folder / "report.txt");
    REQUIRE(file.ok());
    REQUIRE(file->write(std::string(200'000, 'x')).ok());
  }
  CHECK(folder.names() == std::vector<std::string>{"report.txt"});
  CHECK(read_file(folder / "report.txt").value() == "old");
}

TEST_CASE("a shorter file leaves no tail of a longer one") {
  const TemporaryFolder folder;
  folder.write("a", "a long text that was there before");
  auto file = WholeFile::open(folder / "a");
  REQUIRE(file->write("short").ok());
  REQUIRE(file->commit().ok());
  CHECK(read_file(folder / "a").value() == "short");
}

TEST_CASE("a folder that cannot be written to is told when the file is opened") {
  const TemporaryFolder folder;
  CHECK(WholeFile::open(folder / "absent/report.txt").fault().code == Code::cannot_write);
  fs::create_directory(folder / "sub");
  CHECK(WholeFile::open(folder / "sub").fault().code == Code::is_a_directory);
  // As a user without rights: root may write anywhere.
  fs::permissions(folder / "sub", fs::perms::owner_read | fs::perms::owner_exec);
  const std::string path = folder / "sub/report.txt";
  fs::permissions(folder.path(), fs::perms::all);
  CHECK(holds_in_child([&path] {
    if (::geteuid() == 0 && ::setuid(65534) != 0) return false;
    const auto file = WholeFile::open(path);
    return !file.ok() && file.fault().code == Code::cannot_write &&
           file.fault().place.file == path && !file.fault().detail.empty();
  }));
  fs::permissions(folder / "sub", fs::perms::owner_all);
}

TEST_CASE("a full disk is told as such, leaves nothing behind and keeps the old file") {
  const TemporaryFolder folder;
  folder.write("report.txt", "old");
  // The temporary name leads to the device on which every write fails with "no space left".
  const std::string temporary = folder / ("report.txt." + std::to_string(::getpid()) + ".tmp");
  fs::create_symlink("/dev/full", temporary);
  auto file = WholeFile::open(folder / "report.txt");
  REQUIRE(file.ok());
  REQUIRE(file->write("new").ok());  // still in memory
  const auto committed = file->commit();
  REQUIRE_FALSE(committed.ok());
  CHECK(committed.fault().code == Code::disk_full);
  { const WholeFile spent = std::move(*file); }
  CHECK(folder.names() == std::vector<std::string>{"report.txt"});
  CHECK(read_file(folder / "report.txt").value() == "old");
}

TEST_CASE("a file that hits the size limit is told and left out") {
  const TemporaryFolder folder;
  const std::string path = folder / "report.txt";
  CHECK(holds_in_child([&path] {
    std::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{1 << 16, 1 << 16};
    if (::setrlimit(RLIMIT_FSIZE, &limit) != 0) return false;
    auto file = WholeFile::open(path);
    if (!file) return false;
    const auto written = file->write(std::string(1 << 20, 'x'));
    return !written.ok() && written.fault().code == Code::cannot_write;
  }));
  CHECK(folder.names().empty());
}

TEST_CASE("what cannot be read is told with its name") {
  const TemporaryFolder folder;
  const auto absent = open_source(folder / "absent");
  REQUIRE_FALSE(absent.ok());
  CHECK(absent.fault().code == Code::cannot_open);
  CHECK(absent.fault().place.file == folder / "absent");
  CHECK_FALSE(absent.fault().detail.empty());
  CHECK(open_source(folder.path()).fault().code == Code::is_a_directory);
  CHECK(read_file(folder / "absent").fault().code == Code::cannot_open);
}

TEST_CASE("a source gives a file's bytes in pieces of any size") {
  const TemporaryFolder folder;
  folder.write("a", "0123456789");
  for (const std::size_t room_size : {1u, 3u, 10u, 64u}) {
    auto source = open_source(folder / "a");
    REQUIRE(source.ok());
    std::string text, room(room_size, '\0');
    for (;;) {
      const auto n = (*source)->read(room);
      REQUIRE(n.ok());
      if (*n == 0) break;
      text.append(room, 0, *n);
    }
    CHECK(text == "0123456789");
  }
}

TEST_CASE("folders are made with those above them, and a file in the way is told") {
  const TemporaryFolder folder;
  CHECK(make_folder(folder / "a/b/c").ok());
  CHECK(fs::is_directory(folder / "a/b/c"));
  CHECK(make_folder(folder / "a/b/c").ok());
  folder.write("file", "");
  const auto made = make_folder(folder / "file");
  REQUIRE_FALSE(made.ok());
  CHECK(made.fault().code == Code::cannot_write);
}

TEST_CASE("a file that is read whole has a longest length, and one without end is refused") {
  const TemporaryFolder folder;
  folder.write("score", "short");
  fs::resize_file(folder / "score", longest_file);
  CHECK(read_file(folder / "score")->size() == longest_file);
  fs::resize_file(folder / "score", longest_file + 1);
  CHECK(read_file(folder / "score").fault().code == Code::file_too_long);
  CHECK(read_file("/dev/zero").fault().code == Code::file_too_long);
}
