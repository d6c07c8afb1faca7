// How long from a change of the text until the page's DOM has changed: by hand, `node latency.mjs [DESIGN]`, with FINWRIGHT
// naming the release build. Timings are never tested.

import { readFile } from "node:fs/promises";
import { browser } from "./browser.mjs";
import { Editor } from "./client.mjs";

const ROUNDS = 100;
const design = process.argv[2] ?? new URL("../designs/good/reed_heron.finw", import.meta.url);
const text = await readFile(design, "utf8");
const uri = "file:///made/measured.finw";
const chrome = await browser();
const editor = new Editor();
await editor.start();
editor.open(uri, text);
const url = await editor.request("workspace/executeCommand", { command: "finwright.preview", arguments: [uri] });
const page = await chrome.newPage();
await page.goto(url);
await page.waitForSelector(".pair svg");
await page.evaluate(() => {
  globalThis.changed = [];
  const main = document.getElementById("main");
  const seen = () => globalThis.changed.push(performance.timeOrigin + performance.now());
  new MutationObserver(seen).observe(main, { childList: true });
});
const now = () => performance.timeOrigin + performance.now();
const times = [];
for (let i = 0; i < ROUNDS; i += 1) {
  const before = await page.evaluate(() => globalThis.changed.length);
  const start = now();
  editor.change(uri, `${text}# ${i}\n`);
  while ((await page.evaluate(() => globalThis.changed.length)) === before) await page.waitForTimeout(2);
  times.push((await page.evaluate(() => globalThis.changed.at(-1))) - start);
}
times.sort((a, b) => a - b);
const lines = text.split("\n").length;
const at = (share) => times[Math.floor(share * (ROUNDS - 1))].toFixed(1);
console.log(`${lines} lines: median ${at(0.5)} ms, 9 of 10 within ${at(0.9)} ms, least ${at(0)} ms`);
await chrome.close();
await editor.stop();
