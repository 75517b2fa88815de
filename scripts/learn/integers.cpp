#include "integers.hpp"

#include <cmath>
#include <cstdint>
#include <fstream>
#include <iterator>
#include <string_view>

namespace kairos::learn {

namespace {

constexpr std::string_view head = "kairos net 2";
constexpr std::size_t head_bytes = 64;
constexpr std::size_t output_rows = std::size_t{search::output_buckets} * 2;
constexpr auto features = static_cast<std::size_t>(search::feature_count);
constexpr auto shared_features = static_cast<std::size_t>(search::features_a_region);
constexpr std::size_t bytes_in_all =
    head_bytes + 2 * lanes * slices * (features + 1 + output_rows) + 4 * search::output_buckets;

void put(std::string& bytes, double x, int width) {
  const auto n = static_cast<std::uint32_t>(static_cast<std::int32_t>(std::lround(x)));
  for (int i = 0; i < width; ++i) bytes += static_cast<char>(n >> 8 * i & 255);
}

void put_lanes(std::string& bytes, Lanes x, double one) {
  for (std::size_t i = 0; i < lanes; ++i) put(bytes, static_cast<double>(x[i]) * one, 2);
}

// Takes numbers off the front of what is left of a file.
float take(std::string_view& bytes, int width, double one) {
  std::uint32_t n = 0;
  for (int i = 0; i < width; ++i) {
    n |= std::uint32_t{static_cast<unsigned char>(bytes[static_cast<std::size_t>(i)])} << 8 * i;
  }
  bytes.remove_prefix(static_cast<std::size_t>(width));
  const int number = width == 2 ? static_cast<std::int16_t>(n) : static_cast<std::int32_t>(n);
  return static_cast<float>(number / one);
}

Lanes take_lanes(std::string_view& bytes, double one) {
  Lanes x{};
  for (std::size_t i = 0; i < lanes; ++i) x[i] = take(bytes, 2, one);
  return x;
}

// Moves what the regions have in common from `layer` to `shared`.
void share_means(FloatNetwork& network) {
  for (std::size_t s = 0; s < slices; ++s) {
    for (std::size_t f = 0; f < shared_features; ++f) {
      Lanes mean{};
      const auto of_region = [&](std::size_t r) -> Lanes& {
        return network.layer[s * features + r * shared_features + f];
      };
      for (std::size_t r = 0; r < search::king_regions; ++r) mean += of_region(r);
      mean /= static_cast<float>(search::king_regions);
      for (std::size_t r = 0; r < search::king_regions; ++r) of_region(r) -= mean;
      network.shared[s * shared_features + f] = mean;
    }
  }
}

// All arrays of a network, one after another.
template <typename Network, typename Each>
void each_array(Network& network, Each each) {
  each(network.layer);
  each(network.shared);
  each(network.bias);
  each(network.output);
  each(network.output_bias);
}

template <typename T>
std::streamsize bytes_of(const std::vector<T>& array) {
  return static_cast<std::streamsize>(array.size() * sizeof(T));
}

}  // namespace

bool write_integers(const FloatNetwork& network, const std::string& path) {
  using namespace search;
  std::string bytes(head);
  bytes.resize(head_bytes);
  for (std::size_t f = 0; f < features; ++f) {
    for (std::size_t s = 0; s < slices; ++s) put_lanes(bytes, network.weight(s, f), layer_one);
  }
  for (std::size_t s = 0; s < slices; ++s) put_lanes(bytes, network.bias[s], layer_one);
  for (std::size_t row = 0; row < output_rows; ++row) {
    for (std::size_t s = 0; s < slices; ++s) {
      put_lanes(bytes, network.output[s * output_rows + row], output_one);
    }
  }
  for (const float b : network.output_bias) put(bytes, double{b} * layer_one * output_one, 4);
  std::ofstream file(path, std::ios::binary);
  file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  return file.good();
}

bool read_integers(const std::string& path, FloatNetwork& network) {
  using namespace search;
  std::ifstream file(path, std::ios::binary);
  const std::string all{std::istreambuf_iterator<char>(file), {}};
  if (all.size() != bytes_in_all || !all.starts_with(head)) return false;
  std::string_view bytes = std::string_view(all).substr(head_bytes);
  for (std::size_t f = 0; f < features; ++f) {
    for (std::size_t s = 0; s < slices; ++s) {
      network.layer[s * features + f] = take_lanes(bytes, layer_one);
    }
  }
  share_means(network);
  for (std::size_t s = 0; s < slices; ++s) network.bias[s] = take_lanes(bytes, layer_one);
  for (std::size_t row = 0; row < output_rows; ++row) {
    for (std::size_t s = 0; s < slices; ++s) {
      network.output[s * output_rows + row] = take_lanes(bytes, output_one);
    }
  }
  for (float& b : network.output_bias) b = take(bytes, 4, double{layer_one} * output_one);
  return true;
}

bool write_floats(const FloatNetwork& network, const std::string& path) {
  std::ofstream file(path, std::ios::binary);
  each_array(network, [&](const auto& array) {
    file.write(reinterpret_cast<const char*>(array.data()), bytes_of(array));
  });
  return file.good();
}

bool read_floats(const std::string& path, FloatNetwork& network) {
  std::ifstream file(path, std::ios::binary);
  each_array(network, [&](auto& array) {
    file.read(reinterpret_cast<char*>(array.data()), bytes_of(array));
  });
  return file.good() && file.peek() == std::ifstream::traits_type::eof();
}

}  // namespace kairos::learn
