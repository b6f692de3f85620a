// Stories of the whole axle: both wheels on one road.
import assert from "node:assert/strict";
import { test } from "node:test";
import { PHONE, addressed, box, drawn, readings, stories, type } from "../harness.mjs";

const { open } = stories();

test("the whole axle: both wheels keep the road in roll, and curves run over roll", async (t) => {
  const page = await open(t);
  assert.equal(await page.isVisible("#group-axle"), false);
  await page.click("#whole-axle");
  await type(page, "Roll", "3");
  const shown = await readings(page);
  assert.equal(shown.roll_deg, "3.00°");
  assert.ok(parseFloat(shown.travel_left_mm.replace("−", "-")) < -30 && parseFloat(shown.travel_right_mm) > 30);
  await page.click("tr[data-reading=axle_steer_deg] button");
  await page.click("#over-roll");
  await drawn(page);
  await page.locator("#plots .plot").last().scrollIntoViewIfNeeded();
  const plot = await page.locator("#plots .plot").last().boundingBox();
  await page.mouse.click(plot.x + plot.width * 0.25, plot.y + plot.height / 2);
  await drawn(page);
  assert.ok((await box(page, "Roll").inputValue()).startsWith("−"), "a click in a curve rolls the body");
  await page.focus("#roll-handle");
  await page.keyboard.press("ArrowRight");
  const roll = await page.$eval("#roll-handle", (handle) => handle.value);
  const other = await open(t, PHONE, await addressed(page, new RegExp(`over=roll.*axle=both_${roll}&`)));
  assert.deepEqual(await readings(other), await readings(page));
  await type(page, "Braking, g", "0,8");
  const braked = await readings(page);
  assert.deepEqual([braked.roll_deg, braked.dive_braking_g], ["0.00°", "0.80"]);
  assert.ok(parseFloat(braked.travel_left_mm) > 5, "braking dives");
  await page.click("#one-wheel");
  await drawn(page);
  assert.equal(await page.isVisible("#group-axle"), false);
});
