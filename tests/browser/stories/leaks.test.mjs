// Stories of long use: nothing is left behind.
import assert from "node:assert/strict";
import { test } from "node:test";
import { drawn, stories, take } from "../harness.mjs";

const { open } = stories();

test("a hundred changes of axle, and of what is pinned, leave no node, listener or memory behind", async (t) => {
  const page = await open(t);
  const session = await page.context().newCDPSession(page);
  const count = async () => {
    await session.send("HeapProfiler.collectGarbage");
    const { nodes, jsEventListeners } = await session.send("Memory.getDOMCounters");
    return { nodes, jsEventListeners, heap: (await session.send("Runtime.getHeapUsage")).usedSize };
  };
  const change = (times) => page.evaluate(async (times) => {
    const frame = () => new Promise((done) => requestAnimationFrame(done));
    for (let i = 0; i < times; i++) {
      document.querySelector(`#demos button:nth-child(${1 + (i % 6)})`).click();
      await frame();
      document.querySelector("tr[data-reading=motion_ratio] button").click();
      await frame();
    }
  }, times);
  await change(12);
  const before = await count();
  // Whole rounds of the six demos, so that the axle is the same.
  await change(102);
  const now = await count();
  const grown = Object.fromEntries(Object.keys(now).map((what) => [what, now[what] - before[what]]));
  // Once more the same is 102 times 266 nodes.
  assert.ok(grown.nodes < 500 && grown.jsEventListeners < 150 && grown.heap < 1_000_000, JSON.stringify(grown));
});

/** What so many frames of a drag may leave, bytes: engines keep what they have compiled. A closure a frame would be 350 of these each. */
const [FRAMES, COMPILED] = [300, 40_000];

test("a long drag leaves nothing behind", async (t) => {
  const page = await open(t);
  const session = await page.context().newCDPSession(page);
  const heap = async () => {
    await session.send("HeapProfiler.collectGarbage");
    return (await session.send("Runtime.getHeapUsage")).usedSize;
  };
  const at = await take(page, "upper front, outer joint");
  const drag = (frames) => page.evaluate(async ([[x, y], frames]) => {
    const drawing = document.querySelector("#drawing");
    const fire = (name, clientX, clientY) => drawing.dispatchEvent(new PointerEvent(name, { pointerId: 1, clientX, clientY, bubbles: true }));
    fire("pointerdown", x, y);
    for (let i = 0; i < frames; i++) {
      fire("pointermove", x + 12 * Math.sin(i / 9), y + 8 * Math.cos(i / 7));
      await new Promise((done) => requestAnimationFrame(done));
    }
    fire("pointermove", x, y);
    fire("pointerup", x, y);
  }, [at, frames]);
  await drag(FRAMES);
  await drawn(page);
  const before = await heap();
  await drag(FRAMES);
  await drawn(page);
  const grown = (await heap()) - before;
  assert.ok(grown < COMPILED, `${grown} bytes`);
});
