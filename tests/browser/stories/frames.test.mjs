// Stories of what a frame costs, counted: whatever else the machine does, the numbers are the same.
import assert from "node:assert/strict";
import { test } from "node:test";
import { drawn, readings, stories, take } from "../harness.mjs";

const { open } = stories();

/** What is written into the page, and what is called of its canvases, while `act` goes on. */
async function counted(page, act) {
  await page.evaluate(() => {
    const count = (window.counted = { written: [], called: 0 });
    window.watching = new MutationObserver((records) => count.written.push(...records.map(({ target, attributeName }) => `${(target.id || target.parentElement?.id) ?? ""} ${attributeName ?? "text"}`)));
    window.watching.observe(document, { subtree: true, childList: true, attributes: true, characterData: true });
    window.whole ??= Object.entries(Object.getOwnPropertyDescriptors(CanvasRenderingContext2D.prototype)).filter(([, { value }]) => typeof value === "function");
    for (const [name, { value }] of window.whole) CanvasRenderingContext2D.prototype[name] = function (...given) { count.called++; return value.apply(this, given); };
  });
  await act();
  await drawn(page);
  return page.evaluate(() => {
    window.watching.disconnect();
    for (const [name, { value }] of window.whole) CanvasRenderingContext2D.prototype[name] = value;
    return window.counted;
  });
}

test("a frame in which nothing changes writes nothing", async (t) => {
  const page = await open(t);
  await take(page, "upper front, outer joint");
  const { written, called } = await counted(page, () => page.keyboard.press("Escape"));
  assert.ok(called > 100, "it draws");
  // The joint is put down, and with it goes what tells where it stands and what moves it by thumb.
  assert.deepEqual([...new Set(written)], ["drawing data-joint", "stepper hidden"]);
  const again = await counted(page, () => page.keyboard.press("Escape"));
  assert.ok(again.called > 100);
  assert.deepEqual(again.written, []);
});

test("a dragged frame writes what has changed, and curves are drawn through the points that they need", async (t) => {
  const page = await open(t);
  const [x, y] = await take(page, "upper front, outer joint");
  await page.mouse.move(x, y);
  await page.mouse.down();
  const FRAMES = 20;
  const { written, called } = await counted(page, async () => {
    for (let i = 1; i <= FRAMES; i++) {
      await page.mouse.move(x + i / 2, y - i / 3);
      await drawn(page);
    }
  });
  await page.mouse.up();
  assert.ok(written.length / FRAMES > 20, "readings move");
  assert.ok(written.length / FRAMES < 200, `${written.length / FRAMES} writes a frame`);
  assert.ok(called / FRAMES < 4_000, `${called / FRAMES} calls of canvases a frame`);
});

test("what is out of sight waits while a hand holds a joint, and is right when it comes into sight and when the hand lets go", async (t) => {
  const page = await open(t);
  await page.click("#whole-axle");
  const [x, y] = await take(page, "upper front, outer joint");
  const now = (column) => page.textContent(`tr[data-reading=${column}] .now`);
  const [near, far, plot] = ["caster_deg", "axle_roll_centre_height_mm", "#plots figure:last-child b"];
  const curve = () => page.textContent(plot);
  await page.$eval("#plots figure:last-child", (figure) => figure.style.setProperty("margin-top", "2000px"));
  await drawn(page);
  const before = [await now(near), await now(far), await curve()];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x, y - 12, { steps: 3 });
  await drawn(page);
  assert.notEqual(await now(near), before[0], "what is seen follows the hand");
  assert.deepEqual([await now(far), await curve()], before.slice(1), "what is not seen waits");
  await page.locator(`tr[data-reading=${far}]`).scrollIntoViewIfNeeded();
  await page.waitForFunction(([far, before]) => document.querySelector(`tr[data-reading=${far}] .now`).textContent !== before, [far, before[1]]);
  await page.mouse.up();
  await drawn(page);
  assert.notEqual(await curve(), before[2], "and all is right when the hand lets go");
  const held = await readings(page);
  await page.keyboard.press("ControlOrMeta+z");
  await drawn(page);
  assert.deepEqual([await now(near), await now(far), await curve()], before);
  await page.keyboard.press("ControlOrMeta+Shift+z");
  await drawn(page);
  assert.deepEqual(await readings(page), held);
});

test("a pane is furnished when it is first opened", async (t) => {
  const page = await open(t);
  const panes = await page.$$eval("#tabs [role=tab]", (tabs) => tabs.map((tab) => tab.getAttribute("aria-controls")).filter((pane) => pane !== "curves"));
  const content = () => page.evaluate((panes) => panes.map((pane) => document.getElementById(pane).innerHTML), panes);
  const bare = await content();
  for (const [at, pane] of panes.entries()) {
    await page.click(`#tab-${pane}`);
    await drawn(page);
    const now = await content();
    assert.notEqual(now[at], bare[at], pane);
    assert.ok(now.slice(at + 1).every((content, k) => content === bare[at + 1 + k]), `${pane} furnishes others`);
  }
});
