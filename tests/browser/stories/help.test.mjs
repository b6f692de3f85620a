// Stories of the page of help.
import assert from "node:assert/strict";
import { test } from "node:test";
import { readings, stories } from "../harness.mjs";

const { open } = stories();

test("help opens the lowered car and its correction", async (t) => {
  const page = await open(t);
  await page.keyboard.press("?");
  await page.click("#help-prepared a >> nth=1");
  await page.waitForFunction(() => document.querySelector("#stand").textContent === "at +40.0");
  assert.equal(await page.isVisible("#help-page"), false);
  assert.match((await readings(page)).bump_steer_deg_per_mm, /−0\.4/);
});

test("help opens by key, draws its own pictures, and closes", async (t) => {
  const page = await open(t);
  await page.keyboard.press("?");
  assert.equal(await page.isVisible("#help-page"), true);
  assert.equal((await page.$$("#help-pictures svg")).length, 2);
  assert.match(await page.textContent("#help-words"), /Scrub radius.*Lenkrollradius/);
  await page.uncheck("#letters");
  await page.keyboard.press("Escape");
  assert.equal(await page.isVisible("#help-page"), false);
  await page.keyboard.press("?");
  assert.equal(await page.isVisible("#help-page"), false, "letters are off");
});
