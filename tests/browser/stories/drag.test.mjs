// Stories of hands on the drawing: a joint, the wheel, the rack, and what can’t be reached.
import assert from "node:assert/strict";
import { test } from "node:test";
import { box, drag, drawn, readings, stories, take, type } from "../harness.mjs";

const { open } = stories();

test("a dragged joint follows the hand, everything else follows the joint, and one undo takes it back", async (t) => {
  const page = await open(t);
  const before = await readings(page);
  const name = "y of the upper front, outer joint";
  await page.click("#tab-points");
  const at = await take(page, "upper front, outer joint");
  const y = Number(await box(page, name).inputValue());
  await drag(page, at, [20, 0]);
  const after = await readings(page);
  const moved = Number(await box(page, name).inputValue()) - y;
  assert.ok(moved > 20 && moved < 80, `${moved} mm`);
  assert.notEqual(after.kingpin_inclination_deg, before.kingpin_inclination_deg);
  const [x] = (await page.getAttribute("#drawing", "data-joint")).split(" ").map(Number);
  const left = (await page.locator("#drawing").boundingBox()).x;
  assert.ok(Math.abs(left + x - at[0] - 20) < 1, "the joint is under the hand");
  await page.click("#undo");
  await drawn(page);
  assert.deepEqual(await readings(page), before);
  assert.equal(await page.isDisabled("#undo"), true);
});

test("the wheel is taken for travel and the rack for steering", async (t) => {
  const page = await open(t);
  const [x, y] = await take(page, "track rod, outer joint");
  await page.keyboard.press("Escape");
  await drag(page, [x + 30, y - 60], [0, -15]);
  const travel = Number((await box(page, "Travel").inputValue()).replace("−", "-"));
  assert.ok(travel > 10, `${travel}`);
  await page.click("#at-rest");
  const inner = await take(page, "track rod, inner joint");
  await page.keyboard.press("Escape");
  await drag(page, [inner[0] - 100, inner[1]], [10, 0]);
  const rack = Number((await box(page, "Rack").inputValue()).replace("−", "-"));
  assert.ok(rack > 10, `${rack}`);
  assert.ok((await readings(page)).toe_deg.startsWith("8") || rack < 75);
});

test("an impossible drag stays where the hand is, says who can't reach, and undo brings all back", async (t) => {
  const page = await open(t);
  await type(page, "Travel", "60");
  const before = await readings(page);
  const outer = await take(page, "track rod, outer joint");
  await page.keyboard.press("Escape");
  const inner = await take(page, "track rod, inner joint");
  // A track rod of two centimetres can't follow six of travel.
  await drag(page, inner, [outer[0] - inner[0] - 10, outer[1] - inner[1] + 30]);
  assert.match(await page.textContent("#fault"), /mm too (short|long)|no longer locate/);
  assert.match(await page.getAttribute("#readings", "class"), /stale/);
  const kept = await readings(page);
  assert.ok(Object.values(kept).every((text) => !/NaN|inf/.test(text)));
  await page.click("#fault button");
  await drawn(page);
  assert.equal(await page.isVisible("#fault"), false);
  assert.deepEqual(await readings(page), before);
});
