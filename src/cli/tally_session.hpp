// The questions of kairos tally: answers are counted as they come, shown on a terminal and on a
// page, judged in the background, and told when a question is over.
//
// A question is open until its answer is shown; what comes then is late. It ends with a key
// (tally_keys.hpp) or with the lines. Where points are kept, a question brings them when its answer
// is shown or it ends, unless it was left by quitting, and they are on the disk before that is
// told.
#pragma once

#include <chrono>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "kairos/audience/count.hpp"
#include "kairos/audience/evening.hpp"
#include "kairos/puzzle/exercise.hpp"
#include "kairos/report/tally.hpp"

#include "line_input.hpp"
#include "tally_keys.hpp"
#include "terminal.hpp"

namespace kairos::cli {

struct TallySettings {
  report::TallyView view;  // of what is shown in the end
  std::uint64_t nodes = 100'000;
  int threads = 0;
  bool latest = false;
  bool hide = false;    // on the terminal, until the answer is shown
  bool reveal = false;  // on the page, from the start
  bool json = false;
  std::string page;   // empty: none
  std::string score;  // where points are kept; empty: nowhere
};

class TallySession {
 public:
  // The questions that are not over yet; `evening` is what was before them.
  TallySession(TallySettings settings, std::vector<puzzle::Exercise> questions,
               audience::Evening evening);
  ~TallySession();

  // Asks one after the other, to the end of the lines. Faults: the page cannot be written when it
  // begins, or the points cannot be kept.
  base::Status run();
  // Whether the page has missed something.
  [[nodiscard]] bool has_lost_page() const { return page_is_lost_; }

 private:
  struct Asked;
  enum class Next { open, question, end };

  [[nodiscard]] bool is_several() const { return !settings_.score.empty(); }
  base::Status ask(Asked& asked);
  void listen(Asked& asked);
  std::optional<TallyKey> take(Asked& asked, const std::string& line);
  base::Status act(Asked& asked, TallyKey key);
  base::Status settle(Asked& asked);
  void tell(Asked& asked);
  void show(Asked& asked, bool at_once);
  [[nodiscard]] std::string page_of(Asked& asked) const;
  base::Status write_page(Asked& asked);

  TallySettings settings_;
  std::vector<puzzle::Exercise> questions_;
  audience::Evening evening_;
  std::size_t all_;  // questions of the evening
  bool by_hand_;
  bool has_keys_;
  LineInput input_;
  std::unique_ptr<TerminalKeys> keys_;
  LiveText live_;
  std::chrono::steady_clock::time_point shown_at_;
  std::string page_;  // its bytes
  bool page_is_lost_ = false;
  base::Status kept_ = base::done();
};

}  // namespace kairos::cli
