// What a fitted model is worth on the cases held out. Each table is printed as lines of text.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "likelihood.hpp"

namespace kairos::people_tools {

// Mean log loss (natural logarithm) of the move played, by band of rating, for each model and for
// "the best move with its average share": the share that the best move has in the band among the
// cases fitted on, the rest shared evenly.
void print_log_loss(const Cases& cases, const std::vector<Model>& models);
// The two figures at the top of the parameters, as comment lines.
std::string quality_of(const Cases& cases, const std::vector<Model>& models);
// Share of the best move, in ten bands, against how often it was played; of all places or of those
// with an only move (its lead is `only_lead` or more).
enum class Places : std::uint8_t { all, only_moves };
void print_find_rates(const Cases& cases, const Model& model, Places places);
// Errors: moves that cost `error_cost` or more; as predicted, and as they were made.
void print_errors(const Cases& cases, const Model& model);
// Area under the curve for "found or missed" of only moves (lead of `only_lead` or more): the
// chance that one that was found had the greater share of the two.
void print_only_moves(const Cases& cases, const std::vector<Model>& models);

}  // namespace kairos::people_tools
