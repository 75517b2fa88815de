// How exactly people play, as a table in plain text or as one JSON object, in a line without its
// end.
//
// 100 columns, UTF-8. Pure; the text ends with an empty row.
#pragma once

#include <string>
#include <vector>

#include "kairos/habits/rates.hpp"

namespace kairos::report {

std::string rates_text(const std::vector<habits::PlayerRates>& players,
                       const habits::RateRule& rule);
std::string rates_json(const std::vector<habits::PlayerRates>& players);

}  // namespace kairos::report
