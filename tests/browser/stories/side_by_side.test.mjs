// Stories of axles side by side: put there, moved together, taken out, on a phone, on paper, in a link.
import assert from "node:assert/strict";
import { test } from "node:test";
import { PHONE, addressed, drag, drawn, readings, stories, type } from "../harness.mjs";

const { open } = stories();

const CELLS = ".row-axle:not([hidden])";
const names = (page) => page.$$eval(`${CELLS} h3`, (all) => all.map((h3) => h3.textContent));

/** The value of a reading below each axle. */
const told = (page, name) =>
  page.$$eval(CELLS, (cells, name) => cells.map((cell) => [...cell.querySelectorAll("dl div")].find((row) => row.children[0].textContent === name).children[1].textContent), name);

/** Where each wheel's centre stands: on its canvas, and on the page. */
const wheels = (page) =>
  page.$$eval(`${CELLS} canvas`, (all) => all.map((canvas) => {
    const [[x, y], box] = [canvas.dataset.wheel.split(" ").map(Number), canvas.getBoundingClientRect()];
    return { x, y, at: [box.x + x, box.y + y], size: [box.width, box.height] };
  }));

/** Builds strut, two wishbones and four arms side by side, as a visitor does who has opened the first. */
async function three(page) {
  await page.click("#demos button:nth-child(1)");
  await page.keyboard.press("c");
  await page.click("#compare-beside");
  await page.click("#compare-demos button:nth-child(2)");
  await drawn(page);
  await page.click("#row-add");
  await page.click("#compare-demos button:nth-child(5)");
  await settled(page);
}

/** Waits until all are drawn: once it is known how large each drawing is. */
const settled = async (page) => {
  await page.waitForFunction((cells) => [...document.querySelectorAll(`${cells} canvas`)].every((canvas) => canvas.dataset.wheel), CELLS);
  await drawn(page);
};

test("three demos are put side by side, moved together, and one is taken out", async (t) => {
  const page = await open(t);
  await three(page);
  assert.deepEqual(await names(page), ["Harbour shuttle, strut and wishbone", "Harbour shuttle, two wishbones", "Harbour shuttle, four arms"]);
  assert.equal(await page.isVisible("#drawing"), false);
  const offsets = await told(page, "Kingpin offset at wheel centre");
  assert.deepEqual([offsets[0], offsets[2], new Set(offsets).size], ["66.0 mm", "9.9 mm", 3]);
  // One scale, one road: wheels of one size stand at one place of canvases of one size.
  const before = await wheels(page);
  assert.equal(before.length, 3);
  for (const { x, y, size } of before) {
    assert.ok(Math.abs(x - before[0].x) < 0.3 && Math.abs(y - before[0].y) < 0.3, JSON.stringify(before));
    assert.deepEqual(size, before[0].size);
  }
  // A hand on the last wheel moves them all; so do keys, and a typed travel. Outboard of the hub there is tyre alone.
  await drag(page, [before[2].at[0] + 20, before[2].at[1] - 70], [0, -12]);
  const dragged = await wheels(page);
  for (const [i, { y }] of dragged.entries()) assert.ok(Math.abs(y - before[i].y + 12) < 0.3, JSON.stringify(dragged));
  await page.focus(".row-axle:nth-child(2) canvas");
  for (const key of ["Shift+ArrowRight", "ArrowUp"]) await page.keyboard.press(key);
  await drawn(page);
  assert.match(await page.textContent("#said"), /^at travel \+[0-9.]+, rack \+10\.0; camber/);
  await type(page, "Travel", "20");
  const camber = await told(page, "Camber");
  assert.equal(camber[0], (await readings(page)).camber_deg);
  assert.equal(new Set(camber).size, 3);
  // All in one link, which opens them again.
  const link = await addressed(page, /&a0\.of=double-wishbone\.1&a1\.of=four-arm\.1&.*travel=20/);
  const again = await open(t, undefined, link);
  assert.deepEqual([await names(again), await told(again, "Camber")], [await names(page), camber]);
  // The sheet of all is printed.
  await page.evaluate(() => { window.print = () => { window.dispatchEvent(new Event("beforeprint")); window.printed = document.querySelector("#print").textContent; window.dispatchEvent(new Event("afterprint")); }; });
  await page.click("#row-print");
  assert.match(await page.evaluate(() => window.printed), /strut and wishbone.*two wishbones.*four arms.*All to one scale, at travel \+20\.0, rack \+10\.0.*not a design approval/s);
  await page.click(".row-axle:nth-child(2) button");
  await drawn(page);
  assert.deepEqual(await names(page), ["Harbour shuttle, strut and wishbone", "Harbour shuttle, four arms"]);
  await page.keyboard.press("z");
  await drawn(page);
  assert.equal((await names(page)).length, 3);
  // The drawing has its place back, and the row is a click away.
  await page.click("#row-away");
  await drawn(page);
  assert.deepEqual([await page.isVisible("#row"), await page.isVisible("#drawing")], [false, true]);
  await page.click("#view-row");
  await drawn(page);
  assert.equal(await page.isVisible("#row"), true);
});

test("an axle that can’t follow says so below itself, in every view", async (t) => {
  const page = await open(t);
  await page.keyboard.press("c");
  await page.click("#compare-beside");
  await page.click("#compare-demos button:nth-child(6)");
  await drawn(page);
  const says = () => page.$$eval(`${CELLS} .row-says b`, (all) => all.map((b) => b.textContent));
  assert.deepEqual(await says(), ["", ""]);
  await type(page, "Rack", "-30");
  assert.deepEqual(await says(), ["", "Has no rack; drawn straight ahead."]);
  for (const view of ["side", "plan", "pictorial", "front"]) {
    await page.click(`#row-${view}`);
    await drawn(page);
    assert.equal(await page.getAttribute(`#row-${view}`, "aria-pressed"), "true");
  }
  await page.click("#row-pictorial");
  await drawn(page);
  const before = await wheels(page);
  await page.focus(".row-axle:nth-child(1) canvas");
  await page.keyboard.press("Shift+ArrowRight");
  await drawn(page);
  const after = await wheels(page);
  assert.ok(after.every(({ x, y }, i) => Math.hypot(x - before[i].x, y - before[i].y) > 1), "turned, all of them");
});

test("a phone shows two, and the others in turn", async (t) => {
  const page = await open(t, PHONE, "#v=3&of=strut.1&a0.of=double-wishbone.1&a1.of=four-arm.1&end=1");
  await settled(page);
  assert.deepEqual(await names(page), ["Harbour shuttle, strut and wishbone", "Harbour shuttle, two wishbones"]);
  await page.tap("#row-next");
  await settled(page);
  assert.deepEqual(await names(page), ["Harbour shuttle, strut and wishbone", "Harbour shuttle, four arms"]);
  assert.equal(await page.textContent("#row-next"), "Next axle (2 of 2)");
  await page.locator(`${CELLS} canvas`).first().scrollIntoViewIfNeeded();
  const [own, other] = await wheels(page);
  assert.ok(own.at[1] < 844 && Math.abs(own.y - other.y) < 0.3, "both are seen");
  assert.equal(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), true);
  // A finger takes a wheel by a tap, and then moves both.
  const [x, y] = own.at;
  const session = await page.context().newCDPSession(page);
  const touch = (type, point) => session.send("Input.dispatchTouchEvent", { type, touchPoints: point ? [{ x: point[0], y: point[1] }] : [] });
  await touch("touchStart", [x + 8, y - 40]);
  await touch("touchEnd");
  await drawn(page);
  await touch("touchStart", [x + 8, y - 40]);
  for (const up of [4, 8]) await touch("touchMove", [x + 8, y - 40 - up]);
  await touch("touchEnd");
  await drawn(page);
  const moved = await wheels(page);
  assert.ok(moved[0].y < own.y - 5 && Math.abs(moved[0].y - moved[1].y) < 0.3, JSON.stringify(moved));
});

test("three axles that tell the story are a click, a variant is another", async (t) => {
  const page = await open(t);
  await page.keyboard.press("c");
  await page.fill("#variant-name", "stock");
  await page.keyboard.press("Enter");
  await drawn(page);
  await page.click("#variants button:text('Side by side')");
  await drawn(page);
  assert.equal((await names(page))[1], "stock");
  await page.click("#row-add");
  await page.click("#compare-three");
  await drawn(page);
  assert.equal((await names(page)).length, 4);
  await page.click("#row-add");
  await page.click("#compare-now");
  await drawn(page);
  assert.match(await page.textContent("#notice"), /3 axles stand beside this one already/);
});
