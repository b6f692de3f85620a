// Stories of what gives way: an enthusiast and a rack, a workshop and a bush tightened in droop, a teacher's link, a phone.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { test } from "node:test";
import { PHONE, addressed, box, drawn, readings, stories, take, type, quiet } from "../harness.mjs";

const { open } = stories();
const AXLE = new URL("../../../demo-layouts/wishbone-over-arms.json", import.meta.url);
const STEER = "axle_steer_side_force_deg_per_kn";
const number = (text) => parseFloat(text.replace("−", "-"));
/** Opens the group of readings of what gives way, and reads the axle's steer. */
const steer = async (page) => {
  const group = page.locator("#group-compliance th[scope=rowgroup] button");
  if ((await group.getAttribute("aria-expanded")) !== "true") await group.click();
  await drawn(page);
  return number((await readings(page))[STEER]);
};
const felt = (page) => page.textContent("#gives-way");

test("an enthusiast puts the rack from the body onto the subframe and reads degrees per kN, side by side", async (t) => {
  const page = await open(t, undefined, "#v=3&of=wishbone-over-arms.1&end=1");
  await page.click("#tab-compliance");
  await drawn(page);
  assert.match(await felt(page), /^Nothing in this axle gives way yet\.$/);
  await page.check("#usual-bushes");
  await page.check("#has-subframe");
  await page.click("#rack-on-body");
  await drawn(page);
  assert.match(await felt(page), /by 0\.\d\d° out of the bend: it gives way; where it is much, it is felt as vague/);
  const body = number((await felt(page)).match(/0\.\d\d/)[0]);
  await page.click("#compare-rack");
  await drawn(page);
  await page.click("#tab-curves");
  await drawn(page);
  assert.match(await page.textContent("#plots"), /steer/i, "the reading is pinned");
  await page.click("#tab-compliance");
  assert.ok(Math.abs((await steer(page)) - body) < 0.006, "two digits of the reading");
  await page.click("#rack-on-subframe");
  await page.click("#mounts-bolted");
  await drawn(page);
  const bolted = number((await felt(page)).match(/0\.\d\d/)[0]);
  assert.ok(bolted < 0.7 * body, `${bolted} after ${body}`);
  // What can't be is said, and nothing is taken.
  await type(page, "lower front, radial, N/mm", "-5");
  assert.match(await page.textContent("#notice"), /-5 N\/mm; it must be between/);
  assert.equal(await box(page, "lower front, radial, N/mm").inputValue(), "9000");
  await page.click('button[aria-label="remove mount 2"]');
  await drawn(page);
  assert.match(await page.textContent("#notice"), /needs two at least/);
  // An emptied box is rigid again; undo brings it back.
  await type(page, "track rod, along, N/mm", "");
  assert.equal(await page.isChecked("#usual-bushes"), false);
  await page.click("#undo");
  await drawn(page);
  assert.equal(await box(page, "track rod, along, N/mm").inputValue(), "25000");
  // The link has it all; an older one had bushes and frame, too.
  await quiet(page);
  const hash = await addressed(page, /bush=.*frame=/);
  const other = await open(t, undefined, hash);
  await other.click("#tab-compliance");
  await drawn(other);
  assert.equal(await felt(other), await felt(page));
});

test("a workshop keeps the rack on the body and on the subframe as variants: degrees per kN side by side, as the kernel has them", async (t) => {
  const page = await open(t);
  const layout = JSON.parse(await readFile(AXLE, "utf8"));
  layout.stiffness = { "lower.front": { radial: 9000, axial: 900 }, "lower.rear": { radial: 1500, axial: 500 }, rack: { along: 8000 } };
  const stiffness = [3000, 4000, 2500];
  layout.subframe = { mounts: [{ at: [180, 400, 250], stiffness }, { at: [-380, 420, 260], stiffness }] };
  layout.rack.mount = "body";
  await page.setInputFiles("#file", { name: "soft.json", mimeType: "application/json", buffer: Buffer.from(JSON.stringify(layout)) });
  await page.waitForFunction(() => document.querySelector("#now").textContent);
  const told = { [STEER]: "Axle steer, side force", toe_side_force_deg_per_kn: "Toe, side force", camber_side_force_deg_per_kn: "Camber, side force" };
  await steer(page);
  for (const column of Object.keys(told)) await page.click(`tr[data-reading=${column}] button`);
  const keep = async (name) => {
    await page.evaluate(() => document.querySelector("#compare").click());
    await page.fill("#variant-name", name);
    await page.press("#variant-name", "Enter");
    await page.keyboard.press("Escape");
    await drawn(page);
  };
  await keep("rack on the body");
  await page.click("#tab-compliance");
  await page.click("#rack-on-subframe");
  await keep("rack on the subframe");
  await page.evaluate(() => document.querySelector("#compare").click());
  await drawn(page);
  const [heads, , ...variants] = await page.$$eval("#variants tr", (rows) => rows.map((row) => [...row.children].map((cell) => cell.textContent)));
  assert.deepEqual(variants.map(([name]) => name), ["rack on the body", "rack on the subframe"]);
  const mounts = ["body", "subframe"];
  const solved = await page.evaluate(([layout, mounts]) => mounts.map((mount) => ghostpin.solve({ ...layout, rack: { ...layout.rack, mount } })), [layout, mounts]);
  for (const [column, name] of Object.entries(told)) {
    const at = heads.indexOf(`${name}, °/kN`);
    assert.ok(at > 0, `${name}: ${heads}`);
    for (const [i, variant] of variants.entries()) {
      assert.ok(Math.abs(number(variant[at]) - solved[i][column]) < 0.0051, `${name}: ${variant[at]} is ${solved[i][column]}`);
    }
  }
  assert.ok(solved[0][STEER] > solved[1][STEER] + 0.05, "what is told differs");
});

test("a mount is reached by Tab and moved by arrow keys, and what hands feel is said", async (t) => {
  const page = await open(t, undefined, "#v=3&of=wishbone-over-arms.1&end=1");
  await page.click("#tab-compliance");
  await page.check("#usual-bushes");
  await page.check("#has-subframe");
  const at = async () => number(await box(page, "mount 2, y, mm").inputValue());
  const before = await at();
  await take(page, "mount 2");
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Shift+ArrowRight");
  await page.keyboard.press("Alt+ArrowLeft");
  await drawn(page);
  assert.ok(Math.abs((await at()) - before - 10.9) < 1e-6, `${before} and then ${await at()}`);
  assert.match(await page.textContent("#said"), /^mount 2: x .*, y .*, z .*; .*steer.* −?0\.\d\d/i);
  for (let i = 0; i < 3; i++) await page.keyboard.press("Control+z");
  await drawn(page);
  assert.equal(await at(), before);
  // Behind the last mount Tab leaves the drawing.
  await page.keyboard.press("Tab");
  assert.notEqual(await page.evaluate(() => document.activeElement.id), "drawing");
});

test("a workshop sees what a bush tightened in droop does, and takes it back", async (t) => {
  const page = await open(t);
  await page.click("#tab-compliance");
  await page.check("#usual-bushes");
  await page.click("#compliance summary:has-text('tightened in droop')");
  await drawn(page);
  assert.match(await page.textContent("#twist-words"), /The car stands where it does without these bushes/);
  await type(page, "lower front, tightened at travel, mm", "-60");
  const cells = await page.$$eval("#tightened-rows tr:first-child td", (cells) => cells.slice(1).map((cell) => cell.textContent));
  assert.ok(number(cells[0]) > 3, `twisted ${cells[0]}`);
  assert.ok(Math.abs(number(cells[1]) - 1.5 * number(cells[0])) < 0.1, "1.5 N·m/°");
  assert.match(await page.textContent("#twist-words"), /the car stands \d\.\d mm higher/);
  await type(page, "allowed twist, °", "3");
  assert.match(await page.textContent("#twist-words"), /Twisted by more than 3° over this travel: lower front/);
  assert.match(await page.textContent("#compliance"), /finally tightened at ride height.*maker’s data/s);
  await type(page, "lower front, tightened at travel, mm", "");
  assert.match(await page.textContent("#twist-words"), /The car stands where it does/);
});

test("a teacher hands out a prepared pair; a load case shows the axle giving way, and Loads tells by how much", async (t) => {
  const page = await open(t);
  await page.click("#tab-compliance");
  await page.click("#compliance summary:has-text('Examples')");
  const links = await page.$$eval("#prepared-racks a", (links) => links.map((link) => link.getAttribute("href")));
  assert.equal(links.length, 4);
  const steers = [];
  for (const link of links) {
    const student = await open(t, undefined, link);
    steers.push(await steer(student));
    await student.click("#tab-loads");
    await student.click("#given summary");
    await drawn(student);
    const rows = await student.$$eval("#given-rows tbody tr", (rows) => rows.map((row) => [...row.cells].map((cell) => cell.textContent)));
    assert.match(rows[0].join(), /Standing,0\.00°/i);
    assert.ok(rows.some((row) => Math.abs(number(row[1])) > 0.02), "toe gives way");
  }
  const [ahead, aheadBolted, behind, behindBolted] = steers;
  assert.ok(ahead > 0 && behind < 0 && Math.abs(aheadBolted) < 0.6 * ahead && Math.abs(behindBolted) < 0.6 * -behind, `${steers}`);
});

test("on a phone bushes are ticked and typed by a thumb, and nothing is wider than the page", async (t) => {
  const page = await open(t, PHONE);
  await page.tap("#tab-compliance");
  await page.tap("#usual-bushes");
  await page.tap("#has-subframe");
  await drawn(page);
  assert.match(await felt(page), /the steering wheel held still/);
  await type(page, "mount 1, stiffness along y, N/mm", "800");
  assert.equal(await box(page, "mount 1, stiffness along y, N/mm").inputValue(), "800");
  const hidden = await page.$$eval("#compliance .scroll", (all) => all.filter((part) => part.scrollWidth > part.clientWidth).map((part) => part.ariaLabel));
  assert.deepEqual(hidden, [], "no column is cut off");
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  assert.ok(wide <= 0, `${wide} px too wide`);
});

test("no unit breaks across lines, however narrow the text", async (t) => {
  const page = await open(t);
  await page.click("#tab-loads");
  await page.selectOption("#case", { index: 3 });
  await page.click("#tab-compliance");
  await page.check("#usual-bushes");
  for (const tab of ["loads", "compliance"]) {
    await page.click(`#tab-${tab}`);
    await drawn(page);
    const [seen, broken] = await page.evaluate((tab) => {
      const texts = document.createTreeWalker(document.getElementById(tab), NodeFilter.SHOW_TEXT);
      const [seen, broken] = [[], []];
      while (texts.nextNode()) {
        const node = texts.currentNode;
        const paragraph = node.parentElement.closest("p");
        for (const { 0: unit, index } of node.data.matchAll(/N·m\/\u2060?°/g)) {
          if (!paragraph?.checkVisibility()) continue;
          seen.push(unit);
          const range = document.createRange();
          range.setStart(node, index);
          range.setEnd(node, index + unit.length);
          for (let width = 60; width <= 400; width += 2) {
            paragraph.style.width = `${width}px`;
            if (new Set([...range.getClientRects()].map((rect) => Math.round(rect.top))).size > 1) broken.push(`${unit} at ${width} px`);
          }
          paragraph.style.width = "";
        }
      }
      return [seen.length, broken];
    }, tab);
    assert.ok(seen > 0, `${tab} has such a unit`);
    assert.deepEqual(broken, [], tab);
  }
});
