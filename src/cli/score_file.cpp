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

}  // namespace

base::Result<audience::QuizScores> read_scores(const std::string& file) {
  namespace fs = std::filesystem;
  std::error_code ignored;
  const fs::file_type type = fs::status(file, ignored).type();
  if (type == fs::file_type::not_found) return audience::QuizScores{};
  const bool is_device = type == fs::file_type::fifo || type == fs::file_type::socket ||
                         type == fs::file_type::character || type == fs::file_type::block;
  if (is_device) {
    return base::Fault{base::Code::not_a_score_file, "it is no plain file", {.file = file}};
  }
  const auto bytes = base::read_file(file);
  if (!bytes) return bytes.faults();
  return audience::parse_scores(*bytes, file);
}

base::Status add_answer(const std::string& file, const puzzle::Exercise& exercise, bool right,
                        audience::Day today) {
  const auto locked = base::open_locked(file, base::IfLocked::wait);
  if (!locked) return locked.faults();
  const Descriptor until_written(**locked);
  auto scores = read_scores(file);
  if (!scores) return std::move(scores).faults();
  audience::QuizScore& score = (*scores)[audience::position_of(exercise)];
  score.id = exercise.id;
  audience::grade(score, right, today);
  return base::write_whole_file(file, audience::to_text(*scores));
}

}  // namespace kairos::cli
