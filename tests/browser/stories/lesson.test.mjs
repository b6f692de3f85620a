// Stories of lessons: prepared, answered, handed in; what stays hidden, what is kept of an answer, what a hand-in tells.
import assert from "node:assert/strict";
import { test } from "node:test";
import { PHONE, addressed, drawn, readings, stories, take, write } from "../harness.mjs";

const { open } = stories();
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
/** The rows of the table of hand-ins, each by its heads. */
const sheet = async (page) => {
  const [heads, ...rows] = await page.$$eval("#handed tr", (all) => all.map((row) => [...row.children].map((cell) => cell.textContent)));
  return rows.map((row) => Object.fromEntries(heads.map((head, at) => [head, row[at]])));
};
const text = (page, id) => page.textContent(`#${id}`);
const clipboard = (page) => page.evaluate(() => navigator.clipboard.readText());

test("a lesson is prepared, opened, answered and handed in, all by links", async (t) => {
  const teacher = await open(t);
  await teacher.click("#demos button:nth-child(2)");
  await teacher.click("#tab-lesson");
  await teacher.click("#teach");
  await write(teacher, teacher.locator("#edit-task"), "Make the scrub radius 12 ± 0.5 mm.\nWith the lower ball joint.");
  await write(teacher, teacher.locator("#edit-hint"), "Sideways.");
  for (const column of ["camber_deg", "toe_deg", "caster_deg", "kingpin_offset_wheel_centre_mm", "brake_lever_arm_mm"]) await teacher.click(`tr[data-reading=${column}] button`);
  await teacher.click("#edit-aims");
  await take(teacher, "lower ball joint");
  await teacher.click("#free-y");
  await drawn(teacher);
  assert.match(await teacher.textContent("#free-rows"), /^lower ball joint y.* to .* mm×$/);
  assert.equal(await teacher.getAttribute("#free-y", "aria-pressed"), "true");
  assert.match(await teacher.textContent("#edit-says"), /already met here: move the axle/);
  await teacher.focus("#drawing");
  await teacher.keyboard.press("Shift+ArrowLeft");
  await drawn(teacher);
  assert.doesNotMatch(await teacher.textContent("#edit-says"), /already met/);
  await teacher.click("#edit-copy");
  await teacher.waitForFunction(() => document.querySelector("#said").textContent !== "" || document.querySelectorAll(".told").length > 0);
  const lesson = await teacher.evaluate(() => navigator.clipboard.readText());
  const student = await open(t, PHONE, `#${lesson.split("#")[1]}`);
  assert.equal(await student.textContent("#task"), "Make the scrub radius 12 ± 0.5 mm.\nWith the lower ball joint.");
  await student.click("#check");
  await drawn(student);
  assert.match(await student.textContent("#verdict"), /Not answered yet/);
  await take(student, "lower ball joint");
  await student.keyboard.press("Shift+ArrowRight");
  await drawn(student);
  await student.click("#check");
  await drawn(student);
  assert.equal(await student.textContent("#verdict"), "Target reached.");
  await student.fill("#by", "Ada");
  await student.click("#hand-in");
  await student.waitForFunction(() => document.querySelectorAll(".told").length > 0);
  const handed = await student.evaluate(() => navigator.clipboard.readText());
  await teacher.click("#lesson summary");
  await teacher.fill("#hand-ins", `${handed}\n${lesson}\nnonsense`);
  await teacher.waitForFunction(() => document.querySelector("#marked").textContent === "Marked 3 of 3.");
  const rows = await sheet(teacher);
  assert.deepEqual(rows.map((row) => [row.name, row["target reached"], row.remark]), [
    ["Ada", "yes", ""], ["", "open", ""], ["", "", "line 3 can’t be read: there is no link in it"],
  ]);
  assert.match(await teacher.textContent("#class-overview"), /^Hand-ins: 2\. Target reached: 1 of 2\..*Not readable: line 3\.$/);
  assert.equal(await student.evaluate(() => document.querySelectorAll("#task b").length), 0);
});

test("an exercise hides what is to be predicted until it is checked", async (t) => {
  const page = await open(t);
  await page.click("#tab-lesson");
  await page.click("#exercises li:nth-child(1) button");
  await drawn(page);
  assert.equal((await readings(page)).kingpin_offset_wheel_centre_mm, "?");
  await page.click("#check");
  await drawn(page);
  assert.equal((await readings(page)).kingpin_offset_wheel_centre_mm, "?", "there is no answer yet");
  await page.fill("#guess", "3,4");
  await take(page, "strut top mount");
  await page.keyboard.press("Shift+ArrowLeft");
  await page.keyboard.press("Shift+ArrowLeft");
  await drawn(page);
  assert.equal((await readings(page)).kingpin_offset_wheel_centre_mm, "?");
  await page.click("#check");
  await drawn(page);
  assert.equal(
    await page.textContent("#verdict"),
    "Target reached.\nPrediction: right sign, right size. Kingpin offset at wheel centre changes by 3.4 mm; you predicted 3.4 mm.\nThe written answer is missing.",
  );
  assert.equal((await readings(page)).kingpin_offset_wheel_centre_mm, "69.4");
  await page.click("#show-hint");
  await drawn(page);
  assert.match(await page.textContent("#hint"), /Hint: The axis runs/);
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  assert.match(await page.textContent("#print .print-answer"), /top mount will be moved.*Your prediction: .*: 3,4 mm.*my value/s);
  assert.ok((await page.$$("#print hr")).length >= 4, "lines to answer on");
  await page.evaluate(() => window.dispatchEvent(new Event("afterprint")));
  await page.click("#back-to-start");
  await drawn(page);
  assert.equal((await readings(page)).kingpin_offset_wheel_centre_mm, "66.0", "the axle goes back, the answer stays");
  assert.equal(await page.inputValue("#guess"), "3,4 mm");
});

test("what an exercise hides is spoken, posted, tabled, printed and told to other pages only when there is an answer", async (t) => {
  const page = await open(t);
  await exercise(page, 1);
  await check(page);
  assert.match(await text(page, "verdict"), /^Not answered yet\./);
  await take(page, "strut top mount");
  assert.match(await text(page, "said"), /^strut top mount: .*; kingpin offset at wheel centre is hidden; kingpin inclination 14\.11°$/);
  const shown = await readings(page);
  assert.deepEqual([shown.kingpin_offset_wheel_centre_mm, shown.drive_lever_arm_mm], ["?", "?"]);
  await page.click("#tab-curves");
  await drawn(page);
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
  const parameters = await addressed(page, /hide=/);
  const inside = await open(t, undefined, `${parameters}&embed=1`);
  const message = inside.evaluate(() => new Promise((told) => addEventListener("message", (event) => told(event.data))));
  await inside.focus("#drawing");
  await take(inside, "strut top mount");
  await inside.keyboard.press("ArrowLeft");
  const { readings: told } = await message;
  assert.deepEqual([told.kingpin_offset_wheel_centre_mm, told.drive_lever_arm_mm], [null, null]);
  assert.equal(typeof told.camber_deg, "number");
  const axle = await open(t, undefined, parameters.replace("hide=kingpin_offset_wheel_centre", "hide=track").replace("axle=one_0", "axle=both_0").replace(/pins=[^&]*/, "pins=track"));
  await axle.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  const sheets = await axle.$$eval("#print tr", (rows) => rows.map((row) => [...row.children].slice(0, 3).map((cell) => cell.textContent)));
  assert.deepEqual(sheets.find(([name]) => name === "Track"), ["Track", "", ""], "on paper it is to be filled in");
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
  // Without leaving the box.
  await addressed(page, /guess=%E2%88%929_mm&said=It_turns&/);
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
  const [row] = await sheet(page);
  assert.deepEqual([row.name, row.answer, row["number right"], row["hint used"]], ["Ada", "28 mm", "yes", "yes"]);
});
