// Stories of somebody who asks what room the wheel takes and what it meets.
import assert from "node:assert/strict";
import { test } from "node:test";
import { PHONE, addressed, box, drawn, readings, stories, take, type } from "../harness.mjs";

const { open } = stories();
const number = (text) => parseFloat(text.replace("−", "-"));
/** Waits until the tables over the grid answer the car as it is now. */
const answered = (page) => page.waitForSelector("#space-grid:not(.old) #gap-rows td", { state: "attached" });
/** The gaps here, by pair. */
const gaps = (page) => page.$$eval("#gaps-here tbody tr", (rows) => Object.fromEntries(rows.map((row) => [row.cells[0].textContent, row.cells[1].textContent])));
const rows = (page, id) => page.$$eval(`#${id} tr`, (rows) => rows.map((row) => [...row.cells].map((cell) => cell.textContent)));
/** The sentence on top. */
const words = (page) => page.textContent("#space-words");
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

test("at rest no member of a demo meets another, and it is said what its spring or strut is built round", async (t) => {
  const page = await open(t);
  await page.click("#tab-space");
  const demos = await page.locator("#demos button").count();
  assert.equal(demos, 6);
  for (let demo = 1; demo <= demos; demo++) {
    await page.click(`#demos button:nth-child(${demo})`);
    await drawn(page);
    const name = await page.inputValue("#name");
    for (const [pair, size] of Object.entries(await gaps(page))) if (!pair.startsWith("wheel")) assert.notEqual(size, "meet", `${name}: ${pair}`);
    assert.match(await page.textContent("#space-round"), /^Taken for granted: the (spring|strut) is built round the /, name);
  }
});

test("somebody asks for a margin round the tyre: a second outline, and the litres with it", async (t) => {
  const page = await open(t);
  await page.click("#tab-space");
  await answered(page);
  const own = await litres(page);
  assert.equal(await box(page, "margin round the tyre, mm").inputValue(), "15");
  await page.check("#space-outlines");
  const told = (mm) => page.waitForFunction((mm) => document.querySelector("#space-margin-told").textContent.startsWith(`The outer line stands ${mm} mm off`), mm);
  const within = async () => number((await page.textContent("#space-margin-told")).match(/are ([\d.]+) litres/)[1]);
  await told(15);
  const usual = await within();
  assert.ok(usual > own + 5, `${usual} and ${own}`);
  const link = page.url();
  await type(page, "margin round the tyre, mm", "30");
  await told(30);
  assert.ok((await within()) > usual + 5);
  await type(page, "margin round the tyre, mm", "-5");
  assert.match(await page.textContent("#notice"), /margin is −?-?5 mm; it must be between 0 and 200 mm/);
  assert.equal(page.url(), link, "it is in no link");
  await type(page, "margin round the tyre, mm", "0");
  await page.waitForFunction(() => document.querySelector("#space-margin-told").textContent === "");
});

test("somebody bends the lower rear arm round the wheel, takes it along in the link, and straightens it again", async (t) => {
  const page = await open(t);
  await page.click("#tab-space");
  await page.click("text=How thick parts are");
  await answered(page);
  const pair = "wheel – lower rear arm";
  const over = async () => (await rows(page, "gap-rows")).find(([name]) => name === pair)[1];
  assert.equal(await over(), "meet", "the straight one meets the wheel at full lock");
  await page.click("text=Bend: lower rear arm");
  await page.click("text=Bend: lower rear arm");
  await drawn(page);
  // The points of a prepared axle's arm.
  for (const [at, place] of [[-150, 470, 203], [-60, 570, 190]].entries()) {
    for (const [axis, mm] of place.entries()) await type(page, `lower rear arm, bend ${at + 1}, ${"xyz"[axis]}, mm`, `${mm}`);
  }
  await answered(page);
  assert.ok(number(await over()) > 0, await over());
  const hash = await addressed(page, /solid=~lr_-150_470_203_-60_570_190/);
  const other = await open(t, undefined, hash);
  await other.click("#tab-space");
  await answered(other);
  assert.deepEqual(await rows(other, "gap-rows"), await rows(page, "gap-rows"));
  for (let i = 0; i < 2; i++) {
    await page.click('button[aria-label="remove bend 1 of lower rear arm"]');
    await drawn(page);
  }
  assert.ok(await page.isHidden("#bend-table"));
  await answered(page);
  assert.equal(await over(), "meet");
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

test("somebody pushes ball joint and strut of the strut axle outward until the pane says that the spring meets the tyre", async (t) => {
  const page = await open(t, undefined, "#v=3&of=strut.1&end=1");
  await page.click("#tab-space");
  await drawn(page);
  let last = number((await gaps(page))["wheel – spring"]);
  assert.ok(last > 10, `${last}`);
  await take(page, "lower ball joint");
  for (let step = 0; step < 9; step++) {
    // 3 mm outward each, from the ball joint over the top mount to the strut's foot, and back.
    for (const next of ["Tab", "Tab", ""]) {
      for (let mm = 0; mm < 3; mm++) await page.keyboard.press("ArrowRight");
      if (next) await page.keyboard.press(next);
    }
    await page.keyboard.press("Shift+Tab");
    await page.keyboard.press("Shift+Tab");
    await drawn(page);
    const now = (await gaps(page))["wheel – spring"];
    if (now === "meet") break;
    assert.ok(number(now) < last, `${now} after ${last}`);
    last = number(now);
  }
  assert.equal((await gaps(page))["wheel – spring"], "meet");
  assert.match(await words(page), /^Here meet /);
  assert.equal(await page.locator("#gaps-here td.over").first().textContent(), "meet");
});

test("an engine is added, named, typed, taken along in the link and taken back", async (t) => {
  const page = await open(t);
  await page.click("#tab-space");
  await page.click("#add-box button:nth-child(1)");
  await drawn(page);
  const value = (name) => box(page, name).inputValue();
  assert.equal(await value("box 1, name"), "engine");
  const length = number(await value("box 1, to x, mm")) - number(await value("box 1, from x, mm"));
  assert.equal(length, 480);
  await type(page, "box 1, name", "battery");
  assert.ok(Object.keys(await gaps(page)).includes("wheel – “battery”"));
  await type(page, "box 1, name", "wheel");
  assert.match(await page.textContent("#notice"), /give it a name of its own/);
  assert.equal(await value("box 1, name"), "battery");
  const before = number((await gaps(page))["wheel – “battery”"]);
  await type(page, "box 1, to y, mm", "420");
  assert.ok(number((await gaps(page))["wheel – “battery”"]) < before);
  const hash = await addressed(page, /box=[^&]*_420_[^&]*battery/);
  const other = await open(t, undefined, hash);
  await other.click("#tab-space");
  await drawn(other);
  assert.deepEqual(await gaps(other), await gaps(page));
  await page.click('button[aria-label="remove box 1"]');
  await drawn(page);
  assert.ok(await page.isHidden("#box-table"));
  await page.keyboard.press("Control+z");
  await drawn(page);
  assert.equal(await value("box 1, to y, mm"), "420");
  await page.click("text=How thick parts are");
  assert.equal(await box(page, "arms, diameter, mm").getAttribute("placeholder"), "30");
  const thin = await gaps(page);
  await type(page, "arms, diameter, mm", "50");
  assert.ok(number((await gaps(page))["wheel – lower front arm"]) < number(thin["wheel – lower front arm"]));
  await type(page, "arms, diameter, mm", "");
  assert.deepEqual(await gaps(page), thin);
});

test("where the tyre goes is drawn, the depth of the arch too, and beside another axle it is said what is saved", async (t) => {
  const page = await open(t);
  await page.click("#tab-space");
  await page.check("#space-outlines");
  await answered(page);
  assert.ok(await page.locator("#arch-depth svg path").count() > 8);
  assert.equal(await page.textContent("#space-saved"), "");
  await page.click("#compare");
  await page.click("#compare-demos button:nth-child(1)");
  await page.waitForFunction(() => document.querySelector("#space-saved").textContent !== "");
  assert.match(await page.textContent("#space-saved"), /^The axle laid over takes [\d.]+ litres, [\d.]+ of them for steering: this axle saves [\d.]+ litres\.$/);
  assert.ok(await page.isVisible("#reach-other"));
  assert.equal((await rows(page, "reach-rows"))[0].length, 4);
  const group = page.locator("#group-space th[scope=rowgroup] button");
  await group.click();
  await drawn(page);
  assert.match((await readings(page)).wheel_gap_mm, /^\d+\.\d/);
});
