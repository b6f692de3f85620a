// Stories of sharing: text, pictures, data.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { test } from "node:test";
import { DESKTOP, drag, drawn, stories, take } from "../harness.mjs";

const { open } = stories();

test("passed on: text and picture by clipboard, picture and data as files; a text that can't be copied is shown", async (t) => {
  const page = await open(t);
  await page.click("#pass-on");
  const said = (text) => page.waitForFunction((text) => document.querySelector("#said").textContent === text, text);
  await page.click("#pass-markdown");
  await said("Copied");
  assert.match(await page.evaluate(() => navigator.clipboard.readText()), /Camber[^]*\]\(http:/);
  await page.click("#copy-png");
  await said("Picture copied");
  const copied = await page.evaluate(async () => {
    const [item] = await navigator.clipboard.read();
    const picture = await createImageBitmap(await item.getType("image/png"));
    return [item.types, picture.width];
  });
  assert.ok(copied[0].includes("image/png") && copied[1] >= 1200, `${copied}`);
  const saved = async (id) => {
    const [download] = await Promise.all([page.waitForEvent("download"), page.click(id)]);
    return readFile(await download.path());
  };
  assert.deepEqual([...(await saved("#pass-png")).subarray(1, 4)], [..."PNG"].map((letter) => letter.charCodeAt(0)));
  assert.match((await saved("#pass-svg")).toString(), /^<svg[^]*not a design approval/);
  assert.match((await saved("#pass-curves")).toString(), /camber_deg/);
  await page.evaluate(() => { navigator.clipboard.writeText = () => Promise.reject(new Error("no")); });
  await page.click("#pass-plain");
  await page.waitForSelector("#notice:not([hidden])");
  assert.match(await page.textContent("#notice"), /Copy the text from here[^]*#v=2&/);
  await page.click("#notice button");
  await drawn(page);
  assert.equal(await page.isVisible("#notice"), false, "in front of the dialog, where it can be closed");
  await page.click("#pass-plain");
  await page.waitForSelector("#notice:not([hidden])");
  await page.keyboard.press("Escape");
  assert.equal(await page.isVisible("#pass-page"), false);
  assert.equal(await page.isVisible("#notice"), true, "and it outlives the dialog");
});

test("a reply carries what was opened and what was made of it, and a post tells both", async (t) => {
  const page = await open(t);
  const said = (text) => page.waitForFunction((text) => document.querySelector("#said").textContent.startsWith(text), text);
  const copied = () => page.evaluate(() => navigator.clipboard.readText());
  await page.click("#pass-on");
  await page.click("#pass-reply");
  await said("Nothing to reply with yet");
  await page.keyboard.press("Escape");
  await drag(page, await take(page, "lower front arm, outer joint"), [12, 0]);
  await page.click("#pass-on");
  await page.click("#pass-plain");
  await said("Copied");
  const post = await copied();
  assert.match(post, /as opened → now/);
  assert.match(post, /lower front arm, outer joint y [\d.]+ → [\d.]+ mm/);
  await page.click("#pass-reply");
  await said("Reply copied");
  const other = await open(t, DESKTOP, `#${(await copied()).split("#")[1]}`);
  assert.match(await other.textContent("#readings"), /difference/);
  assert.notEqual(await other.textContent("tr[data-reading=scrub_radius_mm] td:last-child"), "");
});
