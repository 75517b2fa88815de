#include "html_line.hpp"

#include "kairos/report/plain.hpp"
#include "kairos/report/words.hpp"
#include "kairos/rules/fen.hpp"

#include "html_page.hpp"

namespace kairos::report {

namespace {

std::string step_of(const rules::Position& position, rules::Move move) {
  if (move == rules::null_move) return "--";
  const rules::Square from = move.from(), to = move.to();
  const std::string squares = squares_of(move);
  const int rank = rules::rank_of(from);
  if (move.is_castling()) {
    const bool is_short = rules::file_of(to) > rules::file_of(from);
    return squares + rules::to_string(rules::square_at(is_short ? 7 : 0, rank)) +
           rules::to_string(rules::square_at(is_short ? 5 : 3, rank));
  }
  if (move.is_en_passant()) {
    return squares + rules::to_string(rules::square_at(rules::file_of(to), rank));
  }
  if (move.is_promotion()) {
    return squares + rules::letter_of(rules::make_piece(position.side_to_move(), move.promoted()));
  }
  return squares;
}

}  // namespace

std::string placement(const rules::Position& position) {
  const std::string fen = rules::to_fen(position);
  return fen.substr(0, fen.find(' '));
}

std::string squares_of(rules::Move move) {
  return move ? rules::to_string(move.from()) + rules::to_string(move.to()) : "";
}

std::string steps_of(rules::Position position, std::span<const rules::Move> moves) {
  std::string steps;
  for (const rules::Move move : moves) {
    steps += (steps.empty() ? "" : " ") + step_of(position, move);
    position.play(move);
  }
  return steps;
}

std::string ply_html(const rules::Position& position, rules::Move move, bool is_numbered) {
  return "<span class=\"ply\">" +
         escaped(is_numbered ? numbered(position, move) : plain_san(position, move)) + "</span>";
}

std::string plies_html(rules::Position position, std::span<const rules::Move> moves,
                       std::size_t then) {
  std::string html;
  for (std::size_t i = 0; i < moves.size(); ++i) {
    const bool goes_on = i == then && i > 0;
    if (goes_on) html += " then, for instance,";
    const bool is_numbered = i == 0 || goes_on || position.side_to_move() == rules::white;
    html += (html.empty() ? "" : " ") + ply_html(position, moves[i], is_numbered);
    position.play(moves[i]);
  }
  return html;
}

std::string start_of(const rules::Position& position) {
  return placement(position) + (position.side_to_move() == rules::white ? " w " : " b ") +
         std::to_string(position.fullmove_number());
}

std::string line_html(const rules::Position& position, std::span<const rules::Move> moves,
                      bool own_start) {
  const auto shown = moves.first(std::min(moves.size(), shown_plies));
  return "<span class=\"line\"" +
         (own_start ? " data-start=\"" + start_of(position) + "\"" : std::string()) +
         " data-moves=\"" + steps_of(position, shown) + "\">" + plies_html(position, shown) +
         (shown.size() < moves.size() ? " ..." : "") + "</span>";
}

}  // namespace kairos::report
