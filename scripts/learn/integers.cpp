#include "integers.hpp"

#include <cmath>
#include <cstdint>
#include <fstream>

namespace kairos::learn {

namespace {

void put(std::string& bytes, double x, int width) {
  const auto n = static_cast<std::uint32_t>(static_cast<std::int32_t>(std::lround(x)));
  for (int i = 0; i < width; ++i) bytes += static_cast<char>(n >> 8 * i & 255);
}

void put_lanes(std::string& bytes, Lanes x, double one) {
  for (std::size_t i = 0; i < lanes; ++i) put(bytes, static_cast<double>(x[i]) * one, 2);
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
  constexpr std::size_t rows = std::size_t{output_buckets} * 2;
  std::string bytes = "kairos net 2";
  bytes.resize(64);
  for (std::size_t f = 0; f < std::size_t{feature_count}; ++f) {
    for (std::size_t s = 0; s < slices; ++s) put_lanes(bytes, network.weight(s, f), layer_one);
  }
  for (std::size_t s = 0; s < slices; ++s) put_lanes(bytes, network.bias[s], layer_one);
  for (std::size_t row = 0; row < rows; ++row) {
    for (std::size_t s = 0; s < slices; ++s) {
      put_lanes(bytes, network.output[s * rows + row], output_one);
    }
  }
  for (const float b : network.output_bias) put(bytes, double{b} * layer_one * output_one, 4);
  std::ofstream file(path, std::ios::binary);
  file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  return file.good();
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
