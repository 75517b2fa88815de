// What a writer makes of a collection, by the writer's name.
#pragma once

#include <string>
#include <string_view>

#include "kairos/report/formats.hpp"

namespace kairos::test {

// The bytes of that format; "" (which no test expects) when there is none of that name or it fails.
inline std::string written(std::string_view name, const report::Collection& collection) {
  for (const report::Format& format : report::formats()) {
    if (format.name != name) continue;
    base::StringSink sink;
    return format.write(collection, sink).ok() ? sink.text : "";
  }
  return "";
}

}  // namespace kairos::test
