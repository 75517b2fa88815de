// stage.html in a real browser: every key and tap at three sizes, by day and by night, and the page
// without its script. The men on the board are compared with those another rules library reaches by
// the moves that the page names.
import path from "path";
import { Chess } from "chess.js";

const sizes = [[1920, 1080], [1280, 720], [390, 844]];

// The questions as they stand in the page, before any script has run.
function readQuestions() {
  return [...document.querySelectorAll(".question")].map((one) => ({
    id: one.id,
    fen: one.querySelector("code").textContent,
    ask: one.querySelector(".ask").textContent,
    kind: one.querySelector("h2").lastChild.textContent,
    title: one.querySelector("svg title").textContent,
    hints: [...one.querySelectorAll(".hint")].map((hint) => hint.querySelector("p").textContent),
    lines: [...one.querySelectorAll(".lines li")].map((line) =>
      [...line.querySelectorAll(".ply")].map((ply) => ply.textContent.split(" ").pop())),
    said: one.querySelector(".said")?.textContent ?? "",
    notes: one.querySelector(".notes").textContent,
  }));
}

export function menOf(fen) {
  return new Chess(fen).board().flat().filter(Boolean)
    .map((man) => man.square + man.color + man.type).sort().join(" ");
}

// The men after each move of a line, first those of the question.
function positionsOf(question, line) {
  const game = new Chess(question.fen);
  const men = [menOf(game.fen())];
  for (const san of question.lines[line] ?? []) {
    game.move(san);
    men.push(menOf(game.fen()));
  }
  return men;
}

// What is on the screen.
function look() {
  const now = document.querySelector(".question.now"), svg = now.querySelector("svg");
  const board = svg.querySelector(".board"), white = board.classList.contains("cw");
  const men = [];
  for (const one of svg.querySelectorAll("path")) {
    const css = one.getAttribute("class");
    if (!/^[wb][pnbrqk]$/.test(css)) continue;
    for (const [, x, y] of one.getAttribute("d").matchAll(/(\d) (\d)/g)) {
      const file = white ? Number(x) : 7 - x, rank = white ? 8 - y : Number(y) + 1;
      men.push("abcdefgh"[file] + rank + css);
    }
  }
  const box = board.getBoundingClientRect(), focus = document.activeElement;
  return {
    men: men.sort().join(" "), below: white ? "w" : "b", id: now.id,
    text: document.body.innerText, outside: [".text", ".foot", "header", "footer"]
      .map((part) => document.querySelector((part === ".text" ? ".now " : "") + part))
      .filter((one) => one.getClientRects().length > 0).map((one) => one.innerText).join(""),
    title: document.title, label: svg.getAttribute("aria-label"),
    heard: document.querySelector(".heard").textContent,
    arrows: svg.querySelectorAll(".better, .played").length,
    current: now.querySelector("[aria-current]")?.textContent ?? "",
    fill: getComputedStyle(board).fill, hint: now.querySelectorAll(".hint[open]").length,
    size: Math.min(box.width, box.height), inside: box.left >= 0 && box.top >= 0 &&
      box.right <= innerWidth + 1 && box.bottom <= innerHeight + 1,
    wide: document.documentElement.scrollWidth, tall: document.documentElement.scrollHeight,
    focus: focus === document.body || focus.getClientRects().length > 0, tag: focus.tagName,
    foot: document.querySelector(".foot").getClientRects().length > 0,
    small: Math.min(1000, ...[...now.querySelectorAll(".ask, .said, .lines li, .hint p")]
      .filter((one) => one.getClientRects().length > 0)
      .map((one) => parseFloat(getComputedStyle(one).fontSize))),
  };
}

export async function checkStage(browser, folder, check) {
  const url = `file://${path.join(folder, "stage.html")}`;
  const open = async (hash, setup) => {
    const page = await browser.newPage();
    page.on("request", (request) =>
      check(request.url().startsWith(url), `stage.html asks for ${request.url()}`));
    page.on("pageerror", (error) => check(false, `stage.html: ${error.message}`));
    if (setup) await setup(page);
    await page.goto("about:blank");
    await page.goto(url + hash);
    return page;
  };
  const plain = await open("", (page) => page.setJavaScriptEnabled(false));
  const questions = await plain.evaluate(readQuestions);
  await checkWithoutScript(plain, questions, check);
  if (questions.length === 0) return;
  for (const [width, height] of sizes) {
    for (const scheme of ["light", "dark"]) {
      const page = await open("", async (one) => {
        await one.setViewport({ width, height });
        await one.emulateMediaFeatures([{ name: "prefers-color-scheme", value: scheme }]);
      });
      await new Show(page, questions, check, `${width}x${height} ${scheme}`, width, height).run();
      await page.close();
    }
  }
  await checkAddresses(open, questions, check);
  await checkSpeaker(open, questions, check);
}

// A list with folds: every question in sight, no answer before its fold is opened.
async function checkWithoutScript(page, questions, check) {
  const seen = () => page.evaluate(() => document.body.innerText);
  const visible = await page.evaluate(() => [...document.querySelectorAll(".question")].map((one) =>
    [".ask", ".answer summary", ".answer ol"].map((part) => one.querySelector(part).checkVisibility())));
  visible.forEach((parts, i) => check(String(parts) === "true,true,false",
    `without script of ${questions[i].id} question, fold and answer are in sight: ${parts}`));
  check(await page.evaluate(() => !document.querySelector(".foot").getClientRects().length),
    "without script there are keys that do nothing");
  if (questions.length === 0) return;
  await (await page.$(".answer summary")).click();
  check((await seen()).includes(questions[0].notes.slice(0, 20)),
    "without script the answer does not unfold");
  await page.close();
}

// One audience's screen.
class Show {
  constructor(page, questions, check, name, width, height) {
    Object.assign(this, { page, questions, check, name, width, height, at: 0 });
    this.hidden = true;
    this.wanted = positionsOf(questions[0], 0)[0];
  }
  question() { return this.questions[this.at]; }
  tell(holds, words) { this.check(holds, `stage.html, ${this.name}, ${this.question().id}: ${words}`); }

  // Presses a key and checks what must hold after any.
  async press(key, wanted = this.wanted) {
    this.wanted = wanted;
    await this.page.keyboard.press(key);
    const seen = await this.page.evaluate(look);
    const after = `after "${key}" `;
    this.tell(seen.men === wanted, `${after}stand ${seen.men}, not ${wanted}`);
    this.tell(seen.id === this.question().id, `${after}${seen.id} is shown`);
    this.tell(seen.focus, `${after}the focus is on something that is not seen`);
    this.tell(seen.wide <= this.width, `${after}the page is ${seen.wide} wide`);
    this.tell(seen.tall <= this.height, `${after}the page is ${seen.tall} high`);
    this.tell(seen.inside, `${after}the board is not all on the screen`);
    this.tell(seen.size >= .88 * Math.min(this.width, this.height),
      `${after}the board is ${seen.size} wide`);
    const smallest = this.width > this.height ? this.height / 45 : 15;
    this.tell(seen.small >= smallest, `${after}some text is ${seen.small} high`);
    if (this.hidden) this.tellNothing(seen, after);
    return seen;
  }

  tellNothing(seen, after) {
    const { said, lines, ask, hints } = this.question();
    const told = [seen.text, seen.title, seen.label, seen.heard].join("\n");
    this.tell(!said || !told.includes(said), `${after}the answer is in sight`);
    // A key that stands in the question (a why-not's move) or in a hint is no secret.
    const key = lines[0]?.find((san) => !ask.includes(san)) ?? "";
    const pawn = /^[a-h][1-8]$/.test(key);
    this.tell(!key || pawn || !told.replace(hints.join(), "").includes(key),
      `${after}the move ${key} is in sight`);
    this.tell(seen.arrows === 0, `${after}an arrow is in sight`);
  }

  async run() {
    const numbers = [0, this.questions.findIndex(({ id }) => id.endsWith("whynot")),
      this.questions.findIndex(({ id }) => id.includes("-p"))];
    for (const at of new Set(numbers.filter((n) => n >= 0))) {
      await this.goTo(at);
      await this.hints();
      await this.looks();
      await this.walk();
    }
    await this.through();
    await this.taps();
  }

  async goTo(at) {
    for (const digit of String(at + 1)) await this.page.keyboard.press(digit);
    this.at = at;
    this.hidden = true;
    const seen = await this.press("Enter", positionsOf(this.question(), 0)[0]);
    this.tell(seen.text.includes(`${at + 1} of ${this.questions.length}`), "its number is not told");
    this.tell(seen.label === this.question().title, "the script describes the board otherwise");
    this.tell(seen.text.includes(this.question().ask), "it is not asked");
  }

  async hints() {
    const { hints } = this.question();
    for (let i = 0; i < hints.length; ++i) {
      const seen = await this.press("h");
      this.tell(seen.text.includes(hints[i]) && seen.heard === hints[i], `hint ${i + 1} is missing`);
      this.tell(seen.hint === i + 1, `${seen.hint} hints are open`);
    }
    await this.press("h");
    const seen = await this.press("ArrowRight");  // no step before the answer is shown
    this.tell(seen.heard.includes("not shown yet"), "nobody says why no move is made");
    await this.press("t");
  }

  // Keys that change the looks alone.
  async looks() {
    const { below } = await this.page.evaluate(look);
    this.tell((await this.press("o")).below !== below, "the board does not turn");
    this.tell((await this.press("o")).below === below, "the board does not turn back");
    const hatched = await this.press("s");
    this.tell(hatched.fill.includes("#plain"), "the squares are not plain");
    this.tell((await this.press("s")).fill !== hatched.fill, "the squares stay plain");
    const quiet = await this.press("x");
    this.tell(quiet.outside === "", `some text stays: ${quiet.outside}`);
    this.tell((await this.press("x")).text.includes(this.question().ask), "the text stays hidden");
    this.tell(!(await this.press("k")).foot, "the keys stay");
    this.tell((await this.press("k")).foot, "the keys stay hidden");
    await this.press("w");
    await this.page.evaluate(() => document.fullscreenElement && document.exitFullscreen());
    await this.page.setViewport({ width: this.width, height: this.height });
    await this.press("g");
    this.tell((await this.press("Escape")).tag === "BODY", "the number keeps the keyboard");
  }

  // Each line to its end and back to the question.
  async walk() {
    this.hidden = false;
    const { said, lines } = this.question();
    const seen = await this.press("a");
    this.tell(seen.text.includes(said), "the answer is not told");
    const drawn = this.question().id.endsWith("whynot") ? 0 : 1;  // there the question has one
    this.tell(seen.arrows === drawn, `${seen.arrows} answers are drawn`);
    for (let i = 0; i < lines.length; ++i) {
      const men = positionsOf(this.question(), i);
      for (let ply = 1; ply < men.length; ++ply) {
        const stepped = await this.press("ArrowRight", men[ply]);
        this.tell(stepped.current.endsWith(lines[i][ply - 1]), `${stepped.current} is marked`);
        this.tell(stepped.heard === stepped.current, `${stepped.heard} is said`);
      }
      await this.press("ArrowRight", men.at(-1));
      if (men.length > 1) await this.press("ArrowLeft", men.at(-2));
      if (i === 0) await this.press("q", men[0]);
      if (lines.length > 1) await this.press("t", men[0]);
    }
    this.hidden = true;
    await this.press("a", positionsOf(this.question(), 0)[0]);
  }

  // One key from the first question to the second, and its way back; then n and p.
  async through() {
    await this.goTo(0);
    if (this.questions.length < 2) return;
    const men = positionsOf(this.question(), 0);
    this.hidden = false;
    await this.press(" ");
    for (let ply = 1; ply < men.length; ++ply) await this.press("PageDown", men[ply]);
    await this.press("PageUp", men.at(-2));
    await this.press(" ", men.at(-1));
    this.at = 1;
    this.hidden = true;
    await this.press("PageDown", positionsOf(this.question(), 0)[0]);
    this.at = 0;
    await this.press("PageUp", men[0]);
    this.at = 1;
    await this.press("n", positionsOf(this.question(), 0)[0]);
    this.at = 0;
    await this.press("p", men[0]);
    await this.press("p", men[0]);
  }

  async taps() {
    const men = positionsOf(this.question(), 0);
    await this.page.click('.foot [data-key="a"]');
    this.hidden = false;
    const box = await (await this.page.$(".now svg")).boundingBox();
    const tap = (part) => this.page.mouse.click(box.x + part * box.width, box.y + box.height / 2);
    await tap(.8);
    await this.press("Shift", men[1]);
    await tap(.2);
    await this.press("Shift", men[0]);
    await this.page.focus('.foot [data-key="ArrowRight"]');
    const seen = await this.press("Enter", men[1]);
    this.tell(seen.tag === "BUTTON", "a button loses the keyboard");
  }
}

async function checkAddresses(open, questions, check) {
  const bare = await open("#bare,plain,black,2");
  const seen = await bare.evaluate(look);
  check(seen.below === "b" && seen.fill.includes("#plain"), "the address does not set the board");
  check(seen.id === questions[Math.min(1, questions.length - 1)].id, "the address is not followed");
  check(seen.outside === "", `the bare board has text: ${seen.outside}`);
  const grounds = await bare.evaluate(() => [document.documentElement, document.body]
    .map((one) => getComputedStyle(one).backgroundColor));
  check(grounds.every((color) => color === "rgba(0, 0, 0, 0)"), `the ground is ${grounds}`);
  await bare.close();
  if (questions.length < 3) return;
  const chosen = await open("#3,1");
  check((await chosen.evaluate(look)).id === questions[2].id, "the first chosen is not shown");
  await chosen.keyboard.press("n");
  const second = await chosen.evaluate(look);
  check(second.id === questions[0].id && second.text.includes("2 of 2"), "a choice is not kept");
  await chosen.reload();
  check((await chosen.evaluate(look)).id === second.id, "the place is lost when loaded again");
  await chosen.close();
}

// The speaker's window follows the audience's, and steers it.
async function checkSpeaker(open, questions, check) {
  const page = await open("");
  const popup = new Promise((resolve) => page.once("popup", resolve));
  await page.keyboard.press("m");
  const notes = await popup;
  const men = positionsOf(questions[0], 0);
  const both = async (wanted, words) => {
    for (const one of [page, notes]) {
      const reached = await one.waitForFunction(
        `(${look})().men === ${JSON.stringify(wanted)}`, { timeout: 10000 }).catch(() => null);
      check(reached, `${one === page ? "the audience" : "the speaker"} does not see ${words}`);
    }
  };
  await notes.waitForSelector(".speaking .question.now");
  const text = await notes.evaluate(() => document.body.innerText);
  for (const part of [questions[0].said, questions[0].lines[0][0], "Expected: about"]) {
    check(text.includes(part), `the notes have no "${part}"`);
  }
  check((await page.evaluate(look)).arrows === 0, "the notes show the audience the answer");
  await page.keyboard.press("a");
  await page.keyboard.press("ArrowRight");
  await both(men[1], "a move of the audience's window");
  await notes.keyboard.press("ArrowLeft");
  await both(men[0], "a move of the speaker's window");
  await notes.close();
  await page.close();
}
