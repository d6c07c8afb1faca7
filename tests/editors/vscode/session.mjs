// A session in Visual Studio Code, behind a browser: what somebody sees while typing a design. Pictures of it are kept.
//
//   node session.mjs FOLDER_OF_CODE_SERVER EXTENSION.vsix EXAMPLE.finw PICTURES

import { spawn, execFileSync } from "node:child_process";
import fs from "node:fs";
import { createRequire } from "node:module";
import os from "node:os";
import path from "node:path";

const [home, extension, example, pictures] = process.argv.slice(2).map((given) => path.resolve(given));
const { chromium } = createRequire(path.join(home, "package.json"))("playwright-core");
const program = path.join(home, "node_modules", "code-server", "out", "node", "entry.js");
const port = 8123 + (process.pid % 1000);
const work = fs.mkdtempSync(path.join(os.tmpdir(), "finwright-code-"));
const folder = path.join(work, "designs");
const own = ["--user-data-dir", path.join(work, "data"), "--extensions-dir", path.join(work, "extensions")];
const patience = 30_000;

fs.mkdirSync(folder);
fs.mkdirSync(pictures, { recursive: true });
const text = fs.readFileSync(example, "utf8");
const pads = text.match(/^pad .*\n/gm).join("");
fs.writeFileSync(path.join(folder, "pads.finw"), "finwright 1\n" + pads);
let design = text.replace(/^pad .*\n/gm, "").replace(/^design /m, 'use "pads.finw"\n\ndesign ');
design = design.replace("outer: caliber\n", "outer: calber\n");
fs.writeFileSync(path.join(folder, "heron.finw"), design);
const settings = path.join(work, "data", "User");
fs.mkdirSync(settings, { recursive: true });
const chosen = {
  "workbench.startupEditor": "none", "security.workspace.trust.enabled": false, "editor.hover.delay": 100,
  "telemetry.telemetryLevel": "off", "workbench.tips.enabled": false, "editor.minimap.enabled": false,
  "files.autoSave": "off", "extensions.autoUpdate": false, "update.mode": "none",
};
fs.writeFileSync(path.join(settings, "settings.json"), JSON.stringify(chosen));

const env = { ...process.env, XDG_CONFIG_HOME: path.join(work, "config"), XDG_CACHE_HOME: path.join(work, "cache") };
execFileSync("node", [program, ...own, "--install-extension", extension], { stdio: "inherit", env });
const server = spawn("node", [program, ...own, "--auth", "none", "--bind-addr", `127.0.0.1:${port}`, "--disable-telemetry", "--disable-update-check", folder], { stdio: "ignore", env });

let browser, page, failed = 0, passed = 0;

async function picture(name) {
  await page.screenshot({ path: path.join(pictures, `${name}.png`) });
}

// One thing that is seen: its picture is taken whether or not it's there.
async function see(name, look) {
  try {
    await look();
    passed += 1;
    console.log(`ok      ${name}`);
  } catch (trouble) {
    failed += 1;
    console.log(`FAILED  ${name}: ${trouble.message.split("\n").slice(0, 6).join("\n        ")}`);
  }
  await picture(name.replaceAll(" ", "-"));
}

async function command(name) {
  await page.keyboard.press("F1");
  await page.locator(".quick-input-widget input").fill(`>${name}`);
  await page.locator(".quick-input-list .monaco-list-row").first().waitFor({ timeout: patience });
  await page.waitForTimeout(300);
  await page.keyboard.press("Enter");
}

// The search for files wants a program of its own that isn't installed here; the list beside the text doesn't.
async function open(name) {
  await page.locator(".explorer-folders-view .monaco-list-row", { hasText: name }).first().dblclick({ timeout: patience });
  await page.locator(`.tab.active[data-resource-name="${name}"]`).waitFor({ timeout: patience });
}

// Put the cursor behind some words of the open text.
async function goTo(words) {
  await page.keyboard.press("Control+Home");
  await page.keyboard.press("Control+f");
  await page.locator(".find-widget.visible textarea").first().fill(words);
  await page.waitForTimeout(400);
  await page.keyboard.press("Escape");
  await page.keyboard.press("ArrowRight");
}

async function lines() {
  const rows = await page.locator(".editor-instance .view-line").allInnerTexts();
  return rows.map((row) => row.replaceAll("\u00a0", " ")).join("\n");
}

async function session() {
  for (let tries = 0; ; tries += 1) {
    try {
      await fetch(`http://127.0.0.1:${port}/healthz`);
      break;
    } catch (trouble) {
      if (tries > 100) throw trouble;
      await new Promise((done) => setTimeout(done, 200));
    }
  }
  browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox"] });
  page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  await page.goto(`http://127.0.0.1:${port}/?folder=${folder}`);
  await page.locator(".monaco-workbench").waitFor({ timeout: 60_000 });
  await page.waitForTimeout(3000);
  await open("heron.finw");

  await see("a squiggle under a misspelt name", async () => {
    await page.locator(".squiggly-error").first().waitFor({ timeout: patience });
  });
  await see("a line above each flight and numbers between the words", async () => {
    await goTo("flight rod_day");
    await page.locator(".codelens-decoration", { hasText: /not|leaves at|checked/ }).first().waitFor({ timeout: patience });
  });
  await see("a quick fix", async () => {
    await goTo("outer: calber");
    await page.keyboard.press("ArrowLeft");
    await page.waitForTimeout(500);
    await page.keyboard.press("Control+.");
    await page.locator(".action-widget .monaco-list-row", { hasText: "caliber" }).first().waitFor({ timeout: patience });
    await picture("a-quick-fix-offered");
    await page.keyboard.press("Enter");
    await page.waitForFunction(() => !document.querySelector(".squiggly-error"), null, { timeout: patience });
    if (!(await lines()).includes("outer: caliber")) throw new Error("the text isn't mended");
  });
  await see("a hover on a flight", async () => {
    await goTo("flight rod_day");
    await command("Show or Focus Hover");
    await page.locator(".monaco-hover", { hasText: "Exit speed" }).first().waitFor({ timeout: patience });
    await page.waitForTimeout(500);
  });
  await see("a completion while typing with braces open", async () => {
    await page.keyboard.press("Escape");
    await page.keyboard.press("Control+End");
    await page.keyboard.type("\nsite hill {\n  el", { delay: 60 });
    await page.locator(".suggest-widget.visible .monaco-list-row", { hasText: "elevation" }).first().waitFor({ timeout: patience });
    await picture("a-completion-offered");
    await page.keyboard.press("Enter");
    await page.keyboard.type("12 ", { delay: 60 });
    await page.locator(".suggest-widget.visible .monaco-list-row", { hasText: "mm" }).first().waitFor({ timeout: patience });
    await page.keyboard.press("Escape");
    await page.keyboard.type("m", { delay: 60 });
    await page.waitForTimeout(500);
    if (!(await lines()).includes("elevation: 12 m")) throw new Error(`this was written:\n${await lines()}`);
  });
  await see("a whole part by its snippet", async () => {
    await page.keyboard.press("Escape");
    await page.keyboard.press("Control+End");
    await page.keyboard.type("\nsit", { delay: 60 });
    await page.locator(".suggest-widget.visible .monaco-list-row", { hasText: "site" }).first().waitFor({ timeout: patience });
    await page.keyboard.press("Enter");
    await page.keyboard.type("moor", { delay: 60 });
    await page.waitForTimeout(500);
    if (!(await lines()).includes("site moor {")) throw new Error(`this was written:\n${await lines()}`);
  });
  await see("a rename across files", async () => {
    await page.keyboard.press("Escape");
    await command("File: Revert File");
    await page.waitForTimeout(1500);
    await goTo("pad: club_rod");
    await page.keyboard.press("F2");
    await page.locator(".rename-box input").waitFor({ timeout: patience });
    await page.locator(".rename-box input").fill("long_rod");
    await page.keyboard.press("Enter");
    await page.waitForTimeout(1500);
    if (!(await lines()).includes("pad: long_rod")) throw new Error(`the design says:\n${await lines()}`);
    await open("pads.finw");
    await page.waitForTimeout(800);
    if (!(await lines()).includes("pad long_rod")) throw new Error(`the pads say:\n${await lines()}`);
  });
  await see("all designs checked", async () => {
    await command("finwright: Check all designs of the workspace");
    await page.waitForTimeout(2500);
    if (!(await lines()).includes("heron.finw:")) throw new Error(`this is shown:\n${await lines()}`);
  });
  await see("the walkthrough", async () => {
    await command("Welcome: Open Walkthrough");
    await page.locator(".quick-input-list .monaco-list-row", { hasText: "A first design" }).first().click({ timeout: patience });
    await page.locator(".getting-started-step", { hasText: "Begin a design" }).first().waitFor({ timeout: patience });
    await page.waitForTimeout(800);
  });
}

try {
  await session();
} catch (trouble) {
  failed += 1;
  console.log(`FAILED  ${trouble.stack}`);
  if (page) await picture("trouble");
} finally {
  await browser?.close();
  server.kill();
  fs.rmSync(work, { recursive: true, force: true });
}
console.log(`======= ${passed} passed, ${failed} failed in 0s =======`);
process.exit(failed ? 1 : 0);
