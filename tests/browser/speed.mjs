// Script time of a frame while a joint is dragged with everything on, as Chromium's own counters have it. Printed, not judged.
import { readFile } from "node:fs/promises";
import { DESKTOP, drawn, launch, readings, serve, take } from "./harness.mjs";

const FRAMES = 240;
const server = await serve();
const browser = await launch();
const page = await (await browser.newContext({ ...DESKTOP, reducedMotion: "reduce" })).newPage();
await page.goto(server.address);
await page.waitForSelector("tr[data-reading] td.now:not(:empty)");
await drawn(page);
const session = await page.context().newCDPSession(page);
await session.send("Performance.enable");
const counters = async () => Object.fromEntries((await session.send("Performance.getMetrics")).metrics.map(({ name, value }) => [name, value]));
const [x, y] = await take(page, "upper front, outer joint");
await page.mouse.move(x, y);
await page.mouse.down();
const [before, then] = [await counters(), await readings(page)];
for (let i = 0; i < FRAMES; i++) {
  await page.mouse.move(x + 12 * Math.sin(i / 9), y + 8 * Math.cos(i / 7));
  await drawn(page);
}
const after = await counters();
const moved = JSON.stringify(then) !== JSON.stringify(await readings(page));
await page.mouse.up();
const ms = (name) => ((after[name] - before[name]) / FRAMES * 1000).toFixed(2);
console.log(`a frame of a drag (joint ${moved ? "moved" : "NOT moved"}): script ${ms("ScriptDuration")} ms, layout ${ms("LayoutDuration")} ms, style ${ms("RecalcStyleDuration")} ms`);
const file = await readFile(new URL("../../demo-layouts/four-arm.json", import.meta.url), "utf8");
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
console.log(`a warm solve with all readings, in WebAssembly: ${warm.toFixed(2)} µs`);
await browser.close();
server.close();
