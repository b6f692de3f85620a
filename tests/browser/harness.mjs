// A served page, a browser, and pages that fail their story on any error or any request that leaves the server.
import assert from "node:assert/strict";
import { createServer } from "node:http";
import { readFile } from "node:fs/promises";
import { existsSync } from "node:fs";
import { extname, join, normalize } from "node:path";
import { fileURLToPath } from "node:url";
import { after, before } from "node:test";
import { gzipSync } from "node:zlib";
import { chromium } from "playwright-core";

const DIST = fileURLToPath(new URL("../../web/dist/", import.meta.url));
const TYPES = {
  ".html": "text/html; charset=utf-8", ".js": "text/javascript", ".css": "text/css", ".svg": "image/svg+xml",
  ".wasm": "application/wasm", ".woff2": "font/woff2", ".json": "application/json",
};
// Debian's build; elsewhere CHROMIUM says where one is.
const PLACES = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/Applications/Chromium.app/Contents/MacOS/Chromium"];
const executablePath = process.env.CHROMIUM ?? PLACES.find(existsSync);
const FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"];

export const DESKTOP = { viewport: { width: 1440, height: 900 } };
export const PHONE = { viewport: { width: 390, height: 844 }, deviceScaleFactor: 2, hasTouch: true, isMobile: true };

/** Serves the built page, or the one of another folder, on a free port of this machine; `packed` as a server in the world does. */
export async function serve(folder = DIST, { packed = false } = {}) {
  const server = createServer(async (request, response) => {
    const path = normalize(new URL(request.url, "http://localhost").pathname).replace(/\/$/, "/index.html");
    try {
      const body = await readFile(join(folder, path));
      const type = { "Content-Type": TYPES[extname(path)] ?? "application/octet-stream" };
      if (packed && extname(path) !== ".woff2") response.writeHead(200, { ...type, "Content-Encoding": "gzip" }).end(gzipSync(body, { level: 9 }));
      else response.writeHead(200, type).end(body);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise((listening) => server.listen(0, "127.0.0.1", listening));
  return { address: `http://127.0.0.1:${server.address().port}/`, close: () => server.close() };
}

export const launch = () => chromium.launch({ executablePath, args: FLAGS });

/** Waits until the page's program shows its readings. */
export const started = (page) => page.waitForSelector("tr[data-reading] td.now:not(:empty)", { state: "attached" });

/**
 * One server and one browser for a file of stories. `open(t, options, parameters)` gives a page in a fresh profile, started and watched;
 * `unwatched(t, prepare, options)` one that may fail, its faults in a list, and that `prepare` sees before it is opened.
 */
export function stories() {
  let server, browser;
  before(async () => {
    server = await serve();
    browser = await launch();
  });
  after(async () => {
    await browser.close();
    server.close();
  });
  async function open(t, options = DESKTOP, parameters = "") {
    const context = await browser.newContext({ permissions: ["clipboard-read", "clipboard-write"], reducedMotion: "reduce", ...options });
    const page = await context.newPage();
    const faults = [];
    page.on("pageerror", (error) => faults.push(`${error}`));
    page.on("console", (message) => message.type() === "error" && faults.push(message.text()));
    page.on("request", (request) => request.url().startsWith(server.address) || request.url().startsWith("blob:") || faults.push(`asked for ${request.url()}`));
    t.after(async () => {
      await context.close();
      if (faults.length) throw new Error(faults.join("\n"));
    });
    await page.goto(server.address + parameters);
    await started(page);
    return page;
  }
  async function unwatched(t, prepare, options = DESKTOP) {
    const context = await browser.newContext({ reducedMotion: "reduce", ...options });
    t.after(() => context.close());
    const page = await context.newPage();
    const faults = [];
    page.on("pageerror", (error) => faults.push(`${error}`));
    await prepare(page);
    await page.goto(server.address);
    return { page, faults };
  }
  return { open, unwatched };
}

/** The readings as the page shows them, by column. */
export const readings = (page) =>
  page.$$eval("tr[data-reading]", (rows) => Object.fromEntries(rows.map((row) => [row.dataset.reading, row.querySelector(".now").textContent])));

/** Waits until the page has drawn what was last done. */
export const drawn = (page) => page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));

/** Waits until the address, which is written once nothing has changed for half a second, is like this; gives its part from `#` on. */
export async function addressed(page, pattern) {
  await page.waitForFunction(({ source, flags }) => new RegExp(source, flags).test(location.hash), { source: pattern.source, flags: pattern.flags }).catch(() => {});
  const hash = await page.evaluate(() => location.hash);
  assert.match(hash, pattern);
  return hash;
}

/** Waits longer than the page does before it writes the address and the draft: for what must not happen. */
export const quiet = (page) => page.waitForTimeout(800);

/** The number box of this name. */
export const box = (page, name) => page.locator(`input[aria-label="${name}"]`);

/** Types a number into the box of this name and enters it. */
export const type = async (page, name, text) => {
  await box(page, name).fill(text);
  await box(page, name).press("Enter");
  await drawn(page);
};

/** Walks the joints with the keyboard until the one of this name is in hand; gives its place on the page. */
export async function take(page, name) {
  await page.focus("#drawing");
  for (let i = 0; i < 20; i++) {
    await page.keyboard.press("Tab");
    await drawn(page);
    if ((await page.textContent("#said")).startsWith(name)) {
      const [x, y] = (await page.getAttribute("#drawing", "data-joint")).split(" ").map(Number);
      const box = await page.locator("#drawing").boundingBox();
      return [box.x + x, box.y + y];
    }
  }
  throw new Error(`no joint ${name}`);
}

/** Drags from one place to another as a hand does, in steps. */
export async function drag(page, [x, y], [dx, dy]) {
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + dx, y + dy, { steps: 8 });
  await page.mouse.up();
  await drawn(page);
}
