// Stories of two axles compared.
import assert from "node:assert/strict";
import { test } from "node:test";
import { PHONE, addressed, drawn, readings, stories } from "../harness.mjs";

const { open } = stories();

test("two axles are compared: one link, one drawing, readings with their difference", async (t) => {
  const page = await open(t);
  await page.keyboard.press("c");
  await page.click("#compare-demos button:nth-child(1)");
  await drawn(page);
  const cells = await page.$$eval("tr[data-reading=kingpin_offset_wheel_centre_mm] td", (all) => all.map((td) => td.textContent));
  assert.deepEqual(cells.slice(0, 2), ["9.9", "66.0"]);
  assert.match(cells[2], /^−56\.[0-2]$/);
  assert.deepEqual(await page.$$eval("#readings thead th", (all) => all.map((th) => th.textContent)), ["Reading ?", "now", "compared", "difference", "at rest", "curve"]);
  const other = await open(t, PHONE, await addressed(page, /&b\.upper=strut&/));
  assert.equal(await other.isVisible("#notice"), false);
  assert.equal((await other.$$eval("tr[data-reading=kingpin_offset_wheel_centre_mm] td", (all) => all.map((td) => td.textContent)))[1], "66.0");
  await page.click("#tab-loads");
  await page.selectOption("#case", { label: "Braking 0.8 g" });
  await drawn(page);
  assert.match(await page.textContent("#others"), /^compared axle: [+−][0-9.]+ N·m, strut: /);
  await page.click("#compare");
  await page.click("#compare-swap");
  await drawn(page);
  assert.equal((await readings(page)).kingpin_offset_wheel_centre_mm, "66.0");
});
