// A class's pages in a browser: nothing wrong for a reader of any kind, on any screen, and nothing that leaves the page.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtemp, mkdir, writeFile, copyFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { browser, faults } from "./browser.mjs";

const DESIGNS = new URL("../designs/", import.meta.url);
const HANDED = [
  ["ada", "good/pond_wren"], ["ben", "bad/slow_exit"], ["cyd", "bad/unstable"], ["dan", "good/reed_heron"],
  ["eva", "bad/missing_brace"], ["finn", "bad/no_nose"], ["gus", "good/glass_eel"],
];
let chrome, pages;

before(async () => {
  chrome = await browser();
  const home = await mkdtemp(join(tmpdir(), "finwright-class-"));
  await mkdir(join(home, "in"));
  for (const [name, design] of HANDED) await copyFile(new URL(`${design}.finw`, DESIGNS), join(home, "in", `${name}.finw`));
  await writeFile(join(home, "in", "hal.finw"), Buffer.from("\ufefffinwright 1\n", "utf16le"));
  execFileSync(process.env.FINWRIGHT, ["class", "in", "--out", "pages"], { cwd: home });
  pages = join(home, "pages");
});

after(() => chrome?.close());

async function opened(name, options) {
  const context = await chrome.newContext(options);
  const page = await context.newPage();
  page.wrong = [];
  page.on("pageerror", (error) => page.wrong.push(String(error)));
  page.on("console", (message) => message.type() === "error" && page.wrong.push(message.text()));
  page.on("request", (request) => request.url().startsWith("file:") || page.wrong.push(`left: ${request.url()}`));
  await page.goto(pathToFileURL(join(pages, name)).href);
  return page;
}

for (const name of ["teacher.html", ...["ada", "ben", "cyd", "eva", "hal"].map((id) => `pupils/${id}.html`)]) {
  for (const [width, colorScheme] of [[1000, "light"], [1000, "dark"], [340, "light"]]) {
    test(`${name} at ${width} px, ${colorScheme}`, async () => {
      // The page's own policy lets no script run; the checker's has to.
      const page = await opened(name, { viewport: { width, height: 800 }, colorScheme, bypassCSP: true });
      assert.deepEqual(await faults(page), []);
      assert.deepEqual(page.wrong, []);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      assert.ok(wide <= 0, `it scrolls sideways by ${wide} px`);
      await page.context().close();
    });
  }
}

test("a page prints on paper with its words whole", async () => {
  const page = await opened("pupils/ben.html", { viewport: { width: 800, height: 1000 } });
  await page.emulateMedia({ media: "print" });
  const cut = await page.evaluate(() => {
    const wide = document.documentElement.clientWidth;
    return [...document.querySelectorAll("p,li,td,h1,h2,svg")].filter((one) => one.getBoundingClientRect().right > wide + 1).length;
  });
  assert.equal(cut, 0);
  await page.context().close();
});
