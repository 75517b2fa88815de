// A picture as SVG 1.1. Every shape is a path of its own with its looks at it: no names that others
// could clash with, no style, nothing that is loaded, so it may stand in any page.
#include "html_diagram.hpp"
#include "html_page.hpp"
#include "scene.hpp"

namespace kairos::report {

namespace {

std::string hex(Color color) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string text = "#";
  for (const std::uint8_t part : {color.red, color.green, color.blue}) {
    text += digits[part >> 4];
    text += digits[part & 15];
  }
  return text;
}

std::string attribute(std::string_view name, const std::string& value) {
  return " " + std::string(name) + "=\"" + value + "\"";
}

std::string element(const Shape& shape) {
  std::string svg = "<path";
  if (shape.x != 0 || shape.y != 0) {
    svg += attribute("transform",
                     "translate(" + std::to_string(shape.x) + " " + std::to_string(shape.y) + ")");
  }
  svg += attribute("fill", shape.fill ? hex(*shape.fill) : "none");
  if (shape.line) {
    svg += attribute("stroke", hex(*shape.line)) +
           attribute("stroke-width", std::to_string(shape.width)) +
           attribute("stroke-linejoin", "round");
    if (shape.round_ends) svg += attribute("stroke-linecap", "round");
  }
  return svg + attribute("d", shape.outline) + "/>\n";
}

// What a screen reader says: the men, then what is marked.
std::string title_of(const Picture& picture) {
  std::string title = described(picture.position), arrows, rings;
  for (const Arrow& arrow : picture.arrows) {
    arrows += (arrows.empty() ? " Arrows: " : ", ") + rules::to_string(arrow.from) + " to " +
              rules::to_string(arrow.to);
  }
  for (const rules::Square square : picture.rings) {
    rings += (rings.empty() ? " Ringed: " : ", ") + rules::to_string(square);
  }
  return title + arrows + (arrows.empty() ? "" : ".") + rings + (rings.empty() ? "" : ".");
}

}  // namespace

std::string picture_svg(const Picture& picture) {
  const Scene scene = scene_of(picture);
  const std::string left = std::to_string(scene.left), top = std::to_string(scene.top),
                    size = std::to_string(scene.size), pixels = std::to_string(picture.pixels);
  std::string svg = "<svg xmlns=\"http://www.w3.org/2000/svg\"" + attribute("width", pixels) +
                    attribute("height", pixels) +
                    attribute("viewBox", left + " " + top + " " + size + " " + size) +
                    attribute("role", "img") + ">\n<title>" + escaped(title_of(picture)) +
                    "</title>\n";
  if (scene.ground) {
    svg += "<rect" + attribute("x", left) + attribute("y", top) + attribute("width", size) +
           attribute("height", size) + attribute("fill", hex(*scene.ground)) + "/>\n";
  }
  for (const Shape& shape : scene.shapes) svg += element(shape);
  return svg + "</svg>\n";
}

}  // namespace kairos::report
