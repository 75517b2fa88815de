// Bytes unpacked where they are packed: a source that holds gzip data (RFC 1952, told by its first
// two bytes) is wrapped in one that unpacks it, any other is handed on as it is.
//
// Concatenated members are one text. Damage and a missing end are faults of the source, given after
// everything before them has been handed out (codes gzip_damaged, gzip_truncated).
#pragma once

#include <memory>
#include <string>

#include "kairos/base/bytes.hpp"

namespace kairos::pgn {

// `name` is the file's, for faults. Fails when the first bytes cannot be read.
base::Result<std::unique_ptr<base::ByteSource>> unpacked(std::unique_ptr<base::ByteSource> source,
                                                         const std::string& name);

}  // namespace kairos::pgn
