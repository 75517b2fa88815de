// Pictures of positions: PNG by the letter of its standard, the right colour at the right place,
// SVG well formed, the same from one call to the next.
#include "kairos/report/picture.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "kairos/report/diagrams.hpp"
#include "kairos/report/turning_points.hpp"
#include "kairos/rules/fen.hpp"

#include "support/png.hpp"
#include "support/report_fakes.hpp"

using namespace kairos;
using report::Picture;

namespace {

// Without coordinates a picture of 1040 pixels has squares of 128 and 8 pixels around the board.
constexpr int square = 128, margin = 8;

constexpr const char* paper = "fffdf7";
constexpr const char* ink = "1d1b1a";
constexpr const char* tone = "c3b9a8";
constexpr const char* mark = "8c2f4e";

Picture board(std::string_view fen) {
  const auto position = rules::parse_fen(fen);
  REQUIRE(position);
  Picture picture;
  picture.position = *position;
  picture.pixels = 8 * square + 2 * margin;
  picture.coordinates = false;
  picture.dark = report::DarkSquares::plain;
  return picture;
}

constexpr const char* two_kings = "8/3k4/8/8/8/8/8/6K1 w - - 0 1";

test::Png png_of(const Picture& picture) {
  const auto bytes = report::picture_png(picture);
  REQUIRE(bytes);
  return test::read_png(*bytes);
}

// The colour at a place of a square, in 256ths of it from its upper left corner as seen.
std::string at(const test::Png& png, const Picture& picture, rules::Square where, int x, int y) {
  const bool white = picture.below == rules::white;
  const int column = white ? rules::file_of(where) : 7 - rules::file_of(where);
  const int row = white ? 7 - rules::rank_of(where) : rules::rank_of(where);
  return png.at(margin + column * square + x * square / 256,
                margin + row * square + y * square / 256);
}

}  // namespace

TEST_CASE("a PNG has the chunks, sums and sizes that its standard asks for") {
  for (const int pixels : {report::least_pixels, 65, 333, 1080}) {
    for (const bool transparent : {false, true}) {
      CAPTURE(pixels, transparent);
      Picture picture;
      picture.pixels = pixels;
      picture.transparent = transparent;
      const test::Png png = png_of(picture);
      CHECK(png.chunks == std::vector<std::string>{"IHDR", "sRGB", "IDAT", "IEND"});
      CHECK(png.width == pixels);
      CHECK(png.height == pixels);
      CHECK(png.channels == (transparent ? 4 : 3));
    }
  }
}

TEST_CASE("squares and men have their colours where they stand, from either side") {
  for (const auto below : {rules::white, rules::black}) {
    Picture picture = board(two_kings);
    picture.below = below;
    const test::Png png = png_of(picture);
    for (int s = 0; s < rules::square_count; ++s) {
      const auto where = static_cast<rules::Square>(s);
      CAPTURE(rules::to_string(where), int{below});
      const bool white_king = where == rules::g1, black_king = where == rules::d7;
      // In a king's robe, beside the fold.
      CHECK(at(png, picture, where, 90, 150) == (white_king              ? paper
                                                 : black_king            ? ink
                                                 : rules::is_dark(where) ? tone
                                                                         : paper));
      for (const int corner : {2, 253}) {
        CHECK(at(png, picture, where, corner, corner) == (rules::is_dark(where) ? tone : paper));
      }
    }
  }
}

TEST_CASE("hatched squares have stripes, plain ones one tone, light ones nothing") {
  Picture picture = board(two_kings);
  for (const auto dark : {report::DarkSquares::hatched, report::DarkSquares::plain}) {
    picture.dark = dark;
    const test::Png png = png_of(picture);
    std::set<std::string> on_dark, on_light;
    for (int i = 0; i < 256; i += 2) {
      on_dark.insert(at(png, picture, rules::d4, i, i));
      on_light.insert(at(png, picture, rules::e4, i, i));
    }
    CHECK(on_light == std::set<std::string>{paper});
    if (dark == report::DarkSquares::plain) {
      CHECK(on_dark == std::set<std::string>{tone});
    } else {
      CHECK(on_dark.contains(paper));
      CHECK(on_dark.contains("a59c8d"));
    }
  }
}

TEST_CASE("what is around the board is transparent where that is asked for, the board never") {
  Picture picture = board(two_kings);
  picture.transparent = true;
  const test::Png bare = png_of(picture);
  CHECK(bare.at(0, 0) == "00000000");
  CHECK(bare.at(1039, 1039) == "00000000");
  CHECK(bare.at(margin, margin) == std::string(paper) + "ff");
  for (int x = margin; x < margin + 8 * square; ++x) CHECK(bare.at(x, 500).ends_with("ff"));

  picture.coordinates = true;
  const test::Png png = png_of(picture);
  CHECK(png.at(3, 1036) == "00000000");
  // The signs keep a rim of paper, or nobody could read them on a dark video.
  std::set<std::string> seen;
  for (int x = 0; x < 1040; ++x) {
    for (int y = 1000; y < 1040; ++y) seen.insert(png.at(x, y));
  }
  CHECK(seen.contains("5f5a54ff"));
  CHECK(seen.contains(std::string(paper) + "ff"));
}

TEST_CASE("arrows and rings are drawn at their squares, from either side") {
  for (const auto below : {rules::white, rules::black}) {
    CAPTURE(int{below});
    Picture picture = board(two_kings);
    picture.below = below;
    for (const auto where : {rules::e3, rules::c6, rules::h5}) {
      CHECK(at(png_of(picture), picture, where, 128, 128) != mark);
    }
    picture.arrows = {{rules::e2, rules::e4, report::ArrowLine::whole},
                      {rules::b8, rules::c6, report::ArrowLine::whole}};
    picture.rings = {rules::h5};
    const test::Png png = png_of(picture);
    CHECK(at(png, picture, rules::e3, 128, 128) == mark);
    CHECK(at(png, picture, rules::d3, 128, 128) != mark);
    CHECK(at(png, picture, rules::e5, 128, 128) != mark);
    // The head at its target, its point before the middle.
    const int before = below == rules::white ? 1 : -1;
    CHECK(at(png, picture, rules::e4, 128, 128 + 40 * before) == mark);
    CHECK(at(png, picture, rules::e4, 128, 128 - 20 * before) == paper);
    CHECK(at(png, picture, rules::c6, 128 - 20 * before, 128 - 40 * before) == mark);
    CHECK(at(png, picture, rules::h5, 128, 128 + 117) == mark);
    CHECK(at(png, picture, rules::h5, 128 - 117, 128) == mark);
    CHECK(at(png, picture, rules::h5, 128, 128) == paper);
  }
}

TEST_CASE("the lines of arrows differ in shape: whole, broken, dotted") {
  std::set<int> pieces;
  for (const auto line :
       {report::ArrowLine::whole, report::ArrowLine::broken, report::ArrowLine::dotted}) {
    Picture picture = board(two_kings);
    picture.arrows = {{rules::a2, rules::a7, line}};
    const test::Png png = png_of(picture);
    int begun = 0;
    bool inside = false;
    for (int y = 0; y < 1040; ++y) {
      const bool marked = png.at(margin + square / 2, y) == mark;
      begun += marked && !inside ? 1 : 0;
      inside = marked;
    }
    pieces.insert(begun);
    if (line == report::ArrowLine::whole) CHECK(begun == 1);
  }
  CHECK(pieces.size() == 3);
}

TEST_CASE("the last move is marked on the square left and the square reached") {
  Picture picture = board(two_kings);
  picture.last = rules::Move::normal(rules::c5, rules::e6);
  const test::Png png = png_of(picture);
  CHECK(at(png, picture, rules::c5, 128, 128 - 40) == ink);
  CHECK(at(png, picture, rules::e6, 16, 40) == ink);
  CHECK(at(png, picture, rules::e6, 128, 128) == paper);
  picture.last = rules::null_move;
  CHECK(*report::picture_png(picture) == *report::picture_png(board(two_kings)));
}

TEST_CASE("men of different kinds differ in outline, not only in size or detail") {
  // Black men: what is ink. Each on its own square a8 .. f8, light or dark.
  const char* fens[] = {"7k/p7/8/8/8/8/8/7K w - - 0 1", "7k/n7/8/8/8/8/8/7K w - - 0 1",
                        "7k/b7/8/8/8/8/8/7K w - - 0 1", "7k/r7/8/8/8/8/8/7K w - - 0 1",
                        "7k/q7/8/8/8/8/8/7K w - - 0 1", "8/k7/8/8/8/8/8/7K w - - 0 1"};
  std::vector<std::vector<bool>> shapes;
  for (const char* fen : fens) {
    const Picture picture = board(fen);
    const test::Png png = png_of(picture);
    std::vector<bool> shape;
    for (int y = 0; y < 256; y += 4) {
      for (int x = 0; x < 256; x += 4) shape.push_back(at(png, picture, rules::a7, x, y) == ink);
    }
    shapes.push_back(std::move(shape));
  }
  for (std::size_t a = 0; a < shapes.size(); ++a) {
    for (std::size_t b = 0; b < a; ++b) {
      std::size_t differ = 0;
      for (std::size_t i = 0; i < shapes[a].size(); ++i) differ += shapes[a][i] != shapes[b][i];
      CAPTURE(a, b);
      CHECK(differ * 20 > shapes[a].size());  // a twentieth of the square at least
    }
  }
}

TEST_CASE("the same picture gives the same bytes, another one others") {
  const Picture picture = board(two_kings);
  Picture other = picture;
  other.rings = {rules::a1};
  CHECK(*report::picture_png(picture) == *report::picture_png(picture));
  CHECK(report::picture_svg(picture) == report::picture_svg(picture));
  CHECK(*report::picture_png(picture) != *report::picture_png(other));
  CHECK(report::picture_svg(picture) != report::picture_svg(other));
}

TEST_CASE("an SVG is well formed, of the size asked for, and says in words what it shows") {
  Picture picture = board(two_kings);
  picture.coordinates = true;
  picture.arrows = {{rules::e2, rules::e4, report::ArrowLine::broken}};
  picture.rings = {rules::h5, rules::a1};
  const std::string svg = report::picture_svg(picture);
  CHECK(
      svg.starts_with("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"1040\" height=\"1040\""));
  CHECK(svg.find("<title>White to move. White: king g1. Black: king d7. Arrows: e2 to e4. Ringed: "
                 "h5, a1.</title>") != std::string::npos);
  std::vector<std::string> open;
  for (std::size_t begin = 0; (begin = svg.find('<', begin)) != std::string::npos; ++begin) {
    const auto end = svg.find('>', begin);
    REQUIRE(end != std::string::npos);
    const std::string tag = svg.substr(begin + 1, end - begin - 1);
    CHECK(tag.find('<') == std::string::npos);
    CHECK(std::count(tag.begin(), tag.end(), '"') % 2 == 0);
    const std::string name = tag.substr(0, tag.find(' '));
    if (name[0] == '/') {
      REQUIRE_FALSE(open.empty());
      CHECK(open.back() == name.substr(1));
      open.pop_back();
    } else if (!tag.ends_with("/")) {
      open.push_back(name);
    }
  }
  CHECK(open.empty());
  CHECK(svg.find(" id=") == std::string::npos);
  CHECK(svg.find("href") == std::string::npos);
  // Transparent: the same without the sheet behind it.
  CHECK(svg.find("<rect") != std::string::npos);
  picture.transparent = true;
  CHECK(report::picture_svg(picture).find("<rect") == std::string::npos);
}

TEST_CASE("every turning point and puzzle has one diagram, named whatever the games are called") {
  test::FakeCollection collection = test::fake_collection();
  for (study::Study& study : collection.studies) {
    study.facts.white = study.facts.event = study.facts.file = "../../<x>\n";
  }
  for (puzzle::Puzzle& puzzle : collection.puzzles_) puzzle.game_label = "../../<x>\n";
  std::size_t points = 0;
  for (const study::Study& study : collection.studies) {
    points += report::turning_points(study).size();
  }
  std::set<std::string> names;
  std::size_t answers = 0;
  const auto take = [&](const std::string& name, const Picture& picture) {
    CHECK(report::is_diagram_name(name));
    CHECK(names.insert(name).second);
    CHECK(picture.below == picture.position.side_to_move());
    for (const report::Arrow& arrow : picture.arrows) {
      const bool answer = arrow.line == report::ArrowLine::whole;
      answers += answer ? 1 : 0;
      if (name.find("-m") != std::string::npos) CHECK_FALSE(answer);  // puzzles tell nothing
    }
    return base::done();
  };
  CHECK(report::each_diagram(collection, take));
  CHECK(names.size() == points + collection.puzzles_.size() + collection.why_nots_.size());
  CHECK(answers > 0);
  CHECK(names.contains("g2-m6b-whynot"));

  const auto refuse = [](const std::string&, const Picture&) -> base::Status {
    return base::Fault{base::Code::disk_full, {}, {}};
  };
  CHECK(report::each_diagram(collection, refuse).fault().code == base::Code::disk_full);
  for (const char* name : {"", "g", "g1", "g1-", "g-p1", "g1-p", "g1-p1x", "g1-m1", "g1-m1x",
                           "g1-m1w-", "x1-p1", "g1-m1w-whynots", "../g1-p1"}) {
    CAPTURE(std::string(name));
    CHECK_FALSE(report::is_diagram_name(name));
  }
}
