// Stories of what a visitor meets: the first demo, a greeting, a page at rest.
import assert from "node:assert/strict";
import { test } from "node:test";
import { DESKTOP, addressed, box, drawn, quiet, readings, stories } from "../harness.mjs";

const { open } = stories();
const MOVES = { ...DESKTOP, reducedMotion: "no-preference" };

test("a first visit shows the four-arm axle at rest", async (t) => {
  const page = await open(t);
  const shown = await readings(page);
  assert.equal(shown.kingpin_offset_wheel_centre_mm, "9.9");
  assert.equal(shown.camber_deg, "−0.50°");
  assert.equal(await page.getAttribute("#demos button:nth-child(5)", "aria-pressed"), "true");
  assert.equal(await page.isVisible("#fault"), false);
  assert.equal((await page.$$("#plots figure")).length, 6);
});

test("a first visit moves once by itself and comes to rest; a link does not move", async (t) => {
  const page = await open(t, MOVES);
  await page.waitForFunction(() => Math.abs(parseFloat(document.querySelector("tr[data-reading=wheelbase_change_mm] .now").textContent.replace("−", "-"))) > 1);
  await page.waitForFunction(() => document.querySelector("input[aria-label='Travel']").value === "0.0" && document.querySelector("input[aria-label='Rack']").value === "0.0", null, { timeout: 8000 });
  assert.equal(await page.isDisabled("#undo"), true);
  const linked = await open(t, MOVES, await addressed(page, /travel=0&/));
  const before = await readings(linked);
  await quiet(linked);
  assert.deepEqual(await readings(linked), before);
});

test("an interrupted greeting leaves the axle at rest", async (t) => {
  const moving = (page) => page.waitForFunction(() => Math.abs(parseFloat(document.querySelector("input[aria-label='Travel']").value.replace("−", "-"))) > 3);
  const interruptions = [
    (page) => page.click("#demos button:nth-child(1)"),
    (page) => page.keyboard.press("l"),
    (page) => page.mouse.click(900, 500),
    (page) => page.evaluate(() => { location.hash = "v=1"; }),
  ];
  for (const interrupt of interruptions) {
    const page = await open(t, MOVES);
    await moving(page);
    await interrupt(page);
    await page.waitForFunction(() => ["Travel", "Rack"].every((name) => document.querySelector(`input[aria-label="${name}"]`).value === "0.0"));
    await page.waitForTimeout(300);
    assert.equal(await box(page, "Travel").inputValue(), "0.0", `${interrupt}`);
  }
});

test("a bump sweep runs, stops where it is, and is one step to undo", async (t) => {
  const page = await open(t, MOVES, "?v=1");
  const before = await readings(page);
  await page.click("#play-bump");
  await page.waitForFunction(() => parseFloat(document.querySelector("input[aria-label='Travel']").value) > 30);
  await page.click("#play-bump");
  await drawn(page);
  const stopped = await readings(page);
  await page.waitForTimeout(400);
  assert.deepEqual(await readings(page), stopped);
  await page.click("#undo");
  await drawn(page);
  assert.deepEqual(await readings(page), before);
});

test("an idle page does nothing", async (t) => {
  const page = await open(t);
  const session = await page.context().newCDPSession(page);
  await session.send("Performance.enable");
  const script = async () => (await session.send("Performance.getMetrics")).metrics.find(({ name }) => name === "ScriptDuration").value;
  await page.waitForTimeout(800);
  const before = await script();
  await page.waitForTimeout(1500);
  assert.ok((await script()) - before < 0.005);
});
