// Trains a network on packed games and writes its integers.
//
//   kairos_train OUT GAMES... [--epochs N] [--step X] [--last-step X] [--results SHARE]
//                [--decay X] [--curve CP] [--batch N] [--threads N] [--seed N] [--from FILE]
//
// Every 64th game is held out; its errors are printed before the first epoch and after each.
// OUT.floats holds the numbers before they were rounded; `--from` goes on from such a file, or from
// the integers where only they are left. Files are read side by side, up to `--threads` at once.
#include <chrono>
#include <iostream>
#include <string>
#include <thread>
#include <vector>

#include "integers.hpp"
#include "positions.hpp"
#include "trainer.hpp"

using namespace kairos;

namespace {

constexpr std::uint32_t hold_out_every = 64;

struct Options {
  std::string out, from;
  std::vector<std::string> games;
  learn::Settings settings;
};

Options read_options(int count, char** words) {
  Options o;
  o.settings.threads = std::max(1U, std::thread::hardware_concurrency());
  o.out = words[1];
  for (int i = 2; i < count; ++i) {
    const std::string name = words[i];
    if (!name.starts_with("--")) {
      o.games.push_back(name);
      continue;
    }
    const std::string value = i + 1 < count ? words[++i] : "";
    if (name == "--epochs") o.settings.epochs = std::stoi(value);
    if (name == "--step") o.settings.step = std::stof(value);
    if (name == "--last-step") o.settings.last_step = std::stof(value);
    if (name == "--results") o.settings.result_share = std::stof(value);
    if (name == "--curve") o.settings.curve_centipawns = std::stof(value);
    if (name == "--decay") o.settings.decay = std::stof(value);
    if (name == "--batch") o.settings.batch = std::stoul(value);
    if (name == "--threads") o.settings.threads = static_cast<unsigned>(std::stoul(value));
    if (name == "--from") o.from = value;
    if (name == "--seed") o.settings.seed = std::stoull(value);
  }
  return o;
}

void print_errors(const char* when, const learn::Errors& errors) {
  std::cerr << when << ": held out " << errors.loss << " (results " << errors.results << ", scores "
            << errors.scores << ")\n";
}

}  // namespace

int main(int count, char** words) {
  if (count < 3) {
    std::cerr << "usage: kairos_train OUT GAMES... [options: see scripts/learn/train.cpp]\n";
    return 2;
  }
  const Options options = read_options(count, words);
  std::vector<learn::Sample> all;
  if (const auto bad = learn::read_samples(options.games, options.settings.threads, all)) {
    std::cerr << *bad << " holds no packed games\n";
    return 3;
  }
  std::vector<learn::Sample> samples, held_out;
  for (const learn::Sample& s : all) {
    (s.game % hold_out_every == 0 ? held_out : samples).push_back(s);
  }
  std::vector<learn::Sample>().swap(all);
  std::cerr << samples.size() << " positions to learn from, " << held_out.size() << " held out\n";

  learn::FloatNetwork network(options.settings.seed);
  if (!options.from.empty() && !learn::read_integers(options.from, network) &&
      !learn::read_floats(options.from, network)) {
    std::cerr << options.from << " holds no network of this shape\n";
    return 3;
  }
  learn::Trainer trainer(network, options.settings);
  print_errors("before", trainer.measure(held_out));
  const auto start = std::chrono::steady_clock::now();
  for (int epoch = 0; epoch < options.settings.epochs; ++epoch) {
    const double loss = trainer.epoch(samples, epoch);
    const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - start;
    std::cerr << "epoch " << epoch + 1 << ": loss " << loss << ", "
              << static_cast<int>(spent.count()) << " s\n";
    print_errors("after", trainer.measure(held_out));
  }
  const bool written = learn::write_integers(network, options.out) &&
                       learn::write_floats(network, options.out + ".floats");
  return written ? 0 : 1;
}
