// CRC-32 (ISO 3309 / ITU-T V.42 polynomial, reflected 0xEDB88320): the ledger's check on each
// record and the fingerprint of inputs and settings. Detects damage, not malice. Check value of the
// standard: crc32("123456789") = 0xCBF43926.
//
// hash64 is FNV-1a with 64 bits (Fowler, Noll, Vo; RFC 9923): a second opinion, of another kind,
// where 32 bits are too few to tell many texts apart. hash64("") = 0xCBF29CE484222325.
#pragma once

#include <cstdint>
#include <string_view>

namespace kairos::base {

// `seed` is the checksum of the bytes before, so that a long text may be fed in pieces.
std::uint32_t crc32(std::string_view bytes, std::uint32_t seed = 0);

std::uint64_t hash64(std::string_view bytes);

}  // namespace kairos::base
