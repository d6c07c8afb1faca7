// The live page in a browser: it follows the keys, leads both ways, and keeps to itself.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { readFile } from "node:fs/promises";
import http from "node:http";
import { browser, faults, until } from "./browser.mjs";
import { Editor } from "./client.mjs";

const TRAINER = new URL("../designs/good/reed_heron.finw", import.meta.url);
const URI = "file:///made/reed_heron.finw";
let chrome, editor, text, url;

before(async () => {
  chrome = await browser();
  text = await readFile(TRAINER, "utf8");
  editor = new Editor();
  await editor.start();
  editor.open(URI, text);
  url = await editor.request("workspace/executeCommand", { command: "finwright.preview", arguments: [URI] });
});

after(async () => {
  await chrome?.close();
  await editor?.stop();
});

async function opened(options = {}, flight = "") {
  editor.change(URI, text);
  const context = await chrome.newContext({ viewport: { width: 1000, height: 900 }, ...options });
  const page = await context.newPage();
  page.wrong = [];
  page.on("pageerror", (error) => page.wrong.push(String(error)));
  page.on("console", (message) => message.type() === "error" && page.wrong.push(message.text()));
  page.on("dialog", (dialog) => page.wrong.push(`a dialog: ${dialog.message()}`) && dialog.dismiss());
  page.on("request", (request) => request.url().startsWith(new URL(url).origin) || page.wrong.push(`left: ${request.url()}`));
  await page.goto(url + flight);
  await page.waitForSelector(".pair svg");
  await until(page, () => !document.getElementById("main").classList.contains("older"));
  return page;
}

test("the page is found by its address alone", async () => {
  assert.match(url, /^http:\/\/127\.0\.0\.1:\d+\/[0-9a-f]{32}\/$/);
});

test("it follows a change of the text", async () => {
  const page = await opened();
  editor.change(URI, text.replace('design "Reed Heron"', 'design "Marsh Wren"'));
  await until(page, () => document.querySelector(".where").textContent.includes("Marsh Wren"));
  assert.match(await page.title(), /^Marsh Wren/);
  assert.deepEqual(page.wrong, []);
  await page.context().close();
});

test("a click on a part leads to its place in the text", async () => {
  const page = await opened();
  editor.asked.length = 0;
  await page.locator("svg g[data-from] path").first().dispatchEvent("click");
  await page.waitForTimeout(300);
  const shown = editor.asked.find((message) => message.method === "window/showDocument");
  assert.equal(shown?.params.uri, URI);
  assert.ok(shown.params.selection.start.line > 5);
  await page.context().close();
});

test("the editor's cursor marks the part that it's on", async () => {
  const page = await opened();
  const line = text.split("\n").findIndex((one) => one.includes("lug front"));
  editor.send({ method: "finwright/cursor", params: { textDocument: { uri: URI }, position: { line, character: 8 } } });
  await page.waitForSelector("svg .marked");
  await page.context().close();
});

test("what can't be read keeps the last pictures, greyed, with the message", async () => {
  const page = await opened();
  const before = await page.locator(".pair svg").count();
  editor.change(URI, text.replace("length: 430 mm", "length: 430 m/"));
  await page.waitForSelector("main.older");
  assert.equal(await page.locator(".pair svg").count(), before);
  assert.match(await page.locator("#state").textContent(), /reed_heron\.finw, line \d+/);
  editor.change(URI, text);
  await until(page, () => !document.getElementById("main").classList.contains("older"));
  assert.equal(await page.locator("#state").isVisible(), false);
  await page.context().close();
});

test("a flight is chosen by the keyboard alone, and what is folded stays folded", async () => {
  const page = await opened();
  await page.locator("summary").focus();
  await page.keyboard.press("Enter");
  editor.change(URI, text.replace("gust: 6 m/s", "gust: 6.5 m/s"));
  await until(page, () => document.querySelector(".where").textContent.includes("6.5"));
  assert.equal(await page.locator("#numbers").getAttribute("open"), null);
  await page.getByRole("link", { name: "rail_day" }).focus();
  await page.keyboard.press("Enter");
  await until(page, () => document.querySelector("h1").textContent.startsWith("rail_day"));
  await page.context().close();
});

test("it is dark on a dark screen, and paper is white", async () => {
  const page = await opened({ colorScheme: "dark" });
  const colour = () => page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  assert.equal(await colour(), "rgb(21, 26, 32)");
  await page.emulateMedia({ media: "print" });
  assert.equal(await colour(), "rgb(255, 255, 255)");
  await page.context().close();
});

test("it prints on one page, A4 or Letter", async () => {
  const page = await opened();
  for (const format of ["A4", "Letter"]) {
    const pdf = (await page.pdf({ format })).toString("latin1");
    assert.equal(pdf.match(/\/Type\s*\/Page[^s]/g).length, 1, format);
  }
  await page.context().close();
});

test("axe finds nothing, light or dark", async () => {
  for (const colorScheme of ["light", "dark"]) {
    const page = await opened({ colorScheme });
    editor.change(URI, text.replace("length: 1.2 m; material: steel", "length: 0.5 m; material: steel"));
    await page.waitForSelector(".finding.fails");
    assert.deepEqual(await faults(page), [], colorScheme);
    await page.context().close();
  }
});

test("nothing from a design reaches the page unescaped", async () => {
  const page = await opened();
  const name = `<img src=x onerror=alert(1)>'&amp;<b>\u05d0\u05d1\u05d2</b> \u{1F680}`;
  editor.change(URI, text.replace('"Reed Heron"', `"${name}"`));
  await until(page, () => document.querySelector(".where").textContent.includes("onerror"));
  assert.ok((await page.locator(".where").textContent()).includes(name));
  assert.equal(await page.locator("main img, main b").count(), 0);
  assert.deepEqual(page.wrong, []);
  await page.context().close();
});

function asked(path, headers = {}, method = "GET") {
  const { port } = new URL(url);
  return new Promise((resolve, reject) => {
    const request = http.request({ host: "127.0.0.1", port, path, method, headers }, (answer) => {
      answer.resume();
      resolve(answer);
      if (answer.headers["content-type"] === "text/event-stream") request.destroy();
    });
    request.on("error", reject);
    request.end();
  });
}

test("a hover has a picture only where the client asks for it", async () => {
  const asks = new Editor();
  await asks.start({ pictures: true });
  for (const [one, wanted] of [[asks, true], [editor, false]]) {
    if (one === asks) one.open(URI, text);
    const line = text.split("\n").findIndex((words) => words.startsWith("flight rod_day"));
    const at = { textDocument: { uri: URI }, position: { line, character: 9 } };
    const hover = await one.request("textDocument/hover", at);
    assert.equal(hover.contents.value.includes("](data:image/svg+xml;base64,"), wanted);
  }
  await asks.stop();
});

test("another host's name, another origin and a wrong token read nothing", async () => {
  const { pathname } = new URL(url);
  assert.equal((await asked(pathname)).statusCode, 200);
  assert.equal((await asked(pathname, { Host: "evil.example" })).statusCode, 403);
  assert.equal((await asked(`${pathname}events`, { Origin: "http://evil.example" })).statusCode, 403);
  assert.equal((await asked(`${pathname}events`, { "Sec-Fetch-Site": "cross-site" })).statusCode, 403);
  assert.equal((await asked(`/${"0".repeat(32)}/events`)).statusCode, 404);
  assert.equal((await asked("/")).statusCode, 404);
});

test("another origin's page can't read it, frame it or send to it", async () => {
  const other = http.createServer((_, answer) => answer.end("<!doctype html><title>other</title>")).listen(0, "127.0.0.1");
  const context = await chrome.newContext();
  const page = await context.newPage();
  await page.goto(`http://127.0.0.1:${other.address().port}/`);
  editor.asked.length = 0;
  const got = await page.evaluate(async (url) => {
    const tried = async (path, options) => {
      try {
        const answer = await fetch(url + path, options);
        return answer.type === "opaque" ? "opaque" : await answer.text();
      } catch {
        return "nothing";
      }
    };
    const json = { method: "POST", headers: { "Content-Type": "application/json" }, body: '{"from":1,"to":2}' };
    return [await tried(""), await tried("events"), await tried("go", json)];
  }, url);
  assert.deepEqual(got, ["nothing", "nothing", "nothing"]);
  assert.equal(editor.asked.length, 0);
  await context.close();
  other.close();
});

test("its policy lets nothing in but its own", async () => {
  const policy = (await asked(new URL(url).pathname)).headers["content-security-policy"];
  assert.match(policy, /^default-src 'none'; connect-src 'self'; font-src 'self'; script-src 'nonce-\w+'; style-src 'nonce-\w+'/);
});
