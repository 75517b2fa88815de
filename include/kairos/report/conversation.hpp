// The answers of a conversation about a position (kairos weigh), in words for people and as JSON
// for programs. What is said of a move is what the reports would say of it in a game. Rows carry no
// line end and are at most `width` characters. Pure.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "kairos/audience/question.hpp"
#include "kairos/base/json.hpp"
#include "kairos/report/text_layout.hpp"

namespace kairos::report {

// Of a moment made by study/asked.hpp, in a few sentences: words/asked.cpp. "29... Qb1+ lets the
// win slip: after 30. Qf1 the position is level. Better is 29... Qb2, which wins the rook on c3."
std::string asked_words(const study::Moment& asked);
// The same where it was asked what is best: first how the side to move stands.
std::string best_words(const study::Moment& best);

// What was asked, in sentences, and below each its lines: first White's score, then the moves in
// full, from the one asked about on.
Rows answer_rows(const audience::Response& response, std::size_t width);
// More of the same: every reason with the line that proves it, longer lines.
Rows explained_rows(const audience::Response& response, std::size_t width);

// What was asked, in its sentences alone.
std::string changed_words(const audience::Response& response);

// A board (text_layout.hpp) with brackets round what changed.
Rows board_rows(const rules::Position& position, rules::Color view,
                const std::vector<rules::Square>& changed);

// The members of a JSON object for the answer: "fen", "moves", ... as DEVELOPERS.md says.
void add_answer(base::Json& object, const audience::Response& response);

}  // namespace kairos::report
