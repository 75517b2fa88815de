#include "kairos/audience/evening.hpp"

#include <algorithm>

#include "kairos/base/text.hpp"

#include "name_key.hpp"
#include "score_lines.hpp"

namespace kairos::audience {

namespace {

using base::Code;
using base::Fault;

constexpr ScoreKind kind{"evening", 1};

Fault wrong(std::string_view name) {
  return {Code::score_damaged, "\"" + std::string(name) + "\" is missing or wrong", {}};
}

base::Status read_line(std::string_view line, Evening& evening) {
  constexpr std::int64_t most_points = 1'000'000'000;
  const auto object = base::parse_json(line);
  if (!object) return object.faults();
  if (const auto position = text_of(*object, "position")) {
    const auto id = text_of(*object, "id");
    if (position->empty()) return wrong("position");
    if (!id) return wrong("id");
    evening.asked.push_back({*position, *id});
    return base::done();
  }
  const auto name = text_of(*object, "name");
  if (!name || name->empty()) return wrong("name");
  const auto points = number_of(*object, "points", 1, most_points);
  if (!points) return wrong("points");
  const auto put = evening.players.emplace(
      name_key(*name), Evening::Player{*name, static_cast<std::uint64_t>(*points)});
  if (!put.second) return Fault{Code::score_damaged, "the same name stands above", {}};
  return base::done();
}

}  // namespace

bool Evening::has_asked(std::string_view position) const {
  return std::ranges::find(asked, position, &Question::position) != asked.end();
}

void add(Evening& evening, const Evening::Question& question, const std::vector<Solver>& solvers) {
  if (evening.has_asked(question.position)) return;
  evening.asked.push_back(question);
  for (const Solver& solver : solvers) {
    const std::string key = name_key(solver.name);
    if (!evening.players.contains(key) && evening.players.size() >= most_players) continue;
    Evening::Player& player = evening.players[key];
    if (player.name.empty()) player.name = solver.name;
    player.points += solver.has_whole ? 2 : 1;
  }
}

std::vector<Place> places_of(const Evening& evening) {
  std::vector<Evening::Player> players;
  for (const auto& [key, player] : evening.players) players.push_back(player);
  std::ranges::stable_sort(players, std::greater{}, &Evening::Player::points);
  std::vector<Place> places;
  for (std::size_t i = 0; i < players.size(); ++i) {
    if (places.empty() || places.back().points != players[i].points) {
      places.push_back({.place = i + 1, .points = players[i].points, .names = {}});
    }
    places.back().names.push_back(players[i].name);
  }
  return places;
}

base::Result<Evening> parse_evening(std::string_view text, const std::string& file) {
  Evening evening;
  const auto read = read_score_lines(
      text, file, kind, [&evening](std::string_view line) { return read_line(line, evening); });
  if (!read) return read.faults();
  return evening;
}

std::string to_text(const Evening& evening) {
  std::string text = score_header(kind);
  for (const Evening::Question& question : evening.asked) {
    base::Json object = base::Json::object();
    object.add("position", question.position).add("id", question.id);
    text += base::to_json(object) + "\n";
  }
  for (const auto& [key, player] : evening.players) {
    base::Json object = base::Json::object();
    object.add("name", player.name).add("points", player.points);
    text += base::to_json(object) + "\n";
  }
  return text;
}

}  // namespace kairos::audience
