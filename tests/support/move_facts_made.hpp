// The facts of one move, written as positions and lines, for tests of what a move does.
#pragma once

#include <catch2/catch.hpp>
#include <optional>
#include <vector>

#include "kairos/study/reason.hpp"

#include "move_facts.hpp"
#include "support/games.hpp"

namespace kairos::test {

// In `fen`, `last` is played (it may be empty), and `line` follows; `other` is what would have.
inline study::MoveFacts facts_of(const char* fen, const char* last, const char* line,
                                 search::Score score, const char* other = "") {
  study::MoveFacts facts;
  facts.role = *last == '\0' ? study::Role::best : study::Role::reply;
  facts.before = facts.position = support::position(fen);
  if (*last != '\0') {
    facts.last = support::move(facts.before, last);
    facts.position = facts.before.after(facts.last);
  }
  facts.line = support::line(facts.position, line);
  facts.other = support::line(facts.position, other);
  facts.score = score;
  return facts;
}

struct Case {
  const char* fen;
  const char* line;
  std::optional<study::ReasonKind> kind;
  std::vector<rules::Square> squares;
};

// Looks for what `find` finds in each.
template <typename Find>
void check(const std::vector<Case>& cases, const Find& find, search::Score score = 100) {
  for (const Case& c : cases) {
    INFO(c.fen << " " << c.line);
    const std::optional<study::Reason> found = find(facts_of(c.fen, "", c.line, score));
    CHECK(found.has_value() == c.kind.has_value());
    if (!found || !c.kind) continue;
    CHECK(found->kind == *c.kind);
    CHECK(found->squares == c.squares);
    CHECK(found->pieces.size() <= found->squares.size());
  }
}

}  // namespace kairos::test
