// PGN tokens: the lexical level below the reader (PGN standard, sections 3.2, 5 to 8), for whoever
// wants to see a file without building games: counting, measuring, fuzzing.
//
// One pass over a ByteSource through a window of fixed size; memory does not depend on the length
// of the file, of a line or of a comment. A token's views point into the window and hold until the
// next call. White space, dots and move numbers' points are no tokens. A comment longer than
// `comment_piece` bytes comes in pieces (`partial` on all but the last); of a tag longer than its
// bound the front comes (`partial`), and the rest of its line, up to another tag, is passed over;
// any other token longer than its bound is cut into `unknown` ones. Lines end with LF, CR LF or CR;
// lines and columns count from 1, columns in bytes. Nothing here knows the rules of chess or what a
// game is.
#pragma once

#include <array>
#include <bit>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "kairos/base/bytes.hpp"
#include "kairos/base/diagnostics.hpp"

namespace kairos::pgn {

enum class TokenKind : std::uint8_t {
  end,      // of the input, or of what could be read of it
  tag,      // [Name "value"]
  number,   // 12
  move,     // anything with the look of a move, castling and null moves included
  result,   // 1-0 0-1 1/2-1/2 *
  nag,      // $5, or an evaluation sign that stands alone (+- = -/+)
  mark,     // ! ? !! ?? !? ?!
  comment,  // { } or ; to the end of the line
  open,     // (
  close,    // )
  filler,   // what a move may carry along and nobody needs: e.p., (=), the ) of 1)
  unknown,  // anything else
};

// Where a token begins, from 1.
struct Spot {
  std::uint32_t line = 0;
  std::uint32_t column = 0;
};

struct Token {
  TokenKind kind = TokenKind::end;
  std::uint8_t value = 0;   // of a nag or mark: the NAG; of a result: GameResult
  bool partial = false;     // comment: goes on in the next token; tag: not all of it
  bool damaged = false;     // tag: not of the form above; comment: not closed; nag: out of range
  std::uint8_t origin = 0;  // for TokenStream::spot
  std::string_view text;    // as written; of a tag the value between the quotes, escapes unresolved
  std::string_view name;    // of a tag
};

class TokenStream {
 public:
  static constexpr std::size_t comment_piece = 8192;
  static constexpr std::size_t longest_tag = 17 << 10;
  static constexpr std::size_t longest_symbol = 1024;

  // `source` must outlive the stream.
  explicit TokenStream(base::ByteSource& source);

  // The next token, valid until the next call. After `end` it stays `end`.
  const Token& next() {
    if (taken_ == count_) produce();
    return batch_[taken_++];
  }
  // Numbers and moves that stand one behind the other, at most 64 bytes of them: what the next
  // tokens would be, for whoever wants no more than where they are. Valid until the next call.
  struct Run {
    const char* bytes = nullptr;      // bit n of the sets stands for bytes[n]
    std::uint64_t begins = 0;         // their first bytes
    std::uint64_t ends = 0;           // one past their last bytes, as many as `begins`
    std::uint64_t number_begins = 0;  // those of `begins` ...
    std::uint64_t number_ends = 0;    // ... and of `ends` that are numbers; the others are moves
    std::uint64_t newlines = 0;       // last bytes of line ends
    Spot spot;                        // of bytes[0]
  };
  // The run that comes next. None when tokens made before have not been handed out, and whenever
  // `next` is the one to ask.
  std::optional<Run> run();
  // Passes over the run or a part of it, its first so many symbols.
  void take(const Run& run) {
    starts_ &= ~run.begins;
    ends_ &= ~run.ends;
  }
  // Where the last token begins; worked out when asked.
  [[nodiscard]] Spot spot() const { return spot_of(taken_ - 1); }
  // Whether an empty line stands before the last token, 60 bytes before it at most.
  [[nodiscard]] bool after_empty_line() const;
  // Whether nothing but blanks, 60 at most, stands before the last token on its line.
  [[nodiscard]] bool begins_line() const;
  // Passes over the rest of the line in which the last token ended, or up to a tag there; not after
  // a tag or comment. The last token is gone then.
  void skip_line();
  // What is left of that line, at most 64 bytes of it, for messages.
  [[nodiscard]] std::string_view rest_of_line() const;

  // Bytes of the input up to the end of the last token.
  [[nodiscard]] std::uint64_t bytes() const {
    return taken_ == 0 ? 0 : base_ + extent_of(taken_ - 1).end;
  }
  // Set when the source failed or is no text in one-byte units; the stream then ends.
  [[nodiscard]] const std::optional<base::Fault>& failure() const { return failure_; }

 private:
  using Bits = std::uint64_t;
  static constexpr std::size_t batch_size = 64;
  // How far before a token questions about it may look: no further than the window always reaches,
  // or the answer would depend on the pieces in which the source gives its bytes.
  static constexpr std::size_t look_back = 60;
  static constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

  // What the last token was the front of.
  enum class Inside : std::uint8_t { nothing, comment, line_comment, tag };
  // Of a token, in the window.
  struct Extent {
    std::size_t begin = 0;
    std::size_t end = 0;
  };
  // What it takes to know the lines of a block's tokens when the block is no longer at hand.
  struct Origin {
    std::size_t block = 0;
    Bits newlines = 0;
    std::uint64_t line_start = 0;
    std::uint32_t line = 0;
  };

  // Window and blocks (token_window.cpp).
  void start();
  void read_source();
  void fill();
  void load_block();
  void next_block();
  void pass_line_ends(std::size_t from, Bits ends);
  void seek(std::size_t position);
  void set_attention();
  bool attend();
  void pass_line(bool stop_at_tag);
  [[nodiscard]] Extent extent_of(std::size_t index) const {
    const Token& token = batch_[index];
    if (token.kind != TokenKind::number && token.kind != TokenKind::move) return extents_[index];
    const auto begin = static_cast<std::size_t>(token.text.data() - window_.data());
    return {begin, begin + token.text.size()};
  }
  [[nodiscard]] Spot spot_of(std::size_t index) const {
    return spot_at(extent_of(index).begin, origins_[batch_[index].origin]);
  }
  [[nodiscard]] Spot spot_at(std::size_t begin, const Origin& origin) const {
    const Bits before = origin.newlines & ((Bits{1} << ((begin - origin.block) & 63)) - 1);
    const std::uint64_t last_line =
        base_ + origin.block + 64 - static_cast<unsigned>(std::countl_zero(before));
    const std::uint64_t line_start = before == 0 ? origin.line_start : last_line;
    return {origin.line + static_cast<std::uint32_t>(std::popcount(before)),
            static_cast<std::uint32_t>(base_ + begin - line_start + 1)};
  }
  std::uint8_t current_origin();
  std::uint8_t add_origin(const Origin& origin);
  [[nodiscard]] std::string_view view(std::size_t from, std::size_t to) const {
    return {window_.data() + from, to - from};
  }
  [[nodiscard]] std::size_t line_end(std::size_t from, std::size_t limit) const;

  // Tokens by kind (tokens.cpp, token_symbol.cpp, token_tag.cpp, token_comment.cpp).
  void empty_batch() { count_ = taken_ = origin_count_ = 0; }
  void produce();
  [[nodiscard]] Bits plain_starts() const;
  void plain_run();
  void other_token();
  void escape_line(std::size_t at);
  [[nodiscard]] std::size_t symbol_end(std::size_t at) const;
  void slow_symbol(std::size_t at, std::size_t end);
  void emit_rest();
  void take_symbol(std::size_t at, std::size_t end);
  void punctuation(std::size_t at);
  void finish(TokenKind kind, std::size_t at, std::size_t end);
  void mark(std::size_t at);
  void nag(std::size_t at);
  void unknown(std::size_t at);
  void tag(std::size_t at);
  void slow_tag(std::size_t at);
  void begin_odd(std::size_t at, std::uint8_t origin);
  void end_odd(std::size_t end);
  [[nodiscard]] bool begins_line(std::size_t at) const;
  [[nodiscard]] bool quotes_line(std::size_t at) const;
  [[nodiscard]] bool closes_number(std::size_t at) const;
  bool tag_value(std::size_t from, std::size_t limit);
  void damaged_tag(std::size_t at, std::size_t from, std::size_t limit);
  [[nodiscard]] bool opens_tag(std::size_t at) const;
  [[nodiscard]] bool is_tag_line(std::size_t at) const;
  void comment_body(std::size_t from);
  void line_comment(std::size_t from);
  std::size_t comment_close(std::size_t from, std::size_t first_close);

  base::ByteSource& source_;
  std::vector<char> window_;
  std::uint64_t base_ = 0;        // place of the window's first byte in the input
  std::size_t data_end_ = 0;      // bytes in the window; behind them all is zero
  std::size_t attention_at_ = 0;  // from this block on `attend` must be asked first
  std::size_t position_ = 0;      // end of the last token
  bool started_ = false;
  bool at_end_ = false;  // the source has no more
  Inside inside_ = Inside::nothing;
  std::uint64_t no_match_before_ = 0;  // place in the input, see comment_close
  std::string_view rest_;              // what is left of a symbol that holds several tokens
  Origin rest_origin_;

  // The block of at most 64 bytes at `block_`, as bit sets: bit n is byte block_ + n.
  std::size_t block_ = 0;
  std::size_t width_ = 0;
  Bits starts_ = 0;               // first bytes of tokens, those already taken removed
  Bits ends_ = 0;                 // one past the ends of symbols, those already taken removed
  Bits symbols_ = 0;              // bytes of symbols
  Bits number_heads_ = 0;         // digits at the front of symbols
  Bits plain_numbers_ = 0;        // those of `ends_` whose symbol is a plain number ...
  Bits plain_moves_ = 0;          // ... or a plain move
  Bits newlines_ = 0;             // last bytes of line ends
  std::uint32_t line_ = 1;        // number of the line at the block's first byte ...
  std::uint64_t line_start_ = 0;  // ... and where in the input that line begins

  // Tokens made, the first `taken_` of them handed out. All lie in the window as it stands: it may
  // move (`fill`) only while every token made has been handed out, and no origin is kept without
  // its token.
  std::array<Token, batch_size> batch_;
  std::array<Extent, batch_size> extents_;  // where a token is no number and no move
  std::array<Origin, batch_size + 1> origins_;
  std::size_t origin_count_ = 0;
  std::size_t count_ = 0;
  std::size_t taken_ = 0;

  std::optional<base::Fault> failure_;
};

}  // namespace kairos::pgn
