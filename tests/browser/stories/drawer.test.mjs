// Stories of the drawer: its tabs by mouse and keyboard, its two sizes, and a pane that fills a phone's screen.
import assert from "node:assert/strict";
import { test } from "node:test";
import { DESKTOP, PHONE, addressed, drawn, quiet, readings, stories } from "../harness.mjs";

const { open } = stories();
const selected = (page) => page.$$eval("#tabs [role=tab]", (tabs) => tabs.filter((tab) => tab.getAttribute("aria-selected") === "true").map((tab) => tab.textContent));
const extent = async (page, selector) => page.locator(selector).boundingBox();

test("arrow keys walk the tabs, one of them is a stop of the Tab key, and the pane shown is the tab’s", async (t) => {
  const page = await open(t);
  await page.focus("#tab-curves");
  await page.keyboard.press("ArrowRight");
  assert.deepEqual(await selected(page), ["Points"]);
  assert.equal(await page.evaluate(() => document.activeElement.id), "tab-points");
  assert.equal(await page.isVisible("#points"), true);
  assert.equal(await page.isVisible("#curves"), false);
  const last = await page.textContent("#tabs [role=tab]:last-child");
  await page.keyboard.press("End");
  assert.deepEqual(await selected(page), [last]);
  await page.keyboard.press("ArrowRight");
  assert.deepEqual(await selected(page), ["Curves"]);
  await page.keyboard.press("ArrowLeft");
  assert.deepEqual(await selected(page), [last]);
  await page.keyboard.press("Home");
  assert.deepEqual(await selected(page), ["Curves"]);
  assert.deepEqual(await page.$$eval("#tabs [role=tab]", (tabs) => tabs.filter((tab) => tab.tabIndex === 0).map((tab) => tab.id)), ["tab-curves"]);
});

test("a large drawer takes the side view’s place, is remembered for its tab, and is in no link", async (t) => {
  const page = await open(t);
  const quarter = await extent(page, "#drawer");
  await page.focus("#drawing");
  await page.keyboard.press("Tab");
  await addressed(page, /end=1$/);
  const address = await page.evaluate(() => location.href);
  await page.click("#tab-loads");
  await page.click("#drawer-size");
  await drawn(page);
  const [large, paper] = [await extent(page, "#drawer"), await extent(page, "#paper")];
  assert.ok(large.height > 2 * quarter.height && large.width > quarter.width, JSON.stringify(large));
  assert.ok(Math.abs(large.width - paper.width / 2) < 2, `${large.width} of ${paper.width}`);
  // The joint in hand is drawn beside the drawer.
  const [x] = (await page.getAttribute("#drawing", "data-joint")).split(" ").map(Number);
  assert.ok(x > large.width, `${x}`);
  await page.click("#tab-curves");
  await drawn(page);
  assert.deepEqual(await extent(page, "#drawer"), quarter, "the other tab is as it was");
  await page.click("#tab-loads");
  await drawn(page);
  assert.deepEqual(await extent(page, "#drawer"), large);
  await quiet(page);
  assert.equal(await page.evaluate(() => location.href), address);
  await page.click("#drawer-size");
  await drawn(page);
  assert.deepEqual(await extent(page, "#drawer"), quarter);
});

test("all tabs fit into the quarter in two lines, and on a phone the one chosen is brought into view", async (t) => {
  const page = await open(t);
  const [row, drawer] = [await extent(page, "#tabs"), await extent(page, "#drawer")];
  assert.equal(await page.$eval("#tabs", (tabs) => tabs.scrollWidth <= tabs.clientWidth), true);
  assert.ok(row.height < 66 && row.height < 0.25 * drawer.height, `${row.height}`);
  const phone = await open(t, PHONE);
  await phone.focus("#tab-curves");
  await phone.evaluate(() => (document.querySelector("#tabs").scrollLeft = 0));
  await phone.focus("#tab-lesson");
  await phone.tap("#tab-lesson");
  const [tab, line] = [await extent(phone, "#tab-lesson"), await extent(phone, "#tabs")];
  assert.ok(tab.x >= line.x && tab.x + tab.width <= line.x + line.width + 1, JSON.stringify([tab, line]));
  assert.ok(line.height < 50, "one line");
});

test("on a phone a pane fills the screen, with the pinned readings above it, and gives the drawing back", async (t) => {
  const page = await open(t, PHONE);
  await page.tap("#tab-workshop");
  await page.tap("#drawer-size");
  await drawn(page);
  assert.equal(await page.isVisible("#drawing"), false);
  assert.ok(Math.abs((await extent(page, "#drawer")).y) <= 2, "it begins at its top");
  const toe = async () => (await page.textContent("#pinned-above")).match(/Toe(.*?°)/)[1];
  assert.equal(await toe(), (await readings(page)).toe_deg);
  const before = await toe();
  for (let i = 0; i < 3; i++) await page.tap('button[aria-label="track rod +"]');
  await drawn(page);
  assert.notEqual(await toe(), before);
  // The readings stay above while the pane is read.
  await page.evaluate(() => scrollTo(0, document.body.scrollHeight));
  await drawn(page);
  assert.ok((await extent(page, "#pinned-above")).y >= 0);
  await page.tap("#drawer-size");
  await drawn(page);
  assert.equal(await page.isVisible("#drawing"), true);
  assert.equal(await page.isVisible("#workshop"), true);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  assert.ok(wide <= 0, `${wide} px too wide`);
  await page.setViewportSize({ width: DESKTOP.viewport.width, height: DESKTOP.viewport.height });
  await drawn(page);
  assert.equal(await page.isVisible("#drawing"), true);
});
