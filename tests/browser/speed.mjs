// Script time of a frame while a joint is dragged, as Chromium's own counters have it, a warm solve, and when a first visit has its readings:
// `node speed.mjs [OTHER-PAGE …]`. Folders of other builds are measured by turns with this one, so that whatever else the machine does meets all of
// them. Printed, not judged.
import { readFile } from "node:fs/promises";
import { DESKTOP, PHONE, drawn, launch, readings, serve, take } from "./harness.mjs";

const ROUNDS = 5;
const FRAMES = 60;

/** What lies open while the joint is dragged. */
const SITUATIONS = {
  "first visit": async () => {},
  "sheet, everything on": async (page) => {
    await page.click("#whole-axle");
    await page.click("#compare");
    await page.click("#compare-start");
    for (const column of ["kingpin_inclination_deg", "axle_roll_centre_height_mm"]) await page.click(`tr[data-reading="${column}"] button`);
  },
  "Loads, all of it open": async (page) => {
    await page.click("#tab-loads");
    await page.selectOption("#case", { index: 2 });
    await page.$$eval("#loads details", (all) => all.forEach((details) => (details.open = true)));
  },
  "both wheels, over roll": async (page) => {
    await page.click("#whole-axle");
    await page.click("#over-roll");
  },
};

const browser = await launch();

async function open(server, prepare) {
  const page = await (await browser.newContext({ ...DESKTOP, reducedMotion: "reduce" })).newPage();
  await page.goto(server.address);
  await page.waitForSelector("tr[data-reading] td.now:not(:empty)");
  await prepare(page);
  await drawn(page);
  const session = await page.context().newCDPSession(page);
  await session.send("Performance.enable");
  return { page, session, at: await take(page, "upper front, outer joint") };
}

const counters = async (session) => Object.fromEntries((await session.send("Performance.getMetrics")).metrics.map(({ name, value }) => [name, value]));

/** A drag of so many frames: ms of script, layout and style for each. */
async function drag({ page, session, at: [x, y] }) {
  await page.mouse.move(x, y);
  await page.mouse.down();
  const [before, then] = [await counters(session), await readings(page)];
  for (let i = 0; i < FRAMES; i++) {
    await page.mouse.move(x + 12 * Math.sin(i / 9), y + 8 * Math.cos(i / 7));
    await drawn(page);
  }
  const after = await counters(session);
  if (JSON.stringify(then) === JSON.stringify(await readings(page))) throw new Error("the joint did not move");
  // Back to where the next drag takes it.
  await page.mouse.move(x, y);
  await page.mouse.up();
  return ["ScriptDuration", "LayoutDuration", "RecalcStyleDuration"].map((name) => ((after[name] - before[name]) / FRAMES) * 1000);
}

const least = (runs) => runs[0].map((_, at) => Math.min(...runs.map((run) => run[at])).toFixed(2));

const folders = [undefined, ...process.argv.slice(2)];
const servers = await Promise.all(folders.map((folder) => serve(folder)));
for (const [name, prepare] of Object.entries(SITUATIONS)) {
  const pages = [];
  for (const server of servers) pages.push(await open(server, prepare));
  const runs = pages.map(() => []);
  for (let round = 0; round < ROUNDS; round++) {
    for (const [at, page] of pages.entries()) runs[at].push(await drag(page));
  }
  for (const [at, folder] of folders.entries()) {
    const [script, layout, style] = least(runs[at]);
    console.log(`${name}${folder ? `, ${folder}` : ""}: a frame of a drag takes ${script} ms of script, ${layout} ms of layout, ${style} ms of style (least of ${ROUNDS} runs)`);
  }
  for (const { page } of pages) await page.context().close();
}

const file = await readFile(new URL("../../demo-layouts/four-arm.json", import.meta.url), "utf8");
for (const [at, server] of servers.entries()) {
  const { page } = await open(server, async () => {});
  const warm = await page.evaluate(async (file) => {
    const { walk } = await import(new URL(document.querySelector("script[data-js]").dataset.js, document.baseURI));
    const steps = 20_000, times = [];
    for (let i = 0; i < 15; i++) {
      const start = performance.now();
      walk(file, steps);
      times.push(performance.now() - start);
    }
    return times.sort((a, b) => a - b)[7] / steps * 1000;
  }, file);
  console.log(`a warm solve with all readings, in WebAssembly${folders[at] ? `, ${folders[at]}` : ""}: ${warm.toFixed(2)} µs`);
}

/** Who comes: how many times slower the processor, bits a second, and how long an answer is on its way, ms. */
const VISITORS = {
  "a desktop": { options: DESKTOP, slower: 1 },
  "a phone, four times slower, on 9 Mbit/s": { options: PHONE, slower: 4, bits: 9e6, latency: 40 },
};

/** Seconds until the first readings, of somebody who has never been here. */
async function arrival(server, { options, slower, bits, latency }) {
  const context = await browser.newContext({ ...options, reducedMotion: "reduce" });
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  await session.send("Emulation.setCPUThrottlingRate", { rate: slower });
  if (bits) {
    await session.send("Network.enable");
    await session.send("Network.emulateNetworkConditions", { offline: false, latency, downloadThroughput: bits / 8, uploadThroughput: bits / 8 });
  }
  await page.addInitScript(() => {
    new MutationObserver((_, observer) => {
      if (!document.querySelector("tr[data-reading] td.now:not(:empty)")) return;
      observer.disconnect();
      requestAnimationFrame(() => (window.arrived = performance.now()));
    }).observe(document, { subtree: true, childList: true, characterData: true });
  });
  await page.goto(server.address);
  await page.waitForFunction(() => window.arrived);
  const seconds = (await page.evaluate(() => window.arrived)) / 1000;
  await context.close();
  return seconds;
}

const packed = await Promise.all(folders.map((folder) => serve(folder, { packed: true })));
for (const [name, visitor] of Object.entries(VISITORS)) {
  const runs = packed.map(() => []);
  for (let round = 0; round < ROUNDS; round++) for (const [at, server] of packed.entries()) runs[at].push([await arrival(server, visitor)]);
  for (const [at, folder] of folders.entries()) console.log(`${name}${folder ? `, ${folder}` : ""}: first readings after ${least(runs[at])} s (least of ${ROUNDS} runs)`);
}
await browser.close();
[...servers, ...packed].forEach((server) => server.close());
