// Stories of the slide show: told, prepared, passed on; hands that are too fast.
import assert from "node:assert/strict";
import { test } from "node:test";
import { DESKTOP, PHONE, box, drawn, readings, stories, type } from "../harness.mjs";

const { open } = stories();

test("a story is told by key, prepared and passed on", async (t) => {
  const page = await open(t);
  const before = await readings(page);
  await page.click("#story");
  await page.click("#story-tell");
  await page.waitForFunction(() => document.querySelector("#story-at").textContent === "1 of 15");
  await drawn(page);
  assert.equal((await readings(page)).kingpin_offset_wheel_centre_mm, "66.0");
  for (let i = 0; i < 5; i++) { await page.keyboard.press("ArrowRight"); await drawn(page); }
  assert.equal(await page.textContent("#story-at"), "6 of 15");
  assert.equal((await readings(page)).kingpin_offset_wheel_centre_mm, "9.9");
  await page.keyboard.press("Escape");
  await drawn(page);
  assert.equal(await page.isVisible("#teller"), false);
  assert.deepEqual(await readings(page), before);
  await page.click("#story");
  for (const [text, demo] of [["First <i>this</i>", 1], ["then that", 2]]) {
    await page.fill("#story-caption", text);
    await page.click("#story-add");
    await drawn(page);
    await page.keyboard.press("Escape");
    await page.click(`#demos button:nth-child(${demo})`);
    await page.click("#story");
  }
  await page.click("#story-link");
  await page.waitForFunction(() => document.querySelector("#said").textContent.includes("copied"));
  const link = await page.evaluate(() => navigator.clipboard.readText());
  const other = await open(t, PHONE, `#${link.split("#")[1]}`);
  await other.click(".more summary");
  await other.click("#story");
  const listed = () => other.$$eval("#story-shots li span", (all) => all.map((li) => li.textContent));
  assert.deepEqual(await listed(), ["First <i>this</i>", "then that"]);
  await other.click("#story-shots li:nth-child(2) button:has-text('Move up')");
  await drawn(other);
  assert.deepEqual(await listed(), ["then that", "First <i>this</i>"]);
  await other.click("#story-shots li:nth-child(1) button:has-text('Replace')");
  await other.click("#story-shots li:nth-child(2) button:has-text('Remove')");
  await drawn(other);
  assert.deepEqual(await listed(), ["then that"]);
});

test("a story passes from shot to shot by itself, and stands still at the end of a transition", async (t) => {
  const page = await open(t, { ...DESKTOP, reducedMotion: "no-preference" }, "?v=2");
  await page.click("#story");
  await page.click("#story-tell");
  await page.waitForFunction(() => document.querySelector("#story-at").textContent === "2 of 15", null, { timeout: 20000 });
  await page.click("#story-hold");
  await page.waitForTimeout(7000);
  const shown = await readings(page);
  assert.match(shown.kingpin_offset_wheel_centre_mm, /^9\.[89]$/, "the strut has gone outward");
  await page.waitForTimeout(400);
  assert.deepEqual(await readings(page), shown);
});

test("a slide moves as long as it is shown, as its list says, and is told with its readings", async (t) => {
  const page = await open(t, { ...DESKTOP, reducedMotion: "no-preference" }, "?v=2");
  await page.click("#story");
  await page.fill("#story-caption", "Through bump and droop.");
  await page.click("#story-add");
  await drawn(page);
  await page.selectOption("select[aria-label='Slide 1, movement']", { label: "Bump sweep" });
  await drawn(page);
  await type(page, "Slide 1, seconds", "1");
  assert.match(await page.textContent("#notice"), /can’t last “1”: a slide lasts 2 to 30 seconds/);
  await page.click("#notice button");
  await type(page, "Slide 1, seconds", "5,2");
  assert.equal(await box(page, "Slide 1, seconds").inputValue(), "5.2");
  await page.click("#story-tell");
  const travel = async () => Number((await box(page, "Travel").inputValue()).replace("−", "-"));
  const seen = [];
  await page.waitForFunction(() => !document.querySelector("#teller").hidden);
  for (let i = 0; i < 40; i++) { seen.push(await travel()); await page.waitForTimeout(120); }
  assert.ok(Math.max(...seen) > 30 && Math.min(...seen) < -30, `${seen}`);
  await page.waitForTimeout(1500);
  assert.equal(await travel(), 0, "and ends where it began");
});

test("a story told over a rolled axle tells of one wheel, and gives the roll back", async (t) => {
  const page = await open(t);
  await page.click("#whole-axle");
  await drawn(page);
  await type(page, "Roll", "3");
  const before = await readings(page);
  await page.click("#story");
  await page.click("#story-tell");
  await page.waitForFunction(() => document.querySelector("#story-at").textContent === "1 of 15");
  await drawn(page);
  assert.equal((await readings(page)).kingpin_offset_wheel_centre_mm, "66.0");
  await page.keyboard.press("Escape");
  await drawn(page);
  assert.deepEqual(await readings(page), before);
});

async function tellShots(page, captions) {
  await page.click("#story");
  for (const caption of captions) {
    await page.fill("#story-caption", caption);
    await page.click("#story-add");
    await drawn(page);
  }
}
const shots = (page) => page.$$eval("#story-shots li span", (all) => all.map((span) => span.textContent));
const lastButton = (page, name) => page.locator(`#story-shots li:last-child button:has-text("${name}")`);

test("Remove hit twice before a frame is drawn drops one shot, and so does a double click", async (t) => {
  const page = await open(t);
  await tellShots(page, ["one", "two", "three", "four"]);
  await lastButton(page, "Remove").evaluate((button) => { button.click(); button.click(); });
  await drawn(page);
  assert.deepEqual(await shots(page), ["one", "two", "three"]);
  await lastButton(page, "Remove").evaluate((button) => { button.click(); button.previousSibling.click(); });
  await drawn(page);
  assert.deepEqual(await shots(page), ["one", "two"]);
  await page.locator("#story-shots li:first-child button:has-text('Remove')").dblclick({ delay: 20 });
  await drawn(page);
  assert.deepEqual(await shots(page), ["two"]);
  await page.keyboard.press("Escape");
  await type(page, "Travel", "9");
  assert.equal(await box(page, "Travel").inputValue(), "+9.0");
});
