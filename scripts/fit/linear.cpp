#include "linear.hpp"

#include <algorithm>
#include <array>
#include <thread>

namespace kairos::fit {

using search::Parameters;
using search::Taper;
using search::Weights;

namespace {

int middlegame_of(const void* p) {
  return static_cast<const Taper*>(p)->middlegame();
}
int endgame_of(const void* p) {
  return static_cast<const Taper*>(p)->endgame();
}
int plain_of(const void* p) {
  return *static_cast<const int*>(p);
}
void set_middlegame(void* p, int v) {
  *static_cast<Taper*>(p) = Taper(v, endgame_of(p));
}
void set_endgame(void* p, int v) {
  *static_cast<Taper*>(p) = Taper(middlegame_of(p), v);
}
void set_plain(void* p, int v) {
  *static_cast<int*>(p) = v;
}

}  // namespace

std::vector<Knob> list_knobs() {
  std::vector<Knob> knobs;
  static Weights w;
  const auto* base = reinterpret_cast<const char*>(&w);
  search::visit_weights(w, [&](const char* name, auto& array) {
    for (auto& value : array) {
      const auto offset = static_cast<std::size_t>(reinterpret_cast<const char*>(&value) - base);
      if constexpr (std::is_same_v<std::decay_t<decltype(value)>, Taper>) {
        knobs.push_back({name, 8, middlegame_of, set_middlegame, offset});
        knobs.push_back({name, 8, endgame_of, set_endgame, offset});
      } else {
        knobs.push_back({name, 3, plain_of, set_plain, offset});
      }
    }
  });
  return knobs;
}

void* at(Weights& w, const Knob& k) {
  return reinterpret_cast<char*>(&w) + k.offset;
}

double white_evaluation(const rules::Position& p, const Parameters& parameters) {
  return search::sum_of_terms_fine(p, parameters) / 256.0;
}

namespace {

// The two sides of a difference for one knob, built once and shared by all positions.
struct Bump {
  std::size_t knob;
  Parameters up, down;
};

std::size_t first_of(const std::vector<Knob>& knobs, const std::string& name) {
  const auto it =
      std::find_if(knobs.begin(), knobs.end(), [&](const Knob& k) { return k.name == name; });
  return static_cast<std::size_t>(it - knobs.begin());
}

// The knobs of one square table: the entry of square s has its halves at first and first + 1 plus
// twice s. What a place is worth enters the evaluation like the tempo, which is always there, so
// its slope is that of the tempo times the men on it, without a difference of its own.
struct PlaceTable {
  rules::PieceType type;
  bool enemy;         // mirrored by the enemy's king instead of its own
  std::size_t first;  // knob
};

std::vector<PlaceTable> list_places(const std::vector<Knob>& knobs) {
  constexpr std::array<const char*, 6> kinds = {"pawn", "knight", "bishop",
                                                "rook", "queen",  "king"};
  std::vector<PlaceTable> places;
  for (std::size_t type = 0; type < kinds.size(); ++type) {
    for (const bool enemy : {false, true}) {
      const std::string name = std::string(kinds[type]) + (enemy ? "_enemy_wing" : "_own_wing");
      places.push_back({static_cast<rules::PieceType>(type), enemy, first_of(knobs, name)});
    }
  }
  return places;
}

bool is_place(const Knob& k) {
  return k.name.ends_with("_wing");
}

// Men of the kind on each place, ours minus theirs.
std::array<int, 64> men_on_places(const rules::Position& p, const PlaceTable& table) {
  std::array<int, 64> men{};
  for (const rules::Color us : {rules::white, rules::black}) {
    const int wings = search::wings_of(p, us);
    const std::size_t flip = (wings & (table.enemy ? 2 : 1)) != 0 ? 7 : 0;
    for (rules::Bitboard rest = p.pieces(us, table.type); rest != 0;) {
      const auto s = static_cast<std::size_t>(search::relative(us, rules::take_first(rest)));
      men[s ^ flip] += us == rules::white ? 1 : -1;
    }
  }
  return men;
}

struct Model {
  Parameters centre;
  std::vector<Bump> bumps;  // of all knobs but those of places
  std::vector<PlaceTable> places;
  std::size_t tempo;  // knob
};

void add_place_slopes(const rules::Position& p, const Model& model,
                      const std::array<double, 2>& unit, Problem& out) {
  for (const PlaceTable& table : model.places) {
    const std::array<int, 64> men = men_on_places(p, table);
    for (std::size_t s = 0; s < men.size(); ++s) {
      if (men[s] == 0) continue;
      for (std::size_t half = 0; half < 2; ++half) {
        out.slopes.push_back({static_cast<std::uint16_t>(table.first + 2 * s + half),
                              static_cast<float>(unit[half] * men[s])});
      }
    }
  }
}

void linearise_range(const std::vector<Sample>& samples, std::size_t begin, std::size_t end,
                     const std::vector<Knob>& knobs, const Model& model, Problem& out) {
  for (std::size_t i = begin; i < end; ++i) {
    const rules::Position& p = samples[i].position;
    Point point{white_evaluation(p, model.centre), 0, static_cast<std::uint32_t>(out.slopes.size()),
                0};
    const double view = p.side_to_move() == rules::white ? 1 : -1;
    std::array<double, 2> unit{};
    for (const Bump& bump : model.bumps) {
      const std::size_t k = bump.knob;
      const double up = white_evaluation(p, bump.up);
      const double down = white_evaluation(p, bump.down);
      if (up == down) continue;
      const double slope = (up - down) / (2.0 * knobs[k].step);
      if (k == model.tempo || k == model.tempo + 1) unit[k - model.tempo] = view * slope;
      out.slopes.push_back({static_cast<std::uint16_t>(k), static_cast<float>(slope)});
    }
    add_place_slopes(p, model, unit, out);
    point.last = static_cast<std::uint32_t>(out.slopes.size());
    out.points.push_back(point);
  }
}

}  // namespace

Problem linearise(const std::vector<Sample>& samples, const Weights& w,
                  const std::vector<Knob>& knobs) {
  Model model{search::make_parameters(w), {}, list_places(knobs), first_of(knobs, "tempo")};
  for (std::size_t i = 0; i < knobs.size(); ++i) {
    const Knob& k = knobs[i];
    if (is_place(k)) continue;
    Weights up = w, down = w;
    const int value = k.get(at(up, k));
    k.set(at(up, k), value + k.step);
    k.set(at(down, k), value - k.step);
    model.bumps.push_back({i, search::make_parameters(up), search::make_parameters(down)});
  }
  const std::size_t parts = std::max(1U, std::thread::hardware_concurrency());
  std::vector<Problem> problems(parts);
  std::vector<std::thread> threads;
  for (std::size_t t = 0; t < parts; ++t) {
    threads.emplace_back([&, t] {
      linearise_range(samples, samples.size() * t / parts, samples.size() * (t + 1) / parts, knobs,
                      model, problems[t]);
    });
  }
  for (auto& t : threads) t.join();
  Problem whole;
  for (Problem& part : problems) {
    const auto shift = static_cast<std::uint32_t>(whole.slopes.size());
    for (Point p : part.points) {
      p.first += shift;
      p.last += shift;
      whole.points.push_back(p);
    }
    whole.slopes.insert(whole.slopes.end(), part.slopes.begin(), part.slopes.end());
    part = {};
  }
  return whole;
}

}  // namespace kairos::fit
