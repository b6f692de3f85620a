// Stories of lessons told to the built page: what stays hidden, what is kept of an answer, what a hand-in tells.
import assert from "node:assert/strict";
import { test } from "node:test";
import { PHONE, drawn, readings, stories, take } from "./harness.mjs";

const open = stories();
const exercise = async (page, number) => {
  await page.click("#tab-lesson");
  if (!(await page.isVisible("#lesson-none"))) await page.click("#demos button:nth-child(1)");
  await drawn(page);
  await page.click(`#exercises li:nth-child(${number}) button`);
  await drawn(page);
};
const check = async (page) => {
  await page.click("#check");
  await drawn(page);
};
const text = (page, id) => page.textContent(`#${id}`);
const clipboard = (page) => page.evaluate(() => navigator.clipboard.readText());

test("what an exercise hides is spoken, posted, tabled, printed and told to other pages only when there is an answer", async (t) => {
  const page = await open(t);
  await exercise(page, 1);
  await check(page);
  assert.match(await text(page, "verdict"), /^Not answered yet\./);
  await take(page, "strut top mount");
  assert.match(await text(page, "said"), /^strut top mount: .*; kingpin offset at wheel centre is hidden$/);
  const shown = await readings(page);
  assert.deepEqual([shown.kingpin_offset_wheel_centre_mm, shown.drive_lever_arm_mm], ["?", "?"]);
  assert.match(await text(page, "plots"), /Kingpin offset at wheel centre\?/);
  await page.click("#tab-loads");
  await drawn(page);
  assert.match(await text(page, "felt"), /hides a lever arm/);
  assert.doesNotMatch(await text(page, "shares"), /\d/);
  await page.click("#pass-on");
  await page.click("#pass-plain");
  await page.waitForFunction(() => document.querySelector("#said").textContent === "Copied");
  assert.match(await clipboard(page), /Kingpin offset at wheel centre \?\n/);
  await page.keyboard.press("Escape");
  // The address is written once nothing has changed for half a second.
  await page.waitForFunction(() => location.hash.includes("hide="));
  const parameters = page.url().split("#")[1];
  const inside = await open(t, undefined, `#${parameters}&embed=1`);
  const message = inside.evaluate(() => new Promise((told) => addEventListener("message", (event) => told(event.data))));
  await inside.focus("#drawing");
  await take(inside, "strut top mount");
  await inside.keyboard.press("ArrowLeft");
  const { readings: told } = await message;
  assert.deepEqual([told.kingpin_offset_wheel_centre_mm, told.drive_lever_arm_mm], [null, null]);
  assert.equal(typeof told.camber_deg, "number");
  const axle = await open(t, undefined, `#${parameters.replace("hide=kingpin_offset_wheel_centre", "hide=track").replace("axle=one_0", "axle=both_0")}`);
  await axle.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  const sheets = await axle.$$eval("#print tr", (rows) => rows.map((row) => [...row.children].slice(0, 3).map((cell) => cell.textContent)));
  assert.deepEqual(sheets.find(([name]) => name === "Track"), ["Track", "?", "?"], "on the second sheet");
});

test("an answer is kept as it is typed, in its unit, and the first beside a later one", async (t) => {
  const page = await open(t);
  await exercise(page, 1);
  assert.equal(await text(page, "guess-label"), "Your prediction: change of kingpin offset at wheel centre (mm)");
  await page.fill("#guess", "about 3");
  await check(page);
  assert.match(await text(page, "verdict"), /“about 3” can’t be read as the number asked for; nothing is marked\./);
  assert.equal(await page.inputValue("#guess"), "about 3", "what was refused stays to be mended");
  assert.equal((await readings(page)).kingpin_offset_wheel_centre_mm, "?");
  await page.fill("#guess", "");
  await page.locator("#guess").pressSequentially("−9");
  await drawn(page);
  assert.equal(await page.inputValue("#guess"), "−9", "nobody writes into a box that is typed in");
  await page.locator("#own-words").pressSequentially("It turns");
  await page.waitForTimeout(700);
  assert.match(page.url(), /guess=%E2%88%929_mm&said=It_turns&/, "without leaving the box");
  assert.equal(await page.inputValue("#guess"), "−9 mm");
  await check(page);
  assert.equal((await readings(page)).kingpin_offset_wheel_centre_mm, "66.0");
  await page.fill("#guess", "3.4");
  await page.click("#unit-length");
  await take(page, "strut top mount");
  await page.keyboard.press("Shift+ArrowLeft");
  await page.keyboard.press("Shift+ArrowLeft");
  await drawn(page);
  assert.match(await text(page, "verdict"), /^Target reached\.\nPrediction: wrong sign, wrong size\. .* by 0\.132 in; you predicted −0\.354 in\.\nWritten answer given/);
  assert.equal(await text(page, "first-answer"), "Your first answer, −9 mm, is handed in as well.");
  await page.click("#undo");
  await drawn(page);
  assert.equal(await page.inputValue("#own-words"), "It turns", "undo is the axle's");
});

test("a hint is told of, and forgotten in the next exercise; a hand-in without name or check is remarked", async (t) => {
  const page = await open(t, PHONE);
  await exercise(page, 2);
  await page.click("#show-hint");
  await drawn(page);
  assert.match(await text(page, "hint"), /^Hint: Drag in the camber curve/);
  await page.fill("#guess", "2.05 cm");
  await page.click("#hand-in");
  await page.waitForFunction(() => document.querySelector("#said").textContent.startsWith("Copied"));
  assert.equal(await text(page, "said"), "Copied, but without your name, and you have not pressed Check.");
  assert.equal(await text(page, "still-missing"), "Before you hand in: press Check and type your name.");
  await page.fill("#guess", "28");
  await page.fill("#by", "Ada");
  await check(page);
  assert.equal(await text(page, "verdict"), "The number is right.");
  await page.click("#hand-in");
  await page.waitForFunction(() => document.querySelector("#said").textContent === "Copied. Send it to your teacher.");
  const handed = await clipboard(page);
  await exercise(page, 3);
  assert.equal(await text(page, "hint"), "");
  assert.equal(await text(page, "movable"), "You may move: lower ball joint (y); upper ball joint (y).");
  assert.equal(await page.inputValue("#guess"), "");
  await page.click("#lesson summary");
  await page.fill("#hand-ins", handed);
  await page.waitForSelector("#handed tr:nth-child(2)");
  const row = await page.$eval("#handed tr:nth-child(2)", (row) => [...row.children].map((cell) => cell.textContent));
  assert.deepEqual(row.slice(0, 3), ["Ada", "28 mm", "The number is right. The hint was used."]);
});
