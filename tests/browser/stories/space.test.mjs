// Stories of somebody who asks what room the wheel takes and what it meets.
import assert from "node:assert/strict";
import { test } from "node:test";
import { PHONE, drawn, stories } from "../harness.mjs";

const { open } = stories();
const number = (text) => parseFloat(text.replace("−", "-"));
/** Waits until the tables over the grid answer the car as it is now. */
const answered = (page) => page.waitForSelector("#space-grid:not(.old) #gap-rows td", { state: "attached" });
/** The gaps here, by pair. */
const gaps = (page) => page.$$eval("#gaps-here tbody tr", (rows) => Object.fromEntries(rows.map((row) => [row.cells[0].textContent, row.cells[1].textContent])));
const rows = (page, id) => page.$$eval(`#${id} tr`, (rows) => rows.map((row) => [...row.cells].map((cell) => cell.textContent)));
const litres = async (page) => number((await page.textContent("#space-litres")).match(/takes ([\d.]+) litres/)[1]);

test("somebody reads the smallest gaps, goes where one is, and comes back with one step", async (t) => {
  const page = await open(t);
  await page.click("#tab-space");
  await answered(page);
  assert.equal(await page.getAttribute("#sheet", "data-drawer"), "large", "a table has room");
  const sizes = (await rows(page, "gap-rows")).map(([, size]) => (size === "meet" ? 0 : number(size)));
  assert.deepEqual(sizes, [...sizes].sort((a, b) => a - b), "the least first");
  assert.ok(await litres(page) > 50, await page.textContent("#space-litres"));
  const before = await gaps(page);
  assert.ok(Object.keys(before).length > 8, JSON.stringify(before));
  // Each pair's least is no more than what it is here, and there it is that.
  for (const [pair, least] of await rows(page, "gap-rows")) {
    if (least !== "meet") assert.ok(number(least) <= number(before[pair]), `${pair}: ${least}, here ${before[pair]}`);
  }
  const at = (await rows(page, "gap-rows")).findIndex(([, least, where]) => least !== "meet" && !where.endsWith("rack 0"));
  const [pair, least, where] = (await rows(page, "gap-rows"))[at];
  await page.click(`#gap-rows tr:nth-child(${at + 1}) button`);
  await drawn(page);
  assert.equal((await gaps(page))[pair], least, `${pair} at ${where}`);
  await page.keyboard.press("Control+z");
  await drawn(page);
  assert.deepEqual(await gaps(page), before);
});

test("the reach is where the table says", async (t) => {
  const page = await open(t);
  await page.click("#tab-space");
  await answered(page);
  const reach = await rows(page, "reach-rows");
  assert.deepEqual(reach.map(([name]) => name), ["furthest inboard, y", "furthest outboard, y", "furthest to the rear, x", "furthest ahead, x", "highest, z"]);
  await page.click("#reach-rows tr:last-child button");
  await drawn(page);
  assert.match(reach.at(-1)[2], /^travel \+\d+/, "the tyre is highest in bump");
  assert.match(reach[0][1], /^\d{3}\.\d$/);
});

test("on a phone nothing of it scrolls sideways", async (t) => {
  const page = await open(t, PHONE);
  await page.click("#tab-space");
  await answered(page);
  const wide = await page.evaluate(() => [document.documentElement.scrollWidth, document.querySelector("#space").scrollWidth - document.querySelector("#space").clientWidth]);
  assert.deepEqual(wide, [390, 0]);
});
