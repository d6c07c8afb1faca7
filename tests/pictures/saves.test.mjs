// From the command line: the page follows saves, and sheets are files that need nothing else.

import assert from "node:assert/strict";
import { spawn, spawnSync } from "node:child_process";
import { mkdtemp, readFile, rm, writeFile, rename, readdir } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { browser, faults, until } from "./browser.mjs";
import { FINWRIGHT } from "./client.mjs";

const TRAINER = new URL("../designs/good/reed_heron.finw", import.meta.url);
let chrome, folder, design, text;

before(async () => {
  chrome = await browser();
  folder = await mkdtemp(join(tmpdir(), "pictures-"));
  design = join(folder, "reed_heron.finw");
  text = await readFile(TRAINER, "utf8");
  await writeFile(design, text);
});

after(async () => {
  await chrome?.close();
  await rm(folder, { recursive: true });
});

test("the page follows a save, also one that replaces the file", async () => {
  const preview = spawn(FINWRIGHT, ["preview", design], { stdio: ["ignore", "pipe", "ignore"] });
  try {
    const url = await new Promise((resolve) => preview.stdout.once("data", (bytes) => resolve(String(bytes).split("\n")[0])));
    const page = await chrome.newPage();
    await page.goto(url);
    await page.waitForSelector(".pair svg");
    await writeFile(design, text.replace("Reed Heron\"", "First Save\""));
    await until(page, () => document.title.startsWith("First Save"));
    await writeFile(join(folder, "beside"), text.replace("Reed Heron\"", "Second Save\""));
    await rename(join(folder, "beside"), design);
    await until(page, () => document.title.startsWith("Second Save"));
    await page.close();
  } finally {
    preview.kill();
    await writeFile(design, text);
  }
});

test("sheets as HTML are accessible, load nothing, and are as large as they say", async () => {
  for (const what of ["marking", "card", "working"]) {
    const output = join(folder, `${what}.html`);
    assert.equal(spawnSync(FINWRIGHT, ["sheet", design, "--what", what, "-o", output]).status, 0);
    const page = await chrome.newPage();
    const loaded = [];
    page.on("request", (request) => request.url().startsWith("data:") || loaded.push(request.url()));
    await page.goto(`file://${output}`);
    assert.deepEqual(loaded, [`file://${output}`]);
    assert.deepEqual(await faults(page), [], what);
    await page.close();
  }
});

test("a refused picture leaves nothing behind and says why", async () => {
  const broken = join(folder, "empty.finw");
  await writeFile(broken, "finwright 1\n");
  const before = await readdir(folder);
  const done = spawnSync(FINWRIGHT, ["draw", broken, "--what", "stand", "-o", join(folder, "stand.svg")]);
  assert.equal(done.status, 2);
  assert.match(String(done.stderr), /there is no stand to draw: the file has no airframe/);
  assert.deepEqual(await readdir(folder), before);
  await rm(broken);
});
