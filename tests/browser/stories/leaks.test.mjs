// Stories of long use: nothing is left behind.
import assert from "node:assert/strict";
import { test } from "node:test";
import { stories } from "../harness.mjs";

const { open } = stories();

test("two hundred changes of axle, and of what is pinned, leave no node, listener or memory behind", async (t) => {
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
  await change(200);
  const now = await count();
  const grown = Object.fromEntries(Object.keys(now).map((what) => [what, now[what] - before[what]]));
  // Kinds of axle have more or fewer joints; once more the same is 200 times 266 nodes.
  assert.ok(grown.nodes < 1000 && grown.jsEventListeners < 300 && grown.heap < 1_000_000, JSON.stringify(grown));
});
