// Stories of the page as programs for access meet it.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { test } from "node:test";
import { DESKTOP, PHONE, addressed, drawn, stories, take } from "../harness.mjs";

const { open } = stories();

for (const [name, options] of [["desktop", DESKTOP], ["phone", PHONE]]) {
  for (const colorScheme of ["light", "dark"]) {
    test(`axe finds nothing on the ${name}, ${colorScheme}`, async (t) => {
      const page = await open(t, { ...options, colorScheme });
      await page.click(name === "phone" ? "#tab-loads" : "#tab-points");
      const source = await readFile(new URL("../node_modules/axe-core/axe.min.js", import.meta.url), "utf8");
      // By way of the debugger, past the page's own policy.
      await page.evaluate(`${source}; undefined`);
      const check = async () => {
        const { violations, passes } = await page.evaluate(() => axe.run());
        assert.ok(passes.length > 20);
        assert.deepEqual(violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target).join(" ")}`), []);
      };
      await check();
      await page.click("#tab-measure");
      await page.fill("#tapes", "1 A 300");
      await page.locator("#tapes").blur();
      await page.waitForSelector("#tape-readings td");
      await check();
    });
  }
}

test("the joints’ hidden table says the unit it is in", async (t) => {
  const page = await open(t);
  await page.click("#unit-length");
  await page.waitForFunction(() => document.querySelector("#joints caption").textContent.endsWith(", in"));
});

test("an exercise is read aloud in the order in which it is done, and every step is spoken", async (t) => {
  const teacher = await open(t);
  await teacher.click("#tab-lesson");
  await teacher.click("#exercises li:nth-child(1) button");
  const page = await open(t, DESKTOP, await addressed(teacher, /task=/));
  assert.equal(await page.evaluate(() => document.activeElement.id), "task");
  const read = async (selector) => (await page.locator(selector).ariaSnapshot()).split("\n").map((line) => line.trim());
  const heard = (await read("#lesson")).join("\n");
  const order = [
    /paragraph: .*The strut’s top mount will be moved 20 mm inward/, /paragraph: .*You may move: strut top mount \(y\)\./, /textbox "strut top mount y"/,
    /textbox "Your prediction: change of kingpin offset at wheel centre \(mm\)"/, /textbox "Your explanation"/, /button "Check"/, /status/, /textbox "Your name"/,
    /button "Copy link to hand in"/, /Before you hand in: press Check and type your name\./, /button "Next exercise"/,
  ];
  const places = order.map((what) => heard.search(what));
  assert.ok(places.every((place, at) => place >= 0 && (at === 0 || place > places[at - 1])), `${places}\n${heard}`);
  assert.doesNotMatch(heard, /^- paragraph$/m, "nobody stops at an empty line");
  // Files are chosen by their buttons; what the browser needs for that is no button of its own.
  assert.deepEqual((await read("header")).filter((line) => /Layout file/.test(line)), []);
  const said = () => page.textContent("#said");
  await page.fill("#guess", "3.4");
  await page.press("#guess", "Enter");
  await page.focus("#check");
  await page.keyboard.press("Enter");
  await drawn(page);
  assert.match(await page.textContent("#verdict"), /Nothing has been moved yet/);
  await take(page, "strut top mount");
  assert.match(await said(), /^strut top mount: x .*, y 562\.0, z .*; kingpin offset at wheel centre 66\.0; kingpin inclination/);
  await page.keyboard.press("ArrowUp");
  assert.match(await said(), /^Not moved\. strut top mount: x .*, y 562\.0/);
  for (const key of ["Shift+ArrowLeft", "Shift+ArrowLeft"]) await page.keyboard.press(key);
  await drawn(page);
  assert.match(await said(), /^strut top mount: x .*, y 542\.0, .*; kingpin offset at wheel centre 69\.4/);
  assert.match((await read("#verdict")).join(" "), /Target reached\. Prediction: right sign, right size\. .* The written answer is missing\./);
  await page.fill("#own-words", "The axis turns about the ball joint.");
  await page.fill("#by", "Student 1");
  await page.focus("#hand-in");
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => /^Copied\. Send it/.test(document.querySelector("#said").textContent));
});

test("where more contrast is wanted, lines are dark, and what can’t be pressed still looks it", async (t) => {
  const page = await open(t, { ...DESKTOP, contrast: "more" });
  const ink = (selector) => page.$eval(selector, (element) => getComputedStyle(element).color);
  assert.equal(await ink(".readings td.rest"), await ink(".readings td.now"));
  assert.notEqual(await ink("#redo"), await ink("#back-to-start"));
});

test("with the system’s own colours nothing is told apart by a ground alone", async (t) => {
  const page = await open(t, { ...DESKTOP, forcedColors: "active" });
  const look = (selector) => page.$eval(selector, (element) => {
    const { color, backgroundColor, borderBottomWidth, borderBottomColor, fontWeight } = getComputedStyle(element);
    return [color, backgroundColor, borderBottomWidth, borderBottomColor, fontWeight].join(" ");
  });
  for (const [one, other] of [
    ["#tab-curves", "#tab-points"], ["#over-travel", "#over-steering"], ["#one-wheel", "#whole-axle"], ["#hands-design", "#hands-build"], ["#undo", "#back-to-start"],
    ["#demos button[aria-pressed=true]", "#demos button[aria-pressed=false]"],
  ]) {
    assert.notEqual(await look(one), await look(other), `${one} ${other}`);
  }
  const unread = await page.$$eval("button:is([aria-pressed=true], [aria-selected=true])", (all) => all.map((element) => [element.textContent, getComputedStyle(element)]).filter(([, style]) => style.color === style.backgroundColor).map(([text]) => text));
  assert.deepEqual(unread, [], "letters on a ground of their own colour");
  assert.notEqual(await page.$eval("#tab-points", (tab) => getComputedStyle(tab).borderBottomColor), await page.$eval("#tab-points", (tab) => getComputedStyle(tab).color), "only the chosen tab is underlined");
  const dot = (pressed) => page.$eval(`.readings th button[aria-pressed=${pressed}]`, (element) => getComputedStyle(element, "::before").backgroundColor);
  assert.notEqual(await dot("true"), await dot("false"), "pinned or not");
});
