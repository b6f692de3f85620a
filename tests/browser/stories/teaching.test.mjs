// Stories of teaching: a lesson is edited, tried, left; a series; worksheets; a class's sheet; an exercise without a mouse, and in another page.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { test } from "node:test";
import { addressed, box, drawn, readings, stories, type } from "../harness.mjs";

const { open } = stories();
const text = (page, id) => page.textContent(`#${id}`);
const click = async (page, selector) => {
  await page.click(selector);
  await drawn(page);
};
const exercise = async (page, number) => {
  await page.click("#tab-lesson");
  await click(page, `#exercises li:nth-child(${number}) button`);
};

test("a teacher edits a copy of an exercise, types a target, tries it, and finds it again after a reload and a stray click", async (t) => {
  const page = await open(t);
  await exercise(page, 3);
  await click(page, "#copy-lesson");
  assert.equal(await page.isVisible("#lesson-edit"), true);
  await type(page, "Target 1: value", "2,5");
  await type(page, "Target 1: ±", "0.5");
  await type(page, "Target 1: at travel", "-10");
  await click(page, "button[aria-label='Remove target 2']");
  await page.selectOption("select[aria-label='Target 1: reading']", { label: "Caster" });
  await drawn(page);
  await type(page, "Target 1: value", "2,5");
  await type(page, "lower ball joint y ±", "12");
  assert.match(await text(page, "free-rows"), /719\.2 to 743\.2 mm/);
  await click(page, "button[aria-label='Keep the upper ball joint y']");
  await type(page, "Ask for a number", "7");
  assert.equal(await box(page, "Ask for a number").inputValue(), "7");
  await type(page, "Ask for a number", "");
  assert.equal(await box(page, "Ask for a number").inputValue(), "", "taken back");
  await page.fill("#edit-task", "");
  await page.press("#edit-task", "Tab");
  await drawn(page);
  assert.match(await text(page, "edit-says"), /The task is empty\./);
  await page.fill("#edit-task", "One line\nand another");
  await page.press("#edit-task", "Tab");
  await click(page, "button[aria-label='Hidden until checked: Kingpin inclination']");
  assert.equal(await page.getAttribute("button[aria-label='Hidden until checked: Kingpin inclination']", "aria-pressed"), "true");
  await click(page, "#edit-try");
  assert.equal(await text(page, "task"), "One line\nand another");
  assert.equal((await readings(page)).kingpin_inclination_deg, "?");
  assert.equal(await text(page, "movable"), "You may move: lower ball joint (y).");
  await type(page, "lower ball joint y", "735");
  await click(page, "#back-to-lesson");
  assert.equal(await page.inputValue("#edit-task"), "One line\nand another");
  await addressed(page, /task=One_line%0Aand_another&/);
  await page.reload();
  await page.waitForFunction(() => document.querySelector("#edit-task").value !== "");
  assert.equal(await page.isVisible("#lesson-edit"), true);
  assert.match(await text(page, "notice"), /your lesson in preparation/);
  await click(page, "#demos button:nth-child(1)");
  assert.match(await text(page, "notice"), /You have left the lesson you were preparing \(“One line”\)/);
  await click(page, "#return");
  assert.equal(await page.inputValue("#edit-task"), "One line\nand another");
  assert.equal(await page.isVisible("#return"), false);
});

test("from a link to the verdict it takes forty keys at most, and every step is spoken", async (t) => {
  const page = await open(t);
  await exercise(page, 10);
  const link = await addressed(page, /task=/);
  const student = await open(t, undefined, link);
  assert.equal(await student.evaluate(() => document.activeElement.id), "task", "the task has the focus");
  let keys = 0;
  const press = async (key) => {
    await student.keyboard.press(key);
    await drawn(student);
    keys += 1;
  };
  const focused = () => student.evaluate(() => document.activeElement.getAttribute("aria-label") ?? document.activeElement.id);
  while ((await focused()) !== "track rod, inner joint z" && keys < 40) await press("Tab");
  await press("Shift+ArrowDown");
  await press("ArrowDown");
  assert.match(await text(student, "said"), /^track rod, inner joint: x .*; toe 0\.10°; bump steer 0\./);
  await press("ArrowDown");
  while ((await focused()) !== "check" && keys < 40) await press("Tab");
  await press("Enter");
  assert.equal(await text(student, "verdict"), "Target reached.");
  assert.ok(keys <= 40, `${keys} keys`);
});

test("an answer is offered again when the teacher's link is opened once more; drafts name the task", async (t) => {
  const page = await open(t);
  await exercise(page, 2);
  const link = await addressed(page, /task=/);
  await page.fill("#guess", "27");
  await addressed(page, /guess=27_mm/);
  const again = await page.context().newPage();
  await again.goto(page.url().split("#")[0] + link);
  await again.waitForSelector("#go-on:not([hidden])");
  assert.match(await text(again, "go-on"), /^Go on with your answer from \d\d:\d\d$/);
  await click(again, "#mine");
  assert.match(await text(again, "mine-rows"), /: Read off the curve: at which travel/);
  await again.keyboard.press("Escape");
  await click(again, "#go-on");
  assert.equal(await again.inputValue("#guess"), "27 mm");
  assert.equal(await again.isVisible("#go-on"), false);
});

test("several exercises go in one link, are answered in turn and handed in together; the sheet is saved for a spreadsheet", async (t) => {
  const teacher = await open(t);
  await exercise(teacher, 2);
  await click(teacher, "#copy-lesson");
  await teacher.selectOption("#series-shelf", { index: 2 });
  await click(teacher, "#series-add");
  assert.equal(await teacher.locator("#series-rows li").count(), 2);
  await click(teacher, "#series-rows li:nth-child(1) button");
  await click(teacher, "#edit-copy");
  await teacher.waitForFunction(() => document.querySelector("#said").textContent === "Lesson link copied");
  const lesson = await teacher.evaluate(() => navigator.clipboard.readText());
  const student = await open(t, undefined, `#${lesson.split("#")[1]}`);
  assert.equal(await text(student, "series-place"), "Exercise 1 of 2. All are handed in together.");
  await student.fill("#by", "Ada");
  await student.fill("#guess", "28");
  await click(student, "#check");
  await click(student, "#next-exercise");
  assert.match(await text(student, "task"), /^Two wishbones/);
  assert.equal(await student.inputValue("#by"), "Ada");
  assert.equal(await student.evaluate(() => document.activeElement.id), "task");
  await type(student, "lower ball joint y", "735");
  await click(student, "#previous-exercise");
  assert.equal(await student.inputValue("#guess"), "28 mm");
  await click(student, "#hand-in");
  await student.waitForFunction(() => document.querySelector("#said").textContent === "Copied. Send it to your teacher.");
  const handed = await student.evaluate(() => navigator.clipboard.readText());
  await teacher.click("#lesson summary");
  await teacher.fill("#hand-ins", `${handed}\n${handed}`);
  await teacher.waitForFunction(() => document.querySelector("#marked").textContent === "Marked 2 of 2.");
  assert.match(await text(teacher, "class-overview"), /^Hand-ins: 1\. .*Number right: 1 of 1\..*Handed in again: line 2\.$/);
  await teacher.check("#decimal-comma");
  const [download] = await Promise.all([teacher.waitForEvent("download"), teacher.click("#save-marks")]);
  const saved = await readFile(await download.path(), "utf8");
  assert.match(saved, /^\ufeffline;name;exercise;/);
  assert.match(saved, /\r\n1;Ada;Read off the curve.*;28 mm;yes;.*-0,5/);
  await click(teacher, "#copy-marks");
  await teacher.waitForFunction(() => document.querySelector("#said").textContent === "Table copied");
  assert.match(await teacher.evaluate(() => navigator.clipboard.readText()), /^line\tname\texercise\t/);
});

test("each student's start is another", async (t) => {
  const page = await open(t);
  await exercise(page, 3);
  await click(page, "#copy-lesson");
  await type(page, "Vary each student’s start by up to ±", "10");
  await click(page, "#edit-try");
  const before = (await readings(page)).scrub_radius_mm;
  await page.fill("#vary-name", "7");
  await page.press("#vary-name", "Enter");
  await page.waitForFunction((before) => document.querySelector("tr[data-reading=scrub_radius_mm] .now").textContent !== before, before);
  assert.equal(await text(page, "variant"), "The start is that of “7”.");
  assert.equal(await page.isVisible("#vary-form"), false);
});

test("exercises print as worksheets with blanks, lines and a code, and a key for the teacher alone", async (t) => {
  const page = await open(t);
  await exercise(page, 2);
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  assert.equal(await page.locator("#print .print-task").count(), 1);
  assert.match(await text(page, "print"), /Your answer \(mm\): ____.*at the startmy value/s);
  assert.equal(await page.locator("#print .print-code svg").count(), 1);
  assert.doesNotMatch(await text(page, "print"), /28/, "no key for a student");
  await page.evaluate(() => window.dispatchEvent(new Event("afterprint")));
  await click(page, "#leave-lesson");
  // A browser without a printer says so by these events all the same.
  await page.evaluate(() => {
    window.print = () => window.dispatchEvent(new Event("beforeprint"));
  });
  await click(page, "#print-exercises");
  assert.equal(await page.locator("#print .print-task").count(), 14);
  assert.equal(await page.locator("#print .print-worksheet").count(), 7);
  assert.match(await page.locator("#print .print-sheet").last().textContent(), /Key, for the teacher.*28 ± 2 mm/s);
});

test("an exercise in another page has task, check and hand-in, and posts its result", async (t) => {
  const page = await open(t);
  const host = await page.context().newPage();
  await host.goto(page.url().split("#")[0] + "embedding.html");
  await host.waitForFunction(() => document.querySelector("#offset").textContent !== "–");
  await host.click("#teach");
  const frame = host.frames()[1];
  await frame.waitForSelector("#check");
  assert.match(await frame.textContent("#task"), /^Bring the scrub radius to 0 ± 1 mm\./);
  assert.equal(await frame.isVisible("#hand-in"), true);
  assert.equal(await frame.isVisible("#tabs"), false);
  await frame.locator("input[aria-label='lower ball joint y']").fill("743");
  await frame.locator("input[aria-label='lower ball joint y']").press("Enter");
  await frame.click("#check");
  await host.waitForFunction(() => document.querySelector("#result").textContent !== "–");
  assert.match(await host.textContent("#result"), /^(passed: Target reached\.|not yet: Scrub radius is .*; wanted: 0\.0 ± 1\.0 mm\.)$/);
});

test("with the system's own colours pressed buttons and slider handles are told apart", async (t) => {
  const page = await open(t);
  await page.emulateMedia({ forcedColors: "active" });
  await drawn(page);
  const ground = (selector) => page.$eval(selector, (element) => getComputedStyle(element).backgroundColor);
  assert.notEqual(await ground(".choice button[aria-pressed=true]"), await ground(".choice button[aria-pressed=false]"));
  const thumb = await page.$eval("#travel-slider, .track input", (element) => getComputedStyle(element).forcedColorAdjust);
  assert.equal(thumb, "none");
});
