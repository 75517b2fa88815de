// Trains the network of network_shape.hpp by gradient descent, in floating point.
//
// A sample's target is the expectation of its search score by a logistic curve of scale
// `curve_centipawns`, mixed with the result of its game; the loss is the squared error of the
// network's own expectation by the same curve. Adam (D. Kingma, J. Ba, 2015) on batches, the step
// falling along half a cosine. What is learnt of a man on a square in all regions of the king at
// once is a weight of its own, added in: regions seldom seen learn from the others.
//
// Work is cut by columns of the first layer, each with its own weights, so that threads never add
// to the same number: the result depends on samples, settings and compiler, not on the threads.
#pragma once

#include <cstdint>
#include <functional>
#include <span>
#include <vector>

#include "network_shape.hpp"
#include "positions.hpp"

namespace kairos::learn {

inline constexpr std::size_t lanes = 16;  // columns that are worked on together
inline constexpr std::size_t slices = search::network_width / lanes;
inline constexpr float most_weight = 1.98F;  // of both layers, so that the integers fit

using Lanes [[gnu::vector_size(lanes * sizeof(float))]] = float;

// The weights, by slices: [slice][feature] of the first layer, [slice][bucket][view] of the output.
struct FloatNetwork {
  std::vector<Lanes> layer;   // of each region's features ...
  std::vector<Lanes> shared;  // ... and what is added to all regions'
  std::vector<Lanes> bias;
  std::vector<Lanes> output;
  std::vector<float> output_bias;  // by bucket

  explicit FloatNetwork(std::uint64_t seed);
  [[nodiscard]] Lanes weight(std::size_t slice, std::size_t feature) const;
};

struct Settings {
  std::size_t batch = 16'384;
  int epochs = 12;
  float step = 1e-3F, last_step = 2e-6F;
  float result_share = 0.3F;
  float decay = 0;  // of the regions' own weights, times the step, each batch
  float curve_centipawns = 200;
  unsigned threads = 1;
  std::uint64_t seed = 1;
};

struct Errors {
  double loss = 0;     // against the targets
  double results = 0;  // against the games' results alone
  double scores = 0;   // against the scores' expectations alone
};

class Trainer {
 public:
  Trainer(FloatNetwork& network, const Settings& settings);
  ~Trainer();
  Trainer(const Trainer&) = delete;
  Trainer& operator=(const Trainer&) = delete;

  // Goes through the samples once, in an order drawn by lot; `share_done` of all epochs to come or
  // gone sets the step. Returns the mean loss on the way.
  double epoch(std::span<const Sample> samples, int number);
  Errors measure(std::span<const Sample> samples);
  // The gradient of the summed loss of a few samples, in the network's own form: for tests.
  FloatNetwork gradient(std::span<const Sample> samples);

 private:
  class Implementation;
  Implementation* implementation_;
};

// What the network says, in centipawns from the side to move.
float evaluate(const FloatNetwork& network, const Sample& sample);

}  // namespace kairos::learn
