// Positions in which moves are typed, of both tests of typed moves.
#pragma once

namespace kairos::audience {

inline constexpr const char* start = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1";
inline constexpr const char* middle = "6k1/5ppp/8/8/3n4/5N2/1B3PPP/1N1QR1K1 w - - 0 1";
inline constexpr const char* taking = "4k3/8/8/3p4/4P3/8/8/4K3 w - - 0 1";    // only exd5 takes
inline constexpr const char* both_b = "4k3/8/8/8/8/2n5/1P1B4/4K3 w - - 0 1";  // Bxc3 and bxc3
inline constexpr const char* castling = "r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1";
inline constexpr const char* promoting = "3n4/4P1k1/8/8/8/8/8/4K3 w - - 0 1";
inline constexpr const char* ladder = "8/8/5k2/8/8/8/8/RR4K1 w - - 0 1";

}  // namespace kairos::audience
