// From a line of a conversation to what it asks for. In this order, the first that fits: nothing, a
// word of the table, the number of a move, a FEN, moves.
//
// Moves are read in the position on the board; in the one after the move last asked about when the
// line says so ("and ...", or the number of that move), or where the first can be played only
// there. Several phrases are one line of play where each can follow the one before, else moves of
// one position; "or", "than" and "vs" always stand between moves of one position. What of a line
// cannot be played is told where it was written as notation: of talk ("... and the pawn on d4
// falls") a part may look like a move. Tests: tests/audience/request_test.cpp.
#include "kairos/audience/request.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "kairos/audience/typed.hpp"
#include "kairos/base/text.hpp"
#include "kairos/rules/fen.hpp"
#include "kairos/rules/san.hpp"

namespace kairos::audience {

namespace {

using Kind = Request::Kind;

constexpr std::array<std::pair<std::string_view, Kind>, 43> wordings = {{
    {"best", Kind::best},
    {"best move", Kind::best},
    {"what is best", Kind::best},
    {"what's best", Kind::best},
    {"whats best", Kind::best},
    {"why", Kind::why},
    {"why not", Kind::why},
    {"why is that", Kind::why},
    {"but why", Kind::why},
    {"reasons", Kind::why},
    {"all", Kind::all},
    {"all moves", Kind::all},
    {"show", Kind::show},
    {"board", Kind::show},
    {"show board", Kind::show},
    {"show the board", Kind::show},
    {"position", Kind::show},
    {"flip", Kind::flip},
    {"flip board", Kind::flip},
    {"flip the board", Kind::flip},
    {"turn the board", Kind::flip},
    {"back", Kind::back},
    {"undo", Kind::back},
    {"take back", Kind::back},
    {"start", Kind::start},
    {"back to start", Kind::start},
    {"back to the start", Kind::start},
    {"back to the game", Kind::start},
    {"next", Kind::next},
    {"next move", Kind::next},
    {"forward", Kind::next},
    {"played", Kind::played},
    {"what was played", Kind::played},
    {"the game", Kind::played},
    {"in the game", Kind::played},
    {"help", Kind::help},
    {"?", Kind::help},
    {"quit", Kind::quit},
    {"exit", Kind::quit},
    {"q", Kind::quit},
    {"bye", Kind::quit},
    {"end", Kind::quit},
    {"stop", Kind::quit},
}};

// What is best after the move last asked about.
constexpr std::array<std::string_view, 7> going_on = {
    "and now", "what now", "and then", "then what", "reply", "best reply", "and best"};

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

std::string_view without_end_signs(std::string_view text) {
  while (!text.empty() && std::string_view("?!. ").find(text.back()) != std::string_view::npos) {
    text.remove_suffix(1);
  }
  return text;
}

// Takes one of the words and the blanks behind it off the front.
bool take_word(std::string_view& text, std::string_view word) {
  if (!text.starts_with(word) || text.size() == word.size() || text[word.size()] != ' ') {
    return false;
  }
  text = base::trim(text.substr(word.size()));
  return true;
}

// Digits at the front, as a number of a move; they are taken off.
std::optional<int> take_number(std::string_view& text) {
  std::size_t digits = 0;
  while (digits < text.size() && is_digit(text[digits])) ++digits;
  const auto number = base::to_integer(text.substr(0, digits));
  if (digits == 0 || digits > 4 || !number || *number < 1) return std::nullopt;
  text.remove_prefix(digits);
  return static_cast<int>(*number);
}

std::size_t take_dots(std::string_view& text) {
  std::size_t dots = 0;
  while (dots < text.size() && text[dots] == '.') ++dots;
  text.remove_prefix(dots);
  return dots;
}

std::optional<Request> read_wording(std::string_view lower) {
  if (lower == "?") return Request{.kind = Kind::help};
  std::string_view said = without_end_signs(lower);
  for (const auto& [words, kind] : wordings) {
    if (said == words) return Request{.kind = kind};
  }
  if (std::ranges::find(going_on, said) != going_on.end()) {
    return Request{.kind = Kind::best, .after_asked = true};
  }
  if (!take_word(said, "back")) return std::nullopt;
  const auto plies = take_number(said);
  if (!plies || !said.empty()) return std::nullopt;
  return Request{.kind = Kind::back, .plies = *plies};
}

// By its first field: the ranks of a board. Told once what is wrong with it, by its first fault.
std::optional<Request> read_place(std::string_view text) {
  if (text.size() > 4 && base::lower_case(text.substr(0, 4)) == "fen ") text.remove_prefix(4);
  text = base::trim(text);
  const std::string_view men = text.substr(0, text.find(' '));
  if (std::ranges::count(men, '/') < 4) return std::nullopt;
  auto position = rules::parse_fen(text);
  if (position) return Request{.kind = Kind::place, .place = *position};
  return Request{.kind = Kind::refused, .faults = {position.fault()}};
}

CalledMove refusal(const rules::Position& p, const TypedMove& typed) {
  const bool of_the_other =
      !p.in_check() &&
      static_cast<bool>(rules::read_san(p.after(rules::null_move), typed.text).move);
  return {{}, typed.text, typed.problem, typed.why, of_the_other};
}

// Moves of one position, each once.
Request read_several(const rules::Position& p, std::string_view text, rules::Letters letters) {
  Request request;
  for (const TypedMove& typed : read_typed_moves(p, text, letters)) {
    if (!typed.move) {
      const bool is_move = typed.problem != base::Code::not_a_move;
      if (is_move && request.refused.size() < most_asked) {
        request.refused.push_back(refusal(p, typed));
      }
    } else if (std::ranges::find(request.moves, typed.move) == request.moves.end() &&
               request.moves.size() < most_asked) {
      request.moves.push_back(typed.move);
    }
  }
  request.kind = request.moves.empty() ? Kind::refused : Kind::ask;
  return request;
}

bool compares(std::string_view lower) {
  const auto words = base::fields(lower);
  return std::ranges::any_of(words, [](std::string_view word) {
    return word == "or" || word == "than" || word == "vs" || word == "vs." || word == "versus";
  });
}

Request read_moves(const rules::Position& p, std::string_view text, rules::Letters letters) {
  const std::string lower = base::lower_case(text);
  const auto is_notation = [&lower](const std::string& written) {
    return written.size() > 1 && lower.find(base::lower_case(written)) != std::string::npos;
  };
  Request several = read_several(p, text, letters);
  std::erase_if(several.refused, [&](const CalledMove& refused) {
    return !several.moves.empty() && !is_notation(refused.text);
  });
  if (compares(lower)) return several;
  TypedLine line = read_typed_line(p, text, {}, letters);
  // What stands in front of a line and cannot be played is no beginning of it.
  const bool begins = !line.moves.empty() && read_typed_moves(p, text, letters).front().move;
  if (line.moves.size() < 2 || !begins) return several;
  Request play{.kind = Kind::play, .moves = std::move(line.moves)};
  if (line.ended_by.problem != base::Code::not_a_move && is_notation(line.ended_by.text)) {
    rules::Position end = p;
    for (const rules::Move move : play.moves) end.play(move);
    play.refused.push_back(refusal(end, line.ended_by));
  }
  return play;
}

// "and", "then": takes them off the front.
bool takes_up(std::string_view& text) {
  bool any = false;
  for (bool more = true; more;) {
    more = false;
    for (const std::string_view word : {"and", "then", "but", "so", "&"}) {
      if (!take_word(text, word)) continue;
      more = true;
      any = any || word == "and" || word == "then" || word == "&";
    }
  }
  return any;
}

// Whether the text begins with the number of the move that `p` waits for.
bool is_numbered_for(const rules::Position& p, std::string_view text) {
  const auto number = take_number(text);
  const std::size_t dots = take_dots(text);
  if (!number || dots == 0) return false;
  const rules::Color side = dots > 1 ? rules::black : rules::white;
  return *number == p.fullmove_number() && side == p.side_to_move();
}

Request read_in_scene(const Scene& scene, std::string_view text) {
  std::string lower = base::lower_case(text);
  std::string_view rest = lower;
  const bool joined = takes_up(rest);
  const std::string_view moves = text.substr(text.size() - rest.size());
  if (!scene.asked) return read_moves(scene.position, moves, scene.letters);
  const rules::Position after = scene.position.after(scene.asked);
  const auto read_after = [&] {
    Request request = read_moves(after, moves, scene.letters);
    request.after_asked = true;
    return request;
  };
  const auto begins_in = [&scene, moves](const rules::Position& p) {
    return static_cast<bool>(read_typed_moves(p, moves, scene.letters).front().move);
  };
  const bool is_reply = !begins_in(scene.position) && begins_in(after);
  if (joined || is_reply || is_numbered_for(after, rest)) return read_after();
  return read_moves(scene.position, moves, scene.letters);
}

// Of a sentence without a move: "why does that lose?", "so what was the best move?".
Kind kind_of_sentence(std::string_view lower) {
  for (const std::string_view word : base::fields(lower)) {
    if (word == "why") return Kind::why;
    if (without_end_signs(word) == "best") return Kind::best;
  }
  return Kind::refused;
}

}  // namespace

std::optional<MoveNumber> read_move_number(std::string_view text) {
  const std::string lower = base::lower_case(base::trim(base::cut(text, longest_typed)));
  std::string_view rest = lower;
  for (const std::string_view word : {"go to", "go", "to", "move"}) take_word(rest, word);
  const auto number = take_number(rest);
  if (!number) return std::nullopt;
  const std::size_t dots = take_dots(rest);
  rest = base::trim(rest);
  const bool is_white = rest.empty() ? dots < 2 : rest == "w" || rest == "white";
  const bool is_black = rest.empty() ? dots >= 2 : rest == "b" || rest == "black";
  if (dots > 3 || (!is_white && !is_black)) return std::nullopt;
  return MoveNumber{*number, is_white ? rules::white : rules::black};
}

Request read_request(const Scene& scene, std::string_view text) {
  const std::string_view line = base::trim(base::cut(text, longest_typed));
  if (line.empty()) return {};
  if (auto request = read_wording(base::lower_case(line))) return *std::move(request);
  if (const auto number = read_move_number(line)) return {.kind = Kind::go, .number = *number};
  if (auto request = read_place(line)) return *std::move(request);
  Request request = read_in_scene(scene, line);
  const bool is_talk = request.kind == Kind::refused && request.refused.empty();
  if (is_talk) request.kind = kind_of_sentence(base::lower_case(line));
  if (is_talk) request.after_asked = false;
  return request;
}

}  // namespace kairos::audience
