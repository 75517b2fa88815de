// What the values of records may be. A record that goes beyond is damaged, so that nothing behind
// the ledger needs to ask again. Everything that a study makes lies within.
#pragma once

#include <limits>

#include "kairos/batch/intake.hpp"
#include "kairos/pgn/tokens.hpp"
#include "kairos/study/study.hpp"  // and with it the scores of a search

#include "fields.hpp"

namespace kairos::batch {

inline constexpr Range scores{-search::mate_score, search::mate_score};
inline constexpr Range gains{-search::max_evaluation, search::max_evaluation};
inline constexpr Range depths{0, search::max_ply};
// Beyond what the largest effort could search in years; sums of many stay within 64 bits.
inline constexpr Range node_counts{0, std::int64_t{1} << 50 << 6};
inline constexpr Range clocks{-1, study::most_clock_seconds};
inline constexpr Range ratings{0, 9999};
inline constexpr Range find_rates_or_none{-1, study::find_rate_of};
inline constexpr Range error_chance_range{study::no_chance, study::chance_of};
inline constexpr Range shares{0, study::find_rate_of};

// Plies are also held against the game: `fits` (record.hpp).
inline constexpr std::int64_t most_plies = std::numeric_limits<int>::max();
inline constexpr Range plies{0, most_plies};
inline constexpr Range shared_openings{0, opening_plies};
// A search line, and the move before it.
inline constexpr std::int64_t most_line = 2 * search::max_ply;

inline constexpr std::int64_t most_lines = 8;     // of one position
inline constexpr std::int64_t most_moments = 32;  // of one ply, and puzzles of them
inline constexpr std::int64_t most_tries = 8;
inline constexpr std::int64_t most_reasons = 64;
inline constexpr Range levels{1, 5};  // of difficulty
inline constexpr Range mates{0, search::max_ply};
// Of a note, which may claim what it likes.
inline constexpr Range said_mates{0, std::numeric_limits<int>::max()};

// Bytes. A tag that was read as ISO 8859-1 is twice as long in UTF-8.
inline constexpr std::size_t most_tag = 2 * pgn::TokenStream::longest_tag;
inline constexpr std::size_t most_label = 5 * most_tag;  // of four tags, with words between
inline constexpr std::size_t most_words = 1 << 16;       // faults, names of files
inline constexpr std::size_t most_header = 4096;
inline constexpr std::size_t most_game = std::size_t{1} << 30;

// Numbers of lines, games and the like.
inline constexpr Range counts{0, std::numeric_limits<std::int64_t>::max()};

}  // namespace kairos::batch
