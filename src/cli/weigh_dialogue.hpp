// The conversation of kairos weigh: lines in, answers out.
//
// On a terminal there is a prompt, the board stands beside each answer, and while one reads the
// search goes on; elsewhere each line is answered by a block of text and an empty line, or by one
// JSON object. With a number of nodes the same lines get the same answers, and nothing is searched
// in between.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>

#include "kairos/audience/conversation.hpp"
#include "kairos/audience/responder.hpp"
#include "kairos/report/text_layout.hpp"

#include "interrupt.hpp"
#include "line_input.hpp"
#include "terminal.hpp"

namespace kairos::cli {

struct TalkSettings {
  double seconds = 1.2;
  std::uint64_t nodes = 0;  // instead of seconds; 0: not
  int threads = 0;
  rules::Letters letters = rules::Letters::english;  // of what is typed
  bool json = false;
};

// Whether somebody sits before it: standard input and output are both a terminal.
bool is_talked_to();

class WeighDialogue {
 public:
  WeighDialogue(audience::Conversation conversation, const TalkSettings& settings);
  ~WeighDialogue();

  // Answers `first`, where there is one, then every line of standard input, to its end or "quit".
  // False where there was nothing to answer, not one line.
  bool talk(const std::optional<audience::Turn>& first,
            const std::vector<audience::CalledMove>& refused);

 private:
  class Thinking;  // on what was answered, while the next line is waited for

  std::optional<std::string> read_line();
  bool answer(const std::string& line);
  bool tell(const std::string& line, const audience::Request& request, const audience::Turn& turn,
            const rules::Position& read);
  [[nodiscard]] std::size_t width_of_text(bool with_board) const;
  bool find(const audience::Question& question);
  void sharpen();
  void tell_change_of_mind();
  void greet(bool with_board);
  void put(const report::Rows& rows, bool with_board);
  void put_json(const std::string& line, const audience::Turn& turn, const report::Rows& rows);

  audience::Conversation conversation_;
  TalkSettings settings_;
  Looks looks_;
  bool on_terminal_;
  const std::atomic<bool>& interrupted_;
  LineInput input_;
  std::unique_ptr<audience::Responder> responder_;
  audience::Response told_;
  audience::Opinion opinion_;
  std::unique_ptr<Thinking> thinking_;  // last: it uses the responder
};

}  // namespace kairos::cli
