// Reports are written as they are made: however many games there are, the writers keep no text of
// them.
#include <catch2/catch.hpp>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "kairos/report/formats.hpp"

using namespace kairos;

namespace {

// As many games as a scan takes (batch/intake.hpp), of players of their own whose names grow
// sixfold in HTML.
class ManyGames final : public report::Collection {
 public:
  [[nodiscard]] const report::RunFacts& facts() const override { return facts_; }
  [[nodiscard]] std::size_t size() const override { return 50'000; }
  [[nodiscard]] study::Study load(std::size_t index) const override {
    study::Study study;
    study.notes.resize(1);
    study.facts.number = index + 1;
    study.facts.white = name_of(2 * index);
    study.facts.black = name_of(2 * index + 1);
    study.facts.result = "*";
    study.moments.emplace_back().kind = study::Kind::ended_early;
    return study;
  }
  [[nodiscard]] pgn::Game game(std::size_t) const override { return pgn::empty_game(); }
  [[nodiscard]] const std::vector<puzzle::Puzzle>& puzzles() const override { return puzzles_; }
  [[nodiscard]] const std::vector<puzzle::Puzzle>& why_nots() const override { return why_nots_; }

 private:
  static std::string name_of(std::size_t number) {
    std::string name = std::to_string(number);
    return name + std::string(study::longest_fact - name.size(), '"');
  }

  report::RunFacts facts_;
  std::vector<puzzle::Puzzle> puzzles_, why_nots_;
};

class Nowhere final : public base::ByteSink {
 public:
  base::Status write(std::string_view) override { return base::done(); }
};

// The most memory that a process writing it had at once.
long peak_kilobytes(const report::Format& format) {
  const pid_t child = ::fork();
  if (child == 0) {
    Nowhere nowhere;
    ::_exit(format.write(ManyGames(), nowhere) ? 0 : 1);
  }
  int status = 0;
  rusage usage{};
  ::wait4(child, &status, 0, &usage);
  CHECK(WIFEXITED(status));
  CHECK(WEXITSTATUS(status) == 0);
  return usage.ru_maxrss;
}

}  // namespace

TEST_CASE("every report of as many games as a scan takes needs little memory", "[memory]") {
  for (const report::Format& format : report::formats()) {
    INFO(format.file_name);
    const long peak = peak_kilobytes(format);
    CHECK(peak > 1'000);
    CHECK(peak < 200'000);
  }
}
