// Stories of loads: cases, and parts that are added by a tick.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { test } from "node:test";
import { DESKTOP, addressed, box, drawn, quiet, readings, stories, type } from "../harness.mjs";

const { open } = stories();

test("loads: a case is chosen, its moments and forces follow the axle, and the link carries it", async (t) => {
  const page = await open(t);
  await page.click("#demos button:nth-child(1)");
  await page.click("#tab-loads");
  await page.selectOption("#case", { label: "Braking 0.8 g" });
  await drawn(page);
  const together = () => page.textContent("#shares tr:last-child td");
  assert.match(await page.textContent("#assumes"), /Brakes at the wheels/);
  const braking = await together();
  await page.selectOption("#case", { label: "Driving 0.4 g" });
  await drawn(page);
  const driving = parseFloat((await together()).replace("−", "-"));
  assert.notEqual(await together(), braking);
  // Half of 0.4 g of 1.5 t, times the drive lever of 63.9 mm, turns the wheel inward.
  assert.ok(driving < -170 && driving > -250, `${driving}`);
  const drive = parseFloat((await page.textContent("#shares tr:first-child td")).replace("−", "-"));
  assert.ok(Math.abs(drive + 0.5 * 0.4 * 1500 * 9.80665 * 0.06394) < 0.5, `${drive}`);
  assert.match(await page.textContent("#others"), /four arms: [+−][0-9.]+ N·m/);
  await page.$$eval("#loads details", (all) => all.forEach((one) => (one.open = true)));
  await type(page, "mass, kg", "3000");
  const heavier = parseFloat((await page.textContent("#shares tr:first-child td")).replace("−", "-"));
  assert.ok(Math.abs(heavier / drive - 2) < 0.01, "twice the mass");
  assert.equal((await page.$$("#rod-drawing svg")).length, 1);
  assert.match(await page.textContent("#rod-words"), /Side force \d+ N/);
  assert.equal((await page.$$("#all-cases tr")).length, 6);
  assert.ok((await page.$$("#swings tbody tr")).length >= 5);
  await page.click("#has-shaft");
  await drawn(page);
  assert.equal(await page.isVisible("tr[data-reading=half_shaft_plunge_mm]"), false);
  await addressed(page, /car=front_2650_3000_.*load=driving_steel/);
  await type(page, "mass, kg", "-5");
  assert.match(await page.textContent("#notice"), /mass is -5 kg/);
  assert.equal(await box(page, "mass, kg").inputValue(), "3000", "what is refused leaves what was");
  await page.click("#notice button");
  await page.selectOption("#case", { label: "none" });
  await drawn(page);
  assert.equal(await together(), "–");
});

test("a rocker, an anti-roll bar and stops are added by a tick, moved, taken away and passed on", async (t) => {
  const page = await open(t);
  await page.click("#tab-loads");
  await page.$$eval("#loads details", (all) => all.forEach((part) => (part.open = true)));
  const upright = (await readings(page)).motion_ratio;
  for (const part of ["#has-rocker", "#has-bar", "#has-stops"]) await page.click(part);
  await drawn(page);
  assert.notEqual((await readings(page)).motion_ratio, upright);
  await page.click("#tab-points");
  await type(page, "z of the drop link, lower joint", "190");
  const other = await open(t, DESKTOP, await addressed(page, /&rocker=.*&bar=lower.front_.*_190.*&stops=70_75/));
  assert.deepEqual(await readings(other), await readings(page));
  await page.click("#tab-loads");
  for (const part of ["#has-rocker", "#has-bar"]) await page.click(part);
  await addressed(page, /^#(?!.*(rocker|bar)=)/);
  await page.evaluate(() => document.querySelectorAll("#demos button")[0].click());
  await drawn(page);
  assert.equal(await page.isDisabled("#has-rocker"), true, "a spring along a strut has no rod");
});

test("opening Loads changes nothing; the chosen case is named on the drawing", async (t) => {
  const page = await open(t);
  await page.click("#tab-loads");
  await quiet(page);
  assert.equal(await page.isDisabled("#undo"), true);
  assert.match(await page.textContent("#assumes"), /Choose a load/);
  await page.selectOption("#case", { label: "Braking 0.8 g" });
  await page.click("#pass-on");
  const [download] = await Promise.all([page.waitForEvent("download"), page.click("#pass-svg")]);
  assert.match((await readFile(await download.path())).toString(), />Braking 0\.8 g</);
});
