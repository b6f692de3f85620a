// Stories of the column of readings: what it shows, in which units, how it explains itself.
import assert from "node:assert/strict";
import { test } from "node:test";
import { DESKTOP, drawn, readings, stories, type } from "../harness.mjs";

const { open } = stories();

test("an unsteered axle has no rack, and its steering readings are dashes", async (t) => {
  const page = await open(t);
  await page.click("#demos button:nth-child(6)");
  await drawn(page);
  assert.equal(await page.isVisible("#rack"), false);
  assert.equal((await readings(page)).caster_deg, "–");
});

test("the reader chooses units, the link carries them, the axle stays", async (t) => {
  const page = await open(t);
  for (const id of ["length", "angle", "toe"]) await page.click(`#unit-${id}`);
  await drawn(page);
  const shown = await readings(page);
  assert.deepEqual([shown.kingpin_offset_wheel_centre_mm, shown.camber_deg, shown.toe_deg], ["0.388", "−30.0′", "12.0′"]);
  await type(page, "Travel", "1");
  const other = await open(t, DESKTOP, await page.waitForFunction(() => location.hash.includes("travel=25.4") && location.hash).then((hash) => hash.jsonValue()));
  assert.deepEqual(await readings(other), await readings(page));
});

test("a reading explains itself to pointer and keyboard, Escape puts it away", async (t) => {
  const page = await open(t);
  await page.hover("tr[data-reading=scrub_radius_mm]");
  assert.match(await page.textContent("#explanation"), /Scrub radius.*Positive: the axis meets the road inboard.*Lenkrollradius.*Barton/);
  await page.focus("tr[data-reading=caster_deg] button");
  assert.match(await page.textContent("#explanation"), /Nachlaufwinkel/);
  await page.keyboard.press("Escape");
  assert.equal(await page.isVisible("#explanation"), false);
});

test("no value runs over its name or out of its column", async (t) => {
  for (const width of [1366, 1440]) {
    const page = await open(t, { viewport: { width, height: 900 } });
    for (const demo of [1, 2, 4, 6]) {
      await page.click(`#demos button:nth-child(${demo})`);
      for (const travel of ["0", "-58"]) {
        await type(page, "Travel", travel);
        const over = await page.$$eval("tr[data-reading]", (rows) => rows.filter((row) => row.offsetParent).flatMap((row) => {
          const wide = [...row.querySelectorAll("td:not(.spark)")].filter((cell) => cell.scrollWidth > cell.clientWidth);
          const name = document.createRange();
          name.selectNodeContents(row.querySelector("th button"));
          const runs = name.getBoundingClientRect().right > row.querySelector("td.now").getBoundingClientRect().left + 1;
          return wide.map((cell) => `${row.dataset.reading}: ${cell.textContent}`).concat(runs ? [row.dataset.reading] : []);
        }));
        assert.deepEqual(over, [], `${width} px, demo ${demo}, travel ${travel}`);
      }
    }
    assert.ok(await page.evaluate(() => [...document.querySelectorAll("tr[data-reading]")].every((row) => row.offsetHeight <= 27)));
  }
});

test("what a rig finds and what gives way open with a press, and a rigid layout says so", async (t) => {
  const page = await open(t);
  await page.click("#demos button:nth-child(5)");
  await drawn(page);
  const [rig, soft] = ["rig", "compliance"].map((group) => `#group-${group} th[scope=rowgroup] button`);
  assert.equal(await page.isVisible("tr[data-reading=caster_sweep_deg]"), false);
  await page.focus(rig);
  await page.keyboard.press("Enter");
  await page.click(soft);
  await drawn(page);
  const shown = await readings(page);
  assert.deepEqual([shown.caster_deg, shown.caster_sweep_deg].map((text) => parseFloat(text).toFixed(1)), ["4.2", "3.3"]);
  assert.ok(await page.isVisible("text=Nothing in this layout gives way."));
  assert.equal(await page.isVisible("tr[data-reading=toe_side_force_deg_per_kn]"), false);
  assert.equal(await page.getAttribute(rig, "aria-expanded"), "true");
  await page.click("tr[data-reading=caster_sweep_deg] button");
  await page.waitForSelector("#plots figcaption:has-text('Caster by sweep')");
  await page.click(rig);
  await drawn(page);
  assert.equal(await page.isVisible("tr[data-reading=caster_sweep_deg]"), false);
});
