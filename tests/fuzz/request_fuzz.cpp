// Lines of a conversation: whatever they hold, what is asked can be asked. Moves of a request are
// legal where they are read, one after the other in a line, each for itself in a question; a
// refusal says why; and a conversation that takes the lines one by one never asks of a position in
// which the game is over, nor loses its board. An input begins with a position
// (position_taker.hpp); the rest is lines, each read as it is and, since few random bytes are
// words, with a word for every byte.
#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "kairos/audience/conversation.hpp"
#include "kairos/audience/typed.hpp"
#include "kairos/base/text.hpp"
#include "kairos/rules/draws.hpp"
#include "kairos/rules/san.hpp"

#include "position_taker.hpp"
#include "property.hpp"

using namespace kairos;
using namespace kairos::audience;
using fuzz::must_hold;
using rules::Move;
using rules::Position;
using Kind = Request::Kind;

namespace {

constexpr std::size_t most_lines = 24, longest_path = 200;

// Bytes below 128 are a word each, some of them legal moves here; the others a square.
std::string in_words(const Scene& scene, std::string_view bytes) {
  static constexpr std::array words{
      "and ",  "then ", "best ", "why ",     "all ",  "back ",  "start ",  "show ",
      "flip ", "next ", "27w ",  "move ",    "12. ",  "12... ", "or ",     "than ",
      "? ",    "rook ", "N",     "takes ",   "O-O ",  "not ",   "played ", "8/8/",
      "fen ",  "9 ",    "vs ",   "castles ", "help ", "but ",   "now ",    ", "};
  rules::MoveList here, there;
  rules::legal_moves(scene.position, here);
  const Position after = scene.asked ? scene.position.after(scene.asked) : scene.position;
  rules::legal_moves(after, there);
  std::string text;
  for (const char c : bytes.substr(0, 40)) {
    const auto byte = static_cast<std::uint8_t>(c);
    if (byte < 64) {
      text += words[byte % words.size()];
    } else if (byte < 128 && !here.empty()) {
      text += rules::to_san(scene.position, here[byte % here.size()]) + " ";
    } else if (byte < 192 && !there.empty()) {
      text += rules::to_san(after, there[byte % there.size()]) + " ";
    } else {
      text += rules::to_string(static_cast<rules::Square>(byte % 64));
    }
  }
  return text;
}

void check_request(const Scene& scene, const Request& request) {
  must_hold(!request.after_asked || scene.asked || request.kind == Kind::best,
            "nothing comes after a move that was not asked about");
  Position p = scene.position;
  if (request.after_asked && scene.asked) p.play(scene.asked);
  const bool has_moves = request.kind == Kind::ask || request.kind == Kind::play;
  must_hold(has_moves != request.moves.empty(), "moves where they are asked about or played");
  must_hold(request.kind == Kind::play || request.moves.size() <= most_asked,
            "no more questions than there is time for");
  for (const Move move : request.moves) {
    must_hold(rules::is_legal(p, move), "a move can be played where it is read");
    if (request.kind == Kind::play) p.play(move);
  }
  for (const CalledMove& refused : request.refused) {
    must_hold(!refused.move && !refused.why.empty() && !refused.text.empty(), "a refusal says why");
  }
  must_hold((request.kind == Kind::place) == request.place.has_value(), "a place is a position");
  must_hold(request.number.number >= 1 && request.number.number <= most_move_number,
            "the number of a move is one");
}

void check_turn(const Conversation& talk, const Turn& turn) {
  must_hold((turn.kind == Turn::Kind::refuses) == (turn.refusal != Turn::Refusal::none),
            "what is refused has its reason");
  if (turn.kind != Turn::Kind::asks) return;
  const Question& question = turn.question;
  must_hold(question.position == talk.scene().position, "a question is about the board");
  must_hold(rules::has_legal_move(question.position), "nothing is asked when the game is over");
  must_hold((question.kind == Question::Kind::moves) != question.moves.empty(),
            "moves are asked about, or none");
  for (const Move move : question.moves) {
    must_hold(rules::is_legal(question.position, move), "a move asked about can be played");
  }
  if (question.last) {
    must_hold(question.before.after(question.last) == question.position,
              "the move before leads to the board");
    must_hold(!question.earlier.empty() && question.earlier.back() == question.before.key(),
              "the position before is the last of the earlier ones");
  }
}

void take(Conversation& talk, std::string_view line) {
  const Scene scene = talk.scene();
  const Request request = read_request(scene, line);
  check_request(scene, request);
  must_hold(read_request(scene, std::string(line.substr(0, longest_typed))).kind == request.kind,
            "what lies behind is not read");
  check_turn(talk, talk.take(request));
  for (const rules::Square square : talk.changed()) {
    must_hold(square >= rules::a1 && square <= rules::h8, "what changed is on the board");
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  std::string_view text = fuzz::text_of(data, size);
  Line game{.start = fuzz::take_position(text)};
  // The conversation's game: a few moves that the text chooses.
  Position p = game.start;
  for (const char c : text.substr(0, 16)) {
    rules::MoveList moves;
    rules::legal_moves(p, moves);
    if (moves.empty()) break;
    game.moves.push_back(moves[static_cast<std::uint8_t>(c) % moves.size()]);
    p.play(game.moves.back());
  }
  const std::size_t plies = text.size() % (game.moves.size() + 1);
  Conversation talk(game, plies, true);
  std::size_t lines = 0;
  for (const std::string_view line : base::split(text, '\n')) {
    if (++lines > most_lines ||
        talk.scene().position.fullmove_number() > static_cast<int>(longest_path))
      break;
    take(talk, line);
    take(talk, in_words(talk.scene(), line));
  }
  return 0;
}
