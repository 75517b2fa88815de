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

// As the program has them in memory.
std::unique_ptr<search::NetworkWeights> loaded(const std::string& path) {
  auto weights = std::make_unique<search::NetworkWeights>();
  std::ifstream file(path, std::ios::binary);
  REQUIRE(file.read(reinterpret_cast<char*>(weights.get()), sizeof *weights));
  REQUIRE(file.peek() == std::ifstream::traits_type::eof());
  return weights;
}

FloatNetwork shortly_trained(const std::vector<Sample>& samples) {
  learn::Settings settings;
  settings.batch = 500;
  settings.epochs = 2;
  FloatNetwork network(seed);
  learn::Trainer trainer(network, settings);
  for (int epoch = 0; epoch < settings.epochs; ++epoch) trainer.epoch(samples, epoch);
  return network;
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
  const FloatNetwork network = shortly_trained(samples_of_material(4'000));

  const test::TemporaryFolder folder;
  REQUIRE(learn::write_integers(network, folder / "weights"));
  const auto weights = loaded(folder / "weights");
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

TEST_CASE(
    "integers read back say what they play, to five centipawns, and are written the same again",
    "[learn]") {
  const FloatNetwork network = shortly_trained(samples_of_material(4'000));
  const test::TemporaryFolder folder;
  REQUIRE(learn::write_integers(network, folder / "once"));
  FloatNetwork again(seed + 1);
  REQUIRE(learn::read_integers(folder / "once", again));
  REQUIRE(learn::write_integers(again, folder / "twice"));
  CHECK(folder.read("once") == folder.read("twice"));
  const auto weights = loaded(folder / "once");
  search::Network integers(*weights);
  std::mt19937_64 random(seed + 2);
  for (int i = 0; i < 500; ++i) {
    const auto p =
        oracles::random_play(random, rules::Position::start(), static_cast<int>(random() % 150));
    INFO(rules::to_fen(p));
    const auto read = static_cast<double>(learn::evaluate(again, learn::pack(p)));
    CHECK(integers.evaluate(p, 0) == Approx(read).epsilon(0).margin(5));
  }
  // What the regions have in common is shared.
  const auto stride = static_cast<std::size_t>(search::features_a_region);
  for (std::size_t f = 0; f < stride; ++f) {
    float sum = 0;
    for (std::size_t r = 0; r < search::king_regions; ++r) sum += again.layer[r * stride + f][0];
    CHECK(std::abs(sum) < 1e-5F);
  }
}

TEST_CASE("a file of another form leaves the network as it was", "[learn]") {
  const test::TemporaryFolder folder;
  const FloatNetwork network(seed);
  FloatNetwork other(seed);
  REQUIRE(learn::write_floats(network, folder / "floats"));
  CHECK_FALSE(learn::read_integers(folder / "floats", other));
  REQUIRE(learn::write_integers(network, folder / "integers"));
  std::string bytes = folder.read("integers");
  CHECK_FALSE(learn::read_floats(folder / "integers", other));
  bytes.pop_back();
  folder.write("short", bytes);
  other = network;
  CHECK_FALSE(learn::read_integers(folder / "short", other));
  CHECK(other.layer[0][0] == network.layer[0][0]);
  CHECK(other.shared[5][1] == network.shared[5][1]);
}

TEST_CASE("files read side by side come out as one after another", "[learn]") {
  const test::TemporaryFolder folder;
  std::vector<Sample> samples = samples_of_material(600);
  std::vector<std::string> paths;
  for (std::size_t file = 0; file < 3; ++file) {
    for (std::size_t i = 0; i < 200; ++i) {
      samples[200 * file + i].game = static_cast<std::uint32_t>(i / (7 + file));
    }
    paths.push_back(folder / ("part" + std::to_string(file)));
    learn::SampleWriter(paths.back()).write(std::span(samples).subspan(200 * file, 200));
  }
  std::vector<Sample> in_turn;
  for (const std::string& path : paths) {
    const std::uint32_t first = in_turn.empty() ? 0 : in_turn.back().game + 1;
    REQUIRE(learn::read_samples(path, first, in_turn));
  }
  REQUIRE(in_turn.size() == samples.size());
  for (const unsigned threads : {1U, 2U, 8U}) {
    std::vector<Sample> together;
    REQUIRE_FALSE(learn::read_samples(paths, threads, together));
    REQUIRE(together.size() == in_turn.size());
    for (std::size_t i = 0; i < together.size(); ++i) {
      INFO(i);
      REQUIRE(together[i].game == in_turn[i].game);
      REQUIRE(together[i].occupied == in_turn[i].occupied);
      REQUIRE(together[i].score == in_turn[i].score);
    }
  }
  paths.insert(paths.begin() + 1, folder / "missing");
  std::vector<Sample> none;
  CHECK(learn::read_samples(paths, 2, none) == folder / "missing");
}
