// Script time of a frame while a joint is dragged, as Chromium's own counters have it, a warm solve, when a first visit has its readings, how long
// wheel space takes from rest, and how the pictorial view keeps up while it is turned: `node speed.mjs [OTHER-PAGE …]`. Folders of other builds are
// measured by turns with this one, so that whatever else the machine does meets all of them. Printed, not judged.
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
    // Rows out of sight wait: those at the top are the ones that a drag changes most.
    await page.locator("tr[data-reading=camber_deg]").scrollIntoViewIfNeeded();
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

/**
 * A drag of so many frames: ms of script, layout and style for each. The hand's movements are made on the page, one a frame: what the driver does to move
 * a mouse is script on the page too, near a millisecond a frame.
 */
async function drag({ page, session, at: [x, y] }) {
  await page.mouse.move(x, y);
  await page.mouse.down();
  const [before, then] = [await counters(session), await readings(page)];
  await page.evaluate(async ({ x, y, frames }) => {
    const canvas = document.querySelector("#drawing");
    const move = (dx, dy) => canvas.dispatchEvent(new PointerEvent("pointermove", { pointerId: 1, isPrimary: true, buttons: 1, bubbles: true, clientX: x + dx, clientY: y + dy }));
    for (let i = 0; i < frames; i++) {
      move(12 * Math.sin(i / 9), 8 * Math.cos(i / 7));
      await new Promise(requestAnimationFrame);
    }
  }, { x, y, frames: FRAMES });
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
  console.log(`a warm solve with all readings of the wheel, in WebAssembly${folders[at] ? `, ${folders[at]}` : ""}: ${warm.toFixed(2)} µs`);
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

/** From a key that moves a joint to the tables over the whole grid, and to the outlines with their margin, ms; the page waits for the key to come up. */
async function space(server) {
  const { page } = await open(server, async (page) => {
    await page.click("#tab-space");
    await page.waitForSelector("#space-grid:not(.old) #gap-rows td", { state: "attached" });
  });
  const times = [];
  for (let i = 0; i < ROUNDS; i++) {
    const asked = await page.evaluate(() => {
      window.answered = new Promise((done) => {
        const grid = document.querySelector("#space-grid");
        const watch = new MutationObserver(() => {
          if (grid.className === "old") return;
          watch.disconnect();
          done(performance.now());
        });
        watch.observe(grid, { attributeFilter: ["class"] });
      });
      addEventListener("keyup", () => (window.rest = performance.now()), { once: true });
      return document.querySelector("#space-litres").textContent;
    });
    await page.focus("#drawing");
    await page.keyboard.press("ArrowRight");
    times.push(await page.evaluate(async () => (await window.answered) - window.rest));
    if (asked === "") throw new Error("there was no answer to begin with");
  }
  await page.context().close();
  return times.sort((a, b) => a - b);
}

/** Turns the pictorial view by a hand's movement in every frame for so many seconds; gives the times from frame to frame, ms, in order. */
async function turning(server, seconds) {
  const page = await (await browser.newContext({ viewport: { width: 1920, height: 1080 }, reducedMotion: "reduce" })).newPage();
  await page.goto(server.address);
  await page.waitForSelector("#pictorial-drawing[data-turn]");
  await drawn(page);
  const session = await page.context().newCDPSession(page);
  await session.send("Performance.enable");
  const before = await counters(session);
  const frames = await page.evaluate(async (seconds) => {
    const canvas = document.querySelector("#pictorial-drawing"), box = canvas.getBoundingClientRect();
    const hand = (type, at) => canvas.dispatchEvent(new PointerEvent(type, { pointerId: 1, button: 0, bubbles: true, clientX: box.left + at[0], clientY: box.top + at[1] }));
    const frame = () => new Promise(requestAnimationFrame);
    const [times, views] = [[], new Set()];
    hand("pointerdown", [200, 200]);
    let last = await frame();
    for (const end = last + seconds * 1000; last < end; ) {
      hand("pointermove", [200 + 2 * times.length, 200 + 40 * Math.sin(times.length / 30)]);
      const now = await frame();
      times.push(now - last);
      views.add(canvas.dataset.turn);
      last = now;
    }
    hand("pointerup", [200, 200]);
    return { times, views: views.size };
  }, seconds);
  const after = await counters(session);
  if (frames.views < frames.times.length / 4) throw new Error("it was not turned in every frame");
  await page.context().close();
  return { times: frames.times, script: ((after.ScriptDuration - before.ScriptDuration) / frames.times.length) * 1000 };
}

for (const [at, server] of servers.entries()) {
  const of = folders[at] ? `, ${folders[at]}` : "";
  const times = await space(server);
  console.log(`wheel space over the whole grid, in WebAssembly, from rest to its tables${of}: ${times[0].toFixed(0)} ms (least of ${ROUNDS}; ${times.at(-1).toFixed(0)} at most)`);
  const { times: frames, script } = await turning(server, 10);
  const [first, last] = [frames.slice(0, frames.length / 10), frames.slice(-frames.length / 10)].map((part) => part.reduce((sum, ms) => sum + ms, 0) / part.length);
  const sorted = [...frames].sort((a, b) => a - b);
  console.log(`the pictorial view turned for 10 s${of}: ${frames.length} frames, ${script.toFixed(2)} ms of script each; from frame to frame ${sorted[Math.floor(sorted.length / 2)].toFixed(1)} ms in the middle, ${sorted[Math.floor(sorted.length * 0.95)].toFixed(1)} in 95 of 100, ${sorted.at(-1).toFixed(1)} at most; ${first.toFixed(1)} in the first second, ${last.toFixed(1)} in the last`);
}
await browser.close();
[...servers, ...packed].forEach((server) => server.close());
