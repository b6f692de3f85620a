// Stories of the table of points: locks, errors, blocks from a spreadsheet.
import assert from "node:assert/strict";
import { test } from "node:test";
import { addressed, box, drawn, stories, take, type } from "../harness.mjs";

const { open } = stories();

test("one coordinate can be locked, a measuring error kept, and both travel in the link", async (t) => {
  const page = await open(t);
  await page.click("#tab-points");
  await take(page, "track rod, outer joint");
  await page.click("#lock-z");
  await type(page, "measuring tolerance", "2,5");
  assert.equal(await page.getAttribute("button[aria-label='Lock the track rod, outer joint']", "aria-pressed"), "mixed");
  assert.equal(await box(page, "z of the track rod, outer joint").getAttribute("readonly"), "");
  await page.focus("#drawing");
  await page.keyboard.press("Shift+ArrowUp");
  await page.keyboard.press("Shift+ArrowRight");
  await drawn(page);
  assert.equal(await box(page, "z of the track rod, outer joint").inputValue(), "297.8");
  assert.equal(await box(page, "y of the track rod, outer joint").inputValue(), "700.0");
  await addressed(page, /locks=tro-z&errors=tro_2\.5&/);
});

test("a block of rows from a spreadsheet is taken in one step, decimal commas and all", async (t) => {
  const page = await open(t);
  await page.click("#tab-points");
  const paste = (text) => page.evaluate((text) => {
    const data = new DataTransfer();
    data.setData("text", text);
    document.querySelector("#points input").dispatchEvent(new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true }));
  }, text).then(() => drawn(page));
  await paste("track rod, outer joint\t-131,5\t690\t297,8\nspring top\t10\t541\t760");
  assert.equal(await box(page, "x of the track rod, outer joint").inputValue(), "−131.5");
  assert.equal(await box(page, "y of the spring top").inputValue(), "541.0");
  await page.click("#undo");
  await drawn(page);
  assert.equal(await box(page, "y of the spring top").inputValue(), "540.0");
  assert.equal(await page.isDisabled("#undo"), true);
  await paste("spring top\t10\tabc\t760");
  assert.match(await page.textContent("#pasting-wrong"), /“abc” of the spring top is not a number/);
  await page.click("#pasting-page form button");
  await page.click("#copy-points");
  await page.waitForFunction(() => document.querySelector("#said").textContent === "Table copied");
  assert.match(await page.evaluate(() => navigator.clipboard.readText()), /^lower front, inner joint\t20\.00\t340\.00\t188\.40\n/);
});
