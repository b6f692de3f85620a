// Stories of narrow windows: nothing is wider than they are.
import assert from "node:assert/strict";
import { test } from "node:test";
import { PHONE, drawn, stories } from "../harness.mjs";

const { open } = stories();

test("nothing is wider than a screen of 320 px", async (t) => {
  const page = await open(t, { viewport: { width: 320, height: 640 }, hasTouch: true, isMobile: true });
  for (const pane of ["curves", "points", "loads", "lesson"]) {
    await page.click(`#tab-${pane}`);
    await page.$$eval("details", (all) => all.forEach((part) => (part.open = true)));
    await drawn(page);
    assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= 320, pane);
  }
  for (const dialog of ["help", "compare", "pass-on", "mine", "story"]) {
    if (!(await page.isVisible(`#${dialog}`))) await page.click(".more summary");
    await page.click(`#${dialog}`);
    const [inside, wide] = await page.$eval("dialog[open]", (open) => [open.scrollWidth, open.clientWidth]);
    assert.ok(inside <= wide, `${dialog}: ${inside} in ${wide}`);
    await page.keyboard.press("Escape");
  }
});

test("nothing but the page’s own width on a phone", async (t) => {
  const page = await open(t, PHONE);
  assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= 390);
});

test("nothing is wider than a window of 200 px", async (t) => {
  const page = await open(t, { viewport: { width: 200, height: 600 } });
  assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), 200);
});
