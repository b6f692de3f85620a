// Stories of links: an axle passed to another profile, and links that are broken.
import assert from "node:assert/strict";
import { test } from "node:test";
import { DESKTOP, addressed, box, drag, drawn, enter, readings, stories, take, type } from "../harness.mjs";

const { open } = stories();

test("a copied link opens in another profile and shows the same", async (t) => {
  const page = await open(t);
  await page.click("#demos button:nth-child(3)");
  await type(page, "Travel", "25");
  await type(page, "Rack", "-12.5");
  await drag(page, await take(page, "strut foot"), [-7, 4]);
  await page.click("tr[data-reading=motion_ratio] button");
  await enter(page, page.locator("#name"), "Ours & <b>theirs</b>");
  await page.click("#copy-link");
  await page.waitForFunction(() => document.querySelector("#said").textContent === "Link copied");
  const link = await page.evaluate(() => navigator.clipboard.readText());
  assert.equal(link, page.url());
  assert.match(link.split("#")[1], /^[A-Za-z0-9\-_.~=&%]+[0-9]$/);
  const other = await open(t, DESKTOP, `#${link.split("#")[1]}`);
  assert.deepEqual(await readings(other), await readings(page));
  assert.equal(await other.inputValue("#name"), "Ours & <b>theirs</b>");
  assert.equal(await other.isVisible("#notice"), false);
  assert.equal((await other.$$("#plots figure")).length, 7);
  assert.equal((await other.$$("b b")).length, 0);
});

test("a broken link says which parameter is wrong and opens the rest", async (t) => {
  const page = await open(t, DESKTOP, "?v=1&name=Half&lower=wings&travel=3x&rack=5&colour=red");
  const notice = await page.textContent("#notice");
  for (const word of ["“lower” is “wings”", "“travel” is “3x”", "“colour”", "“wheel”"]) assert.ok(notice.includes(word), `${word}: ${notice}`);
  assert.equal(await page.inputValue("#name"), "Half");
  assert.equal(await box(page, "Rack").inputValue(), "+5.0");
  await page.click("#notice button");
  await drawn(page);
  assert.equal(await page.isVisible("#notice"), false);
});

test("a link put into the address opens, even if the page writes its own in the same moment", async (t) => {
  const page = await open(t);
  await type(page, "Rack", "5");
  await addressed(page, /rack=5&/);
  await page.evaluate(() => {
    location.hash = location.hash.slice(1).replace("rack=5", "rack=11");
    document.querySelector("#copy-link").click();
  });
  await page.waitForFunction(() => document.querySelector('input[aria-label="Rack"]').value === "+11.0");
  assert.match(page.url(), /rack=11&/);
});
