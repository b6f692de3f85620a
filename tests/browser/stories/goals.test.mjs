// Stories of somebody who says what readings are to become and which joints may move for it.
import assert from "node:assert/strict";
import { test } from "node:test";
import { PHONE, box, drawn, quiet, readings, stories, type } from "../harness.mjs";

const { open } = stories();
const OFFSET = "Kingpin offset at wheel centre";
const number = (text) => parseFloat(text.replace("−", "-"));
const words = (page, pattern) =>
  page.waitForFunction((source) => new RegExp(source).test(document.querySelector("#goal-words").textContent), pattern.source, { timeout: 60_000 });
const laid = (page, over) => page.waitForFunction((over) => document.querySelector("#drawing").dataset.laidOver === over, over);
const fits = (page) => page.evaluate(() => document.documentElement.scrollWidth <= document.documentElement.clientWidth);
const offset = async (page) => number((await readings(page)).kingpin_offset_wheel_centre_mm);

test("a preset, an aim, find: a way is seen over the drawing, taken in one step, and undone", async (t) => {
  const page = await open(t);
  await page.click("#tab-goals");
  await drawn(page);
  assert.equal(await page.getAttribute("#sheet", "data-drawer"), "large", "a table has room");
  await page.click("#goal-find");
  await words(page, /^Nothing may move yet/);
  await page.click("#goal-outer");
  await drawn(page);
  assert.equal(await page.locator("#goal-free tbody tr").count(), 12);
  await page.click("#goal-find");
  await words(page, /^No reading is aimed at yet/);
  const before = await offset(page);
  await page.selectOption("#goal-more", { label: OFFSET });
  await drawn(page);
  assert.equal(number(await box(page, `${OFFSET}, is`).inputValue()), before, "an aim begins as it is");
  await type(page, `${OFFSET}, is`, `${(before + 3).toFixed(1).replace(".", ",")} mm`);
  // What is no number is said, and the box stays as it is.
  await type(page, `${OFFSET}, ±`, "little");
  assert.match(await page.textContent("#notice"), /“little” is no number/);
  assert.equal(await box(page, `${OFFSET}, ±`).inputValue(), "0.5");
  await page.click("#goal-find");
  await words(page, /^(One way meets|\d ways meet) everything\.$/);
  const card = page.locator("#goal-answers section").first();
  assert.match(await card.textContent(), /outer joint: .*mm/);
  assert.match(await card.textContent(), /, met/);
  // Boxes are drawn while the pane is shown, and the way under the pointer.
  await page.hover("#tab-goals");
  await laid(page, "boxes");
  await card.hover();
  await laid(page, "boxes and an offer");
  await page.hover("#tab-goals");
  await laid(page, "boxes");
  await card.locator('[data-do="show"]').click();
  await page.hover("#tab-goals");
  await laid(page, "boxes and an offer");
  await card.locator('[data-do="take"]').click();
  await drawn(page);
  assert.ok(Math.abs((await offset(page)) - before - 3) <= 0.5, `${before} ${await offset(page)}`);
  assert.equal(await page.getAttribute("#goal-answers", "class"), "answers old");
  assert.ok(await page.isVisible("#goal-old"));
  await page.click("#undo");
  await drawn(page);
  assert.equal(await offset(page), before, "one step");
  assert.equal(await page.getAttribute("#goal-answers", "class"), "answers", "they are of this axle again");
  await page.click("#tab-curves");
  await laid(page, "");
});

test("a prepared goal is tried with one click, and what is asked is there again after a reload", async (t) => {
  const page = await open(t);
  await page.click("#tab-goals");
  await page.click("#goal-try");
  await drawn(page);
  assert.ok((await offset(page)) > 20, "the axis still runs through the ball joints");
  await page.click("#goal-find");
  await words(page, /everything\.$/);
  await page.locator('#goal-answers [data-do="take"]').first().click();
  await drawn(page);
  assert.ok(Math.abs((await offset(page)) - 10) <= 0.5, `${await offset(page)}`);
  await quiet(page);
  assert.doesNotMatch(await page.evaluate(() => location.hash), /goal/, "a link does not carry it");
  await page.reload();
  await page.waitForSelector("tr[data-reading] td.now:not(:empty)", { state: "attached" });
  await page.click("#tab-goals");
  await drawn(page);
  assert.deepEqual([await page.locator("#goal-free tbody tr").count(), await page.locator("#goal-aims li").count()], [12, 4]);
  // Rows go one by one, and come back.
  await page.click(`button[aria-label="remove ${OFFSET}"]`);
  await drawn(page);
  assert.equal(await page.locator("#goal-aims li").count(), 3);
  await page.click("#undo");
  await drawn(page);
  assert.equal(await page.locator("#goal-aims li").count(), 4);
});

test("what can’t be met leaves the nearest, and the two that pull against each other are named", async (t) => {
  const page = await open(t);
  await page.click("#tab-goals");
  await page.click("#goal-rack");
  for (let i = 0; i < 2; i++) {
    await page.selectOption("#goal-more", { label: "Toe" });
    await drawn(page);
  }
  // Toe at rest is the design’s whatever the rack; at 40 mm it is not. One is to be more, the other less.
  for (const [at, wanted] of [[0, "0.5"], [1, "-0.5"]]) {
    const row = page.locator("#goal-aims li").nth(at);
    await row.locator('input[aria-label="at travel"]').fill("40");
    await row.locator('input[aria-label="at travel"]').press("Enter");
    await row.locator('input[aria-label="Toe, is"]').fill(wanted);
    await row.locator('input[aria-label="Toe, is"]').press("Enter");
    await drawn(page);
  }
  await page.click("#goal-find");
  await words(page, /this is the nearest\.$/);
  const card = await page.textContent("#goal-answers");
  assert.match(card, /These two pull against each other: Toe, 0\.50°.*; and Toe, −0\.50°/);
  assert.match(card, /not met/);
});

test("a long search is stopped, and what has come stays", async (t) => {
  const page = await open(t);
  await page.click("#tab-goals");
  await page.click("#goal-body");
  await page.click("#goal-outer");
  await page.selectOption("#goal-more", { label: "Toe" });
  await drawn(page);
  const travels = Array.from({ length: 81 }, (_, at) => at - 40).join(" ");
  await type(page, "at travel", travels);
  await page.click("#goal-find");
  await words(page, /^Searching: [1-9]\d* of 16 starts\.$/);
  await page.click("#goal-stop");
  await words(page, /^Stopped after [1-9]\d* of 16 starts\.$/);
  assert.ok(await page.isHidden("#goal-stop"));
  assert.ok((await page.locator("#goal-answers section").count()) >= 1);
});

test("on a phone nothing scrolls sideways, and every button is large enough", async (t) => {
  const page = await open(t, PHONE);
  await page.tap("#tab-goals");
  await page.tap("#goal-try");
  await drawn(page);
  assert.ok(await fits(page));
  await page.tap("#goal-find");
  await words(page, /everything\.$/);
  await page.waitForSelector("#goal-answers section");
  await drawn(page);
  assert.ok(await fits(page));
  const small = await page.$$eval("#goals button", (all) => all.filter((one) => one.offsetParent && one.offsetHeight < 44).map((one) => one.id || one.textContent));
  assert.deepEqual(small, []);
  await page.tap('#goal-answers [data-do="show"]');
  await laid(page, "boxes and an offer");
  await page.tap('#goal-answers [data-do="take"]');
  await drawn(page);
  assert.ok(Math.abs((await offset(page)) - 10) <= 0.5);
});
