// Fits the model of players by maximum likelihood: the choosers of model.hpp and how many there
// are of each.
//
// Expectation and maximisation in turn (Dempster, Laird and Rubin 1977): each case is divided
// between the choosers by who is the likelier to have played the move; then each chooser's weights
// are fitted on its parts of the cases by a step of Newton's method. Weights of costs are
// never positive. What is made small: minus the log likelihood, plus half of
// `size_penalty` times the square of each end of a weight and of `slope_penalty` times the square
// of their difference. Last, the sharpness of the mixture, by steps along its two numbers,
// shortened until they gain nothing. No lot is drawn, so the same cases give the same model.
#pragma once

#include <array>
#include <functional>
#include <string>
#include <vector>

#include "cases.hpp"
#include "model.hpp"

namespace kairos::people_tools {

inline constexpr double size_penalty = 1, slope_penalty = 4;
// Ends of all terms: at_low of term i at 2 i, at_high at 2 i + 1.
inline constexpr std::size_t end_count = 2 * people::term_count;
using Ends = std::array<double, end_count>;

struct Model {
  std::string name;
  std::array<Ends, people::chooser_count> choosers{};
  people::Parts parts{};
  people::Sharpness sharpness;
};

// Shares of a case's moves.
std::vector<double> shares_of(const Cases& cases, const Case& c, const Model& model);

// Which terms a chooser may go by; the weights of the others stay at 0.
using Uses = std::function<bool(std::size_t chooser, const people::Term&)>;

// On the cases that `is_used` names.
Model fit(std::string name, const Cases& cases, const std::function<bool(const Case&)>& is_used,
          const Uses& uses);

}  // namespace kairos::people_tools
