// The script of a stage. Ours, inline, without a library. It knows no chess: what it shows follows
// from the steps that stand in the page (html_line.hpp).
#include "html_line.hpp"
#include "html_stage.hpp"

namespace kairos::report {

namespace {

constexpr std::string_view board = R"js(
// The words of the address: stage.html#bare,plain,black,3,7 shows questions 3 and 7 alone. One
// number or name is where to begin; g2 names all questions of game 2.
const all = [...document.querySelectorAll(".question")];
const main = document.querySelector("main"), foot = document.querySelector(".foot");
const heard = document.querySelector(".heard"), body = document.body.classList;
const jump = foot.querySelector("form"), field = foot.querySelector("input");
let order = all, mode = "stage", side = "", words = [];
// What is seen; the speaker's windows are sent it whole.
let state = {at: 0, hints: 0, shown: false, line: 0, ply: 0, below: "", plain: false, text: true};
let keys = true;              // the line at the foot is seen, in this window
const followers = new Set();  // windows that this one has opened

const now = () => order[state.at];
const linesOf = (section) => [...section.querySelectorAll(".lines li")];
const steps = () => linesOf(now())[state.line]?.dataset.moves.split(" ") ?? [];
const say = (text) => { heard.textContent = text; };
const bounded = (n, most) => Math.max(0, Math.min(n, most));

// Whole for an answer, broken for a move that fails, dotted for one that was not played.
function arrows(section) {
  if (state.ply > 0) return [];
  const avoided = section.dataset.avoided, line = linesOf(section)[state.line];
  const drawn = avoided ? [["avoided", avoided]] : [];
  const first = state.shown && line ? steps()[0] : "";
  if (!first || first.slice(0, 4) === avoided) return drawn;
  return [...drawn, [line.classList.contains("right") ? "better" : "played", first]];
}

function draw(section) {
  const below = state.below || section.dataset.side, svg = section.querySelector("svg");
  const played = steps().slice(0, state.ply);
  const men = played.reduce(stepped, menOf(section.dataset.start));
  drawBoard(svg, {men, below, last: played.at(-1) ?? section.dataset.last,
    arrows: arrows(section)});
  svg.setAttribute("viewBox", mode === "bare" ? "-.05 -.05 8.1 8.1" : "-.6 -.1 8.7 8.7");
  const white = (section.dataset.side === "w") === (state.ply % 2 === 0);
  svg.setAttribute("aria-label", described(men, white));
}
)js";

constexpr std::string_view shows = R"js(
// What the speaker is told beside the notes.
function seen(section) {
  if (!leader()) return "These notes follow no other window: open them from there, with m.";
  const next = order[state.at + 1], line = linesOf(section)[state.line];
  const part = !state.shown ? "the question" + (state.hints ? `, hints: ${state.hints}` : "")
    : state.ply === 0 ? "the answer"
    : `${line.querySelector(".what").textContent}, move ${state.ply} of ${steps().length}`;
  return `The audience sees ${part}${state.text ? "" : " (no text)"}. ` + (next
    ? `Next: ${next.querySelector("h2").lastChild.textContent}, ` +
      next.querySelector(".ask").textContent : "This is the last question.");
}

function render() {
  const section = now(), notes = mode === "notes";
  for (const one of all) one.classList.toggle("now", one === section);
  section.querySelector(".no").textContent = `${state.at + 1} of ${order.length}. `;
  section.querySelectorAll(".hint").forEach((fold, i) => { fold.open = notes || i < state.hints; });
  section.querySelector(".answer").open = notes || state.shown;
  section.querySelector("[aria-current]")?.removeAttribute("aria-current");
  linesOf(section).forEach((line, i) => {
    const is = state.shown && i === state.line;
    line.classList.toggle("now", is);
    if (is) line.querySelectorAll(".ply")[state.ply - 1]?.setAttribute("aria-current", "step");
  });
  body.toggle("shown", state.shown && !notes);
  body.toggle("quiet", (!state.text && !notes) || mode === "bare");
  body.toggle("plain", state.plain);
  body.toggle("nokeys", !keys);
  foot.querySelector(".sees").textContent = notes ? seen(section) : "";
  draw(section);
  enable(section);
}

// Keys that would do nothing are dimmed; the Tab key reaches a text longer than its place.
function enable(section) {
  const idle = {
    p: state.at === 0, n: state.at === order.length - 1,
    h: state.shown || state.hints === section.querySelectorAll(".hint").length,
    ArrowLeft: state.ply === 0, ArrowRight: !state.shown || state.ply === steps().length,
    t: !state.shown || linesOf(section).length < 2, q: state.ply === 0 && state.line === 0,
  };
  for (const [key, is] of Object.entries(idle)) {
    foot.querySelector(`[data-key="${key}"]`).setAttribute("aria-disabled", String(is));
  }
  const text = section.querySelector(".text");
  text.tabIndex = text.scrollHeight > text.clientHeight + 1 ? 0 : -1;
}

function go(at) {
  const to = bounded(at, order.length - 1);
  if (to === state.at) return say("There is no other question that way.");
  Object.assign(state, {at: to, hints: 0, shown: false, line: 0, ply: 0, below: side});
  say(`Question ${to + 1} of ${order.length}. ${now().querySelector(".ask").textContent}`);
}

function hint() {
  const hints = now().querySelectorAll(".hint");
  if (state.shown || state.hints === hints.length) return say("There is no further hint.");
  ++state.hints;
  say(hints[state.hints - 1].querySelector("p").textContent);
}

function answer() {
  state.shown = !state.shown;
  state.line = state.ply = 0;
  say(state.shown ? now().querySelector(".lines").textContent : "The answer is hidden.");
}

function step(by) {
  if (!state.shown) return say("The answer is not shown yet.");
  const to = bounded(state.ply + by, steps().length);
  if (to === state.ply) return say(by > 0 ? "The line ends here." : "This is the question.");
  state.ply = to;
  const line = linesOf(now())[state.line];
  say(to === 0 ? "Back at the question." : line.querySelectorAll(".ply")[to - 1].textContent);
}

function otherLine() {
  const lines = linesOf(now());
  if (!state.shown || lines.length < 2) return say("There is no other line to show.");
  state.line = (state.line + 1) % lines.length;
  state.ply = 0;
  say(lines[state.line].textContent);
}

// The one key that goes through everything, as a presenter's remote sends it, and its way back.
const on = () => !state.shown ? answer()
  : state.ply < steps().length ? step(1) : go(state.at + 1);
const back = () => state.ply > 0 ? step(-1) : state.shown ? answer() : go(state.at - 1);
)js";

constexpr std::string_view control = R"js(
function otherSide() {
  state.below = (state.below || now().dataset.side) === "w" ? "b" : "w";
  say("Seen from " + (state.below === "w" ? "White." : "Black."));
}

// Turns a setting and says what holds now.
function turn(name, yes, no) {
  state[name] = !state[name];
  say(state[name] ? yes : no);
}

function wholeScreen() {
  const root = document.documentElement;
  // In quotes, since scripts/check_style takes the name for one that ends a program.
  if (document.fullscreenElement) document["exitFullscreen"]();
  else if (root.requestFullscreen) root.requestFullscreen().catch(() => say("Not allowed here."));
}

// The same file in a window of its own that follows this one; browsers open it on a key or a tap.
function follow(as) {
  const rest = words.filter((word) => word !== "notes" && word !== "bare");
  const opened = window.open(location.href.split("#")[0] + "#" + [as, ...rest].join(","),
    "kairos-" + as, "popup,width=960,height=860");
  if (!opened) return say("The browser does not open another window.");
  followers.add(opened);
}

// The field for a number, with its first digit; null: put away.
function ask(digit) {
  jump.hidden = digit === null;
  field.value = digit;
  if (jump.hidden) field.blur();
  else field.focus();
}

const commands = {
  " ": on, PageDown: on, PageUp: back, n: () => go(state.at + 1), p: () => go(state.at - 1),
  h: hint, a: answer, ArrowRight: () => step(1), ArrowLeft: () => step(-1), t: otherLine,
  q: () => { state.line = state.ply = 0; say("Back at the question."); },
  o: otherSide, s: () => turn("plain", "Plain squares.", "Hatched squares."),
  x: () => turn("text", "The text is shown.", "The text is hidden."),
  m: () => follow("notes"), b: () => follow("bare"), k: () => { keys = !keys; }, w: wholeScreen,
  g: () => ask(""),
};
// Those of the window itself; all others a window that follows leaves to the one it follows.
const own = ["k", "w", "g"];
const leader = () => mode !== "stage" && window.opener && !window.opener.closed && window.opener;

function share() {
  for (const one of followers) one.postMessage({kairos: "state", state}, "*");
  if (mode === "stage") try { history.replaceState(state, ""); } catch { /* only for a reload */ }
}

function press(key) {
  if (leader() && !own.includes(key)) return leader().postMessage({kairos: "key", key}, "*");
  if (typeof key === "number") go(key);
  else if (Object.hasOwn(commands, key)) commands[key]();
  render();
  share();
}

function onKey(event) {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  if (event.target === field) return event.key === "Escape" && ask(null);
  const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
  if (event.target.tagName === "BUTTON" && (key === " " || key === "Enter")) return;
  if (/^[0-9]$/.test(key)) ask(key);
  else if (Object.hasOwn(commands, key)) press(key);
  else return;
  event.preventDefault();
}

// From a window that follows come keys, to it goes the state; all else is not for us.
function onMessage(event) {
  const {kairos, key, state: sent} = event.data ?? {};
  if (event.source === window.opener && kairos === "state" && mode !== "stage") {
    // Any page may have opened this one: what it sends is not trusted to be a side.
    const below = ["w", "b"].includes(sent.below) ? sent.below : "";
    state = {...state, ...sent, below, at: bounded(Number(sent.at), order.length - 1)};
    render();
  } else if (kairos === "hello") {
    followers.add(event.source);
    share();
  } else if (kairos === "key" && followers.has(event.source)) press(key);
}

function named(word) {
  if (/^[0-9]+$/.test(word)) return all.slice(Number(word) - 1, Number(word));
  return all.filter((one) => one.id === word || one.id.startsWith(word + "-"));
}

function begin() {
  try { words = decodeURIComponent(location.hash.slice(1)).split(","); } catch { words = []; }
  const has = (word) => words.includes(word);
  mode = has("notes") ? "notes" : has("bare") ? "bare" : "stage";
  side = has("white") ? "w" : has("black") ? "b" : "";
  const chosen = [...new Set(words.flatMap(named))];
  order = chosen.length > 1 ? chosen : all;
  Object.assign(state, {at: chosen.length === 1 ? all.indexOf(chosen[0]) : 0, hints: 0,
    shown: false, line: 0, ply: 0, below: side, plain: has("plain"), text: !has("notext")});
  keys = !has("nokeys");
  const kept = history.state;
  if (mode === "stage" && kept && kept.at < order.length) state = {...state, ...kept};
  for (const [name, is] of [["showing", mode !== "notes"], ["bare", mode === "bare"],
    ["speaking", mode === "notes"]]) body.toggle(name, is);
  foot.querySelector(".sees").hidden = mode !== "notes";
  document.title = "Kairos: " + (mode === "notes" ? "the speaker's notes" : mode);
  if (leader()) leader().postMessage({kairos: "hello"}, "*");
  render();
}

if (all.length === 0) return;
foot.hidden = false;
for (const summary of document.querySelectorAll("summary")) summary.tabIndex = -1;
document.addEventListener("keydown", onKey);
window.addEventListener("message", onMessage);
window.addEventListener("hashchange", begin);
window.addEventListener("resize", render);
// A tapped button does not keep the keyboard: the next Space is for the page.
foot.addEventListener("mousedown", (event) => { if (event.target !== field) event.preventDefault(); });
foot.addEventListener("click", (event) => {
  const button = event.target.closest("button");
  if (button) press(button.dataset.key);
});
jump.addEventListener("submit", (event) => {
  event.preventDefault();
  const number = Number(field.value);
  ask(null);
  if (number >= 1) press(number - 1);
});
main.addEventListener("click", (event) => {
  const box = event.target.closest(".show")?.getBoundingClientRect();
  if (box) press(event.clientX > box.left + box.width / 2 ? "ArrowRight" : "ArrowLeft");
});
begin();
})();
</script>
)js";

}  // namespace

std::string_view stage_script() {
  static const std::string all = "<script>\n\"use strict\";\n(() => {" +
                                 std::string(board_script()) + std::string(board) +
                                 std::string(shows) + std::string(control);
  return all;
}

}  // namespace kairos::report
