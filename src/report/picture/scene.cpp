// The picture from below upward: board, marks of the last move, rings, men, arrows; each mark with
// a paper-coloured rim, so that it stands clear of the hatching and of black men. Rings over men
// would cut off what tells them apart: the cross of a king, the teeth of a rook.
#include "scene.hpp"

#include <string_view>

#include "marks.hpp"
#include "outlines.hpp"

namespace kairos::report {

namespace {

constexpr int board_units = 8 * square_units;
constexpr int frame = 12;  // around the board

// Between the board and the picture's edge.
struct Margins {
  int left_and_below, above_and_right;
};
constexpr Margins with_coordinates{116, 24}, bare{frame + 4, frame + 4};

std::string place(int x, int y) {
  return std::to_string(x) + " " + std::to_string(y);
}

Shape filled(std::string outline, Color color) {
  return {std::move(outline), 0, 0, color, {}, 0, false};
}

// Six stripes a square, from lower left to upper right, right across the board: the light squares
// are laid over them.
std::string hatching() {
  constexpr int stripes = 6, reach = 8;  // of a stripe, along an edge of the board
  std::string outline;
  for (int k = 0; k < 2 * 8 * stripes; ++k) {
    const int middle = (2 * k + 1) * square_units / (2 * stripes);  // x + y along the stripe
    const auto end = [](int sum) { return sum < board_units ? sum : board_units; };
    const auto start = [](int sum) { return sum < board_units ? 0 : sum - board_units; };
    const int low = middle - reach, high = middle + reach;
    outline += "M" + place(start(low), end(low)) + "L" + place(end(low), start(low)) + "L" +
               place(end(high), start(high)) + "L" + place(start(high), end(high)) + "Z";
  }
  return outline;
}

// The upper left square is light, from either side.
std::string light_squares() {
  std::string outline;
  for (int row = 0; row < 8; ++row) {
    for (int column = row % 2; column < 8; column += 2) {
      const int x = column * square_units, y = row * square_units;
      outline += "M" + place(x, y) + "H" + std::to_string(x + square_units) + "V" +
                 std::to_string(y + square_units) + "H" + std::to_string(x) + "Z";
    }
  }
  return outline;
}

std::string square_outline(int from, int to) {
  return "M" + place(from, from) + "H" + std::to_string(to) + "V" + std::to_string(to) + "H" +
         std::to_string(from) + "Z";
}

void add_board(Scene& scene, const Picture& picture) {
  scene.shapes.push_back(filled(square_outline(-frame, board_units + frame), ink));
  const bool hatched = picture.dark == DarkSquares::hatched;
  scene.shapes.push_back(filled(square_outline(0, board_units), hatched ? paper : tone));
  if (hatched) scene.shapes.push_back(filled(hatching(), hatch));
  scene.shapes.push_back(filled(light_squares(), paper));
}

void add_coordinates(Scene& scene, const Picture& picture) {
  const bool white = picture.below == rules::white;
  for (int i = 0; i < 8; ++i) {
    const int along = i * square_units + square_units / 2;
    const auto put = [&](std::string_view sign, int x, int y) {
      add_marked(scene, std::string(sign), x, y,
                 {.color = soft, .width = 10, .rim = picture.transparent ? 16 : 0});
    };
    put(letter_outline(white ? i : 7 - i), along, board_units + 90);
    put(figure_outline(white ? 7 - i : i), -66, along + 32);
  }
}

void add_man(Scene& scene, rules::Piece piece, Spot spot) {
  const ManOutline man = outline_of(rules::type_of(piece));
  const bool white = rules::color_of(piece) == rules::white;
  const std::string shape(man.shape);
  scene.shapes.push_back({shape, spot.x, spot.y, {}, paper, rim_width, false});
  scene.shapes.push_back({shape, spot.x, spot.y, white ? paper : ink, ink, line_width, false});
  scene.shapes.push_back(
      {std::string(man.details), spot.x, spot.y, {}, white ? ink : paper, detail_width, false});
}

void add_men(Scene& scene, const Picture& picture) {
  for (int s = 0; s < rules::square_count; ++s) {
    const auto square = static_cast<rules::Square>(s);
    const rules::Piece piece = picture.position.piece_on(square);
    if (piece != rules::no_piece) add_man(scene, piece, spot_of(square, picture.below));
  }
}

}  // namespace

Scene scene_of(const Picture& picture) {
  const Margins margins = picture.coordinates ? with_coordinates : bare;
  Scene scene;
  scene.left = -margins.left_and_below;
  scene.top = -margins.above_and_right;
  scene.size = board_units + margins.left_and_below + margins.above_and_right;
  if (!picture.transparent) scene.ground = paper;
  add_board(scene, picture);
  if (picture.coordinates) add_coordinates(scene, picture);
  if (picture.last && picture.last != rules::null_move) {
    add_last_move(scene, picture.last, picture.below);
  }
  for (const rules::Square square : picture.rings) add_ring(scene, spot_of(square, picture.below));
  add_men(scene, picture);
  for (const Arrow& arrow : picture.arrows) add_arrow(scene, arrow, picture.below);
  return scene;
}

}  // namespace kairos::report
