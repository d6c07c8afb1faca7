// The browser, and what counts as a fault in a page.

import { chromium } from "playwright-core";
import axe from "axe-core";
import { existsSync } from "node:fs";

const PLACES = [process.env.CHROMIUM, "/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];

export async function browser() {
  const executablePath = PLACES.find((path) => path && existsSync(path));
  return chromium.launch({ executablePath, args: ["--no-sandbox", "--disable-gpu"] });
}

/// What axe finds in a page, in words.
export async function faults(page) {
  await page.evaluate(axe.source);
  const found = await page.evaluate(async () => (await globalThis.axe.run(document)).violations);
  return found.map((one) => `${one.id}: ${one.nodes.map((node) => node.html.slice(0, 120)).join(" | ")}`);
}

/// Waits until something holds in a page. The page's policy forbids the library's own way, which evaluates words.
export async function until(page, holds) {
  for (let i = 0; i < 400; i += 1) {
    // In the middle of a navigation there is no page to ask.
    if (await page.evaluate(holds).catch(() => false)) return;
    await page.waitForTimeout(20);
  }
  throw new Error(`it never held: ${holds}`);
}
