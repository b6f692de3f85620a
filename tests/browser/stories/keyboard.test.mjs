// Stories of keys alone.
import assert from "node:assert/strict";
import { test } from "node:test";
import { box, drawn, readings, stories, take } from "../harness.mjs";

const { open } = stories();

test("keys do the whole job: walk the joints, nudge, undo", async (t) => {
  const page = await open(t);
  const before = await readings(page);
  await take(page, "upper front, outer joint");
  await page.keyboard.press("Shift+ArrowRight");
  await drawn(page);
  assert.match(await page.textContent("#said"), /y 680\.0.*kingpin offset at wheel centre/);
  assert.notDeepEqual(await readings(page), before);
  await page.keyboard.press("Control+z");
  await drawn(page);
  assert.deepEqual(await readings(page), before);
});

test("the whole job by keyboard alone: choose an axle, move a joint, steer, read, pin, lock, pass on", async (t) => {
  const page = await open(t);
  const press = async (...keys) => {
    for (const key of keys) await page.keyboard.press(key);
    await drawn(page);
  };
  // Forward by Tab to what has this name, as somebody would who hears names.
  const tabTo = async (name) => {
    for (let i = 0; i < 120; i++) {
      await page.keyboard.press("Tab");
      const here = await page.evaluate(() => {
        const { activeElement: it } = document;
        return it.getAttribute("aria-label") ?? it.labels?.[0]?.textContent ?? it.textContent;
      });
      if (here.trim().startsWith(name)) return;
    }
    throw new Error(`Tab does not reach ${name}`);
  };
  await tabTo("Strut");
  await press("Enter");
  assert.equal((await readings(page)).kingpin_offset_wheel_centre_mm, "66.0");
  await tabTo("Drawing");
  while (!(await page.textContent("#said")).startsWith("strut top mount")) await press("Tab");
  await press("Shift+ArrowRight");
  const moved = await readings(page);
  assert.notEqual(moved.kingpin_inclination_deg, "14.00°");
  assert.notEqual(moved.kingpin_offset_wheel_centre_mm, "66.0");
  await press("Escape");
  // The tabs are one stop; the arrow keys walk them.
  await tabTo("Curves");
  await press("ArrowRight");
  await tabTo("Lock the track rod, outer joint");
  await press("Enter");
  await tabTo("Travel");
  for (let i = 0; i < 10; i++) await page.keyboard.press("ArrowRight");
  await tabTo("Rack");
  await press("End");
  assert.equal(await box(page, "Travel").inputValue(), "+5.0");
  assert.equal(await box(page, "Rack").inputValue(), "+75.0");
  await tabTo("Caster offset at wheel centre");
  assert.match(await page.textContent("#explanation"), /Nachlaufversatz/);
  await press("Enter");
  await press("l");
  await page.waitForFunction(() => document.querySelector("#said").textContent === "Link copied");
  const link = await page.evaluate(() => navigator.clipboard.readText());
  for (const part of ["v=2", "upper=strut", "locks=tro", "caster_offset_wheel_centre", "travel=5", "rack=75"]) assert.ok(link.includes(part), part);
  await page.waitForFunction(() => document.querySelectorAll("#joint-rows tr").length >= 8);
  const rows = await page.$$eval("#joint-rows tr", (rows) => rows.map((row) => row.textContent));
  assert.ok( rows.every((text) => !text.includes("NaN")), "the drawing as a table");
  await press("z", "z", "z");
  assert.equal(await box(page, "Rack").inputValue(), "0.0");
});
