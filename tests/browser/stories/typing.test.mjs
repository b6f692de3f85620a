// Stories of what is typed: numbers, steps, a note.
import assert from "node:assert/strict";
import { test } from "node:test";
import { PHONE, addressed, box, drawn, readings, stories, type } from "../harness.mjs";

const { open } = stories();

test("handles and boxes steer, with comma or point, and say what they can't take", async (t) => {
  const page = await open(t);
  await type(page, "Rack", "12,5");
  assert.equal(await box(page, "Rack").inputValue(), "+12.5");
  await page.focus("#travel-handle");
  for (let i = 0; i < 4; i++) await page.keyboard.press("ArrowRight");
  await drawn(page);
  assert.equal(await box(page, "Travel").inputValue(), "+2.0");
  const before = await readings(page);
  for (const [text, word] of [["12mm", "not a number"], ["900", "must be within"]]) {
    await type(page, "Rack", text);
    assert.match(await page.textContent("#notice"), new RegExp(word));
    assert.equal(await box(page, "Rack").inputValue(), "+12.5");
  }
  assert.deepEqual(await readings(page), before);
});

test("steppers: arrow keys in a number box and buttons beside it move by a mm, on a phone too", async (t) => {
  const page = await open(t, PHONE);
  await page.click("#tab-points");
  const z = box(page, "z of the track rod, outer joint");
  await z.focus();
  assert.equal(await z.inputValue(), "297.8");
  for (const key of ["ArrowUp", "Shift+ArrowUp", "Alt+ArrowDown"]) {
    await page.keyboard.press(key);
    await drawn(page);
  }
  assert.equal(await z.inputValue(), "308.7");
  await page.click("#less-z");
  await page.click("#more-x");
  await drawn(page);
  assert.equal(await z.inputValue(), "307.7");
  assert.equal(await box(page, "x of the track rod, outer joint").inputValue(), "-129.0".replace("-", "−"));
  for (const height of await page.$$eval("#in-hand button", (all) => all.map((button) => button.getBoundingClientRect().height))) assert.ok(height >= 44, `${height}`);
  await box(page, "Travel").focus();
  await page.keyboard.press("ArrowDown");
  await drawn(page);
  assert.equal(await box(page, "Travel").inputValue(), "−1.0");
});

test("after Enter in a number box Z undoes, and no letter lands in it", async (t) => {
  const page = await open(t);
  for (const name of ["Travel", "Rack"]) {
    await box(page, name).fill("24");
    await box(page, name).press("Enter");
    await drawn(page);
    await page.keyboard.press("z");
    await drawn(page);
    assert.equal(await box(page, name).inputValue(), "0.0");
    await page.keyboard.press("y");
    await drawn(page);
    assert.equal(await box(page, name).inputValue(), "+24.0");
    await page.keyboard.press("Control+z");
    await drawn(page);
    assert.equal(await box(page, name).inputValue(), "0.0");
  }
  await box(page, "Travel").fill("");
  await page.keyboard.type("1e1");
  await page.keyboard.press("Enter");
  await drawn(page);
  assert.equal(await box(page, "Travel").inputValue(), "+10.0");
  assert.equal(await page.isVisible("#notice"), false);
});

test("a number that is being typed when another axle takes its box away is nobody’s coordinate", async (t) => {
  const page = await open(t);
  await page.click("#demos button:nth-child(1)");
  const strut = await addressed(page, /upper=strut&/);
  const before = await readings(page);
  await page.click("#demos button:nth-child(5)");
  await page.click("#tab-points");
  await addressed(page, /^#(?!.*upper=strut)/);
  await box(page, "y of the track rod, inner joint").click();
  await page.keyboard.type("99");
  await page.evaluate((link) => { location.hash = link; }, strut);
  await page.waitForFunction(() => document.querySelector("#kind").textContent.includes("strut"));
  await drawn(page);
  assert.deepEqual(await readings(page), before);
  await type(page, "Travel", "9");
  assert.equal(await box(page, "Travel").inputValue(), "+9.0");
});

test("travel beyond the usual widens handle and curves", async (t) => {
  const page = await open(t);
  await type(page, "Travel", "90");
  assert.equal(await page.getAttribute("#travel-handle", "max"), "100");
  assert.equal(await page.$eval("#travel-handle", (handle) => handle.value), "90");
  await page.click("#at-rest");
  await drawn(page);
  assert.equal(await page.getAttribute("#travel-handle", "max"), "60");
});

test("a note of 1,500 letters is edited and stays whole", async (t) => {
  const page = await open(t);
  const note = "n".repeat(1500);
  await page.fill("#note", note);
  await page.press("#note", "Tab");
  await drawn(page);
  await page.focus("#note");
  await page.keyboard.press("Control+End");
  await page.keyboard.press("Backspace");
  await page.press("#note", "Tab");
  await addressed(page, /note=n{1499}&/);
});
