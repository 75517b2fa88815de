#include "score_file.hpp"

#include <filesystem>
#include <unistd.h>

#include "kairos/base/files.hpp"

namespace kairos::cli {

namespace {

// Closed, and with that unlocked, at the end.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() { ::close(number_); }

 private:
  int number_;
};

// The bytes of a plain file; none of one that is not there.
base::Result<std::string> read_plain(const std::string& file) {
  namespace fs = std::filesystem;
  std::error_code ignored;
  const fs::file_type type = fs::status(file, ignored).type();
  if (type == fs::file_type::not_found) return std::string();
  const bool is_device = type == fs::file_type::fifo || type == fs::file_type::socket ||
                         type == fs::file_type::character || type == fs::file_type::block;
  if (is_device) {
    return base::Fault{base::Code::not_a_score_file, "it is no plain file", {.file = file}};
  }
  return base::read_file(file);
}

// Reads, changes and replaces a file that nobody else changes meanwhile.
template <typename Scores, typename Change>
base::Result<Scores> update(const std::string& file,
                            base::Result<Scores> (*read)(const std::string& file),
                            const Change& change) {
  const auto locked = base::open_locked(file, base::IfLocked::wait);
  if (!locked) return locked.faults();
  const Descriptor until_written(**locked);
  auto scores = read(file);
  if (!scores) return scores;
  change(*scores);
  if (const auto written = base::write_whole_file(file, audience::to_text(*scores)); !written) {
    return written.faults();
  }
  return scores;
}

}  // namespace

base::Result<audience::QuizScores> read_scores(const std::string& file) {
  const auto bytes = read_plain(file);
  if (!bytes) return bytes.faults();
  return audience::parse_scores(*bytes, file);
}

base::Status add_answer(const std::string& file, const puzzle::Exercise& exercise, bool right,
                        audience::Day today) {
  const auto written = update(file, read_scores, [&](audience::QuizScores& scores) {
    audience::QuizScore& score = scores[audience::position_of(exercise)];
    score.id = exercise.id;
    audience::grade(score, right, today);
  });
  if (!written) return written.faults();
  return base::done();
}

base::Result<audience::Evening> read_evening(const std::string& file) {
  const auto bytes = read_plain(file);
  if (!bytes) return bytes.faults();
  return audience::parse_evening(*bytes, file);
}

base::Result<audience::Evening> add_question(const std::string& file,
                                             const puzzle::Exercise& exercise,
                                             const std::vector<audience::Solver>& solvers) {
  return update(file, read_evening, [&](audience::Evening& evening) {
    audience::add(evening, {audience::position_of(exercise), exercise.id}, solvers);
  });
}

}  // namespace kairos::cli
