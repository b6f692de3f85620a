// Stories of fingers on a phone.
import assert from "node:assert/strict";
import { test } from "node:test";
import { PHONE, addressed, box, drawn, readings, stories, take } from "../harness.mjs";

const { open } = stories();

test("a swipe turns from view to view on a phone", async (t) => {
  const page = await open(t, PHONE);
  const session = await page.context().newCDPSession(page);
  const paper = await page.locator("#drawing").boundingBox();
  const swipe = async (dx) => {
    const touch = (type, x, y) => session.send("Input.dispatchTouchEvent", { type, touchPoints: type === "touchEnd" ? [] : [{ x, y }] });
    const [x, y] = [paper.x + 190, paper.y + 392];
    await touch("touchStart", x, y);
    for (let i = 1; i <= 10; i++) await touch("touchMove", x + (dx * i) / 10, y);
    await touch("touchEnd");
    await drawn(page);
  };
  const shown = () => page.$$eval(".views button", (all) => all.find((b) => b.getAttribute("aria-pressed") === "true").textContent);
  await swipe(-120);
  assert.equal(await shown(), "Side");
  await swipe(-120);
  assert.equal(await shown(), "Plan");
  await swipe(120);
  assert.equal(await shown(), "Side");
  await swipe(-30);
  assert.equal(await shown(), "Side", "too short");
});

test("on a phone a finger on a joint moves it, a finger on the paper scrolls the page", async (t) => {
  const page = await open(t, PHONE);
  const session = await page.context().newCDPSession(page);
  const swipe = async ([x, y], [dx, dy]) => {
    const touch = (type, x, y) => session.send("Input.dispatchTouchEvent", { type, touchPoints: type === "touchEnd" ? [] : [{ x, y }] });
    await touch("touchStart", x, y);
    for (let i = 1; i <= 10; i++) await touch("touchMove", x + (dx * i) / 10, y + (dy * i) / 10);
    await touch("touchEnd");
    await page.waitForTimeout(200);
  };
  const at = await take(page, "upper front, outer joint");
  const before = await readings(page);
  await swipe(at, [0, -25]);
  assert.equal(await page.evaluate(() => scrollY), 0, "the page stands still");
  assert.notDeepEqual(await readings(page), before);
  const paper = await page.locator("#drawing").boundingBox();
  const moved = await readings(page);
  await swipe([paper.x + 60, paper.y + 330], [0, -150]);
  assert.ok((await page.evaluate(() => scrollY)) > 50, "the page scrolls");
  assert.deepEqual(await readings(page), moved);
});

/** A finger that comes down on the page, moves in steps and goes up. */
async function finger(page, [x, y], [dx, dy] = [0, 0]) {
  const session = await page.context().newCDPSession(page);
  const touch = (type, x, y) => session.send("Input.dispatchTouchEvent", { type, touchPoints: type === "touchEnd" ? [] : [{ x, y }] });
  await touch("touchStart", x, y);
  for (let i = 1; i <= 10 && (dx || dy); i++) await touch("touchMove", x + (dx * i) / 10, y + (dy * i) / 10);
  await touch("touchEnd");
  await page.waitForTimeout(200);
  await session.detach();
}

test("a swipe that begins on the wheel scrolls; a tap takes the wheel, which stops where its slider ends", async (t) => {
  const page = await open(t, PHONE);
  const paper = await page.locator("#drawing").boundingBox();
  // On the tyre, above its middle, beside every joint.
  const tyre = [paper.x + 0.83 * paper.width, paper.y + 0.32 * paper.height];
  const travel = () => box(page, "Travel").inputValue();
  const link = await page.evaluate(() => location.hash);
  await finger(page, tyre, [0, -160]);
  assert.ok((await page.evaluate(() => scrollY)) > 50, "the page scrolls");
  assert.equal(await travel(), "0.0");
  await page.evaluate(() => scrollTo(0, 0));
  await finger(page, tyre, [0, 60]);
  assert.equal(await travel(), "0.0");
  assert.equal(await page.evaluate(() => location.hash), link);
  await page.evaluate(() => scrollTo(0, 0));
  await finger(page, tyre);
  assert.match(await page.textContent("#said"), /^Wheel selected: drag it/);
  await finger(page, tyre, [0, -30]);
  assert.equal(await page.evaluate(() => scrollY), 0, "the page stands still");
  assert.ok(Number(await travel()) > 5, await travel());
  await finger(page, [tyre[0], tyre[1] + 20], [0, -250]);
  assert.equal(await travel(), "+60.0");
  // Let go by a tap on the paper.
  await finger(page, [paper.x + 60, paper.y + 330]);
  await finger(page, tyre, [0, -160]);
  assert.equal(await travel(), "+60.0");
  assert.ok((await page.evaluate(() => scrollY)) > 50, "and swipes scroll again");
});

test("under the drawing a selected joint is moved by 0.1, 1 and 10 mm, and what moved is spoken", async (t) => {
  const page = await open(t, PHONE);
  assert.equal(await page.isVisible("#stepper"), false);
  const at = await take(page, "upper front, outer joint");
  assert.equal(await page.textContent("#stepper-name"), "upper front, outer joint");
  const below = await page.locator("#stepper").boundingBox();
  const paper = await page.locator("#paper").boundingBox();
  assert.ok(Math.abs(below.y - paper.y - paper.height) < 3 && below.y + below.height < 844, "under the drawing, in sight");
  const y = async () => Number(await page.textContent("#step-y"));
  const before = await y();
  for (const [step, mm] of [["ten", 10], ["one", 1], ["tenth", 0.1]]) {
    const from = await y();
    await page.tap(`#step-${step}`);
    await page.tap("#step-more-y");
    await drawn(page);
    assert.ok(Math.abs((await y()) - from - mm) < 0.01, step);
  }
  assert.match(await page.textContent("#said"), /^upper front, outer joint: x .*; camber /);
  assert.ok(Math.abs((await y()) - before - 11.1) < 0.01);
  assert.notDeepEqual(at, [(await page.getAttribute("#drawing", "data-joint")).split(" ").map(Number)]);
});

test("from a link to the hand-in a lesson on a phone takes twelve taps and 1,200 px of scrolling at most; no pane jumps away", async (t) => {
  const teacher = await open(t);
  await teacher.click("#tab-lesson");
  await teacher.click("#exercises li:nth-child(10) button");
  const link = await addressed(teacher, /task=/);
  // Where a sighted student finds the joint.
  const scout = await open(t, PHONE, link);
  const [x, y] = await take(scout, "track rod, inner joint");
  const { x: left, y: top } = await scout.locator("#drawing").boundingBox();
  const page = await open(t, PHONE, link);
  let [taps, scrolled] = [0, 0];
  const scroll = async (locator) => {
    const before = await page.evaluate(() => scrollY);
    await locator.scrollIntoViewIfNeeded();
    scrolled += Math.abs((await page.evaluate(() => scrollY)) - before);
  };
  const tap = async (selector) => {
    await scroll(page.locator(selector));
    await page.tap(selector);
    await drawn(page);
    taps += 1;
  };
  assert.ok(await page.evaluate(() => document.querySelector("#task").getBoundingClientRect().bottom < innerHeight), "the task is in sight");
  await scroll(page.locator("#drawing"));
  const paper = await page.locator("#drawing").boundingBox();
  await finger(page, [paper.x + x - left, paper.y + y - top]);
  taps += 1;
  assert.equal(await page.textContent("#stepper-name"), "track rod, inner joint");
  await tap("#step-ten");
  await tap("#step-less-z");
  await tap("#step-one");
  await tap("#step-less-z");
  await tap("#step-less-z");
  await tap("#check");
  assert.equal(await page.textContent("#verdict"), "Target reached.");
  await tap("#by");
  await page.keyboard.type("Student 1");
  await tap("#hand-in");
  await page.waitForFunction(() => /^Copied\. Send it/.test(document.querySelector("#said").textContent));
  assert.ok(taps <= 12, `${taps} taps`);
  assert.ok(scrolled <= 1200, `${scrolled} px`);
  // Another tab opens where the task was.
  await page.evaluate(() => scrollTo(0, 0));
  const { y: place } = await page.locator("#tabs").boundingBox();
  await page.tap("#tab-points");
  await drawn(page);
  assert.equal((await page.locator("#tabs").boundingBox()).y, place);
  assert.equal(await page.isVisible("#points"), true);
});

test("a phone shows name, demos and the whole drawing at once, what is seldom wanted behind one button", async (t) => {
  const page = await open(t, PHONE);
  const { y, height } = await page.locator("#paper").boundingBox();
  assert.ok(y < 140 && y + height < 600, `${y}, ${height}`);
  assert.equal(await page.isVisible("#save"), false);
  await page.tap(".more summary");
  for (const id of ["back-to-start", "copy-link", "open", "mine", "story", "save"]) assert.equal(await page.isVisible(`#${id}`), true, id);
});

test("on a phone two compared axles have their difference beside them", async (t) => {
  const page = await open(t, PHONE);
  await page.tap("#compare");
  await page.tap("dialog[open] >> text=This axle as opened");
  await drawn(page);
  const heads = await page.$$eval(".readings thead th", (all) => all.filter((head) => head.checkVisibility()).map((head) => head.textContent));
  assert.deepEqual(heads, ["Reading ?", "now", "compared", "difference"]);
  assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= 390);
});
