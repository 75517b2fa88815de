// The evaluation as a linear function of its weights, around given ones.
//
// A Knob is one number of the weights; `linearise` gives for every position its evaluation
// (White's, centipawns) and the slope of each knob that moves it.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "samples.hpp"
#include "terms.hpp"

namespace kairos::fit {

// One number to fit: a plain int, or one half of a Taper.
struct Knob {
  std::string name;
  int step;  // of the finite difference
  int (*get)(const void*);
  void (*set)(void*, int);
  std::size_t offset;  // of the Taper or int in Weights
};
std::vector<Knob> list_knobs();
// The place of the knob's number in the weights.
void* at(search::Weights& w, const Knob& k);

struct Slope {
  std::uint16_t knob;
  float slope;  // centipawns (White's) per unit of the knob
};

struct Point {
  double evaluation;  // White's, centipawns, at the point of linearisation
  float target;
  std::uint32_t first, last;  // its slopes
};

struct Problem {
  std::vector<Point> points;
  std::vector<Slope> slopes;
};

double white_evaluation(const rules::Position& p, const search::Parameters& parameters);
Problem linearise(const std::vector<Sample>& samples, const search::Weights& w,
                  const std::vector<Knob>& knobs);

}  // namespace kairos::fit
