#include "games.hpp"

#include <string_view>

namespace kairos::learn {

namespace {

constexpr std::string_view head = "kairos games 1\n";

void put16(std::string& bytes, std::uint16_t n) {
  bytes += static_cast<char>(n & 255);
  bytes += static_cast<char>(n >> 8);
}

std::uint16_t get16(const char* bytes) {
  const auto low = static_cast<unsigned char>(bytes[0]);
  const auto high = static_cast<unsigned char>(bytes[1]);
  return static_cast<std::uint16_t>(low | high << 8);
}

}  // namespace

GameWriter::GameWriter(const std::string& path) : file_(path, std::ios::binary) {
  file_ << head;
}

void GameWriter::write(const PackedGame& game) {
  std::string bytes(1, static_cast<char>(game.start_fen.size()));
  bytes += game.start_fen;
  bytes += static_cast<char>(game.half_points);
  put16(bytes, static_cast<std::uint16_t>(game.moves.size()));
  for (std::size_t i = 0; i < game.moves.size(); ++i) {
    put16(bytes, game.moves[i].raw());
    put16(bytes, static_cast<std::uint16_t>(game.scores[i]));
  }
  file_.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  file_.flush();
}

GameReader::GameReader(const std::string& path) : file_(path, std::ios::binary) {
  std::string front(head.size(), '\0');
  file_.read(front.data(), static_cast<std::streamsize>(front.size()));
  good_ = file_.good() && front == head;
}

std::optional<PackedGame> GameReader::next() {
  PackedGame game;
  const int length = file_.get();
  if (!file_) return std::nullopt;
  game.start_fen.resize(static_cast<std::size_t>(length));
  file_.read(game.start_fen.data(), length);
  char front[3];
  file_.read(front, sizeof front);
  if (!file_) return std::nullopt;
  game.half_points = static_cast<std::uint8_t>(front[0]);
  std::string plies(std::size_t{4} * get16(front + 1), '\0');
  file_.read(plies.data(), static_cast<std::streamsize>(plies.size()));
  if (!file_) return std::nullopt;
  for (std::size_t i = 0; i < plies.size(); i += 4) {
    game.moves.push_back(rules::Move::from_raw(get16(plies.data() + i)));
    game.scores.push_back(static_cast<std::int16_t>(get16(plies.data() + i + 2)));
  }
  return game;
}

}  // namespace kairos::learn
