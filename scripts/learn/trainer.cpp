#include "trainer.hpp"

#include <algorithm>
#include <atomic>
#include <barrier>
#include <bit>
#include <cmath>
#include <numbers>
#include <numeric>
#include <thread>

#include "chance.hpp"

namespace kairos::learn {

namespace {

constexpr std::size_t views = 2;
constexpr auto features = static_cast<std::size_t>(search::feature_count);
constexpr auto shared_features = static_cast<std::size_t>(search::features_a_region);
constexpr auto regions = static_cast<std::size_t>(search::king_regions);
constexpr auto buckets = static_cast<std::size_t>(search::output_buckets);
constexpr std::size_t output_rows = buckets * views;  // of a slice

constexpr float beta1 = 0.9F, beta2 = 0.999F, epsilon = 1e-8F;

template <typename T>
T clamped(T x, float low, float high) {
  if constexpr (std::is_same_v<T, float>) {
    return std::clamp(x, low, high);
  } else {
    const T lows = T{} + low, highs = T{} + high;
    x = x < lows ? lows : x;
    return x > highs ? highs : x;
  }
}

Lanes root(Lanes x) {
  for (std::size_t i = 0; i < lanes; ++i) x[i] = std::sqrt(x[i]);
  return x;
}
float root(float x) {
  return std::sqrt(x);
}

float sum(Lanes x) {
  float total = 0;
  for (std::size_t i = 0; i < lanes; ++i) total += x[i];
  return total;
}

std::size_t bucket_of(const Sample& sample) {
  return static_cast<std::size_t>(search::bucket_of(std::popcount(sample.occupied)));
}

// First and second moments of one array of weights.
template <typename T>
struct Moments {
  explicit Moments(std::size_t size) : first(size), second(size) {}
  std::vector<T> first, second;

  void move(T& weight, T gradient, std::size_t at, float step) {
    first[at] = beta1 * first[at] + (1 - beta1) * gradient;
    second[at] = beta2 * second[at] + (1 - beta2) * gradient * gradient;
    weight = clamped(weight - step * first[at] / (root(second[at]) + epsilon), -most_weight,
                     most_weight);
  }
};

// What a slice knows while a batch is at work.
struct SliceWork {
  std::vector<Lanes> effective = std::vector<Lanes>(features);  // own and shared weights together
  std::vector<Lanes> gradient = std::vector<Lanes>(features);
  std::vector<Lanes> sums;      // [sample][view]: of the first layer, before the clamp
  std::vector<float> partials;  // [sample]: this slice's part of the output
  Lanes bias_gradient{};
  std::array<Lanes, output_rows> output_gradient{};
};

}  // namespace

FloatNetwork::FloatNetwork(std::uint64_t seed)
    : layer(slices * features),
      shared(slices * shared_features),
      bias(slices),
      output(slices * output_rows),
      output_bias(buckets) {
  Chance chance(seed);
  const auto draw = [&](float most) {
    Lanes x{};
    for (std::size_t i = 0; i < lanes; ++i) {
      x[i] = most * static_cast<float>(2 * chance.share() - 1);
    }
    return x;
  };
  for (Lanes& w : shared) w = draw(0.15F);
  for (Lanes& w : bias) w = draw(0.1F) + 0.2F;
  for (Lanes& w : output) w = draw(0.06F);
}

Lanes FloatNetwork::weight(std::size_t slice, std::size_t feature) const {
  return clamped(layer[slice * features + feature] +
                     shared[slice * shared_features + feature % shared_features],
                 -most_weight, most_weight);
}

class Trainer::Implementation {
 public:
  Implementation(FloatNetwork& network, const Settings& settings)
      : net_(network), s_(settings), work_(slices), barrier_(settings.threads) {}

  double train(std::span<const Sample> samples, int number) {
    order_.resize(samples.size());
    std::iota(order_.begin(), order_.end(), 0U);
    Chance chance(s_.seed * 1000 + static_cast<std::uint64_t>(number));
    for (std::size_t i = order_.size(); i > 1; --i) {
      std::swap(order_[i - 1], order_[chance.below(i)]);
    }
    const std::size_t batches = samples.size() / s_.batch;
    run([&](unsigned thread) {
      for (std::size_t b = 0; b < batches; ++b) {
        const double done =
            (number + static_cast<double>(b) / static_cast<double>(batches)) / s_.epochs;
        const std::span<const std::uint32_t> chosen(order_.data() + b * s_.batch, s_.batch);
        forward(samples, chosen, thread);
        backward(chosen.size(), thread, step_at(done));
        barrier_.arrive_and_wait();
      }
    });
    return total_ / static_cast<double>(batches * s_.batch);
  }

  Errors measure(std::span<const Sample> samples) {
    order_.resize(samples.size());
    std::iota(order_.begin(), order_.end(), 0U);
    run([&](unsigned thread) {
      for (std::size_t from = 0; from < samples.size(); from += s_.batch) {
        const std::size_t size = std::min(s_.batch, samples.size() - from);
        forward(samples, std::span<const std::uint32_t>(order_.data() + from, size), thread);
        barrier_.arrive_and_wait();
      }
    });
    const auto size = static_cast<double>(samples.size());
    return {total_ / size, total_results_ / size, total_scores_ / size};
  }

  FloatNetwork gradient(std::span<const Sample> samples) {
    FloatNetwork g(1);
    order_.resize(samples.size());
    std::iota(order_.begin(), order_.end(), 0U);
    run([&](unsigned thread) {
      forward(samples, order_, thread);
      for (std::size_t slice = thread; slice < slices; slice += s_.threads) {
        collect(slice, samples.size());
      }
    });
    for (std::size_t slice = 0; slice < slices; ++slice) copy_gradient(slice, g);
    g.output_bias = output_bias_gradient_;
    return g;
  }

 private:
  template <typename Job>
  void run(const Job& job) {
    total_ = total_results_ = total_scores_ = 0;
    std::vector<std::thread> threads;
    for (unsigned t = 1; t < s_.threads; ++t) threads.emplace_back([&job, t] { job(t); });
    job(0);
    for (auto& t : threads) t.join();
  }

  [[nodiscard]] float step_at(double done) const {
    const auto fall = static_cast<float>(0.5 * (1 + std::cos(std::numbers::pi * done)));
    const float warm = std::min(1.0F, static_cast<float>(done * s_.epochs * 20) + 0.05F);
    return warm * (s_.last_step + (s_.step - s_.last_step) * fall);
  }

  // Features and first layer, then the outputs and how far they are off. Ends behind a barrier.
  void forward(std::span<const Sample> samples, std::span<const std::uint32_t> chosen,
               unsigned thread) {
    if (thread == 0) {
      features_.resize(chosen.size());
      buckets_.resize(chosen.size());
      slopes_.resize(chosen.size());
    }
    barrier_.arrive_and_wait();
    const std::size_t from = chosen.size() * thread / s_.threads;
    const std::size_t to = chosen.size() * (thread + 1) / s_.threads;
    for (std::size_t i = from; i < to; ++i) {
      features_[i] = features_of(samples[chosen[i]]);
      buckets_[i] = static_cast<std::uint8_t>(bucket_of(samples[chosen[i]]));
    }
    barrier_.arrive_and_wait();
    for (std::size_t slice = thread; slice < slices; slice += s_.threads) first_layer(slice);
    barrier_.arrive_and_wait();
    if (thread == 0) outputs(samples, chosen);
    barrier_.arrive_and_wait();
  }

  void first_layer(std::size_t slice) {
    SliceWork& work = work_[slice];
    for (std::size_t f = 0; f < features; ++f) work.effective[f] = net_.weight(slice, f);
    work.sums.resize(features_.size() * views);
    work.partials.resize(features_.size());
    for (std::size_t i = 0; i < features_.size(); ++i) {
      const Features& active = features_[i];
      Lanes out{};
      for (std::size_t v = 0; v < views; ++v) {
        Lanes x = net_.bias[slice];
        for (int n = 0; n < active.count; ++n) {
          x += work.effective[active.of[v][static_cast<std::size_t>(n)]];
        }
        work.sums[i * views + v] = x;
        const Lanes a = clamped(x, 0, 1);
        out += net_.output[slice * output_rows + buckets_[i] * views + v] * a * a;
      }
      work.partials[i] = sum(out);
    }
  }

  // One thread adds up, always in the same order.
  void outputs(std::span<const Sample> samples, std::span<const std::uint32_t> chosen) {
    constexpr float centipawns = search::output_centipawns;
    output_bias_gradient_.assign(buckets, 0);
    for (std::size_t i = 0; i < chosen.size(); ++i) {
      const Sample& sample = samples[chosen[i]];
      float out = net_.output_bias[buckets_[i]];
      for (const SliceWork& work : work_) out += work.partials[i];
      const auto curve = [&](float score) {
        return 1 / (1 + std::exp(-score / s_.curve_centipawns));
      };
      const float expected = curve(out * centipawns);
      const float result = static_cast<float>(sample.half_points) / 2;
      const float of_score = curve(sample.score);
      const float share = sample.half_points == no_result ? 0 : s_.result_share;
      const float target = share * result + (1 - share) * of_score;
      const float off = expected - target;
      total_ += off * off;
      total_results_ += (expected - result) * (expected - result);
      total_scores_ += (expected - of_score) * (expected - of_score);
      slopes_[i] = 2 * off * expected * (1 - expected) * centipawns / s_.curve_centipawns;
      output_bias_gradient_[buckets_[i]] += slopes_[i];
    }
  }

  // The slice's gradients, summed over the batch.
  void collect(std::size_t slice, std::size_t size) {
    SliceWork& work = work_[slice];
    std::fill(work.gradient.begin(), work.gradient.end(), Lanes{});
    work.bias_gradient = Lanes{};
    work.output_gradient = {};
    for (std::size_t i = 0; i < size; ++i) {
      const Features& active = features_[i];
      for (std::size_t v = 0; v < views; ++v) {
        const std::size_t row = buckets_[i] * views + v;
        const Lanes x = work.sums[i * views + v], a = clamped(x, 0, 1);
        work.output_gradient[row] += slopes_[i] * a * a;
        // Where the clamp holds, `a` does not move with x.
        const Lanes moves = (a == x) ? Lanes{} + 1 : Lanes{};
        const Lanes back = moves * (2 * slopes_[i]) * a * net_.output[slice * output_rows + row];
        work.bias_gradient += back;
        for (int n = 0; n < active.count; ++n) {
          work.gradient[active.of[v][static_cast<std::size_t>(n)]] += back;
        }
      }
    }
  }

  void backward(std::size_t size, unsigned thread, float step) {
    const float share = 1 / static_cast<float>(size);
    for (std::size_t slice = thread; slice < slices; slice += s_.threads) {
      collect(slice, size);
      move_slice(slice, share, step);
    }
    if (thread != 0) return;
    for (std::size_t b = 0; b < buckets; ++b) {
      output_bias_moments_.move(net_.output_bias[b], share * output_bias_gradient_[b], b, step);
    }
  }

  void move_slice(std::size_t slice, float share, float step) {
    const SliceWork& work = work_[slice];
    for (std::size_t f = 0; f < features; ++f) {
      const std::size_t at = slice * features + f;
      net_.layer[at] *= 1 - step * s_.decay;
      layer_moments_.move(net_.layer[at], share * work.gradient[f], at, step);
    }
    for (std::size_t f = 0; f < shared_features; ++f) {
      const std::size_t at = slice * shared_features + f;
      shared_moments_.move(net_.shared[at], share * shared_gradient(work, f), at, step);
    }
    bias_moments_.move(net_.bias[slice], share * work.bias_gradient, slice, step);
    for (std::size_t row = 0; row < output_rows; ++row) {
      const std::size_t at = slice * output_rows + row;
      output_moments_.move(net_.output[at], share * work.output_gradient[row], at, step);
    }
  }

  static Lanes shared_gradient(const SliceWork& work, std::size_t feature) {
    Lanes total{};
    for (std::size_t r = 0; r < regions; ++r) total += work.gradient[r * shared_features + feature];
    return total;
  }

  void copy_gradient(std::size_t slice, FloatNetwork& g) const {
    const SliceWork& work = work_[slice];
    std::copy(work.gradient.begin(), work.gradient.end(),
              g.layer.begin() + static_cast<std::ptrdiff_t>(slice * features));
    for (std::size_t f = 0; f < shared_features; ++f) {
      g.shared[slice * shared_features + f] = shared_gradient(work, f);
    }
    g.bias[slice] = work.bias_gradient;
    std::copy(work.output_gradient.begin(), work.output_gradient.end(),
              g.output.begin() + static_cast<std::ptrdiff_t>(slice * output_rows));
  }

  FloatNetwork& net_;
  Settings s_;
  std::vector<SliceWork> work_;
  std::barrier<> barrier_;
  std::vector<std::uint32_t> order_;
  std::vector<Features> features_;
  std::vector<std::uint8_t> buckets_;
  std::vector<float> slopes_;  // of the loss by the output, a sample
  std::vector<float> output_bias_gradient_;
  double total_ = 0, total_results_ = 0, total_scores_ = 0;
  Moments<Lanes> layer_moments_{slices * features}, shared_moments_{slices * shared_features},
      bias_moments_{slices}, output_moments_{slices * output_rows};
  Moments<float> output_bias_moments_{buckets};
};

Trainer::Trainer(FloatNetwork& network, const Settings& settings)
    : implementation_(new Implementation(network, settings)) {}
Trainer::~Trainer() {
  delete implementation_;
}
double Trainer::epoch(std::span<const Sample> samples, int number) {
  return implementation_->train(samples, number);
}
Errors Trainer::measure(std::span<const Sample> samples) {
  return implementation_->measure(samples);
}
FloatNetwork Trainer::gradient(std::span<const Sample> samples) {
  return implementation_->gradient(samples);
}

float evaluate(const FloatNetwork& network, const Sample& sample) {
  const Features active = features_of(sample);
  const std::size_t bucket = bucket_of(sample);
  float out = network.output_bias[bucket];
  for (std::size_t slice = 0; slice < slices; ++slice) {
    for (std::size_t v = 0; v < views; ++v) {
      Lanes x = network.bias[slice];
      for (int n = 0; n < active.count; ++n) {
        x += network.weight(slice, active.of[v][static_cast<std::size_t>(n)]);
      }
      const Lanes a = clamped(x, 0, 1);
      out += sum(network.output[slice * output_rows + bucket * views + v] * a * a);
    }
  }
  return out * search::output_centipawns;
}

}  // namespace kairos::learn
