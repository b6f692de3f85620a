// Stories of somebody who measured toe and camber over travel and asks where the joints are, and of who reads the ± behind a reading.
import assert from "node:assert/strict";
import { test } from "node:test";
import { PHONE, drawn, readings, stories } from "../harness.mjs";

const { open } = stories();
const rows = (page, table) => page.$$eval(`${table} tbody tr`, (all) => all.map((row) => [...row.cells].map((cell) => cell.textContent)));
const margin = (page, reading) => page.getAttribute(`tr[data-reading=${reading}] .now`, "data-off");
const fresh = (page, reading) =>
  page.waitForSelector(`tr[data-reading=${reading}] .now[data-stale="false"][data-off^="±"]`, { state: "attached", timeout: 30_000 });
const paste = async (page, text) => {
  await page.fill("#fit-text", text);
  await page.press("#fit-text", "Tab");
  await drawn(page);
};
const TABLE = "travel\ttoe\tcamber\n-50\t0,02\t-0,2\n-25\t0,06\t-0,3\n0\t0,10\t-0,5\n25\t0,15\t-0,9\n50\t0,20\t-1,4\n";

test("each reading has its ± once the axle is at rest; under a hand it is pale; curves have a band", async (t) => {
  const page = await open(t);
  assert.ok(await page.isHidden("#margins"));
  assert.ok(!(await margin(page, "caster_deg")), "without a ± there is none");
  await page.click("#tab-spread");
  await page.click("#spread-all");
  await fresh(page, "caster_deg");
  assert.match(await margin(page, "caster_deg"), /^± \d\.\d\d°$/);
  assert.equal(await margin(page, "toe_deg"), "± 0.00°", "as it was measured");
  await page.click("#margins summary");
  assert.match(await page.textContent("#margins-words"), /2 σ.*measured/);
  await page.click("#tab-curves");
  await drawn(page);
  assert.ok(await page.isVisible("#key-band"));
  assert.equal(await page.textContent("#plots figure:nth-of-type(3) small"), await margin(page, "caster_deg"));
  // In the hand: nothing is worked out, the old one is pale.
  const box = await page.locator("#plots figure:nth-of-type(3) .plot").boundingBox();
  await page.mouse.move(box.x + box.width * 0.5, box.y + box.height / 2);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width * 0.8, box.y + box.height / 2, { steps: 4 });
  await drawn(page);
  assert.equal(await page.getAttribute("tr[data-reading=caster_deg] .now", "data-stale"), "true");
  await page.mouse.up();
  await fresh(page, "toe_deg");
  assert.notEqual(await margin(page, "toe_deg"), "± 0.00°", "away from where it was measured");
  await page.click("#margins-more");
  await drawn(page);
  assert.ok(await page.isVisible("#spread"));
  await page.click("#spread-built");
  await page.waitForFunction(() => document.querySelector("#margins-words").textContent.includes("built"));
  await fresh(page, "toe_deg");
});

test("the prepared axle is a click away", async (t) => {
  const page = await open(t);
  await page.click("#tab-spread");
  await drawn(page);
  await page.click("#prepared-measured");
  await page.waitForFunction(() => document.querySelector("#name").value === "Harbour shuttle, as measured");
  await fresh(page, "bump_steer_deg_per_mm");
  assert.equal(await margin(page, "bump_steer_deg_per_mm"), "± 0.051");
});

test("a table is pasted, its columns matched, joints are fitted and taken in one step", async (t) => {
  const page = await open(t);
  await page.click("#tab-fit");
  await drawn(page);
  assert.equal(await page.getAttribute("#sheet", "data-drawer"), "large");
  await page.click("#fit-all");
  await paste(page, TABLE.replace("0,15", "O,15"));
  assert.equal(await page.textContent("#fit-says"), "Row 5, column 2: “O,15” is not a number that can be meant.");
  assert.equal(await page.inputValue("#fit-text"), TABLE.replace("0,15", "O,15"), "nothing is lost");
  await paste(page, TABLE);
  assert.equal(await page.textContent("#fit-says"), "");
  assert.deepEqual(await page.$$eval("#fit-columns select[aria-label^=Meaning]", (all) => all.map((one) => one.selectedOptions[0].textContent)), [
    "wheel travel, + up, mm",
    "Toe",
    "Camber",
  ]);
  // Another meaning, and back.
  await page.selectOption("#fit-columns tr:nth-child(1) select", { label: "not used" });
  await drawn(page);
  assert.match(await page.textContent("#fit-says"), /^No column is chosen as the height/);
  await page.click("#undo");
  await drawn(page);
  await page.click("#fit-go");
  await page.waitForSelector("#fit-residuals tbody tr", { timeout: 30_000 });
  await drawn(page);
  assert.match(await page.textContent("#fit-summary"), /^Of 10 readings \d\.\d errors are left over/);
  assert.equal((await rows(page, "#fit-residuals")).length, 10);
  assert.match(await page.textContent("#fit-untouched"), /^The table says nothing about/);
  const before = await readings(page);
  await page.click("#fit-take");
  await drawn(page);
  const after = await readings(page);
  assert.notEqual(before.bump_steer_deg_per_mm, after.bump_steer_deg_per_mm);
  assert.match(await page.textContent("#fit-says"), /have changed since this was fitted/);
  assert.equal(await page.getAttribute("#fit-told", "class"), "old");
  await page.click("#undo");
  await drawn(page);
  assert.deepEqual(await readings(page), before);
  assert.equal(await page.getAttribute("#fit-told", "class"), "", "it answers what is asked again");
  // The table survives a reload; no link has it.
  await page.waitForTimeout(700);
  assert.ok(!page.url().includes("0%2C15") && !page.url().includes("0,15"));
  await page.reload();
  await page.waitForFunction(() => document.querySelector("main").getAttribute("aria-busy") !== "true");
  await page.click("#tab-fit");
  await drawn(page);
  assert.equal(await page.inputValue("#fit-text"), TABLE);
});

test("on a phone the table is fitted, and nothing scrolls sideways", async (t) => {
  const page = await open(t, PHONE);
  await page.tap("#tab-fit");
  await page.tap("#fit-all");
  await paste(page, TABLE);
  await page.tap("#fit-go");
  await page.waitForSelector("#fit-residuals tbody tr", { timeout: 30_000 });
  await drawn(page);
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= document.documentElement.clientWidth));
  for (const box of await page.$$eval("#fit button", (all) => all.filter((one) => one.offsetParent).map((one) => one.offsetHeight))) assert.ok(box >= 44, `${box}`);
});
