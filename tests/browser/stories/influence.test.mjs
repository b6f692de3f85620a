// Stories of a mechanic who asks which arm to make adjustable, what to turn, and with what the car can be adjusted.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { test } from "node:test";
import { PHONE, drawn, readings, stories, take, type } from "../harness.mjs";

const { open } = stories();
const number = (text) => parseFloat(text.replace("−", "-"));
/** Waits until the table answers the car as it is now. */
const answered = (page) => page.waitForSelector("#influence-table:not(.old) td[data-at]", { state: "attached" });
/** The table: rows of a name and what stands in this column. */
const column = async (page, name) => {
  const at = await page.$$eval("#influence-head button", (heads, name) => heads.findIndex((head) => head.dataset.column === name), name);
  return page.$$eval("#influence-rows tr", (rows, at) => rows.map((row) => [row.cells[0].textContent, row.cells[at + 2].textContent]), at);
};
/** Waits until the search has ended with these words. */
const words = (page, pattern) => page.waitForFunction(({ source }) => new RegExp(source).test(document.querySelector("#turn-words").textContent), { source: pattern.source });
const wanted = async (page, name, text) => {
  const place = page.locator(`input[aria-label^="${name} wanted"]`);
  await place.fill(text);
  await place.press("Enter");
  await drawn(page);
};

test("a mechanic sorts by camber, sees the arm that moves it most, and the car agrees", async (t) => {
  const page = await open(t);
  await page.click("#tab-influence");
  await answered(page);
  assert.equal(await page.getAttribute("#sheet", "data-drawer"), "large", "a table has room");
  const before = await column(page, "camber_deg");
  assert.deepEqual(before.map(([name]) => name), ["lower front arm", "lower rear arm", "upper front arm", "upper rear arm", "track rod"]);
  await page.click('#influence-head button[data-column="camber_deg"]');
  await drawn(page);
  const head = page.locator('#influence-head th:has(button[data-column="camber_deg"])');
  assert.equal(await head.getAttribute("aria-sort"), "descending");
  const sorted = await column(page, "camber_deg");
  const sizes = sorted.map(([, text]) => Math.abs(number(text)));
  assert.deepEqual(sizes, [...sizes].sort((a, b) => b - a));
  assert.deepEqual([...sorted].sort(), [...before].sort(), "the same rows");
  // The largest is the darkest; a click on it takes its joint and pins its reading.
  const most = page.locator("#influence-rows tr:first-child td.s4").first();
  await most.click();
  await drawn(page);
  assert.match(await page.textContent("#said"), /^(upper|lower|track).*: .* per mm$/);
  assert.notEqual(await page.getAttribute("#drawing", "data-joint"), "");
  assert.equal(await page.locator("#influence-rows td.chosen").count(), 1);
  // A millimetre more in the Workshop does what the table says.
  const [name, slope] = sorted[0];
  const was = number((await readings(page)).camber_deg);
  await page.click("#tab-workshop");
  await type(page, `change of the ${name}, mm`, "1");
  const is = number((await readings(page)).camber_deg);
  assert.ok(Math.abs(is - was - number(slope)) < 0.012, `${was} ${is} ${slope}`);
  // The heading gives the axle's own order back.
  await page.click("#tab-influence");
  await answered(page);
  await page.click('#influence-head button[data-column="camber_deg"]');
  await drawn(page);
  assert.equal((await column(page, "camber_deg"))[0][0], "lower front arm");
});

test("kinds and columns are chosen; while a hand drags the old numbers are pale, and then new ones follow", async (t) => {
  const page = await open(t);
  await page.click("#tab-influence");
  await answered(page);
  await page.click("#by-design");
  await drawn(page);
  const design = await column(page, "caster_deg");
  assert.ok(design.length > 25 && design.some(([name]) => name === "upper front, outer joint, x"), `${design.length}`);
  await page.click("#by-build");
  await drawn(page);
  assert.ok((await column(page, "toe_deg")).some(([name]) => name === "subframe’s turn to the left"));
  await page.selectOption("#influence-columns", { label: "Caster by sweep" });
  await drawn(page);
  const sweep = await column(page, "caster_sweep_deg");
  assert.ok(sweep.some(([, text]) => number(text) !== 0));
  await page.selectOption("#influence-columns", { label: "✓ Caster by sweep" });
  await drawn(page);
  assert.equal(await page.locator('#influence-head button[data-column="caster_sweep_deg"]').count(), 0);
  await page.click("#by-design");
  const [x, y] = await take(page, "upper front, outer joint");
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 12, y - 6, { steps: 4 });
  await drawn(page);
  assert.equal(await page.locator("#influence-table.old").count(), 1, "pale");
  assert.deepEqual(await column(page, "caster_deg"), design, "the old ones");
  await page.mouse.up();
  await answered(page);
  assert.notDeepEqual(await column(page, "caster_deg"), design);
});

test("arrow keys walk the cells, one of them is a stop of the Tab key, Enter chooses", async (t) => {
  const page = await open(t);
  await page.click("#tab-influence");
  await answered(page);
  await page.focus('#influence-rows td[data-at="0 0"]');
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("ArrowRight");
  assert.equal(await page.evaluate(() => document.activeElement.dataset.at), "1 1");
  assert.equal(await page.locator('#influence-rows td[tabindex="0"]').count(), 1);
  await page.keyboard.press("Enter");
  await drawn(page);
  assert.match(await page.textContent("#said"), /^lower rear arm: Camber /);
  assert.equal(await page.evaluate(() => document.activeElement.dataset.at), "1 1", "the focus stays");
});

test("what to turn is told by one adjuster and by two, taken as one step, and undone", async (t) => {
  const page = await open(t);
  await page.click("#demos button:nth-child(2)");
  await page.click("#tab-influence");
  await drawn(page);
  const before = await readings(page);
  assert.match(await page.textContent("#turn-words"), /^Type what a reading is to be/);
  await wanted(page, "Camber", "-1,2");
  await words(page, /^One adjuster is enough\.$/);
  assert.equal(await page.locator("#answers section").count(), 1);
  await page.click('button[aria-label="keep Toe"]');
  await words(page, /^One adjuster comes near; two do it\.$/);
  const cards = await page.$$eval("#answers section", (all) => all.map((card) => [...card.children].map((line) => line.textContent)));
  assert.equal(cards.length, 2);
  assert.equal(cards[1].filter((line) => /^Length of the .*: [+−]\d+\.\d\d mm, each wheel$/.test(line)).length, 2);
  assert.match(cards[1].join(), /Left over: Toe 0\.00°; Camber 0\.00°\./);
  assert.match(cards[0].join(), /Also moved: /);
  assert.deepEqual(await readings(page), before, "nothing is done yet");
  await page.click('button[aria-label="Take it: with two adjusters"]');
  await drawn(page);
  const after = await readings(page);
  assert.deepEqual([after.toe_deg, after.camber_deg], [before.toe_deg, "−1.20°"]);
  await words(page, /^Nothing has to be turned/);
  assert.match(await page.textContent("#fitted"), /None named/, "what was offered is not fitted");
  await page.click("#undo");
  await drawn(page);
  assert.deepEqual(await readings(page), before);
});

test("a car is given adjusters: by the turn in the table, to the end of their range and in whole shims in what to turn", async (t) => {
  const page = await open(t);
  await page.click("#demos button:nth-child(2)");
  await page.click("#tab-influence");
  await page.fill("#range-least", "-1");
  await page.fill("#range-most", "1");
  await page.fill("#pitch", "1,5");
  await page.click("#fit-adjuster button");
  await drawn(page);
  assert.match(await page.textContent("#fitted"), /^Length of the track rod: −1 to 1 mm; 1\.5 mm a turn/);
  await answered(page);
  await page.click("#by-length");
  await drawn(page);
  const rod = (await column(page, "toe_deg")).find(([name]) => name === "track rod");
  await page.click("#by-adjuster");
  await drawn(page);
  const [[, turn]] = await column(page, "toe_deg");
  assert.equal(await page.textContent("#influence-rows td:nth-child(2)"), "turn");
  assert.ok(Math.abs(number(turn) - 1.5 * number(rod[1])) < 0.002, `${turn} ${rod[1]}`);
  await page.click("#turn-left");
  await wanted(page, "Toe", "3");
  await words(page, /at the end of its range is the length of the track rod\./);
  assert.match(await page.textContent("#answers"), /\(the end of its range\).*Left over: Toe [+−]?\d\.\d\d°/);
  // Shims under an inner joint: whole ones only.
  await page.selectOption("#adjuster-sets", { label: "Upper front, inner joint, in its slot or on shims" });
  await drawn(page);
  assert.equal(await page.isVisible("#along"), true);
  for (const [id, text] of [["along-y", "-1"], ["range-least", "0"], ["range-most", "6"], ["pitch", ""], ["shim", "1"]]) await page.fill(`#${id}`, text);
  await page.click("#fit-adjuster button");
  await drawn(page);
  assert.equal(await page.locator("#fitted li").count(), 2);
  await wanted(page, "Toe", "");
  await wanted(page, "Camber", "-0.8");
  await words(page, /./);
  await page.waitForFunction(() => /× 1 mm/.test(document.querySelector("#answers").textContent));
  assert.match(await page.textContent("#answers .turn"), /Upper front, inner joint, along its slot or shims: [+−]?\d\.00 mm \([+−]?\d × 1 mm\)/);
  await page.fill("#range-least", "8");
  await page.click("#fit-adjuster button");
  await page.waitForFunction(() => /begins at its smaller end/.test(document.body.textContent));
  await page.click('button[aria-label^="Remove the adjuster: Length of the track rod"]');
  await drawn(page);
  assert.equal(await page.locator("#fitted li").count(), 1);
  await page.click("#undo");
  await drawn(page);
  assert.equal(await page.locator("#fitted li").count(), 2);
});

test("the table is printed on a sheet of its own while it is shown", async (t) => {
  const page = await open(t);
  await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
  assert.equal(await page.locator("#print #influence-table").count(), 0);
  await page.evaluate(() => dispatchEvent(new Event("afterprint")));
  await page.click("#tab-influence");
  await answered(page);
  await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
  assert.equal(await page.locator("#print #influence-table tbody tr").count(), 5);
  assert.match(await page.textContent("#print"), /A member is made longer by this much/);
  await page.evaluate(() => dispatchEvent(new Event("afterprint")));
});

test("on a phone the table fills the screen under the pinned readings, and axe finds nothing", async (t) => {
  const page = await open(t, PHONE);
  await page.tap("#tab-influence");
  await answered(page);
  await page.tap("#drawer-size");
  await drawn(page);
  assert.equal(await page.isVisible("#drawing"), false);
  await wanted(page, "Toe", "0.4");
  await words(page, /^One adjuster is enough\.$/);
  await page.tap('button[aria-label="Take it: with one adjuster"]');
  await drawn(page);
  assert.match(await page.textContent("#pinned-above"), /Toe0\.40°/);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  assert.ok(wide <= 0, `${wide} px too wide`);
  const source = await readFile(new URL("../node_modules/axe-core/axe.min.js", import.meta.url), "utf8");
  await page.evaluate(`${source}; undefined`);
  const { violations } = await page.evaluate(() => axe.run());
  assert.deepEqual(violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target).join(" ")}`), []);
});
