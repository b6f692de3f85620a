// A story of an enthusiast: the demo as their own car, lowered, with spacers and other tyres, put right and passed on, before and after.
import assert from "node:assert/strict";
import { test } from "node:test";
import { addressed, box, drawn, readings, stories, type } from "../harness.mjs";

const { open } = stories();

test("an enthusiast lowers their car, fits spacers and wider tyres, re-sets toe, and shares before and after in one link", async (t) => {
  const page = await open(t);
  await page.click("#demos button:nth-child(1)");
  // The demos steer little in bump: minutes show it.
  await page.click("#unit-angle");
  await drawn(page);
  const design = (await readings(page)).toe_deg;
  const freeze = async (name) => {
    await page.click("#compare");
    await page.fill("#variant-name", name);
    await page.press("#variant-name", "Enter");
    await page.click("#compare-page button:has-text('Close')");
  };
  await freeze("stock");
  await type(page, "Ride height at travel", "30");
  await page.click("#tab-points");
  await page.click("summary:has-text('Wheel and tyre')");
  await page.fill("#tyre", "225/45 R17");
  await page.click("#tyre-change");
  await type(page, "wheel spacer, mm", "20");
  await page.click("#at-rest");
  await drawn(page);
  assert.notEqual((await readings(page)).toe_deg, design);
  await page.click("#tab-workshop");
  await page.click("#reset-toe");
  await drawn(page);
  assert.equal((await readings(page)).toe_deg, design);
  await freeze("lowered, 20 mm spacers");
  const address = await addressed(page, /v=3&of=strut\.1&.*w1\.name=/);
  assert.ok(address.length < 500, address);
  const friend = await open(t, undefined, address);
  await friend.click("#compare");
  assert.match(await friend.textContent("#variants"), /stock.*lowered, 20 mm spacers/s);
  assert.equal((await readings(friend)).toe_deg, design);
});
