// The checks of scripts/check_pages, run by node in a folder that has the packages.
import fs from "fs";
import path from "path";
import { Chess } from "chess.js";
import { parsePgn, startingPosition } from "chessops/pgn";
import { parseSan } from "chessops/san";
import { HtmlValidate, StaticConfigLoader } from "html-validate";
import puppeteer from "puppeteer-core";
import { checkReport } from "./check_report.mjs";
import { checkStage } from "./check_stage.mjs";

const folder = process.argv[2];
const pages = ["report.html", "questions.html", "stage.html", "sheet.html", "recap.html"];
let wrong = 0;

function check(holds, words) {
  if (holds) return;
  ++wrong;
  console.log(`WRONG: ${words}`);
}

async function validate() {
  const loader = new StaticConfigLoader({ extends: ["html-validate:standard"] });
  const validator = new HtmlValidate(loader);
  for (const page of pages) {
    const text = fs.readFileSync(path.join(folder, page), "utf8");
    for (const result of (await validator.validateString(text)).results) {
      for (const m of result.messages) check(false, `${page}:${m.line}:${m.column} ${m.message}`);
    }
  }
}

function replay(node, position) {
  for (const child of node.children) {
    const next = position.clone();
    const move = parseSan(next, child.data.san);
    if (!move) throw new Error(`illegal: ${child.data.san}`);
    next.play(move);
    replay(child, next);
  }
}

function readGames(file) {
  const text = fs.readFileSync(path.join(folder, file), "utf8");
  const games = parsePgn(text);
  for (const game of games) {
    try {
      replay(game.moves, startingPosition(game.headers).unwrap());
    } catch (error) {
      check(false, `${file}: ${game.headers.get("White")}: ${error.message}`);
    }
  }
  let second = 0, left = 0;
  for (const one of text.split(/\n\n(?=\[Event )/).filter((part) => part.trim())) {
    // That library reads no escaped quote in a tag, no null move and no game without moves.
    if (one.includes("\\") || one.includes(" -- ") || !/\n\d+\./.test(one)) {
      ++left;
      continue;
    }
    try {
      new Chess().loadPgn(one);
      ++second;
    } catch (error) {
      check(false, `${file}: ${one.slice(0, 80)}: ${error.message}`);
    }
  }
  console.log(`${file}: ${games.length} games read by one library, ${second} by the other, ` +
              `${left} not given to it`);
}

async function browse() {
  const browser = await puppeteer.launch({
    executablePath: "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu"], headless: true,
    protocolTimeout: 600000,
  });
  const page = await browser.newPage();
  page.on("request", (request) =>
    check(request.url().startsWith("file:"), `asks the network for ${request.url()}`));
  for (const name of pages) {
    for (const width of [400, 1200]) {
      await page.setViewport({ width, height: 900 });
      await page.goto(`file://${path.join(folder, name)}`, { timeout: 300000 });
      const wide = await page.evaluate(() => document.documentElement.scrollWidth);
      check(wide <= width, `${name} is ${wide} wide at ${width}`);
    }
  }
  await page.goto(`file://${path.join(folder, "questions.html")}`);
  const seen = () => page.evaluate(() => document.querySelector(".question")?.innerText ?? "");
  const answer = await page.evaluate(
    () => document.querySelector(".question details strong")?.textContent ?? "");
  if (answer) {
    check(!(await seen()).includes(answer), "the answer is in sight before it is asked for");
    await page.evaluate(() => {
      for (const summary of document.querySelectorAll(".question:first-of-type summary")) {
        if (summary.textContent === "Answer") summary.click();
      }
    });
    check((await seen()).includes(answer), "the answer does not unfold");
  }
  await checkReport(browser, folder, check);
  await checkStage(browser, folder, check);
  await browser.close();
}

await validate();
for (const file of ["annotated.pgn", "puzzles.pgn"]) readGames(file);
await browse();
console.log(wrong === 0 ? "check_pages: all right" : `check_pages: ${wrong} wrong`);
process.exit(wrong === 0 ? 0 : 1);
