#include "positions.hpp"

#include <algorithm>
#include <atomic>
#include <bit>
#include <cstdlib>
#include <string_view>
#include <thread>

#include "kairos/rules/fen.hpp"

#include "games.hpp"
#include "network_shape.hpp"

namespace kairos::learn {

using rules::Position;

Sample pack(const Position& position) {
  Sample sample;
  sample.occupied = position.occupied();
  std::size_t n = 0;
  for (rules::Bitboard left = sample.occupied; left != 0; left &= left - 1, ++n) {
    const int man = position.piece_on(rules::first(left));
    sample.men[n / 2] = static_cast<std::uint8_t>(sample.men[n / 2] | man << (n % 2 * 4));
  }
  sample.black_to_move = position.side_to_move() == rules::black ? 1 : 0;
  return sample;
}

Features features_of(const Sample& sample) {
  std::array<rules::Piece, 32> men{};
  std::array<rules::Square, 32> squares{}, kings{};
  Features features;
  for (rules::Bitboard left = sample.occupied; left != 0; left &= left - 1) {
    const auto n = static_cast<std::size_t>(features.count++);
    men[n] = static_cast<rules::Piece>(sample.men[n / 2] >> (n % 2 * 4) & 15);
    squares[n] = rules::first(left);
    if (rules::type_of(men[n]) == rules::king) kings[rules::color_of(men[n])] = squares[n];
  }
  for (std::size_t view_number = 0; view_number < 2; ++view_number) {
    const auto side = static_cast<rules::Color>(view_number ^ sample.black_to_move);
    const search::View view = search::view_of(side, kings[side]);
    for (std::size_t n = 0; n < static_cast<std::size_t>(features.count); ++n) {
      features.of[view_number][n] =
          static_cast<std::uint16_t>(search::feature_of(view, side, men[n], squares[n]));
    }
  }
  return features;
}

bool teaches(const Position& p, rules::Move chosen, int score) {
  return score != no_score && std::abs(score) <= decided && !p.in_check() &&
         !p.is_capture(chosen) && !chosen.is_promotion();
}

namespace {

constexpr std::string_view head = "kairos positions 1\n";

void add_game(const PackedGame& game, std::uint32_t number, std::vector<Sample>& samples) {
  Position p = game.start_fen.empty() ? Position::start() : *rules::parse_fen(game.start_fen);
  for (std::size_t i = 0; i < game.moves.size(); ++i) {
    if (teaches(p, game.moves[i], game.scores[i])) {
      Sample sample = pack(p);
      sample.score = game.scores[i];
      sample.half_points = sample.black_to_move != 0
                               ? static_cast<std::uint8_t>(2 - game.half_points)
                               : game.half_points;
      sample.game = number;
      samples.push_back(sample);
    }
    p.play(game.moves[i]);
  }
}

}  // namespace

SampleWriter::SampleWriter(const std::string& path) : file_(path, std::ios::binary) {
  file_ << head;
}

void SampleWriter::write(std::span<const Sample> samples) {
  file_.write(reinterpret_cast<const char*>(samples.data()),
              static_cast<std::streamsize>(samples.size_bytes()));
}

namespace {

bool read_positions(std::ifstream& file, std::uint32_t first_game, std::vector<Sample>& samples) {
  for (Sample s; file.read(reinterpret_cast<char*>(&s), sizeof s);) {
    s.game += first_game;
    samples.push_back(s);
  }
  return true;
}

}  // namespace

bool read_samples(const std::string& path, std::uint32_t first_game, std::vector<Sample>& samples) {
  std::ifstream file(path, std::ios::binary);
  std::string front(head.size(), '\0');
  file.read(front.data(), static_cast<std::streamsize>(front.size()));
  if (front == head) return read_positions(file, first_game, samples);
  GameReader reader(path);
  if (!reader.good()) return false;
  while (auto game = reader.next()) add_game(*game, first_game++, samples);
  return true;
}

std::optional<std::string> read_samples(std::span<const std::string> paths, unsigned threads,
                                        std::vector<Sample>& samples) {
  struct File {
    std::vector<Sample> samples;
    bool good = false;
  };
  std::vector<File> files(paths.size());
  std::atomic<std::size_t> next{0};
  const auto work = [&] {
    for (std::size_t i = next++; i < paths.size(); i = next++) {
      files[i].good = read_samples(paths[i], 0, files[i].samples);
    }
  };
  std::vector<std::thread> readers(std::min<std::size_t>(threads, paths.size()));
  for (std::thread& reader : readers) reader = std::thread(work);
  for (std::thread& reader : readers) reader.join();
  for (std::size_t i = 0; i < paths.size(); ++i) {
    if (!files[i].good) return paths[i];
    const std::uint32_t first = samples.empty() ? 0 : samples.back().game + 1;
    for (Sample& s : files[i].samples) s.game += first;
    samples.insert(samples.end(), files[i].samples.begin(), files[i].samples.end());
    std::vector<Sample>().swap(files[i].samples);
  }
  return std::nullopt;
}

}  // namespace kairos::learn
