// Stories of a mechanic: a lowered car and its toe, parts changed and taken back, and what a hand on a joint keeps.
import assert from "node:assert/strict";
import { test } from "node:test";
import { PHONE, box, drag, drawn, readings, stories, take, type } from "../harness.mjs";

const { open } = stories();
const number = (text) => parseFloat(text.replace("−", "-"));
const changes = (page) => page.$$eval("#changed li", (items) => items.map((item) => item.firstChild.textContent));

test("a mechanic lowers the car, re-sets toe in one click, takes one change back and undoes", async (t) => {
  const page = await open(t);
  await page.click("#demos button:nth-child(2)");
  // The demos steer little in bump: minutes show it.
  await page.click("#unit-angle");
  await drawn(page);
  const design = (await readings(page)).toe_deg;
  await page.click("#tab-workshop");
  await drawn(page);
  assert.match(await page.textContent("#changed"), /as designed/);
  assert.equal(await page.isDisabled("#all-back"), true);
  await type(page, "Ride height at travel", "30");
  await page.click("#at-rest");
  await drawn(page);
  const lowered = (await readings(page)).toe_deg;
  assert.notEqual(lowered, design);
  await page.click("#reset-toe");
  await drawn(page);
  assert.equal((await readings(page)).toe_deg, design);
  assert.equal((await changes(page)).length, 2);
  assert.match((await changes(page)).join(), /Length of the track rod [+−]\d\.\d\d mm, both wheels/);
  // What is printed says them too.
  await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
  assert.match(await page.textContent(".print-built"), /^Left wheel\. Changes: length of the track rod .* mm, both wheels; ride height \+30\.00 mm\.$/);
  await page.evaluate(() => dispatchEvent(new Event("afterprint")));
  // Another change, of one wheel; then the rod's is taken back alone.
  await page.click("#work-left");
  await page.click('button[aria-label="track rod +"]', { modifiers: ["Shift"] });
  await drawn(page);
  assert.equal(await box(page, "change of the track rod, mm").inputValue(), "+5.00");
  assert.notEqual((await readings(page)).toe_deg, design);
  await page.click('button[aria-label*="track rod"][aria-label*="left wheel"]');
  await drawn(page);
  assert.equal((await readings(page)).toe_deg, design);
  await page.click('button[aria-label^="Take back: length of the track rod"]');
  await drawn(page);
  assert.equal((await readings(page)).toe_deg, lowered);
  await page.click("#undo");
  await drawn(page);
  assert.equal((await readings(page)).toe_deg, design);
  await page.click("#all-back");
  await drawn(page);
  assert.match(await page.textContent("#changed"), /as designed/);
  await page.click("#undo");
  await drawn(page);
  assert.equal((await changes(page)).length, 2);
});

test("camber is set by an arm: how far and what else moves is told first, and taken as one step", async (t) => {
  const page = await open(t);
  await page.click("#tab-workshop");
  const before = await readings(page);
  await page.selectOption("#wish-reading", { label: "Camber" });
  await page.selectOption("#wish-by", { label: "length of the upper front arm" });
  await type(page, "to", "-1,5");
  assert.match(await page.textContent("#proposal"), /^Change it by [+−]\d+\.\d\d mm, each wheel; left over 0\.00°\.$/);
  const cells = (name) => page.$$eval("#effects tbody tr", (rows, name) => [...rows.find((row) => row.textContent.startsWith(name)).cells].map((cell) => cell.textContent), name);
  assert.deepEqual((await cells("Camber")).slice(1), [before.camber_deg, "−1.50°"]);
  const [, , toe] = await cells("Toe");
  assert.notEqual(toe, before.toe_deg);
  assert.deepEqual(await readings(page), before, "nothing is done yet");
  await page.click("#take-wish");
  await drawn(page);
  assert.equal((await readings(page)).camber_deg, "−1.50°");
  assert.equal((await readings(page)).toe_deg, toe);
  await page.click("#undo");
  await drawn(page);
  assert.deepEqual(await readings(page), before);
});

test("a hand on an outer joint keeps alignment in the design, and lengths on the built car", async (t) => {
  const page = await open(t);
  const camber = async () => number((await readings(page)).camber_deg);
  const rest = await camber();
  assert.equal(await page.getAttribute("#hands-design", "aria-pressed"), "true");
  const at = await take(page, "upper front, outer joint");
  await drag(page, at, [12, 0]);
  assert.ok(Math.abs((await camber()) - rest) < 0.011, "kept");
  await page.click("#undo");
  await page.click("#hands-build");
  await drawn(page);
  assert.equal(await page.getAttribute("#hands-build", "aria-pressed"), "true");
  await drag(page, at, [12, 0]);
  assert.ok(Math.abs((await camber()) - rest) > 0.3, `${await camber()}`);
  await page.click("#tab-workshop");
  assert.match((await changes(page)).join(), /Upper front, outer joint, y \+\d+\.\d\d mm, both wheels/);
  await page.click("#undo");
  await drawn(page);
  assert.equal(await camber(), rest);
});

test("on a phone the switch is there in words, the right wheel says how it is drawn, and toe is re-set by a thumb", async (t) => {
  const page = await open(t, PHONE);
  assert.equal(await page.isVisible("#hands-build"), true);
  assert.equal(await page.isVisible("#as-left"), false);
  await page.tap("#show-right");
  await drawn(page);
  assert.match(await page.textContent("#as-left"), /as if it were a left wheel.*rack counts positive towards it/);
  assert.equal(await page.isVisible("#as-left"), true);
  await page.tap("#whole-axle");
  await drawn(page);
  assert.equal(await page.isVisible("#show-right"), false);
  await page.tap("#tab-workshop");
  await page.tap('button[aria-label="track rod +"]');
  await drawn(page);
  assert.equal((await changes(page)).length, 1);
  await page.tap("#reset-toe");
  await drawn(page);
  assert.equal((await changes(page))[0], "Nothing: it is built as designed.");
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  assert.ok(wide <= 0, `${wide} px too wide`);
});
