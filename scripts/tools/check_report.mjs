// report.html in a real browser: games are played through by click, key, line and graph at three
// sizes, by day and by night; then the page without its script, and what is printed. The men on the
// board are compared with those another rules library reaches by the moves that the page names.
import path from "path";
import { Chess } from "chess.js";
import { menOf } from "./check_stage.mjs";

const sizes = [[1920, 1080], [1280, 720], [390, 844]];

// The games as they stand in the page, before any script has run.
function readGames() {
  const plies = (line) => [...line.querySelectorAll(".ply")]
    .map((ply) => ply.textContent.split(" ").pop());
  return [...document.querySelectorAll("article")].map((article) => {
    const score = article.querySelector(".score");
    return {
      id: article.id, start: score?.dataset.start ?? "", moves: score ? plies(score) : [],
      points: [...article.querySelectorAll(".moment")].map((point) => ({
        id: point.id, ply: Number(point.dataset.ply), fen: point.querySelector("code").textContent,
        marks: ["better", "played", "avoided"].map((kind) => point.dataset[kind] ?? ""),
        rings: point.dataset.rings ?? "",
        lines: [...point.querySelectorAll(".line")].map((line) => ({
          moves: plies(line), start: line.dataset.start ?? "",
          folded: line.closest("details") !== null,
        })),
      })),
    };
  });
}

// A position by the page's own short form; castling is allowed where the men stand at home.
function gameFrom(start) {
  const [placement, side, number] = start.split(" ");
  const rows = placement.split("/");
  const full = (row) => row.replace(/\d/g, (n) => ".".repeat(Number(n)));
  const rights = [[full(rows[7]), "K", "R", "KQ"], [full(rows[0]), "k", "r", "kq"]]
    .map(([row, king, rook, names]) => row[4] !== king ? ""
      : (row[7] === rook ? names[0] : "") + (row[0] === rook ? names[1] : "")).join("");
  return new Chess(`${placement} ${side} ${rights || "-"} - 0 ${number}`);
}

// The men after each move from a position.
function positionsOf(game, moves) {
  const men = [menOf(game.fen())];
  for (const san of moves) {
    game.move(san);
    men.push(menOf(game.fen()));
  }
  return men;
}

// What is seen of a game.
function look(id) {
  const article = document.getElementById(id), player = article.querySelector(".player");
  const svg = player.querySelector("svg"), board = svg.querySelector(".board");
  const white = board.classList.contains("cw"), men = [];
  const square = (x, y) => "abcdefgh"[white ? x : 7 - x] + (white ? 8 - y : y + 1);
  for (const one of svg.querySelectorAll("path")) {
    const css = one.getAttribute("class");
    if (!/^[wb][pnbrqk]$/.test(css)) continue;
    for (const [, x, y] of one.getAttribute("d").matchAll(/(\d) (\d)/g)) {
      men.push(square(Number(x), Number(y)) + css);
    }
  }
  const arrow = (kind) => {
    const d = svg.querySelector("." + kind)?.getAttribute("d").match(/[\d.]+/g)?.map(Math.floor);
    return d ? square(d[0], d[1]) + square(d[2], d[3]) : "";
  };
  const rings = svg.querySelector(".ringed")?.getAttribute("d") ?? "";
  const box = board.getBoundingClientRect(), current = article.querySelector(".ply[aria-current]");
  const seen = current?.getBoundingClientRect();
  const under = seen && document.elementFromPoint(seen.left + 3, seen.top + seen.height / 2);
  return {
    men: men.sort().join(" "), below: white ? "w" : "b",
    marks: ["better", "played", "avoided"].map(arrow),
    rings: [...rings.matchAll(/(\d) (\d)/g)].map(([, x, y]) => square(+x, +y)).join(" "),
    label: svg.getAttribute("aria-label"), where: player.querySelector(".where").textContent,
    heard: document.querySelector(".heard").textContent,
    current: current?.textContent.split(" ").pop() ?? "",
    hidden: Boolean(seen) && seen.top >= 0 && seen.bottom <= innerHeight && under !== current,
    focus: document.activeElement.className, wide: document.documentElement.scrollWidth,
    inside: box.left >= 0 && box.right <= innerWidth + 1, size: Math.round(box.width),
    // In sight, unless all of the game is out of it.
    seen: box.top >= -2 && box.bottom <= innerHeight + 2,
    hash: location.hash,
  };
}

class Reading {
  constructor(page, game, check, name, width) {
    Object.assign(this, { page, game, check, name, width });
    this.men = positionsOf(gameFrom(game.start), game.moves);
  }
  tell(holds, words) { this.check(holds, `report.html, ${this.name}, ${this.game.id}: ${words}`); }

  // Checks what must hold after anything that was done: the position, and what is said of it.
  // A link leads away from the score, so that its move may lie anywhere.
  async expect(men, after, move = null) {
    const seen = await this.page.evaluate(look, this.game.id);
    this.tell(seen.men === men, `after ${after} stand ${seen.men}, not ${men}`);
    this.tell(seen.wide <= this.width, `after ${after} the page is ${seen.wide} wide`);
    this.tell(seen.inside, `after ${after} the board is not all in the window`);
    if (move === null) return seen;
    this.tell(!seen.hidden, `after ${after} the board hides the move ${seen.current}`);
    this.tell(seen.current === move, `after ${after} "${seen.current}" is marked, not "${move}"`);
    this.tell(seen.where.includes(move || "The start"), `after ${after} is told "${seen.where}"`);
    this.tell(seen.heard === seen.where, `after ${after} is said "${seen.heard}"`);
    return seen;
  }

  async click(selector, index) {
    const all = await this.page.$$(`#${this.game.id} ${selector}`);
    await all[index].scrollIntoView();
    await all[index].click();
  }

  async run(every) {
    await this.page.evaluate((id) => document.getElementById(id).scrollIntoView(), this.game.id);
    await this.page.waitForSelector(`#${this.game.id} .player`);
    await this.score(every);
    await this.keys();
    await this.points();
    await this.named();
    await this.graph();
    await this.buttons();
  }

  async score(every) {
    const { moves } = this.game;
    for (let ply = 1; ply <= moves.length; ply += every) {
      await this.click(".score .ply", ply - 1);
      const seen = await this.expect(this.men[ply], `a click on ${ply}`, moves[ply - 1]);
      this.tell(seen.focus === "player", `a click puts the focus on "${seen.focus}"`);
      this.tell(seen.seen, `after a click on ${ply} the board is out of sight`);
    }
  }

  // From the start to the end and a step too far, by the arrow keys.
  async keys() {
    const { moves } = this.game, press = (key) => this.page.keyboard.press(key);
    await press("Home");
    await this.expect(this.men[0], "Home", "");
    await press("ArrowLeft");
    await this.expect(this.men[0], "a step before the start");
    for (let ply = 1; ply <= moves.length; ++ply) {
      await press("ArrowRight");
      await this.expect(this.men[ply], `step ${ply}`, moves[ply - 1]);
    }
    await press("ArrowRight");
    await this.expect(this.men.at(-1), "a step beyond the end");
    await press("ArrowLeft");
    await this.expect(this.men.at(-2), "a step back", moves.at(-2) ?? "");
    await press("o");
    this.tell((await this.expect(this.men.at(-2), "o")).below === "b", "the board does not turn");
    await press("o");
    await press("End");
    await this.expect(this.men.at(-1), "End", moves.at(-1));
    await this.page.evaluate(() => document.activeElement.blur());
    await press("ArrowLeft");
    await this.expect(this.men.at(-2), "a step with the focus nowhere", moves.at(-2) ?? "");
  }

  // Each turning point by its link in the score, its marks, and its lines there and back.
  async points() {
    for (let i = 0; i < this.game.points.length; ++i) {
      const point = this.game.points[i];
      await this.click(".score sup a", i);
      const seen = await this.expect(menOf(point.fen), `the link to ${point.id}`);
      this.tell(seen.hash === "#" + point.id, `the link leads to ${seen.hash}`);
      this.tell(String(seen.marks) === String(point.marks), `${point.id} has arrows ${seen.marks}`);
      this.tell(seen.rings === point.rings, `${point.id} has rings on ${seen.rings}`);
      this.tell(!point.rings || seen.label.includes("Ringed: "), "rings are not described");
      await this.page.evaluate((id) => document.querySelectorAll(`#${id} details`)
        .forEach((fold) => { fold.open = true; }), point.id);
      for (let line = 0; line < point.lines.length; ++line) await this.line(point, line);
    }
  }

  async line(point, index) {
    const { moves, start } = point.lines[index];
    const men = positionsOf(start ? gameFrom(start) : new Chess(point.fen), moves);
    const lines = await this.page.$$(`#${point.id} .line`);
    const first = (await lines[index].$$(".ply"))[0];
    await first.scrollIntoView();
    if (index % 2 === 0) await first.click();
    else await first.focus().then(() => this.page.keyboard.press("Enter"));
    await this.expect(men[1], `line ${index} of ${point.id}`, moves[0]);
    for (let ply = 2; ply <= moves.length; ++ply) {
      await this.page.keyboard.press("ArrowRight");
      await this.expect(men[ply], `step ${ply} of line ${index}`, moves[ply - 1]);
    }
    const last = (await lines[index].$$(".ply")).at(-1);
    await last.scrollIntoView();
    await last.click();
    await this.expect(men.at(-1), "its last move", moves.at(-1));
    for (let ply = moves.length - 1; ply > 0; --ply) await this.page.keyboard.press("ArrowLeft");
    await this.page.keyboard.press("ArrowLeft");
    if (start) {
      await this.expect(men[0], "going back to its start");
      await this.page.keyboard.press("ArrowLeft");
    }
    await this.expect(menOf(point.fen), "going back into the game", this.game.moves[point.ply - 1] ?? "");
  }

  // The moves that texts name: each shows a position in which it has just been made.
  async named() {
    const all = await this.page.$$(`#${this.game.id} .named`);
    this.tell(all.length >= this.game.points.length, `only ${all.length} named moves can be clicked`);
    for (const one of all) {
      const text = await one.evaluate((span) => span.textContent);
      await one.scrollIntoView();
      await one.click();
      const seen = await this.page.evaluate(look, this.game.id);
      this.tell(seen.where.includes(text), `after a click on ${text} is told "${seen.where}"`);
      this.tell(seen.current === text.split(" ").pop(), `after ${text} "${seen.current}" is marked`);
    }
  }

  // A click on the curve goes to the nearest half-move; signs do not touch, and lead to their places.
  async graph() {
    const graph = await this.page.$(`#${this.game.id} .graph`);
    await graph.scrollIntoView();
    const frame = await graph.evaluate((svg) => {
      const box = svg.getBoundingClientRect(), scale = box.width / 640;
      return { left: box.left + svg.dataset.left * scale,
        right: box.left + svg.dataset.right * scale };
    });
    const plies = this.game.moves.length;
    for (const part of [0, .3, .5, .77, 1]) {
      const ply = Math.round(part * plies);
      const box = await graph.boundingBox();
      await this.page.mouse.click(frame.left + ply / plies * (frame.right - frame.left),
        box.y + box.height * .5);
      await this.expect(this.men[ply], `a click on the graph at ${ply}`, this.game.moves[ply - 1] ?? "");
      await graph.scrollIntoView();
    }
    const boxes = await graph.evaluate((svg) => [...svg.querySelectorAll(".sign")]
      .map((sign) => sign.getBoundingClientRect()).map(({ left, right, top, bottom }) =>
        ({ left, right, top, bottom })));
    const touch = (a, b) =>
      a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
    boxes.forEach((a, i) => boxes.slice(0, i).forEach((b) =>
      this.tell(!touch(a, b), "two signs on the graph touch")));
    for (let i = 0; i < this.game.points.length; ++i) {
      const point = this.game.points[i];
      await this.click(".graph a .sign", i);
      const seen = await this.expect(menOf(point.fen), `the sign of ${point.id}`);
      this.tell(seen.hash === "#" + point.id, `its sign leads to ${seen.hash}`);
    }
  }

  async buttons() {
    await this.click(".player [data-key=Home]", 0);
    await this.expect(this.men[0], "the button Start", "");
    await this.click(".player [data-key=ArrowRight]", 0);
    await this.expect(this.men[1], "the button on", this.game.moves[0]);
    const next = this.game.points.find(({ ply }) => ply > 1);
    if (!next) return;
    await this.click(".player [data-key=n]", 0);
    await this.expect(menOf(next.fen), "the button Next point");
  }
}

// All is text: stories, scores, diagrams and lines are there, and nothing that does nothing.
async function checkWithoutScript(page, games, check) {
  const seen = await page.evaluate(() => ({
    players: document.querySelectorAll(".player").length,
    scores: [...document.querySelectorAll("article")].map((one) =>
      one.querySelector(".score")?.checkVisibility() ? one.querySelector(".score").textContent : ""),
    pointers: [...document.querySelectorAll(".ply")].slice(0, 9)
      .some((one) => getComputedStyle(one).cursor === "pointer"),
  }));
  check(seen.players === 0, "without script there is a board that does nothing");
  check(!seen.pointers, "without script moves look as if they could be clicked");
  games.forEach((game, i) => check(game.moves.every((san) => seen.scores[i].includes(san)),
    `without script the score of ${game.id} is not whole`));
  await page.emulateMediaType("print");
  const closed = await page.evaluate(() => [...document.querySelectorAll("details .line")]
    .filter((line) => !line.checkVisibility()).length);
  check(closed === 0, `${closed} folded lines are not printed`);
  await page.close();
}

// For src/report/MEASURED.md; never a reason to fail.
async function tellTime(page, games) {
  const [size, paint, read] = await page.evaluate(async () => {
    await new Promise((done) => requestAnimationFrame(() => setTimeout(done, 100)));
    const { encodedBodySize, loadEventEnd } = performance.getEntriesByType("navigation")[0];
    const first = performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? 0;
    return [encodedBodySize || document.documentElement.outerHTML.length, first, loadEventEnd];
  });
  console.log(`report.html: ${games} games, ${(size / 1e6).toFixed(1)} MB, first seen after ` +
    `${(paint / 1000).toFixed(1)} s, whole after ${(read / 1000).toFixed(1)} s`);
  await page.close();
}

// Everywhere the first game with points and the last of all; once also that with most points.
function chosen(games, all) {
  const played = games.filter((game) => game.moves.length > 0);
  const most = [...played].sort((a, b) => b.points.length - a.points.length)[0];
  const first = played.find((game) => game.points.length > 0);
  return [...new Set([all && most, first, played.at(-1)])].filter(Boolean);
}

export async function checkReport(browser, folder, check) {
  const url = `file://${path.join(folder, "report.html")}`;
  const open = async (setup) => {
    const page = await browser.newPage();
    page.on("request", (request) =>
      check(request.url().startsWith(url), `report.html asks for ${request.url()}`));
    page.on("pageerror", (error) => check(false, `report.html: ${error.message}`));
    page.on("dialog", (dialog) => check(false, `report.html says ${dialog.message()}`));
    await setup(page);
    await page.goto(url, { timeout: 300000 });
    return page;
  };
  const plain = await open((page) => page.setJavaScriptEnabled(false));
  const games = await plain.evaluate(readGames);
  await checkWithoutScript(plain, games, check);
  await tellTime(await open(async () => {}), games.length);
  for (const [width, height] of sizes) {
    for (const scheme of ["light", "dark"]) {
      const page = await open(async (one) => {
        await one.setViewport({ width, height });
        await one.emulateMediaFeatures([{ name: "prefers-color-scheme", value: scheme }]);
      });
      const name = `${width}x${height} ${scheme}`;
      const all = width === 1280 && scheme === "light";
      for (const game of chosen(games, all)) {
        await new Reading(page, game, check, name, width).run(all ? 3 : 12);
      }
      // Names are text: nothing that only they could have brought is in the page.
      check(await page.evaluate(() => document.querySelectorAll("img, script + script").length) === 0,
        `report.html, ${name}: an element comes from a name`);
      await page.close();
    }
  }
}
