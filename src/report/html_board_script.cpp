// What scripts of pages share: the steps of a line, and a board drawn as html_diagram.cpp draws it.
// Ours, without a library. It knows no chess: where men go stands in the page (html_line.hpp). It
// makes elements and sets attributes, and never reads text as markup.
#include "html_line.hpp"

namespace kairos::report {

namespace {

constexpr std::string_view positions = R"js(
// The men of a placement as in FEN: {e1: "K", ...}.
function menOf(placement) {
  const men = {};
  placement.split("/").forEach((row, down) => {
    let file = 0;
    for (const c of row) {
      if (c >= "1" && c <= "8") file += Number(c);
      else men["abcdefgh"[file++] + (8 - down)] = c;
    }
  });
  return men;
}

// The men after a step.
function stepped(men, step) {
  if (step === "--") return men;
  const next = {...men}, at = (n) => step.slice(n, n + 2);
  const move = (from, to) => { next[to] = next[from]; delete next[from]; };
  move(at(0), at(2));
  if (step.length === 5) next[at(2)] = step[4];
  if (step.length === 6) delete next[at(4)];
  if (step.length === 8) move(at(4), at(6));
  return next;
}

// The squares of each letter, in the order a1 .. h8.
function squaresOf(men) {
  const squares = {}, order = (square) => square[1] + square[0];
  for (const square of Object.keys(men).sort((a, b) => order(a) < order(b) ? -1 : 1)) {
    (squares[men[square]] ??= []).push(square);
  }
  return squares;
}

// As the pages say it: "White to move. White: king g1, pawns f2 g2. Black: ...".
function described(men, white) {
  const names = {k: "king", q: "queen", r: "rook", b: "bishop", n: "knight", p: "pawn"};
  const squares = squaresOf(men), lower = Object.keys(names);
  const one = (name, places) => name + (places.length > 1 ? "s " : " ") + places.join(" ");
  const side = (letters) => letters.filter((c) => squares[c])
    .map((c) => one(names[c.toLowerCase()], squares[c])).join(", ");
  return `${white ? "White" : "Black"} to move. White: ${side(lower.map((c) => c.toUpperCase()))}. ` +
    `Black: ${side(lower)}.`;
}
)js";

constexpr std::string_view drawing = R"js(
// The upper left corner of a square, in squares, with that side below.
function spot(square, below) {
  const file = "abcdefgh".indexOf(square[0]), rank = Number(square[1]) - 1;
  return below === "w" ? [file, 7 - rank] : [7 - file, rank];
}

// An element of the drawing's own kind, with its attributes.
function element(drawing, name, attributes) {
  const one = document.createElementNS(drawing.namespaceURI, name);
  for (const [key, value] of Object.entries(attributes)) one.setAttribute(key, value);
  return one;
}

// Draws men, seen from `below` ("w" or "b"), into an SVG element: the squares of the `last` step,
// rings, and arrows as pairs of a class and two squares. Marks are those of all diagrams.
function drawBoard(svg, {men, below, last = "", rings = [], arrows = []}) {
  const path = (css, d, more = {}) => element(svg, "path", {class: css, d, ...more});
  const places = (squares) => "M" + squares.map((one) => spot(one, below).join(" ")).join("L");
  const parts = [path("board c" + below, "M0 0h8v8h-8z")];
  if (last && last !== "--") {
    const [x, y] = spot(last.slice(0, 2), below), [tox, toy] = spot(last.slice(2, 4), below);
    parts.push(element(svg, "circle", {class: "left", cx: x + .5, cy: y + .5, r: .16}),
      path("came", `M${tox + .06} ${toy + .06}h.88v.88h-.88z`));
  }
  if (rings.length > 0) parts.push(path("ringed", places(rings)));
  for (const [letter, squares] of Object.entries(squaresOf(men))) {
    const color = letter === letter.toUpperCase() ? "w" : "b";
    parts.push(path(color + letter.toLowerCase(), places(squares)));
  }
  for (const [css, move] of arrows) {
    const at = (square) => spot(square, below).map((n) => n + .5).join(" ");
    parts.push(path(css, `M${at(move.slice(0, 2))}L${at(move.slice(2, 4))}`,
      {"marker-end": "url(#tip)"}));
  }
  svg.replaceChildren(...parts);
}
)js";

}  // namespace

std::string_view board_script() {
  static const std::string all = std::string(positions) + std::string(drawing);
  return all;
}

}  // namespace kairos::report
