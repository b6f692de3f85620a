// Stories of drafts: what is there at the next visit, and what nobody writes over.
import assert from "node:assert/strict";
import { test } from "node:test";
import { addressed, box, drawn, quiet, started, stories, type } from "../harness.mjs";

const { open } = stories();

test("what was done last is there at the next visit, and somebody’s link writes over none of it", async (t) => {
  const page = await open(t);
  await type(page, "Travel", "17");
  const link = await addressed(page, /travel=17&/);
  const context = page.context();
  const again = await context.newPage();
  const address = page.url().split("#")[0];
  await again.goto(address);
  await started(again);
  assert.equal(await box(again, "Travel").inputValue(), "+17.0");
  const linked = await context.newPage();
  await linked.goto(address + link.replace("travel=17", "travel=-9"));
  await started(linked);
  await type(linked, "Rack", "5");
  await addressed(linked, /travel=-9&rack=5&/);
  await linked.click("#mine");
  assert.equal((await linked.$$("#mine-rows tr")).length, 2);
  await linked.click("#mine-rows tr:nth-child(2) button:first-of-type");
  await drawn(linked);
  assert.equal(await box(linked, "Travel").inputValue(), "+17.0");
  const blocked = await open(t);
  await blocked.evaluate(() => { Storage.prototype.setItem = () => { throw new Error("full"); }; });
  await type(blocked, "Travel", "3");
  await blocked.waitForSelector("#notice:not([hidden])");
  assert.match(await blocked.textContent("#notice"), /does not save drafts for this page/);
  const nobody = await open(t);
  await nobody.evaluate(() => { Storage.prototype.setItem = () => { throw new Error("blocked"); }; });
  await nobody.click("#mine");
  assert.match(await nobody.textContent("#mine-none"), /does not save drafts for this page/);
});

test("own work outlives links put into the address, a story, a movement and a sudden end", async (t) => {
  const page = await open(t);
  const kept = () => page.evaluate(() => Object.values(localStorage).join("\n"));
  const foreign = (rack) => page.evaluate((rack) => { location.hash = `${location.hash.slice(1).replace(/rack=[^&]*/, `rack=${rack}`)}`; }, rack);
  await type(page, "Travel", "17");
  await addressed(page, /travel=17&/);
  for (let rack = 10; rack < 24; rack++) {
    await foreign(rack);
    await page.waitForFunction((rack) => document.querySelector('input[aria-label="Rack"]').value === `+${rack}.0`, rack);
  }
  await quiet(page);
  assert.equal((await kept()).trim().split("\n").length, 1, "what was only opened is not kept");
  assert.match(await kept(), /travel=17&rack=0&/);
  await type(page, "Travel", "21");
  await page.click("#story");
  await page.click("#story-tell");
  await quiet(page);
  assert.match(page.url(), /travel=21&rack=23/, "a story passes over the address");
  await page.reload();
  await started(page);
  assert.equal(await box(page, "Travel").inputValue(), "+21.0");
  assert.match(await kept(), /travel=21&rack=23&[^]*travel=17&rack=0&/);
  await type(page, "Travel", "33");
  await page.reload();
  await started(page);
  assert.match(await kept(), /travel=33&rack=23&/, "an edit a moment before the end");
});

test("what bears a name of its own outlives demos that are tried out in one stay", async (t) => {
  const page = await open(t);
  await page.fill("#name", "My own work");
  await page.press("#name", "Enter");
  await type(page, "Travel", "11");
  for (let i = 0; i < 14; i++) {
    await page.click(`#demos button:nth-child(${1 + (i % 6)})`);
    await type(page, "Travel", `${20 + i}`);
  }
  await addressed(page, /travel=33&/);
  await page.click("#mine");
  const kept = await page.$$eval("#mine-rows tr", (rows) => rows.map((row) => row.children[1].textContent));
  assert.equal(kept.length, 12);
  assert.equal(kept[11], "My own work");
  await page.click("#mine-rows tr:nth-child(12) button:first-of-type");
  await drawn(page);
  assert.equal(await box(page, "Travel").inputValue(), "+11.0");
});
