// Stories of somebody who measured a car with a tape and asks how far the readings may be off, and of somebody who asks for readings.
import assert from "node:assert/strict";
import { test } from "node:test";
import { PHONE, drawn, readings, stories } from "../harness.mjs";

const { open } = stories();
const number = (text) => parseFloat(text.replace("−", "-"));
const rows = (page, table) => page.$$eval(`${table} tbody tr`, (all) => all.map((row) => [...row.cells].map((cell) => cell.textContent)));
const words = (page, id, pattern) =>
  page.waitForFunction(({ id, source }) => new RegExp(source).test(document.querySelector(id).textContent), { id, source: pattern.source }, { timeout: 60_000 });
const fits = (page) => page.evaluate(() => document.documentElement.scrollWidth <= document.documentElement.clientWidth);

test("without a ± one sentence says where to give one; all joints get ± 2 mm in one step, and each reading has its ±", async (t) => {
  const page = await open(t);
  await page.click("#tab-spread");
  await drawn(page);
  assert.equal(await page.getAttribute("#sheet", "data-drawer"), "large", "a table has room");
  assert.match(await page.textContent("#spread-where"), /^No point has a ± yet: give it under Points/);
  assert.ok(await page.isHidden("#spread-told"));
  await page.click("#spread-all");
  await page.waitForSelector("#spread-table tbody tr");
  const table = await rows(page, "#spread-table");
  const now = await readings(page);
  const offset = table.find(([name]) => name.startsWith("Kingpin offset at wheel centre"));
  assert.equal(offset[1], now.kingpin_offset_wheel_centre_mm);
  for (const [name, , sigma, worst] of table) assert.ok(number(sigma) >= 0 && number(worst) >= number(sigma) - 0.01, name);
  assert.ok(number(offset[2]) > 1, "two millimetres are seen");
  // The wheel stands as it was measured; built off, it does not.
  const toe = (table) => table.find(([name]) => name.startsWith("Toe"));
  assert.equal(number(toe(table)[2]), 0);
  await page.click("#spread-built");
  await page.waitForFunction(() => document.querySelector("#spread-table tbody tr td:nth-child(3)").textContent !== "0.00");
  assert.ok(number(toe(await rows(page, "#spread-table"))[2]) > 0.1);
  // What to build closer: a click takes the joint.
  const share = page.locator("#spread-shares button").first();
  const [, joint, percent] = (await share.textContent()).match(/^(.*), [xyz]: (\d+) %$/);
  assert.ok(Number(percent) > 5);
  await share.click();
  await drawn(page);
  assert.ok((await page.textContent("#said")).startsWith(joint), joint);
  await page.click("#undo");
  await drawn(page);
  assert.ok(await page.isVisible("#spread-where"), "one step");
});

test("axles are drawn, told by numbers and bars, and stopped", async (t) => {
  const page = await open(t);
  await page.click("#tab-spread");
  await page.click("#spread-all");
  await page.waitForSelector("#spread-table tbody tr");
  await page.click("#spread-draw");
  await words(page, "#spread-words", /^10000 random axles solved; (all of them can|\d+ of them can’t) be assembled/);
  assert.ok(await page.isHidden("#spread-stop"));
  const [, value, two, , mean, sigma, low, high] = (await rows(page, "#spread-table")).find(([name]) => name.startsWith("Kingpin offset at wheel centre")).map(number);
  assert.ok(low < mean && mean < high && value > low && value < high);
  assert.ok(Math.abs(sigma - two / 2) < 0.2 * sigma, `nearly straight lines: ${two} ${sigma}`);
  assert.equal(await page.locator("#spread-bars rect").count(), 25);
  await page.selectOption("#spread-reading", { label: "Caster, °" });
  await drawn(page);
  assert.match(await page.getAttribute("#spread-bars svg", "aria-label"), /^Caster/);
  // Another question: what was drawn is gone. Stopped, what has come stays.
  await page.click("#spread-normal");
  await page.waitForFunction(() => !document.querySelector("#spread-bars rect"));
  // At once: a fast machine has drawn them all before a hand is there.
  await page.evaluate(() => ["#spread-draw", "#spread-stop"].forEach((button) => document.querySelector(button).click()));
  await words(page, "#spread-words", /Stopped\.$/);
});

test("on a phone the table fits, and nothing scrolls sideways", async (t) => {
  const page = await open(t, PHONE);
  await page.tap("#tab-spread");
  await page.tap("#spread-all");
  await page.waitForSelector("#spread-table tbody tr");
  await drawn(page);
  assert.ok(await fits(page));
  for (const box of await page.$$eval("#spread button:not([hidden])", (all) => all.filter((one) => one.offsetParent).map((one) => one.offsetHeight))) assert.ok(box >= 44, `${box}`);
});
