// Stories of room: at every usual size of a screen nothing is cut off, nothing lies over anything, and the drawing is seen together with the
// pinned readings. Told by rectangles (rectangles.mjs).
import assert from "node:assert/strict";
import { test } from "node:test";
import { drawn, stories, take } from "../harness.mjs";
import { faults } from "../rectangles.mjs";

const { open } = stories();
const touch = { hasTouch: true, isMobile: true };
const screen = (width, height, more) => [`${width} × ${height}`, { viewport: { width, height }, ...more }];
const PHONES = [screen(390, 844, touch), screen(360, 640, touch)];
const DESKS = [screen(1024, 768), screen(1280, 800), screen(1366, 768), screen(1440, 900), screen(1536, 864), screen(1920, 1080)];
// Zoomed to 200 % a window has half its size.
const ZOOMED = [screen(512, 384), screen(683, 384), screen(960, 540)];
const SCREENS = [...PHONES, ...DESKS, ...ZOOMED];

const none = async (page, where) => assert.deepEqual(await page.evaluate(faults), [], where);

for (const [size, options] of SCREENS) {
  test(`${size}: in no tab is anything cut off or covered`, async (t) => {
    const page = await open(t, options);
    for (const tab of await page.$$eval("#tabs [role=tab]", (tabs) => tabs.map((tab) => tab.getAttribute("aria-controls")))) {
      await page.click(`#tab-${tab}`);
      await page.$$eval(`#${tab} details`, (all) => all.forEach((part) => (part.open = true)));
      await drawn(page);
      await page.evaluate(() => scrollTo(0, 0));
      await none(page, tab);
      // What is seen after scrolling, too.
      await page.locator(`#${tab}`).evaluate((pane) => {
        pane.scrollTo(0, pane.scrollHeight);
        pane.scrollIntoView();
      });
      await none(page, `${tab}, scrolled`);
    }
  });

  test(`${size}: an exercise, two axles compared, the whole axle and the dialogs have room`, async (t) => {
    const page = await open(t, options);
    await page.click("#tab-lesson");
    await page.click("#exercises li:nth-child(1) button");
    await drawn(page);
    await none(page, "exercise");
    await page.click("#demos button:nth-child(4)");
    await page.click("#whole-axle");
    await page.evaluate(() => scrollTo(0, 0));
    await take(page, "upper ball joint");
    await none(page, "whole axle, a joint selected");
    for (const dialog of ["help", "compare", "pass-on", "mine", "story"]) {
      await page.evaluate(() => scrollTo(0, 0));
      const button = page.locator(`#${dialog}`);
      if (!(await button.isVisible())) await page.click(".more summary");
      await button.click();
      await page.waitForSelector("dialog[open]");
      await drawn(page);
      await none(page, dialog);
      if (dialog === "compare") await page.click("dialog[open] >> text=This axle as opened");
      else await page.keyboard.press("Escape");
      await drawn(page);
    }
    await none(page, "compared");
  });
}

for (const [size, options] of [...PHONES, ...DESKS]) {
  test(`${size}: the drawing and all pinned readings are seen together`, async (t) => {
    const page = await open(t, options);
    const seen = await page.evaluate(() => {
      const { top, bottom, height } = document.querySelector("#drawing").getBoundingClientRect();
      const shows = (element) => {
        const { left, right, top, bottom } = element.getBoundingClientRect();
        return right > left && [top + 2, bottom - 2].every((y) => element.contains(document.elementFromPoint((left + right) / 2, y)));
      };
      const pinned = [...document.querySelectorAll("#pinned-below li, tr[data-reading]:has(button[aria-pressed=true])")];
      const names = (of) => of.map((item) => item.querySelector("span, button").textContent.toLowerCase());
      return { drawing: (Math.min(bottom, innerHeight) - Math.max(top, 0)) / height, pinned: pinned.filter(shows).length, names: names(pinned.filter(shows)) };
    });
    assert.ok(seen.pinned >= 6, JSON.stringify(seen));
    assert.ok(seen.drawing > 0.98, JSON.stringify(seen));
    assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), options.viewport.width);
    if (!options.isMobile) assert.equal(await page.evaluate(() => document.documentElement.scrollHeight), options.viewport.height, "no taller than its window");
    if (!options.isMobile) assert.equal(await page.$eval("#demos", (demos) => demos.scrollWidth <= demos.clientWidth), true, "every demo is seen");
  });
}

test("what is too narrow, covered or run into is found", async (t) => {
  const page = await open(t);
  const after = async (change) => {
    await page.evaluate(change);
    return (await page.evaluate(faults)).join("\n");
  };
  await none(page, "as it is");
  assert.match(await after(() => document.querySelector("#copy-link").style.setProperty("max-width", "20px")), /longer than its box: .*Copy link|runs into/);
  assert.match(await after(() => document.querySelector("#title-block").style.setProperty("grid-template-rows", "20px 20px 20px")), /cut off: #title-block/);
  assert.match(await after(() => document.querySelector("#at-rest").style.setProperty("translate", "-60px")), /#at-rest “To rest” (over|runs into)/);
  assert.match(await after(() => document.querySelector("#explanation").toggleAttribute("hidden", false) || (document.querySelector("#explanation").style.cssText = "pointer-events:auto;top:60px;right:10px;height:200px")), /#explanation.* over /);
});
