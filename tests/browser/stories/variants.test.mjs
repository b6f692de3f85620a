// The story of somebody in a forum who compares a car as it was with the same car lowered; and of one whose sides differ.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { test } from "node:test";
import { DESKTOP, PHONE, box, drawn, stories, type } from "../harness.mjs";

const { open } = stories();
const STRUT = new URL("../../../demo-layouts/strut.json", import.meta.url);
const RIDE = "Ride height at travel";
const freeze = async (page, name) => {
  await page.fill("#variant-name", name);
  await page.press("#variant-name", "Enter");
  await drawn(page);
};
const table = (page) => page.$$eval("#variants tr", (rows) => rows.map((row) => [...row.children].map((cell) => cell.textContent)));

for (const [where, options] of [["at a desk", DESKTOP], ["on a phone", PHONE]]) {
  test(`stock and lowered are frozen, told apart, and laid over each other, ${where}`, async (t) => {
    const page = await open(t, options);
    const compare = () => page.evaluate(() => document.querySelector("#compare").click());
    await compare();
    await freeze(page, "stock");
    await page.keyboard.press("Escape");
    await type(page, RIDE, "30");
    await page.click("#at-rest");
    await drawn(page);
    await drawn(page);
    await compare();
    await freeze(page, "lowered");
    const rows = await table(page);
    assert.deepEqual(rows.map((row) => row[0]), ["", "as it is now", "stock", "lowered"]);
    assert.ok(rows[0].includes("Camber"), `${rows[0]}`);
    assert.deepEqual(rows[3].slice(1, -1), rows[1].slice(1), "what was frozen is what stands there");
    assert.notDeepEqual(rows[2].slice(1, -1), rows[1].slice(1));
    if (process.env.SHOTS) await page.screenshot({ path: `${process.env.SHOTS}/variants-${where.replaceAll(" ", "-")}.png` });
    // Stock over lowered: the drawing, the readings, the curves.
    await page.click("[data-lay='0']");
    await drawn(page);
    assert.equal(await page.isVisible("#compare-page"), false);
    assert.deepEqual(await page.$$eval("#readings thead th", (all) => all.map((th) => th.textContent).slice(1, 4)), ["now", "compared", "difference"]);
    const camber = await page.$$eval("tr[data-reading=camber_deg] td", (all) => all.map((td) => parseFloat(td.textContent.replace("−", "-"))));
    assert.ok(Math.abs(camber[2]) > 0.3 && Math.abs(camber[0] - camber[1] - camber[2]) < 0.011, `each where it stands: ${camber}`);
    if (process.env.SHOTS) await page.screenshot({ path: `${process.env.SHOTS}/compared-${where.replaceAll(" ", "-")}.png` });
    // A click builds stock again; undo brings the lowered car back.
    await compare();
    await page.click("[data-take='0']");
    await drawn(page);
    assert.equal(await box(page, RIDE).inputValue(), "0.0");
    await page.keyboard.press("Control+z");
    await drawn(page);
    assert.match(await box(page, RIDE).inputValue(), /30/);
    await compare();
    await page.click("[data-drop='1']");
    await drawn(page);
    assert.deepEqual((await table(page)).map((row) => row[0]), ["", "as it is now", "stock"]);
  });
}

test("a car whose sides differ: a column for each, on the page and in print, and scripts ask for either", async (t) => {
  const page = await open(t);
  const layout = JSON.parse(await readFile(STRUT, "utf8"));
  layout.changes = { both: { "wheel.spacer": 15 }, right: { "length.track_rod": 3 } };
  await page.setInputFiles("#file", { name: "uneven.json", mimeType: "application/json", buffer: Buffer.from(JSON.stringify(layout)) });
  await page.waitForFunction(() => document.querySelector("#now").textContent === "left");
  assert.deepEqual(await page.$$eval("#readings thead th", (all) => all.map((th) => th.textContent)), ["Reading ?", "left", "right", "difference", "at rest", "curve"]);
  const [left, right, difference] = (await page.$$eval("tr[data-reading=toe_deg] td", (all) => all.map((td) => td.textContent))).map((text) => parseFloat(text.replace("−", "-")));
  assert.ok(Math.abs(left - right) > 0.5 && Math.abs(left - right - difference) < 0.011, `${left}, ${right}, ${difference}`);
  const [toes, refused] = await page.evaluate((layout) => {
    const toe = (wheel) => ghostpin.solve(layout, { wheel }).toe_deg;
    const toes = [toe("left"), toe("right"), ghostpin.solve(layout).toe_deg, ghostpin.sweep(layout, { wheel: "right", travel: { from: 0, to: 10, step: 10 } })[0].toe_deg];
    try { toe("rear"); } catch (error) { return [toes, error.message]; }
  }, layout);
  assert.ok(Math.abs(toes[0] - left) < 0.006 && Math.abs(toes[1] - right) < 0.006, `${toes}`);
  assert.deepEqual(toes.slice(2), [toes[0], toes[1]]);
  assert.match(refused, /neither “left” nor “right”/);
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  assert.match(await page.textContent("#print"), /Left wheel\. Changes: wheel spacer \+15\.00 mm, both wheels; length of the track rod \+3\.00 mm, right wheel\./);
  await page.emulateMedia({ media: "print" });
  const [end, title, foot, sheet] = await page.evaluate(() => {
    const of = (part) => [...document.querySelectorAll(`#print ${part}`)].map((at) => at.getBoundingClientRect()).filter((box) => box.height > 0);
    const block = of(".title-block")[0];
    return [Math.max(...of(".readings tr").map((row) => row.bottom)), block.top, block.bottom, of(".print-sheet")[0].bottom];
  });
  assert.ok(end <= title && foot <= sheet, `readings end at ${end}, title block from ${title} to ${foot} on a sheet to ${sheet}`);
  await page.emulateMedia({ media: null });
  await page.evaluate(() => window.dispatchEvent(new Event("afterprint")));
  await page.click("#whole-axle");
  await drawn(page);
  if (process.env.SHOTS) await page.screenshot({ path: `${process.env.SHOTS}/uneven.png` });
});
