#include "kairos/audience/conversation.hpp"

#include <algorithm>
#include <utility>

namespace kairos::audience {

namespace {

using Refusal = Turn::Refusal;

Turn refused(Refusal why) {
  return {.kind = Turn::Kind::refuses, .refusal = why};
}

Turn shows() {
  return {.kind = Turn::Kind::shows};
}

std::vector<rules::Key> keys_before(const std::vector<rules::Position>& positions) {
  std::vector<rules::Key> keys;
  for (std::size_t i = 0; i + 1 < positions.size(); ++i) keys.push_back(positions[i].key());
  return keys;
}

// A draw that must be claimed leaves the game open.
bool is_over(rules::GameStatus status) {
  switch (status) {
    case rules::GameStatus::open:
    case rules::GameStatus::threefold:
    case rules::GameStatus::fifty_moves:
      return false;
    case rules::GameStatus::checkmate:
    case rules::GameStatus::stalemate:
    case rules::GameStatus::bare_material:
    case rules::GameStatus::fivefold:
    case rules::GameStatus::seventy_five_moves:
      break;
  }
  return true;
}

}  // namespace

Conversation::Path Conversation::path_of(const Line& line, std::size_t plies) {
  Path path{.positions = {line.start}, .moves = {}};
  for (std::size_t i = 0; i < plies; ++i) {
    path.positions.push_back(path.positions.back().after(line.moves[i]));
    path.moves.push_back(line.moves[i]);
  }
  return path;
}

Conversation::Conversation(Line line, std::size_t plies, bool is_game)
    : game_(std::move(line)), is_game_(is_game), path_(path_of(game_, plies)), start_(path_) {
  view_ = position().side_to_move();
}

void Conversation::begin_after(const std::vector<rules::Move>& moves) {
  for (const rules::Move move : moves) play(move);
  start_ = path_;
  view_ = position().side_to_move();
}

void Conversation::play(rules::Move move) {
  path_.positions.push_back(position().after(move));
  path_.moves.push_back(move);
}

rules::Position Conversation::shown() const {
  return asked_ ? position().after(asked_) : position();
}

rules::GameStatus Conversation::status() const {
  return rules::game_status(position(), keys_before(path_.positions));
}

std::vector<rules::Square> Conversation::changed() const {
  constexpr std::size_t most = 10;  // squares: beyond, it is another position
  std::vector<rules::Square> squares;
  if (!seen_before_) return squares;
  const rules::Position now = shown();
  for (int square = 0; square < rules::square_count; ++square) {
    const auto at = static_cast<rules::Square>(square);
    if (now.piece_on(at) != seen_before_->piece_on(at)) squares.push_back(at);
  }
  if (squares.size() > most) squares.clear();
  return squares;
}

rules::Move Conversation::played() const {
  const std::size_t ply = path_.moves.size();
  const bool on_it = is_game_ && path_.positions.front() == game_.start &&
                     ply < game_.moves.size() &&
                     std::equal(path_.moves.begin(), path_.moves.end(), game_.moves.begin());
  return on_it ? game_.moves[ply] : rules::Move{};
}

Turn Conversation::ask_about(Question::Kind kind, std::vector<rules::Move> moves) {
  Question question{.kind = kind,
                    .position = position(),
                    .earlier = keys_before(path_.positions),
                    .moves = std::move(moves)};
  if (is_over(status())) return refused(Refusal::game_is_over);
  if (!path_.moves.empty()) {
    question.before = path_.positions[path_.positions.size() - 2];
    question.last = path_.moves.back();
  }
  asked_ = question.moves.size() == 1 ? question.moves.front() : rules::Move{};
  if (asked_) seen_before_ = position();
  can_explain_ = kind != Question::Kind::all;
  return {.kind = Turn::Kind::asks, .question = std::move(question)};
}

Turn Conversation::ask(std::vector<rules::Move> moves) {
  const auto kind = moves.empty() ? Question::Kind::all : Question::Kind::moves;
  return ask_about(kind, std::move(moves));
}

Turn Conversation::back(int plies) {
  if (asked_) {  // it is not played yet
    asked_ = {};
    --plies;
  } else if (path_.moves.empty()) {
    return refused(Refusal::at_the_start);
  }
  for (; plies > 0 && !path_.moves.empty(); --plies) {
    path_.positions.pop_back();
    path_.moves.pop_back();
  }
  return shows();
}

Turn Conversation::play_on(const Request& request) {
  for (const rules::Move move : request.moves) play(move);
  asked_ = {};
  Turn turn = ask_about(Question::Kind::best, {});
  // What ends a game is shown all the same.
  if (turn.refusal == Refusal::game_is_over) return shows();
  return turn;
}

Turn Conversation::go_to(MoveNumber number) {
  if (!is_game_) return refused(Refusal::no_game);
  const Path game = path_of(game_, game_.moves.size());
  for (std::size_t ply = 0; ply < game.positions.size(); ++ply) {
    const rules::Position& p = game.positions[ply];
    if (p.fullmove_number() != number.number || p.side_to_move() != number.side) continue;
    path_ = path_of(game_, ply);
    asked_ = {};
    Turn turn = ask_about(Question::Kind::best, {});
    return turn.refusal == Refusal::game_is_over ? shows() : turn;
  }
  return refused(Refusal::not_in_the_game);
}

Turn Conversation::next() {
  if (!is_game_) return refused(Refusal::no_game);
  const rules::Move move = played();
  if (!move) return refused(Refusal::off_the_game);
  return play_on({.kind = Request::Kind::play, .moves = {move}});
}

Turn Conversation::played_move() {
  if (!is_game_) return refused(Refusal::no_game);
  const rules::Move move = played();
  return move ? ask_about(Question::Kind::moves, {move}) : refused(Refusal::off_the_game);
}

// token switch: one line a kind
Turn Conversation::take(const Request& request) {
  using Kind = Request::Kind;
  if (request.kind == Kind::nothing) return {};
  seen_before_ = shown();
  const bool explains = std::exchange(can_explain_, false);
  const bool goes_on =
      request.kind == Kind::ask || request.kind == Kind::play || request.kind == Kind::best;
  if (request.after_asked && asked_ && goes_on) play(asked_);
  switch (request.kind) {
    case Kind::nothing:
      return {};
    case Kind::ask:
      return ask_about(Question::Kind::moves, request.moves);
    case Kind::play:
      return play_on(request);
    case Kind::best:
      asked_ = {};
      return ask_about(Question::Kind::best, {});
    case Kind::all:
      asked_ = {};
      return ask_about(Question::Kind::all, {});
    case Kind::why:
      can_explain_ = explains;
      return explains ? Turn{.kind = Turn::Kind::explains} : refused(Refusal::nothing_to_explain);
    case Kind::show:
      can_explain_ = explains;
      return shows();
    case Kind::flip:
      can_explain_ = explains;
      view_ = ~view_;
      return shows();
    case Kind::back:
      return back(request.plies);
    case Kind::start:
      path_ = start_;
      asked_ = {};
      return shows();
    case Kind::next:
      return next();
    case Kind::played:
      return played_move();
    case Kind::go:
      return go_to(request.number);
    case Kind::place:
      path_ = {.positions = {*request.place}, .moves = {}};
      asked_ = {};
      seen_before_.reset();
      if (Turn turn = ask_about(Question::Kind::best, {}); turn.kind == Turn::Kind::asks)
        return turn;
      return shows();
    case Kind::help:
      can_explain_ = explains;
      return {.kind = Turn::Kind::helps};
    case Kind::quit:
      return {.kind = Turn::Kind::ends};
    case Kind::refused:
      can_explain_ = explains;
      return refused(Refusal::not_understood);
  }
  return {};
}

}  // namespace kairos::audience
