// A served page, a browser, and pages that fail their story on any error or any request that leaves the server. BROWSER=firefox tells a story in Firefox.
import assert from "node:assert/strict";
import { createServer } from "node:http";
import { readFile, readdir, stat } from "node:fs/promises";
import { existsSync, mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { extname, join, normalize } from "node:path";
import { fileURLToPath } from "node:url";
import { after, before } from "node:test";
import { gzipSync } from "node:zlib";
import { chromium, firefox } from "playwright-core";

const DIST = fileURLToPath(new URL("../../web/dist/", import.meta.url));
export const TYPES = {
  ".html": "text/html; charset=utf-8", ".js": "text/javascript", ".css": "text/css", ".svg": "image/svg+xml",
  ".wasm": "application/wasm", ".woff2": "font/woff2", ".json": "application/json",
};
export const inFirefox = process.env.BROWSER === "firefox";
// Debian's builds, first the one without windows, which starts in half the time and by itself makes letters of whole pixels; elsewhere CHROMIUM and FIREFOX
// say where one is.
const CHROMIUM = {
  executablePath: process.env.CHROMIUM ?? ["/usr/bin/chromium-headless-shell", "/usr/bin/chromium", "/usr/bin/chromium-browser", "/Applications/Chromium.app/Contents/MacOS/Chromium"].find(existsSync),
  args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync", "--font-render-hinting=none"],
};
// Driven by WebDriver BiDi, which knows no context without motion and no clipboard without asking: its profile says both.
const FIREFOX = {
  executablePath: process.env.FIREFOX ?? "/usr/bin/firefox-esr",
  channel: "moz-firefox",
  downloadsPath: inFirefox ? mkdtempSync(join(tmpdir(), "saved-")) : undefined,
  firefoxUserPrefs: { "ui.prefersReducedMotion": 1, "dom.events.testing.asyncClipboard": true },
};

export const DESKTOP = { viewport: { width: 1440, height: 900 } };
export const PHONE = { viewport: { width: 390, height: 844 }, deviceScaleFactor: 2, hasTouch: true, isMobile: true };

/** Serves the built page, or the one of another folder, on a free port of this machine; `packed` as a server in the world does, which packs a file once. */
export async function serve(folder = DIST, { packed = false } = {}) {
  const kept = new Map();
  const pack = (path, body) => kept.get(path) ?? kept.set(path, gzipSync(body, { level: 9 })).get(path);
  const server = createServer(async (request, response) => {
    const path = normalize(new URL(request.url, "http://localhost").pathname).replace(/\/$/, "/index.html");
    try {
      const body = await readFile(join(folder, path));
      const type = { "Content-Type": TYPES[extname(path)] ?? "application/octet-stream" };
      if (packed && extname(path) !== ".woff2") response.writeHead(200, { ...type, "Content-Encoding": "gzip" }).end(pack(path, body));
      else response.writeHead(200, type).end(body);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise((listening) => server.listen(0, "127.0.0.1", listening));
  return { address: `http://127.0.0.1:${server.address().port}/`, close: () => server.close() };
}

export const launch = () => (inFirefox ? firefox.launch(FIREFOX) : chromium.launch(CHROMIUM));

/** Leaves a story out of Firefox, and says why. */
export const notInFirefox = (why) => ({ skip: inFirefox && why });

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
  const profile = (options) => browser.newContext({ permissions: ["clipboard-read", "clipboard-write"], reducedMotion: "reduce", ...options });
  async function open(t, options = DESKTOP, parameters = "") {
    const context = await profile(options);
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
    const context = await profile(options);
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

/** Writes into a box in place of what it holds; in Firefox key by key: its driver takes only keys for a change. */
export const write = async (page, locator, text) => {
  if (!inFirefox) return locator.fill(text);
  await locator.focus();
  await page.keyboard.press("ControlOrMeta+a");
  await page.keyboard.press("Delete");
  await page.keyboard.type(text);
};

/** The same, and enters it. */
export const enter = async (page, locator, text) => {
  await write(page, locator, text);
  await page.keyboard.press("Enter");
  await drawn(page);
};

/** Types a number into the box of this name and enters it. */
export const type = (page, name, text) => enter(page, box(page, name), text);

/** The path of the file that the page gives to keep when `act` asks for it. Firefox's driver tells of none, so its folder is watched. */
export async function saved(page, act) {
  if (!inFirefox) {
    const [download] = await Promise.all([page.waitForEvent("download"), act()]);
    return download.path();
  }
  const folder = FIREFOX.downloadsPath;
  const before = await readdir(folder);
  await act();
  for (let tries = 0; tries < 100; tries++) {
    const names = await readdir(folder);
    const path = join(folder, names.find((name) => !before.includes(name)) ?? "");
    // While it is written there is another beside it, and it is empty.
    if (path !== folder && !names.some((name) => name.endsWith(".part")) && (await stat(path)).isFile() && (await stat(path)).size > 0) return path;
    await page.waitForTimeout(100);
  }
  throw new Error("nothing was given to keep");
}

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
