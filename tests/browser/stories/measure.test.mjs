// Stories of a real car: the measuring sheet and what is typed back from it, rows that are pasted, a list of tapes.
import assert from "node:assert/strict";
import { test } from "node:test";
import { DESKTOP, PHONE, addressed, box, drawn, quiet, started, stories, type } from "../harness.mjs";

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
    await drawn(page);
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
    await drawn(page);
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

for (const [name, options] of [["a desktop", DESKTOP], ["a phone", PHONE]]) {
  test(`on ${name} a list of tapes gives places with their ±, and the wrong tape is named`, async (t) => {
    const page = await measuring(t, options);
    // The first joint stands at 20, 340, 188.4.
    const marks = { A: [500, 0], B: [-600, 0], C: [450, 900], D: [-550, 950] };
    const length = ([x, y]) => Math.hypot(20 - x, 340 - y, 188.4);
    const list = (wrong) => Object.entries(marks).map(([mark, [x, y]]) =>
      `${mark} at ${x} ${y} 0\n1 ${mark} ${(length([x, y]) + (mark === "B" ? wrong : 0)).toFixed(1).replace(".", ",")} 2`).join("\n") + "\n1 1f 188,4 2";
    const fill = async (text) => {
      await page.fill("#tapes", text);
      await page.locator("#tapes").blur();
      await drawn(page);
    };
    await fill(list(20));
    assert.match(await page.textContent("#tape-says"), /^Line 4, lower front, inner joint to B, is 2\d\.\d mm longer than all the others say: measure it again\.$/);
    assert.equal(await page.locator("#tape-readings td.over").count(), 1);
    await fill(list(0) + "\n2 A 300\nnonsense");
    assert.match(await page.textContent("#tape-says"), /Line 11, “nonsense”, is no reading.*agree.*Not determined: lower front, outer joint but for one direction/);
    assert.equal(await page.textContent("#take-tapes"), "Use these places (1)");
    await page.click("#take-tapes");
    await drawn(page);
    await page.click("#tab-points");
    for (const [axis, mm] of [["x", 20], ["y", 340], ["z", 188.4]]) {
      const is = Number((await box(page, `${axis} of the lower front, inner joint`).inputValue()).replace("−", "-"));
      assert.ok(Math.abs(is - mm) < 0.2, `${axis}: ${is}`);
    }
    assert.match(await addressed(page, /errors=lfi_/), /^(?!.*nonsense)/, "the list is in no link");
    await page.click("#undo");
    await drawn(page);
    await page.click("#tab-measure");
    await drawn(page);
    assert.match(await page.inputValue("#tapes"), /nonsense$/);
  });
}

test("what was typed is there again when the page is loaded again", async (t) => {
  const page = await measuring(t);
  await type(page, "measured z of the spring top", "761,5");
  await page.fill("#tapes", "1 A 300");
  await page.locator("#tapes").blur();
  await drawn(page);
  await quiet(page);
  await page.reload();
  await started(page);
  await page.click("#tab-measure");
  await drawn(page);
  assert.equal(await box(page, "measured z of the spring top").inputValue(), "761.5");
  assert.equal(await page.inputValue("#tapes"), "1 A 300");
});
