// Stories of fingers on a phone.
import assert from "node:assert/strict";
import { test } from "node:test";
import { PHONE, drawn, readings, stories, take } from "../harness.mjs";

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
