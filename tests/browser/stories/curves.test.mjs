// Stories of the curves: read by the pointer, upright, their legend.
import assert from "node:assert/strict";
import { test } from "node:test";
import { box, drag, drawn, stories, type } from "../harness.mjs";

const { open } = stories();

test("the pointer over a curve reads all of them there, and a drag moves the wheel", async (t) => {
  const page = await open(t);
  const captions = () => page.$$eval("#plots b", (all) => all.map((b) => b.textContent));
  const rest = await captions();
  const plot = await page.locator("#plots .plot").first().boundingBox();
  await page.mouse.move(plot.x + plot.width * 0.9, plot.y + plot.height / 2);
  await drawn(page);
  const there = await captions();
  assert.ok(rest.filter((text, i) => text !== there[i]).length >= 5, `${rest} and ${there}`);
  await page.mouse.down();
  await page.mouse.move(plot.x + plot.width * 0.8, plot.y + plot.height / 2, { steps: 4 });
  await page.mouse.up();
  await drawn(page);
  const travel = parseFloat(await box(page, "Travel").inputValue());
  assert.ok(travel > 20 && travel < 50, `${travel}`);
  await page.click("#undo");
  await drawn(page);
  assert.equal(await box(page, "Travel").inputValue(), "0.0");
});

test("a click on its name gives a plot the room of all, another gives it back", async (t) => {
  const page = await open(t);
  const shown = () => page.$$eval("#plots figure", (all) => all.map((figure) => figure.querySelector("canvas").getBoundingClientRect()).filter(({ width }) => width > 0).map(({ width, height }) => [width, height]));
  const all = await shown();
  const name = page.locator("#plots figcaption button").nth(1);
  await name.click();
  await drawn(page);
  const [[width, height], ...others] = await shown();
  assert.ok(others.length === 0 && width > 1.9 * all[1][0] && height > 2 * all[1][1], `${width} × ${height}, of ${all}`);
  const canvas = page.locator("#plots [data-alone] canvas").first();
  assert.equal(await canvas.evaluate((canvas) => canvas.width), Math.round(2 * width), "drawn for its size");
  assert.equal(await name.getAttribute("aria-pressed"), "true");
  await name.press("Enter");
  await drawn(page);
  assert.deepEqual(await shown(), all);
});

test("travel stands upright where the reader wants it, and a drag up is travel up", async (t) => {
  const page = await open(t);
  await page.click("#over-upright");
  await drawn(page);
  const plot = await page.locator("#plots .plot").first().boundingBox();
  await drag(page, [plot.x + plot.width / 2, plot.y + plot.height / 2], [0, -plot.height / 5]);
  const travel = parseFloat(await box(page, "Travel").inputValue());
  assert.ok(travel > 10 && travel < 60, `${travel}`);
  await page.waitForFunction(() => location.hash.includes("over=upright"));
});

test("the legend has a second line only where the plots have one", async (t) => {
  const page = await open(t);
  assert.equal(await page.isVisible("#key-faint"), false, "with the rack at 0 both would say the same");
  await type(page, "Rack", "20");
  assert.equal(await page.textContent("#key"), "rack +20.0");
  assert.equal(await page.isVisible("#key-faint"), true);
  await page.click("#whole-axle");
  await drawn(page);
  await page.click("#over-roll");
  await drawn(page);
  assert.equal(await page.isVisible("#key-faint"), false);
});
