// The script of a report: one board to each game, built when it comes near the window. Ours,
// inline, without a library, and without chess: what it shows follows from the steps that stand in
// the page (html_line.hpp). It stands in front of the games and listens for all of them, so that a
// long page can be used while it is still being read. What stands in the page is only ever copied
// as text.
#include "html_line.hpp"
#include "html_play.hpp"

namespace kairos::report {

namespace {

// Games, lines and positions.
constexpr std::string_view reading = R"js(
document.documentElement.classList.add("scripted");
// Of each game's article what is shown: the line (its score, or one that is told), how many
// half-moves of it, and the side below.
const shown = new WeakMap();
let heard = null;  // says to screen readers what was done

const scoreOf = (article) => article.querySelector(".score");
const stepsOf = (line) => line.dataset.moves.split(" ");
const pliesOf = (line) => line.querySelectorAll(".ply");
const pointOf = (line) => line.closest(".moment");
const pointAt = (article, ply) => article.querySelector(`.moment[data-ply="${ply}"]`);

// Side to move and number of the move after `ply` half-moves of a line. One without a start of its
// own starts where its turning point stands in the game.
function turn(line, ply) {
  const {start} = line.dataset;
  if (!start) return turn(scoreOf(line.closest("article")), Number(pointOf(line).dataset.ply) + ply);
  const [, side, number] = start.split(" "), half = ply + (side === "b" ? 1 : 0);
  return {white: half % 2 === 0, number: Number(number) + Math.floor(half / 2)};
}

// The men then.
function menAfter(line, ply) {
  const {start} = line.dataset;
  const men = start ? menOf(start.split(" ")[0])
    : menAfter(scoreOf(line.closest("article")), Number(pointOf(line).dataset.ply));
  return stepsOf(line).slice(0, ply).reduce(stepped, men);
}

// "12... Nf6", the move that led there; "" at the start.
function moveText(line, ply, plies = pliesOf(line)) {
  if (ply === 0) return "";
  const {white, number} = turn(line, ply - 1);
  return number + (white ? ". " : "... ") + plies[ply - 1].textContent.split(" ").pop();
}

// What a told line is called: "Better", "What 20. Qd4 runs into".
function nameOf(line) {
  const fold = line.closest("details");
  return (fold ? fold.querySelector("summary") : line.parentElement.previousElementSibling)
    ?.textContent ?? "A line";
}

// What the board shows beside the men: at a turning point its marks, else the last move.
function marksAt(article, {line, ply}) {
  const last = stepsOf(line)[ply - 1] ?? "";
  const point = line === scoreOf(article) ? pointAt(article, ply) : null;
  if (!point) return {last};
  const kinds = ["better", "played", "avoided"].filter((kind) => point.dataset[kind]);
  return {last, rings: point.dataset.rings?.split(" ") ?? [],
    arrows: kinds.map((kind) => [kind, point.dataset[kind]])};
}
)js";

// The board of a game and all around it.
constexpr std::string_view building = R"js(
function make(name, attributes, ...inside) {
  const one = element(document.documentElement, name, attributes);
  one.append(...inside);
  return one;
}

// Each with its key, what stands on it, and what a screen reader says.
const buttons = [["Home", "Start", "Start"], ["ArrowLeft", "\u2190", "One move back"],
  ["ArrowRight", "\u2192", "One move on"], ["End", "End", "End"],
  ["n", "Next point", "Next turning point"], ["o", "Turn", "Turn the board"],
  ["Escape", "Close", "Put the board away"]];

// Where a move that a text names is shown: line and half-moves.
const named = new WeakMap();

// Each move of a line as texts name it, with its place.
function placesIn(line) {
  const plies = pliesOf(line);
  return stepsOf(line).map((_, i) => [moveText(line, i + 1, plies), {line, ply: i + 1}]);
}

// Moves that a text names ("better was 12. Nf3") can be clicked where they have a place: one of
// `known`, or in a line beside the text. Of the same words the last place counts: what the move in
// question runs into, of which texts speak most; then the other lines.
function nameMoves(said, known) {
  const beside = (where) => [...(pointOf(said)?.querySelectorAll(where) ?? [])];
  const lines = [...beside("dd > .line"), ...beside("details > .line").reverse()];
  const places = new Map([...known, ...lines.flatMap(placesIn)]);
  const move = /(\d+\.(?:\.\.)? (?:O-O(?:-O)?|[^\s\da-h.(]{0,2}[a-h]?[1-8]?x?[a-h][1-8](?:=[^\s\d])?)[+#]?)/;
  said.replaceChildren(...said.textContent.split(move).map((text) => {
    if (!places.has(text)) return text;
    const one = make("span", {class: "named"}, text);
    named.set(one, places.get(text));
    return one;
  }));
}

// Built once; the first ply of each told line can then be reached with the Tab key.
function playerOf(article) {
  const known = article.querySelector(".player");
  if (known) return known;
  const drawing = document.querySelector("svg");
  const board = element(drawing, "svg", {class: "dia", viewBox: "-.6 -.1 8.7 8.7", role: "img"});
  const keys = buttons.filter(([key]) => key !== "n" || article.querySelector(".moment"))
    .map(([key, text, name]) =>
      make("button", {type: "button", "data-key": key, "aria-label": name}, text));
  const player = make("div", {class: "player", tabindex: "0", role: "group",
    "aria-label": "Board: the arrow keys step through the game"}, board,
    make("p", {class: "where"}), make("div", {class: "keys"}, ...keys));
  article.querySelector(".told").before(player);
  article.querySelector(".graph")?.append(element(drawing, "path", {class: "cursor"}));
  for (const line of article.querySelectorAll(".line")) {
    pliesOf(line)[0].tabIndex = 0;
    pliesOf(line)[0].setAttribute("role", "button");
  }
  const score = scoreOf(article);
  // First moves of told lines are made in the game, so that the story can name them too.
  const firsts = [...article.querySelectorAll(".moment dd > .line")].map((one) => placesIn(one)[0]);
  const moves = [...firsts, ...placesIn(score)];
  for (const said of article.querySelectorAll(".opening .said, .moment .said")) {
    nameMoves(said, moves);
  }
  shown.set(article, {line: score, ply: 0, below: score.dataset.below ?? "w"});
  render(article);
  return player;
}

// In words: the move, what it is part of, and where more is told of it.
function tell(article, where) {
  const {line, ply} = shown.get(article), score = scoreOf(article);
  const move = moveText(line, ply), point = line === score ? pointAt(article, ply) : null;
  const words = make("strong", {}, move || "The start");
  if (line !== score) return where.replaceChildren(nameOf(line), ": ", words);
  where.replaceChildren(words, `: White ${score.dataset.worth.split(" ")[ply]} %`);
  if (!point) return;
  const heading = point.querySelector("h3").firstChild.textContent;
  where.append(". ", make("a", {href: "#" + point.id}, "Turning point " + heading +
    point.querySelector(".kind").textContent));
}

function render(article) {
  const state = shown.get(article), {line, ply, below} = state, score = scoreOf(article);
  const player = article.querySelector(".player"), board = player.querySelector("svg");
  const men = menAfter(line, ply), marks = marksAt(article, state);
  drawBoard(board, {men, below, ...marks});
  board.setAttribute("aria-label", described(men, turn(line, ply).white) +
    (marks.rings?.length ? ` Ringed: ${marks.rings.join(", ")}.` : ""));
  tell(article, player.querySelector(".where"));
  article.querySelector(".ply[aria-current]")?.removeAttribute("aria-current");
  pliesOf(line)[ply - 1]?.setAttribute("aria-current", "step");
  const idle = {Home: ply === 0 && line === score, ArrowLeft: ply === 0 && line === score,
    ArrowRight: ply === stepsOf(line).length, End: ply === stepsOf(line).length};
  for (const [key, is] of Object.entries(idle)) {
    player.querySelector(`[data-key="${key}"]`).setAttribute("aria-disabled", String(is));
  }
  const {left, right} = article.querySelector(".graph")?.dataset ?? {};
  const part = (line === score ? ply : Number(pointOf(line)?.dataset.ply ?? 0)) /
    stepsOf(score).length;
  article.querySelector(".cursor")?.setAttribute("d",
    `M${Math.round(Number(left) + part * (right - left))} 8V176`);
}
)js";

// What a click, a key or an address does.
constexpr std::string_view using_it = R"js(
const say = (text) => { heard.textContent = text; };

// In a narrow window the board may hide the move that it shows.
function keepInSight(article) {
  if (!matchMedia("(max-width:60rem)").matches) return;
  article.style.setProperty("--seen", article.querySelector(".player").offsetHeight + "px");
  article.querySelector(".ply[aria-current]")?.scrollIntoView({block: "nearest"});
}

// Shows a place of a game. In a narrow window a board `inUse` stays in sight.
function go(article, line, ply, inUse = true) {
  playerOf(article);
  Object.assign(shown.get(article), {line, ply});
  if (inUse) article.classList.add("in-use");
  render(article);
  if (inUse) keepInSight(article);
  say(article.querySelector(".where").textContent);
}

// Before the first move of a told line stands the game.
function step(article, by) {
  const {line, ply} = shown.get(article), to = ply + by, point = pointOf(line);
  if (to > stepsOf(line).length) return say("The line ends here.");
  const leaves = line.dataset.start ? to < 0 : to === 0;
  if (line !== scoreOf(article) && leaves && point) {
    return go(article, scoreOf(article), Number(point.dataset.ply));
  }
  if (to < 0) return say("This is the start.");
  go(article, line, to);
}

function nextPoint(article) {
  const {line, ply} = shown.get(article), score = scoreOf(article);
  const from = line === score ? ply : Number(pointOf(line)?.dataset.ply ?? 0);
  const plies = [...article.querySelectorAll(".moment")].map((one) => Number(one.dataset.ply));
  const next = plies.find((one) => one > from);
  if (next === undefined) say("There is no further turning point.");
  else go(article, score, next);
}

const commands = {
  ArrowLeft: (article) => step(article, -1), ArrowRight: (article) => step(article, 1),
  Home: (article) => go(article, scoreOf(article), 0),
  End: (article) => go(article, shown.get(article).line, stepsOf(shown.get(article).line).length),
  n: nextPoint,
  o: (article) => {
    const state = shown.get(article);
    state.below = state.below === "w" ? "b" : "w";
    render(article);
    say("Seen from " + (state.below === "w" ? "White." : "Black."));
  },
  Escape: (article) => article.classList.remove("in-use"),
};

// The game in the middle of the window: keys pressed where nothing has the focus go there.
const inView = () => document.elementFromPoint(innerWidth / 2, innerHeight / 2)?.closest("article");

// Other keys than the arrows belong to the page, but where the board has the focus.
function onKey(event) {
  if (event.ctrlKey || event.metaKey || event.altKey || event.shiftKey) return;
  const {key, target} = event;
  const article = target === document.body ? inView() : target.closest("article");
  if (!article || !scoreOf(article)) return;
  if (key === "Enter" && target.matches(".ply")) return target.click();
  const isArrow = key === "ArrowLeft" || key === "ArrowRight";
  if (!Object.hasOwn(commands, key) || !(isArrow || target.closest(".player"))) return;
  event.preventDefault();
  playerOf(article);
  commands[key](article);
}

// The half-move of the graph that is nearest.
function plyUnder(event, graph, plies) {
  const box = graph.getBoundingClientRect(), {left, right} = graph.dataset;
  const x = (event.clientX - box.left) / box.width * graph.viewBox.baseVal.width;
  return Math.max(0, Math.min(plies, Math.round((x - left) / (right - left) * plies)));
}

function onClick(event) {
  const {target} = event, article = target.closest("article");
  const score = article && scoreOf(article), link = target.closest('a[href^="#"]');
  if (link) return follow(link.getAttribute("href"));
  if (!score) return;
  const ply = target.closest(".ply"), line = ply?.closest(".line, .score");
  const graph = target.closest(".graph"), key = target.closest("[data-key]")?.dataset.key;
  const point = target.closest(".dia") && pointOf(target);
  playerOf(article);
  if (key) return commands[key](article);
  const place = named.get(target);
  if (ply) go(article, line, [...pliesOf(line)].indexOf(ply) + 1);
  else if (place) go(article, place.line, place.ply);
  else if (graph) go(article, score, plyUnder(event, graph, stepsOf(score).length));
  else if (point) go(article, score, Number(point.dataset.ply));
  else return;
  playerOf(article).focus({preventScroll: true});
}

// A link or an address that leads to a turning point shows it on the board of its game too.
function follow(hash) {
  const point = document.getElementById(hash.slice(1)), article = point?.closest("article");
  if (article && point.matches(".moment") && scoreOf(article)) {
    go(article, scoreOf(article), Number(point.dataset.ply), false);
  }
}

document.addEventListener("click", onClick);
document.addEventListener("keydown", onKey);
document.addEventListener("DOMContentLoaded", () => {
  heard = make("p", {class: "heard", "aria-live": "polite"});
  document.body.append(heard);
  const near = new IntersectionObserver((seen) => {
    for (const {isIntersecting, target} of seen) if (isIntersecting) playerOf(target);
  }, {rootMargin: "100% 0px"});
  for (const article of document.querySelectorAll("article")) {
    if (scoreOf(article)) near.observe(article);
  }
  window.addEventListener("hashchange", () => follow(location.hash));
  follow(location.hash);
});
// Folded lines are printed too.
const folds = [];
window.addEventListener("beforeprint", () => {
  for (const fold of document.querySelectorAll("details:not([open])")) folds.push(fold);
  for (const fold of folds) fold.open = true;
});
window.addEventListener("afterprint", () => {
  for (const fold of folds.splice(0)) fold.open = false;
});
)js";

}  // namespace

std::string_view play_script() {
  static const std::string all =
      "<script>\n\"use strict\";\n(() => {" + std::string(board_script()) + std::string(reading) +
      std::string(building) + std::string(using_it) + "})();\n</script>\n";
  return all;
}

}  // namespace kairos::report
