// Stories of a real car: the measuring sheet and what is typed back from it.
import assert from "node:assert/strict";
import { test } from "node:test";
import { DESKTOP, PHONE, box, drawn, stories, type } from "../harness.mjs";

const { open } = stories();

/** Pastes a text into the box of this name. */
const paste = (page, name, text) => box(page, name).evaluate((target, text) => {
  const data = new DataTransfer();
  data.setData("text", text);
  target.dispatchEvent(new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true }));
}, text).then(() => drawn(page));

/** Opens the pane of measuring. */
async function measuring(t, options = DESKTOP) {
  const page = await open(t, options);
  await page.click("#tab-measure");
  await drawn(page);
  return page;
}

test("the measuring sheet prints as one page from vectors: numbered points, planes, five lines of method, blank cells, the caution", async (t) => {
  const page = await measuring(t);
  // Printing asks nobody here: what would be printed is left standing.
  await page.evaluate(() => { window.print = () => dispatchEvent(new Event("beforeprint")); });
  await page.click("#print-measuring");
  await page.emulateMedia({ media: "print" });
  assert.equal(await page.locator("#print .print-method li").count(), 5);
  assert.match(await page.textContent("#print .print-method b"), /Never get under a car on a jack/);
  const rows = await page.$$eval("#print .print-measured tr", (all) => all.map((row) => [...row.children].map((cell) => cell.textContent)));
  assert.equal(rows.length, 16);
  assert.deepEqual(rows[1], ["1", "lower front, inner joint", "", "", "", ""]);
  const fits = await page.evaluate(() => {
    const bottom = (part) => document.querySelector(`#print ${part}`).getBoundingClientRect().bottom;
    const method = document.querySelector("#print .print-method");
    return [bottom(".print-measured table") <= bottom(".print-measured"), method.scrollHeight <= method.clientHeight, bottom(".print-method") <= document.querySelector("#print .print-foot").getBoundingClientRect().top + 1];
  });
  assert.deepEqual(fits, [true, true, true]);
  await page.emulateMedia({ media: null });
  // The browser's own printing is the page's sheet again.
  await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
  assert.equal(await page.locator("#print .print-measured").count(), 0);
  assert.equal(await page.locator("#print .print-curves").count(), 1);
});

for (const [name, options] of [["a desktop", DESKTOP], ["a phone", PHONE]]) {
  test(`on ${name} the sheet is typed back with decimal commas, in part, and taken in one step`, async (t) => {
    const page = await measuring(t, options);
    assert.equal(await page.isDisabled("#take-measured"), true);
    await type(page, "measured x of the track rod, outer joint", "-131,5");
    await type(page, "measured ± of the track rod, outer joint", "2,5");
    await type(page, "measured z of the spring top", "761");
    assert.equal(await box(page, "measured x of the track rod, outer joint").inputValue(), "−131.5");
    assert.equal(await box(page, "measured y of the track rod, outer joint").inputValue(), "");
    // A cell can be emptied again.
    await type(page, "measured z of the spring top", "");
    await type(page, "measured y of the spring top", "541");
    await page.click("#take-measured");
    await drawn(page);
    assert.equal(await page.textContent("#said"), "Taken: 2 points");
    assert.equal(await box(page, "measured x of the track rod, outer joint").inputValue(), "");
    await page.click("#tab-points");
    assert.equal(await box(page, "x of the track rod, outer joint").inputValue(), "−131.5");
    assert.equal(await box(page, "z of the spring top").inputValue(), "760.0");
    assert.equal(await box(page, "y of the spring top").inputValue(), "541.0");
    await page.click("#undo");
    await drawn(page);
    assert.equal(await box(page, "x of the track rod, outer joint").inputValue(), "−130.0");
    assert.equal(await box(page, "y of the spring top").inputValue(), "540.0");
  });
}

test("rows without names go from the cell with the cursor down, into the sheet as into the points", async (t) => {
  const page = await measuring(t);
  await paste(page, "measured y of the track rod, inner joint", "371,5\t297\n691\t298,5");
  assert.equal(await box(page, "measured y of the track rod, inner joint").inputValue(), "371.5");
  assert.equal(await box(page, "measured z of the track rod, outer joint").inputValue(), "298.5");
  assert.equal(await box(page, "measured x of the track rod, outer joint").inputValue(), "");
  await page.click("#tab-points");
  await paste(page, "z of the track rod, inner joint", "296\n299,5");
  assert.equal(await box(page, "z of the track rod, inner joint").inputValue(), "296.0");
  assert.equal(await box(page, "z of the track rod, outer joint").inputValue(), "299.5");
  await page.click("#undo");
  await drawn(page);
  assert.equal(await box(page, "z of the track rod, inner joint").inputValue(), "297.3");
});

for (const [name, options] of [["a desktop", DESKTOP], ["a phone", PHONE]]) {
  test(`on ${name} own names are asked for once, a right wheel’s rows are mirrored, a bad row is told and can be corrected`, async (t) => {
    const page = await open(t, options);
    await page.click("#tab-points");
    await paste(page, "x of the spring top", "LCA\t21\t-341\t189\nspring top\t10\t-54O\t760\nmy junk\t1\t-2\t3");
    assert.equal(await page.locator("#pasting-page").isVisible(), true);
    assert.match(await page.textContent("#pasting-wrong"), /^Row 2: “-54O” of the spring top is not a number\.$/);
    assert.equal(await page.isDisabled("#pasting-use"), true);
    await page.selectOption("select[aria-label='The point called LCA']", { label: "lower front, inner joint" });
    await drawn(page);
    await page.selectOption("select[aria-label='The point called my junk']", { label: "none of these" });
    await drawn(page);
    assert.match(await page.textContent("#pasting-says"), /^1 row can be used\. Every y is negative, as of a right wheel/);
    await page.fill("#pasting-text", (await page.inputValue("#pasting-text")).replace("54O", "541"));
    assert.equal(await page.textContent("#pasting-wrong"), "");
    await page.click("#pasting-mirror");
    await drawn(page);
    assert.equal(await box(page, "y of the lower front, inner joint").inputValue(), "341.0");
    assert.equal(await box(page, "y of the spring top").inputValue(), "541.0");
    await page.click("#undo");
    await drawn(page);
    assert.equal(await page.isDisabled("#undo"), true, "one step");
    // The name is known from now on.
    await paste(page, "x of the spring top", "LCA\t22\t342\t190");
    assert.equal(await page.locator("#pasting-page").isVisible(), false);
    assert.equal(await box(page, "x of the lower front, inner joint").inputValue(), "22.0");
  });
}
