// The list of report formats: one line each, in the order in which they are written and announced.
//
// To add one: write src/report/<name>.cpp with a function of Format::write's type, declare it in
// src/report/writers.hpp and add its line in src/report/formats.cpp.
#pragma once

#include <span>

#include "kairos/report/writer.hpp"

namespace kairos::report {

std::span<const Format> formats();

}  // namespace kairos::report
