// How standard error and standard output look, decided once: terminal or not, colours, width.
//
// NO_COLOR (any value) and TERM=dumb turn colours off; TERM=dumb also turns off redrawing. All that
// goes to standard error goes through `ErrorStream`, so that a message never lands in the middle of
// a progress line; texts of others come there visible (base/foreign.hpp). Thread-safe.
#pragma once

#include <mutex>
#include <string>
#include <string_view>

namespace kairos::cli {

struct Looks {
  bool is_terminal = false;
  bool redraws = false;  // a line may be drawn over
  bool colors = false;
  std::size_t width = 80;  // columns
};

// Of a file descriptor, by the environment at the time of the call.
Looks looks_of(int descriptor);

class ErrorStream {
 public:
  static ErrorStream& get();

  // A whole line, above any progress line.
  void line(std::string_view text);
  // Draws a line that the next one replaces; only where `looks().redraws`.
  void draw(std::string_view text);
  // Takes the drawn line away.
  void clear();
  [[nodiscard]] const Looks& looks() const { return looks_; }

 private:
  ErrorStream();
  void put(std::string_view text);

  Looks looks_;
  std::mutex mutex_;
  std::string drawn_;
};

// Several lines on standard output that the next ones replace, where it is a terminal; elsewhere
// nothing is shown. Lines are cut to the width.
class LiveText {
 public:
  LiveText();
  void show(const std::string& text);
  // Takes away what is shown, to make room for the final text.
  void clear();
  // Somebody has typed a line below what is shown.
  void moved_down() { rows_ += rows_ > 0 ? 1 : 0; }
  [[nodiscard]] bool is_live() const { return looks_.redraws; }

 private:
  Looks looks_;
  int rows_ = 0;  // shown now
};

}  // namespace kairos::cli
