// The trainer: its gradients against finite differences, its integers against its floating point,
// and a training of a second that must learn.
#include "trainer.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <memory>
#include <random>

#include "kairos/rules/fen.hpp"

#include "integers.hpp"
#include "network.hpp"
#include "oracles/search_naive.hpp"
#include "support/temporary_folder.hpp"

using namespace kairos;
using learn::FloatNetwork;
using learn::Sample;

namespace {

constexpr unsigned seed = 20261128;

// Positions of random games, labelled by their material: something that can be learnt.
std::vector<Sample> samples_of_material(std::size_t count) {
  constexpr std::array<int, rules::piece_type_count> worth = {100, 300, 300, 500, 900, 0};
  std::mt19937_64 random(seed);
  std::vector<Sample> samples;
  while (samples.size() < count) {
    const auto p = oracles::random_play(random, rules::Position::start(),
                                        static_cast<int>(10 + random() % 100));
    int score = 0;
    for (std::size_t type = 0; type < worth.size(); ++type) {
      const rules::Bitboard men = p.pieces(static_cast<rules::PieceType>(type));
      const int own = rules::count(men & p.pieces(p.side_to_move()));
      score += worth[type] * (2 * own - rules::count(men));
    }
    samples.push_back(learn::pack(p));
    samples.back().score = static_cast<std::int16_t>(std::clamp(score, -1000, 1000));
    samples.back().half_points = static_cast<std::uint8_t>(random() % 4);
  }
  return samples;
}

double summed_loss(FloatNetwork& network, const std::vector<Sample>& samples) {
  learn::Trainer trainer(network, {});
  return trainer.measure(samples).loss * static_cast<double>(samples.size());
}

// Moves numbers of one array, those with a gradient, and compares what the loss does.
template <typename Number>
void check_gradients(FloatNetwork& network, const std::vector<Sample>& samples, Number number,
                     const FloatNetwork& gradient, std::size_t size) {
  constexpr float nudge = 1e-3F;
  std::mt19937_64 random(seed);
  int checked = 0;
  for (int tries = 0; tries < 20'000 && checked < 25; ++tries) {
    const std::size_t at = random() % size;
    const float expected = number(const_cast<FloatNetwork&>(gradient), at);
    if (std::abs(expected) < 1e-3F) continue;
    float& x = number(network, at);
    const float before = x;
    x = before + nudge;
    const double above = summed_loss(network, samples);
    x = before - nudge;
    const double below = summed_loss(network, samples);
    x = before;
    INFO("number " << at << ", seed " << seed);
    CHECK((above - below) / (2 * nudge) == Approx(expected).epsilon(0.03).margin(2e-4));
    ++checked;
  }
  CHECK(checked == 25);
}

}  // namespace

TEST_CASE("gradients are what finite differences say", "[learn]") {
  FloatNetwork network(seed);
  const std::vector<Sample> samples = samples_of_material(24);
  const FloatNetwork gradient = learn::Trainer(network, {}).gradient(samples);
  const auto lane = [](auto array) {
    return [array](FloatNetwork& n, std::size_t at) -> float& {
      return reinterpret_cast<float*>((n.*array).data())[at];
    };
  };
  const auto check = [&](auto array) {
    check_gradients(network, samples, lane(array), gradient,
                    (network.*array).size() * learn::lanes);
  };
  SECTION("first layer") {
    check(&FloatNetwork::layer);
  }
  SECTION("what regions share") {
    check(&FloatNetwork::shared);
  }
  SECTION("biases") {
    check(&FloatNetwork::bias);
  }
  SECTION("output") {
    check(&FloatNetwork::output);
  }
  SECTION("output biases") {
    for (std::size_t b = 0; b < network.output_bias.size(); ++b) {
      float& x = network.output_bias[b];
      const float before = x;
      x = before + 1e-3F;
      const double above = summed_loss(network, samples);
      x = before - 1e-3F;
      const double below = summed_loss(network, samples);
      x = before;
      CHECK((above - below) / 2e-3 == Approx(gradient.output_bias[b]).epsilon(0.01).margin(1e-3));
    }
  }
}

TEST_CASE("a short training learns to count material, whatever the threads", "[learn]") {
  const std::vector<Sample> samples = samples_of_material(8'000);
  learn::Settings settings;
  settings.batch = 500;
  settings.epochs = 3;
  settings.result_share = 0;
  std::vector<double> last_loss;
  std::vector<float> first_weight;
  for (const unsigned threads : {1U, 3U}) {
    settings.threads = threads;
    FloatNetwork network(seed);
    learn::Trainer trainer(network, settings);
    const double before = trainer.measure(samples).loss;
    for (int epoch = 0; epoch < settings.epochs; ++epoch) trainer.epoch(samples, epoch);
    const double after = trainer.measure(samples).loss;
    CHECK(after < before / 3);
    last_loss.push_back(after);
    first_weight.push_back(network.output[0][0]);
  }
  CHECK(last_loss[0] == last_loss[1]);
  CHECK(first_weight[0] == first_weight[1]);
}

TEST_CASE("the integers say what the floating point says, to five centipawns and a hundredth",
          "[learn]") {
  const std::vector<Sample> samples = samples_of_material(4'000);
  learn::Settings settings;
  settings.batch = 500;
  settings.epochs = 2;
  FloatNetwork network(seed);
  learn::Trainer trainer(network, settings);
  for (int epoch = 0; epoch < settings.epochs; ++epoch) trainer.epoch(samples, epoch);

  const test::TemporaryFolder folder;
  REQUIRE(learn::write_integers(network, folder / "weights"));
  const auto weights = std::make_unique<search::NetworkWeights>();
  std::ifstream file(folder / "weights", std::ios::binary);
  REQUIRE(file.read(reinterpret_cast<char*>(weights.get()), sizeof *weights));
  REQUIRE(file.peek() == std::ifstream::traits_type::eof());

  search::Network integers(*weights);
  std::mt19937_64 random(seed + 1);
  for (int i = 0; i < 500; ++i) {
    const auto p =
        oracles::random_play(random, rules::Position::start(), static_cast<int>(random() % 150));
    INFO(rules::to_fen(p));
    const auto exact = static_cast<double>(learn::evaluate(network, learn::pack(p)));
    CHECK(integers.evaluate(p, 0) == Approx(exact).epsilon(0.01).margin(5));
  }
}
