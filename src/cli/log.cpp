#include "log.hpp"

#include <algorithm>
#include <cerrno>
#include <fcntl.h>
#include <filesystem>
#include <memory>
#include <mutex>
#include <spdlog/pattern_formatter.h>
#include <spdlog/sinks/base_sink.h>
#include <spdlog/spdlog.h>
#include <unistd.h>

#include "kairos/base/files.hpp"
#include "kairos/base/foreign.hpp"
#include "kairos/base/text.hpp"

#include "terminal.hpp"

namespace kairos::cli {

namespace {

// What stands before a message of this level.
std::string prefix_of(spdlog::level::level_enum level, bool colors) {
  const auto word = [&](std::string_view text, std::string_view color) {
    return colors ? std::string(color).append(text).append("\x1b[0m ") : std::string(text) + " ";
  };
  if (level == spdlog::level::err) return word("error:", "\x1b[31m");
  if (level == spdlog::level::warn) return word("warning:", "\x1b[33m");
  return "";
}

// Writes through ErrorStream, so that messages and the progress line do not mix.
class ErrorStreamSink final : public spdlog::sinks::base_sink<std::mutex> {
 protected:
  void sink_it_(const spdlog::details::log_msg& message) override {
    std::string text = prefix_of(message.level, ErrorStream::get().looks().colors);
    text.append(message.payload.data(), message.payload.size());
    ErrorStream::get().line(text);
  }
  void flush_() override {}
};

// `%*` of a log file's pattern.
class PrefixFlag final : public spdlog::custom_flag_formatter {
 public:
  void format(const spdlog::details::log_msg& message, const std::tm&,
              spdlog::memory_buf_t& text) override {
    const std::string prefix = prefix_of(message.level, false);
    text.append(prefix.data(), prefix.data() + prefix.size());
  }
  [[nodiscard]] std::unique_ptr<custom_flag_formatter> clone() const override {
    return std::make_unique<PrefixFlag>();
  }
};

// The log file, written behind what it holds. It does not stop the work when it cannot be written:
// the first fault is kept, and every further message tries again.
class FileSink final : public spdlog::sinks::base_sink<std::mutex> {
 public:
  explicit FileSink(std::string path)
      : path_(std::move(path)),
        descriptor_(::open(path_.c_str(), O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0666)) {
    if (descriptor_ < 0) keep(errno);
  }
  FileSink(const FileSink&) = delete;
  FileSink& operator=(const FileSink&) = delete;
  ~FileSink() override {
    if (descriptor_ >= 0) ::close(descriptor_);
  }

  std::optional<base::Fault> fault() {
    const std::lock_guard lock(mutex_);
    return fault_;
  }

 protected:
  void sink_it_(const spdlog::details::log_msg& message) override {
    spdlog::memory_buf_t line;
    formatter_->format(message, line);
    std::string_view rest(line.data(), line.size());
    while (!rest.empty()) {
      const ssize_t n = ::write(descriptor_, rest.data(), rest.size());
      if (n < 0 && errno == EINTR) continue;
      if (n < 0) return keep(errno);
      rest.remove_prefix(static_cast<std::size_t>(n));
    }
  }
  void flush_() override {}

 private:
  void keep(int error) {
    if (!fault_) fault_ = base::system_fault(base::Code::cannot_write, path_, error);
  }

  std::string path_;
  int descriptor_;
  std::optional<base::Fault> fault_;
};

std::shared_ptr<FileSink>& file_sink() {
  static std::shared_ptr<FileSink> sink;
  return sink;
}

const std::shared_ptr<ErrorStreamSink>& error_stream_sink() {
  static const auto sink = [] {
    auto made = std::make_shared<ErrorStreamSink>();
    made->set_level(spdlog::level::info);
    return made;
  }();
  return sink;
}

// Lets everything through; each sink takes what it is set to.
spdlog::logger& logger() {
  static spdlog::logger log = [] {
    spdlog::logger made("kairos", error_stream_sink());
    made.set_level(spdlog::level::trace);
    return made;
  }();
  return log;
}

}  // namespace

void set_log_level(LogLevel level) {
  error_stream_sink()->set_level(level == LogLevel::quiet     ? spdlog::level::err
                                 : level == LogLevel::verbose ? spdlog::level::debug
                                                              : spdlog::level::info);
}

bool log_is_quiet() {
  return error_stream_sink()->level() >= spdlog::level::err;
}

base::Status log_to_file(const std::string& file) {
  const std::string folder = std::filesystem::path(file).parent_path().string();
  if (!folder.empty()) {
    if (auto made = base::make_folder(folder); !made) return made;
  }
  auto sink = std::make_shared<FileSink>(file);
  if (sink->fault()) return *sink->fault();
  auto lines = std::make_unique<spdlog::pattern_formatter>();
  lines->add_flag<PrefixFlag>('*').set_pattern("%Y-%m-%d %H:%M:%S %*%v");
  sink->set_formatter(std::move(lines));
  logger().sinks().push_back(sink);
  file_sink() = std::move(sink);
  return base::done();
}

std::optional<base::Fault> log_file_fault() {
  return file_sink() == nullptr ? std::nullopt : file_sink()->fault();
}

namespace {

void put(spdlog::level::level_enum level, std::string_view text) {
  logger().log(level, "{}", base::visible(text));
}

}  // namespace

void log_record(std::string_view text) {
  put(spdlog::level::trace, text);
}
void log_detail(std::string_view text) {
  put(spdlog::level::debug, text);
}
void log_info(std::string_view text) {
  put(spdlog::level::info, text);
}
void log_warning(std::string_view text) {
  put(spdlog::level::warn, text);
}
void log_error(std::string_view text) {
  put(spdlog::level::err, text);
}

void log_warning(const base::Fault& fault) {
  log_warning(base::describe(fault));
}
void log_error(const base::Fault& fault) {
  log_error(base::describe(fault));
}
void log_error(const base::Faults& faults) {
  const auto is_nowhere = [](const base::Fault& fault) { return fault.place.file.empty(); };
  if (std::all_of(faults.begin(), faults.end(), is_nowhere)) {
    for (const base::Fault& fault : faults) log_error(fault);
    return;
  }
  const bool all = faults.back().code != base::Code::more_faults;
  const auto end = faults.end() - (all ? 0 : 1);
  const auto whole = std::find_if(faults.begin(), end,
                                  [](const base::Fault& fault) { return fault.place.line == 0; });
  log_error(whole != end ? *whole : faults.front());
  if (faults.size() > 1) {
    const std::size_t rest = faults.size() - 1 - (all ? 0 : 1);
    log_info("and " + base::grouped(rest) + (rest == 1 ? " more fault" : " more faults"));
  }
  if (!all) log_info(base::describe(faults.back()));
}

}  // namespace kairos::cli
