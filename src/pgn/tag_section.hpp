// The tag section of one game, and the question whether a repeated tag belongs to it. Private to
// the reader.
//
// Files hold whole sections twice in front of one game, and games that are a tag section only. So
// when tags come again (an Event tag, or any tag behind an empty line), they are compared: as long
// as they say the same, it is one game; the first that says otherwise makes everything since the
// repetition began the tags of the next game. A single tag that comes twice is one of the game's.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "kairos/pgn/game.hpp"
#include "kairos/pgn/reader.hpp"
#include "kairos/pgn/tokens.hpp"

namespace kairos::pgn {

class TagSection {
 public:
  enum class Answer : std::uint8_t {
    taken,
    repeated,   // stood there before, the first one counts; told once
    too_many,   // over the limit, told once
    next_game,  // begins the next game, not taken
    carried,    // belongs to the next game with others before it, taken for it
  };

  // Begins a section in `tags` (whose storage is used again), with what was carried over.
  void start(std::vector<Tag>& tags, const ReaderLimits& limits);
  Answer add(const Token& token, const TokenStream& tokens);
  // Something else stood behind the tags so far: what follows is no repetition of them.
  void interrupt() { interrupted_ = true; }
  // Where the section was repeated as a whole, when it was and no repeated tag was told.
  std::optional<Spot> finish();

  // Whether the last tag was too long to be kept whole.
  [[nodiscard]] bool was_cut() const { return cut_; }
  [[nodiscard]] bool empty() const { return size_ == 0; }
  [[nodiscard]] bool has_carried() const { return has_carried_; }
  // Line and column of the first tag carried over, once.
  std::optional<Spot> take_carried_place();

 private:
  [[nodiscard]] std::vector<Tag>::iterator find(std::string_view name);
  Tag& append();
  void cut(std::string& value);

  std::vector<Tag>* tags_ = nullptr;
  std::size_t size_ = 0;         // tags of this game; those behind are old storage
  std::size_t limit_ = 0;        // tags ...
  std::size_t value_limit_ = 0;  // ... and bytes of a value
  bool cut_ = false;
  std::uint64_t names_ = 0;  // a bit for each name's first letter and length
  bool full_ = false;
  bool told_ = false;
  bool interrupted_ = false;
  bool repeating_ = false;
  std::size_t size_before_repeat_ = 0;
  std::vector<Tag> repeat_;  // the tags since the repetition began
  Spot repeat_place_;
  bool has_carried_ = false;
  std::optional<Spot> carried_place_;
};

}  // namespace kairos::pgn
