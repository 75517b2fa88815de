// A few short games as PGN text, with errors in them, and a run over them at a tiny effort: what
// tests need that go through the whole work in a second.
//
// The games are invented, but for Legal's mate ("common practice").
#pragma once

#include <string>
#include <string_view>

#include "kairos/study/settings.hpp"

namespace kairos::test {

// Five games; the fourth has an illegal move (Qh6), the fifth is of another variant.
inline constexpr std::string_view small_games = R"([Event "Test"]
[White "Rosin, Ada"]
[Black "Bellini, Gia"]
[Result "1-0"]

1. e4 e5 2. Nf3 d6 3. Bc4 Bg4 4. Nc3 g6 5. Nxe5 Bxd1 6. Bxf7+ Ke7 7. Nd5# 1-0

[Event "Test"]
[White "Bellini, Gia"]
[Black "Marek, Tom"]
[Result "0-1"]

1. f3 e5 2. g4 Qh4# 0-1

[Event "Test"]
[White "Marek, Tom"]
[Black "Rosin, Ada"]
[Result "0-1"]

1. e4 e5 2. Qh5 Nc6 3. Bc4 Nf6 4. d3 Nxh5 {too much} 5. Bxf7+ Kxf7 6. Bg5 Qxg5 7. Nf3 Qxg2
8. Rg1 Qxf3 0-1

[Event "Test"]
[White "Rosin, Ada"]
[Black "Marek, Tom"]
[Result "1/2-1/2"]

1. d4 d5 2. c4 dxc4 3. e4 b5 4. a4 c6 5. axb5 cxb5 6. Qf3 Nd7 7. Qh6 1/2-1/2

[Event "Test"]
[White "Rosin, Ada"]
[Black "Bellini, Gia"]
[Variant "Atomic"]
[Result "1-0"]

1. Nf3 1-0
)";

inline study::Settings tiny_settings() {
  study::Settings settings;
  settings.effort = {.survey_nodes = 300, .verify_nodes = 1500, .puzzle_nodes = 3000};
  return settings;
}

}  // namespace kairos::test
