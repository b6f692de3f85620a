// Stories of what the points do not say: wheel and tyre, kinds of guides, and remarks on slips.
import assert from "node:assert/strict";
import { test } from "node:test";
import { PHONE, box, drawn, readings, stories, type } from "../harness.mjs";

const { open } = stories();

/** Opens the points with every section above them. */
async function parts(page) {
  await page.click("#tab-points");
  await page.$$eval("#points details", (all) => all.forEach((one) => (one.open = true)));
  await drawn(page);
}

const lever = async (page, at) => parseFloat((await page.textContent(`#levers tbody tr:nth-child(1) td:nth-of-type(${at})`)).replace("−", "-"));

test("what if I fit other wheels: size, offset and spacer, with both lever arms before and after", async (t) => {
  const page = await open(t);
  await parts(page);
  assert.equal(await box(page, "width of the tyre, mm").count(), 0);
  await page.fill("#tyre", "225/45r17 94w");
  await drawn(page);
  assert.match(await page.textContent("#tyre-means"), /225\/45 R17: free radius 317\.[12] mm, loaded about 304\.5 mm/);
  await page.click("#tyre-change");
  await drawn(page);
  assert.equal(await box(page, "change of tyre width, mm").inputValue(), "20");
  assert.equal(await box(page, "tyre width, mm").inputValue(), "205", "the design stays");
  await type(page, "wheel spacer, mm", "20");
  const [before, after] = [await lever(page, 1), await lever(page, 2)];
  assert.ok(Math.abs(Math.abs(after - before) - 20) < 1, `${before} → ${after}`);
  await page.screenshot({ path: `${process.env.PICTURES ?? "/tmp"}/wheel-desktop.png` });
  await page.click("#undo");
  await page.click("#undo");
  await page.click("#tyre-design");
  await drawn(page);
  assert.equal(await box(page, "tyre width, mm").inputValue(), "225");
  await page.fill("#tyre", "225");
  await page.click("#tyre-design");
  await drawn(page);
  assert.match(await page.textContent("#notice"), /“225” is not a tyre size/);
});

test("a wishbone is split and joined again in one step each, and the wheel stays where it was", async (t) => {
  const page = await open(t);
  await page.click("#demos button:nth-child(1)");
  await parts(page);
  const before = await readings(page);
  assert.equal(await page.isVisible("#kind-upper"), false, "a strut is neither");
  await page.click("#kind-lower");
  await drawn(page);
  assert.deepEqual(await readings(page), before);
  assert.equal(await box(page, "y of the lower rear, outer joint").count(), 1);
  assert.match(await page.textContent("#kind-lower"), /Join the two lower arms/);
  await page.click("#undo");
  await drawn(page);
  assert.equal(await box(page, "y of the lower ball joint").count(), 1);
});

test("a swapped sign is remarked on beside the drawing, and goes with its slip", async (t) => {
  const page = await open(t);
  assert.equal(await page.isVisible("#remarks"), false);
  await page.click("#tab-points");
  await type(page, "z of the lower front, outer joint", "-178");
  assert.match(await page.textContent("#remark-count"), /remark/);
  assert.equal(await page.isVisible("#remark-list"), false, "folded");
  await page.click("#remark-count");
  await drawn(page);
  assert.match(await page.textContent("#remark-list"), /below the road\. Probably z = 178\.0 is meant/);
  await page.screenshot({ path: `${process.env.PICTURES ?? "/tmp"}/remarks-desktop.png` });
  await page.click("#undo");
  await drawn(page);
  assert.equal(await page.isVisible("#remarks"), false);
});

test("on a phone wheel, tyre and remarks are read without scrolling sideways", async (t) => {
  const page = await open(t, PHONE);
  await parts(page);
  await type(page, "wheel spacer, mm", "15");
  await type(page, "z of the lower front, outer joint", "-178");
  await page.click("#remark-count");
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  assert.ok(wide <= 0, `${wide} px`);
  await page.locator("#tyre").scrollIntoViewIfNeeded();
  await page.screenshot({ path: `${process.env.PICTURES ?? "/tmp"}/wheel-phone.png`, fullPage: true });
});
