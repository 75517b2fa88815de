// A canvas as a PNG file (ISO/IEC 15948): eight bits a channel, not interlaced.
//
// Colour type 2 (red, green, blue), or 6 (and alpha) where a pixel is not opaque.
#pragma once

#include <string>

#include "kairos/base/result.hpp"

#include "canvas.hpp"

namespace kairos::report {

// A fault only where there is no memory to pack the pixels.
base::Result<std::string> to_png(const Canvas& canvas);

}  // namespace kairos::report
