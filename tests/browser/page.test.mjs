// Stories told to the built page: what the three visitors do.
import assert from "node:assert/strict";
import { readFile, rename } from "node:fs/promises";
import { test } from "node:test";
import { DESKTOP, PHONE, box, drag, drawn, readings, stories, take, type } from "./harness.mjs";

const open = stories();
const STRUT = new URL("../../demo-layouts/strut.json", import.meta.url);

test("a first visit shows the four-arm axle at rest", async (t) => {
  const page = await open(t);
  const shown = await readings(page);
  assert.equal(shown.kingpin_offset_wheel_centre_mm, "9.9");
  assert.equal(shown.camber_deg, "−0.50°");
  assert.equal(await page.getAttribute("#demos button:nth-child(5)", "aria-pressed"), "true");
  assert.equal(await page.isVisible("#fault"), false);
  assert.equal((await page.$$("#plots figure")).length, 6);
});

test("a dragged joint follows the hand, everything else follows the joint, and one undo takes it back", async (t) => {
  const page = await open(t);
  const before = await readings(page);
  const at = await take(page, "upper front, outer joint");
  const name = "y of the upper front, outer joint";
  await page.click("#tab-points");
  const y = Number(await box(page, name).inputValue());
  await drag(page, at, [20, 0]);
  const after = await readings(page);
  const moved = Number(await box(page, name).inputValue()) - y;
  assert.ok(moved > 20 && moved < 80, `${moved} mm`);
  assert.notEqual(after.kingpin_inclination_deg, before.kingpin_inclination_deg);
  const [x] = (await page.getAttribute("#drawing", "data-joint")).split(" ").map(Number);
  const left = (await page.locator("#drawing").boundingBox()).x;
  assert.ok(Math.abs(left + x - at[0] - 20) < 1, "the joint is under the hand");
  await page.click("#undo");
  await drawn(page);
  assert.deepEqual(await readings(page), before);
  assert.equal(await page.isDisabled("#undo"), true);
});

test("the wheel is taken for travel and the rack for steering", async (t) => {
  const page = await open(t);
  const [x, y] = await take(page, "track rod, outer joint");
  await page.keyboard.press("Escape");
  await drag(page, [x + 30, y - 60], [0, -15]);
  const travel = Number((await box(page, "Travel").inputValue()).replace("−", "-"));
  assert.ok(travel > 10, `${travel}`);
  await page.click("#at-rest");
  const inner = await take(page, "track rod, inner joint");
  await page.keyboard.press("Escape");
  await drag(page, [inner[0] - 100, inner[1]], [10, 0]);
  const rack = Number((await box(page, "Rack").inputValue()).replace("−", "-"));
  assert.ok(rack > 10, `${rack}`);
  assert.ok((await readings(page)).toe_deg.startsWith("8") || rack < 75);
});

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

test("a copied link opens in another profile and shows the same", async (t) => {
  const page = await open(t);
  await page.click("#demos button:nth-child(3)");
  await type(page, "Travel", "25");
  await type(page, "Rack", "-12.5");
  await drag(page, await take(page, "strut foot"), [-7, 4]);
  await page.click("tr[data-reading=motion_ratio] button");
  await page.fill("#name", "Ours & <b>theirs</b>");
  await page.press("#name", "Enter");
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

test("an impossible drag stays where the hand is, says who can't reach, and undo brings all back", async (t) => {
  const page = await open(t);
  await type(page, "Travel", "60");
  const before = await readings(page);
  const outer = await take(page, "track rod, outer joint");
  await page.keyboard.press("Escape");
  const inner = await take(page, "track rod, inner joint");
  // A track rod of two centimetres can't follow six of travel.
  await drag(page, inner, [outer[0] - inner[0] - 10, outer[1] - inner[1] + 30]);
  assert.match(await page.textContent("#fault"), /mm too (short|long)|no longer locate/);
  assert.match(await page.getAttribute("#readings", "class"), /stale/);
  const kept = await readings(page);
  assert.ok(Object.values(kept).every((text) => !/NaN|inf/.test(text)));
  await page.click("#fault button");
  await drawn(page);
  assert.equal(await page.isVisible("#fault"), false);
  assert.deepEqual(await readings(page), before);
});

test("layout files open, come back, and bad ones are refused in a sentence", async (t) => {
  const page = await open(t);
  const strut = await readFile(STRUT);
  const pick = async (name, buffer) => {
    await page.setInputFiles("#file", { name, mimeType: "application/json", buffer });
    await page.waitForTimeout(150);
  };
  await pick("strut.json", strut);
  assert.equal((await readings(page)).kingpin_offset_wheel_centre_mm, "66.0");
  const [download] = await Promise.all([page.waitForEvent("download"), page.click("#save")]);
  const saved = JSON.parse(await readFile(await download.path(), "utf8"));
  assert.deepEqual(saved, JSON.parse(strut));
  const before = await readings(page);
  const broken = JSON.parse(strut);
  broken.track_rod.outer = broken.track_rod.inner;
  broken.wheel.loaded_radius = -1;
  for (const [name, text, words] of [
    ["huge.json", Buffer.alloc(45_000_000, 32), ["45000 kB"]],
    ["none.json", Buffer.from("{"), ["not a layout file"]],
    ["broken.json", Buffer.from(JSON.stringify(broken)), ["track rod are 0.000 mm apart", "loaded radius is -1 mm"]],
  ]) {
    await pick(name, text);
    const notice = await page.textContent("#notice");
    for (const word of words) assert.ok(notice.includes(word), `${name}: ${notice}`);
  }
  assert.deepEqual(await readings(page), before);
});

test("an unsteered axle has no rack, and its steering readings are dashes", async (t) => {
  const page = await open(t);
  await page.click("#demos button:nth-child(6)");
  await drawn(page);
  assert.equal(await page.isVisible("#rack"), false);
  assert.equal((await readings(page)).caster_deg, "–");
});

test("scripts solve and sweep through the page", async (t) => {
  const page = await open(t);
  const layout = JSON.parse(await readFile(STRUT, "utf8"));
  const [state, rows, error] = await page.evaluate((layout) => {
    const state = ghostpin.solve(layout, { travel: 25, rack: 12 });
    const rows = ghostpin.sweep(layout, { travel: { from: -20, to: 20, step: 10 } });
    try {
      ghostpin.solve(layout, { travel: -400 });
    } catch (error) {
      return [state, rows, error.message];
    }
  }, layout);
  assert.ok(Math.abs(state.kingpin_inclination_deg - 14.65) < 0.01);
  assert.deepEqual(rows.map((row) => row.travel_mm), [-20, -10, 0, 10, 20]);
  assert.match(error, /misses its top mount by .* mm\. The nearest position that works is travel/);
});

test("keys do the whole job: walk the joints, nudge, undo", async (t) => {
  const page = await open(t);
  const before = await readings(page);
  await take(page, "upper front, outer joint");
  await page.keyboard.press("Shift+ArrowRight");
  await drawn(page);
  assert.match(await page.textContent("#said"), /y 680\.0.*kingpin offset at wheel centre/);
  assert.notDeepEqual(await readings(page), before);
  await page.keyboard.press("Control+z");
  await drawn(page);
  assert.deepEqual(await readings(page), before);
});

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
  await page.waitForTimeout(700);
  assert.match(page.url(), /car=front_2650_3000_.*load=driving_steel/);
  await type(page, "mass, kg", "-5");
  assert.match(await page.textContent("#notice"), /mass is -5 kg/);
  assert.equal(await box(page, "mass, kg").inputValue(), "3000", "what is refused leaves what was");
  await page.click("#notice button");
  await page.selectOption("#case", { label: "none" });
  await drawn(page);
  assert.equal(await together(), "–");
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
  await page.waitForTimeout(700);
  assert.match(page.url(), /&rocker=.*&bar=lower.front_.*&stops=70_75/);
  const other = await open(t, DESKTOP, `#${page.url().split("#")[1]}`);
  assert.deepEqual(await readings(other), await readings(page));
  await page.click("#tab-loads");
  for (const part of ["#has-rocker", "#has-bar"]) await page.click(part);
  await page.waitForTimeout(700);
  assert.doesNotMatch(page.url(), /rocker=|bar=/);
  await page.evaluate(() => document.querySelectorAll("#demos button")[0].click());
  await drawn(page);
  assert.equal(await page.isDisabled("#has-rocker"), true, "a spring along a strut has no rod");
});

test("the whole axle: both wheels keep the road in roll, and curves run over roll", async (t) => {
  const page = await open(t);
  assert.equal(await page.isVisible("#group-axle"), false);
  await page.click("#whole-axle");
  await type(page, "Roll", "3");
  const shown = await readings(page);
  assert.equal(shown.roll_deg, "3.00°");
  assert.ok(parseFloat(shown.travel_left_mm.replace("−", "-")) < -30 && parseFloat(shown.travel_right_mm) > 30);
  await page.click("tr[data-reading=axle_steer_deg] button");
  await page.click("#over-roll");
  await drawn(page);
  const plot = await page.locator("#plots .plot").last().boundingBox();
  await page.mouse.click(plot.x + plot.width * 0.25, plot.y + plot.height / 2);
  await drawn(page);
  assert.ok((await box(page, "Roll").inputValue()).startsWith("−"), "a click in a curve rolls the body");
  await page.focus("#roll-handle");
  await page.keyboard.press("ArrowRight");
  await page.waitForTimeout(700);
  assert.match(page.url(), /over=roll.*axle=both_-?[0-9.]+&/);
  const other = await open(t, PHONE, `#${page.url().split("#")[1]}`);
  assert.deepEqual(await readings(other), await readings(page));
  await type(page, "Braking, g", "0,8");
  const braked = await readings(page);
  assert.deepEqual([braked.roll_deg, braked.dive_braking_g], ["0.00°", "0.80"]);
  assert.ok(parseFloat(braked.travel_left_mm) > 5, "braking dives");
  await page.click("#one-wheel");
  await drawn(page);
  assert.equal(await page.isVisible("#group-axle"), false);
});

test("two axles are compared: one link, one drawing, readings with their difference; three print side by side", async (t) => {
  const page = await open(t);
  await page.keyboard.press("c");
  await page.click("#compare-demos button:nth-child(1)");
  await drawn(page);
  const cells = await page.$$eval("tr[data-reading=kingpin_offset_wheel_centre_mm] td", (all) => all.map((td) => td.textContent));
  assert.deepEqual(cells.slice(0, 2), ["9.9", "66.0"]);
  assert.match(cells[2], /^−56\.[0-2]$/);
  assert.deepEqual(await page.$$eval("#readings thead th", (all) => all.map((th) => th.textContent)), ["Reading", "now", "compared", "difference", "at rest", "curve"]);
  await page.waitForTimeout(700);
  const other = await open(t, PHONE, `#${page.url().split("#")[1]}`);
  assert.equal(await other.isVisible("#notice"), false);
  assert.equal((await other.$$eval("tr[data-reading=kingpin_offset_wheel_centre_mm] td", (all) => all.map((td) => td.textContent)))[1], "66.0");
  await page.click("#tab-loads");
  await page.selectOption("#case", { label: "Braking 0.8 g" });
  await drawn(page);
  assert.match(await page.textContent("#others"), /^compared axle: [+−][0-9.]+ N·m, strut: /);
  await page.click("#compare");
  await page.click("#compare-swap");
  await drawn(page);
  assert.equal((await readings(page)).kingpin_offset_wheel_centre_mm, "66.0");
  await page.evaluate(() => { window.print = () => { window.dispatchEvent(new Event("beforeprint")); window.printed = document.querySelector("#print").textContent; window.dispatchEvent(new Event("afterprint")); }; });
  await page.click("#compare");
  await page.click("#print-three");
  assert.match(await page.evaluate(() => window.printed), /strut and wishbone.*66\.0.*two wishbones.*four arms.*9\.9.*not a design approval/s);
});

test("what was done last is there at the next visit, and somebody’s link writes over none of it", async (t) => {
  const page = await open(t);
  await type(page, "Travel", "17");
  await page.waitForTimeout(700);
  const context = page.context();
  const again = await context.newPage();
  const address = page.url().split("#")[0];
  await again.goto(address);
  await again.waitForSelector("tr[data-reading] td.now:not(:empty)");
  assert.equal(await box(again, "Travel").inputValue(), "+17.0");
  const linked = await context.newPage();
  await linked.goto(`${address}#${page.url().split("#")[1].replace("travel=17", "travel=-9")}`);
  await linked.waitForSelector("tr[data-reading] td.now:not(:empty)");
  await type(linked, "Rack", "5");
  await linked.waitForTimeout(700);
  await linked.click("#mine");
  assert.equal((await linked.$$("#mine-rows tr")).length, 2);
  await linked.click("#mine-rows tr:nth-child(2) button:first-of-type");
  await drawn(linked);
  assert.equal(await box(linked, "Travel").inputValue(), "+17.0");
  const blocked = await open(t);
  await blocked.evaluate(() => { Storage.prototype.setItem = () => { throw new Error("full"); }; });
  await type(blocked, "Travel", "3");
  await blocked.waitForTimeout(700);
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
  await page.waitForTimeout(700);
  for (let rack = 10; rack < 24; rack++) {
    await foreign(rack);
    await page.waitForFunction((rack) => document.querySelector('input[aria-label="Rack"]').value === `+${rack}.0`, rack);
  }
  await page.waitForTimeout(700);
  assert.equal((await kept()).trim().split("\n").length, 1, "what was only opened is not kept");
  assert.match(await kept(), /travel=17&rack=0&/);
  await type(page, "Travel", "21");
  await page.click("#story");
  await page.click("#story-tell");
  await page.waitForTimeout(900);
  assert.match(page.url(), /travel=21&rack=23/, "a story passes over the address");
  await page.reload();
  await page.waitForSelector("tr[data-reading] td.now:not(:empty)");
  assert.equal(await box(page, "Travel").inputValue(), "+21.0");
  assert.match(await kept(), /travel=21&rack=23&[^]*travel=17&rack=0&/);
  await type(page, "Travel", "33");
  await page.reload();
  await page.waitForSelector("tr[data-reading] td.now:not(:empty)");
  assert.match(await kept(), /travel=33&rack=23&/, "an edit a moment before the end");
});

test("scripts: an object that holds itself or has no end leaves the page as it was", async (t) => {
  const page = await open(t);
  const said = await page.evaluate(() => {
    const loop = {};
    loop.loop = loop;
    let deep = {};
    for (let i = 0; i < 100_000; i++) deep = { deep };
    const tell = (act) => { try { act(); return "nothing"; } catch (error) { return error.message; } };
    return [
      tell(() => ghostpin.solve(loop)), tell(() => ghostpin.solve(deep)), tell(() => ghostpin.solve({}, { travel: loop })),
      tell(() => ghostpin.solve({}, [1])), tell(() => ghostpin.solve(undefined)), tell(() => ghostpin.solve({}, { bump: 1 })),
    ];
  });
  for (const sentence of said) assert.match(sentence, /^(This is not a layout|This file is 900 kB)/, `${said}`);
  await type(page, "Travel", "12");
  assert.equal(await box(page, "Travel").inputValue(), "+12.0");
});

test("nothing is wider than a screen of 320 px", async (t) => {
  const page = await open(t, { viewport: { width: 320, height: 640 }, hasTouch: true, isMobile: true });
  for (const pane of ["curves", "points", "loads", "lesson"]) {
    await page.click(`#tab-${pane}`);
    await page.$$eval("details", (all) => all.forEach((part) => (part.open = true)));
    await drawn(page);
    assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= 320, pane);
  }
  for (const dialog of ["help", "compare", "pass-on", "mine", "story"]) {
    await page.click(`#${dialog}`);
    const [inside, wide] = await page.$eval("dialog[open]", (open) => [open.scrollWidth, open.clientWidth]);
    assert.ok(inside <= wide, `${dialog}: ${inside} in ${wide}`);
    await page.keyboard.press("Escape");
  }
});

test("embedded: little chrome, no keys, can be scrolled past, speaks with its host", async (t) => {
  const page = await open(t, { viewport: { width: 320, height: 640 }, hasTouch: true, isMobile: true }, "#v=1&embed=1");
  assert.equal(await page.isVisible("#readings"), false);
  assert.equal(await page.isVisible("#open-full"), true);
  assert.match(await page.textContent(".embed-foot"), /not a design approval/);
  assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= 320);
  const undo = await page.isDisabled("#undo");
  await page.keyboard.press(" ");
  await page.keyboard.press("c");
  assert.equal(await page.isVisible("#compare-page"), false, "no key until it is focused");
  assert.equal(await page.isDisabled("#undo"), undo);
  const host = await page.context().newPage();
  await host.goto(page.url().split("#")[0] + "embedding.html");
  await host.waitForFunction(() => document.querySelector("#offset").textContent !== "–", null, { timeout: 10000 });
  assert.equal(await host.textContent("#offset"), "9.9");
  await host.click("#lift");
  await host.waitForFunction(() => document.querySelector("#offset").textContent !== "9.9");
  const frame = host.frames()[1];
  assert.equal(await frame.locator('input[aria-label="Travel"]').inputValue(), "+30.0");
  assert.match(await frame.getAttribute("#open-full", "href"), /travel=30&rack=0&end=1$/);
});

test("passed on: text and picture by clipboard, picture and data as files; a text that can't be copied is shown", async (t) => {
  const page = await open(t);
  await page.click("#pass-on");
  const said = (text) => page.waitForFunction((text) => document.querySelector("#said").textContent === text, text);
  await page.click("#pass-markdown");
  await said("Copied");
  assert.match(await page.evaluate(() => navigator.clipboard.readText()), /Camber[^]*\]\(http:/);
  await page.click("#copy-png");
  await said("Picture copied");
  const copied = await page.evaluate(async () => {
    const [item] = await navigator.clipboard.read();
    const picture = await createImageBitmap(await item.getType("image/png"));
    return [item.types, picture.width];
  });
  assert.ok(copied[0].includes("image/png") && copied[1] >= 1200, `${copied}`);
  const saved = async (id) => {
    const [download] = await Promise.all([page.waitForEvent("download"), page.click(id)]);
    return readFile(await download.path());
  };
  assert.deepEqual([...(await saved("#pass-png")).subarray(1, 4)], [..."PNG"].map((letter) => letter.charCodeAt(0)));
  assert.match((await saved("#pass-svg")).toString(), /^<svg[^]*not a design approval/);
  assert.match((await saved("#pass-curves")).toString(), /camber_deg/);
  await page.evaluate(() => { navigator.clipboard.writeText = () => Promise.reject(new Error("no")); });
  await page.click("#pass-plain");
  await page.waitForSelector("#notice:not([hidden])");
  assert.match(await page.textContent("#notice"), /Copy the text from here[^]*#v=2&/);
  await page.click("#notice button");
  await drawn(page);
  assert.equal(await page.isVisible("#notice"), false, "in front of the dialog, where it can be closed");
  await page.click("#pass-plain");
  await page.waitForSelector("#notice:not([hidden])");
  await page.keyboard.press("Escape");
  assert.equal(await page.isVisible("#pass-page"), false);
  assert.equal(await page.isVisible("#notice"), true, "and it outlives the dialog");
});

test("an offline copy works from disk and passes on the public address", async (t) => {
  const page = await open(t);
  await page.click("#pass-on");
  const [download] = await Promise.all([page.waitForEvent("download"), page.click("#pass-offline")]);
  const path = `${await download.path()}.html`;
  await rename(await download.path(), path);
  const context = await page.context().browser().newContext({ offline: true, reducedMotion: "reduce", permissions: ["clipboard-read", "clipboard-write"] });
  t.after(() => context.close());
  const copy = await context.newPage();
  const faults = [];
  copy.on("pageerror", (error) => faults.push(`${error}`));
  copy.on("console", (message) => message.type() === "error" && faults.push(message.text()));
  copy.on("request", (request) => /^(file|data|blob):/.test(request.url()) || faults.push(request.url()));
  await copy.goto(`file://${path}`);
  await copy.waitForSelector("tr[data-reading] td.now:not(:empty)");
  assert.deepEqual(await readings(copy), await readings(page));
  await type(copy, "Travel", "12");
  await copy.click("#pass-on");
  assert.match(await copy.textContent("#pass-length"), /The link has/);
  await copy.keyboard.press("Escape");
  await copy.focus("#drawing");
  await copy.waitForTimeout(600);
  assert.match(await copy.getAttribute("meta[name=address]", "content"), new RegExp(`^${page.url().split("#")[0]}`));
  assert.deepEqual(faults, []);
});

test("a lesson is prepared, opened, answered and handed in, all by links", async (t) => {
  const teacher = await open(t);
  await teacher.click("#demos button:nth-child(2)");
  await teacher.click("#tab-lesson");
  await teacher.click("#teach");
  await teacher.fill("#edit-task", "Make the scrub radius 12 ± 0.5 mm.\nWith the lower ball joint.");
  await teacher.fill("#edit-hint", "Sideways.");
  for (const column of ["camber_deg", "toe_deg", "caster_deg", "kingpin_offset_wheel_centre_mm", "brake_lever_arm_mm"]) await teacher.click(`tr[data-reading=${column}] button`);
  await teacher.click("#edit-aims");
  await take(teacher, "lower ball joint");
  await teacher.click("#edit-free");
  await drawn(teacher);
  assert.match(await teacher.textContent("#edit-says"), /Targets: Scrub radius\..*lower ball joint \(x, y, z\).*already met here: move the axle/);
  await teacher.focus("#drawing");
  await teacher.keyboard.press("Shift+ArrowLeft");
  await drawn(teacher);
  assert.doesNotMatch(await teacher.textContent("#edit-says"), /already met/);
  await teacher.click("#edit-copy");
  await teacher.waitForFunction(() => document.querySelector("#said").textContent !== "" || document.querySelectorAll(".told").length > 0);
  const lesson = await teacher.evaluate(() => navigator.clipboard.readText());
  const student = await open(t, PHONE, `#${lesson.split("#")[1]}`);
  assert.match(await student.textContent("#task"), /scrub radius 12/);
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
  const rows = await teacher.$$eval("#handed tr", (all) => all.map((row) => [...row.children].map((cell) => cell.textContent)));
  assert.deepEqual(rows.slice(1, 3).map((row) => [row[0], row[2]]), [["Ada", "Target reached."], ["", "Not answered yet. Nothing has been moved yet."]]);
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
  assert.match(await page.textContent("#print .print-answer"), /top mount will be moved.*Your prediction: .*: 3,4 mm/s);
  assert.ok((await page.$$("#print hr")).length >= 4, "lines to answer on");
  await page.evaluate(() => window.dispatchEvent(new Event("afterprint")));
  await page.click("#back-to-start");
  await drawn(page);
  assert.equal((await readings(page)).kingpin_offset_wheel_centre_mm, "66.0", "the axle goes back, the answer stays");
  assert.equal(await page.inputValue("#guess"), "3,4 mm");
});

test("a story is told by key, recorded, prepared and passed on", async (t) => {
  const page = await open(t);
  const before = await readings(page);
  await page.click("#story");
  await page.click("#story-tell");
  await page.waitForFunction(() => document.querySelector("#story-at").textContent === "1 of 7");
  await drawn(page);
  assert.equal((await readings(page)).kingpin_offset_wheel_centre_mm, "66.0");
  for (let i = 0; i < 4; i++) { await page.keyboard.press("ArrowRight"); await drawn(page); }
  assert.equal(await page.textContent("#story-at"), "5 of 7");
  assert.equal((await readings(page)).kingpin_offset_wheel_centre_mm, "9.9");
  await page.click("#story-record");
  for (let i = 0; i < 3; i++) { await page.keyboard.press("ArrowLeft"); await page.waitForTimeout(200); }
  const [film] = await Promise.all([page.waitForEvent("download"), page.click("#story-record")]);
  assert.ok((await readFile(await film.path())).length > 1000, "a film");
  await page.keyboard.press("Escape");
  await drawn(page);
  assert.equal(await page.isVisible("#teller"), false);
  assert.deepEqual(await readings(page), before);
  await page.click("#story");
  for (const [text, demo] of [["First <i>this</i>", 1], ["then that", 2]]) {
    await page.fill("#story-caption", text);
    await page.click("#story-add");
    await drawn(page);
    await page.keyboard.press("Escape");
    await page.click(`#demos button:nth-child(${demo})`);
    await page.click("#story");
  }
  await page.click("#story-link");
  await page.waitForFunction(() => document.querySelector("#said").textContent.includes("copied"));
  const link = await page.evaluate(() => navigator.clipboard.readText());
  const other = await open(t, PHONE, `#${link.split("#")[1]}`);
  await other.click("#story");
  const listed = () => other.$$eval("#story-shots li span", (all) => all.map((li) => li.textContent));
  assert.deepEqual(await listed(), ["First <i>this</i>", "then that"]);
  await other.click("#story-shots li:nth-child(2) button:has-text('Move up')");
  await drawn(other);
  assert.deepEqual(await listed(), ["then that", "First <i>this</i>"]);
  await other.click("#story-shots li:nth-child(1) button:has-text('Replace')");
  await other.click("#story-shots li:nth-child(2) button:has-text('Remove')");
  await drawn(other);
  assert.deepEqual(await listed(), ["then that"]);
});

test("a story passes from shot to shot by itself, and stands still at the end of a transition", async (t) => {
  const page = await open(t, { ...DESKTOP, reducedMotion: "no-preference" }, "?v=2");
  await page.click("#story");
  await page.click("#story-tell");
  await page.waitForFunction(() => document.querySelector("#story-at").textContent === "2 of 7", null, { timeout: 12000 });
  await page.click("#story-hold");
  await page.waitForTimeout(1600);
  const shown = await readings(page);
  assert.equal(await box(page, "Travel").inputValue(), "+35.0");
  await page.waitForTimeout(400);
  assert.deepEqual(await readings(page), shown);
});

test("help opens the lowered car and its correction", async (t) => {
  const page = await open(t);
  await page.keyboard.press("?");
  await page.click("#help-prepared a >> nth=1");
  await page.waitForFunction(() => document.querySelector("#stand").textContent === "at +40.0");
  assert.equal(await page.isVisible("#help-page"), false);
  assert.match((await readings(page)).bump_steer_deg_per_mm, /−0\.4/);
});

test("the whole job by keyboard alone: choose an axle, move a joint, steer, read, pin, lock, pass on", async (t) => {
  const page = await open(t);
  const press = async (...keys) => {
    for (const key of keys) await page.keyboard.press(key);
    await drawn(page);
  };
  // Forward by Tab to what has this name, as somebody would who hears names.
  const tabTo = async (name) => {
    for (let i = 0; i < 120; i++) {
      await page.keyboard.press("Tab");
      const here = await page.evaluate(() => {
        const { activeElement: it } = document;
        return it.getAttribute("aria-label") ?? it.labels?.[0]?.textContent ?? it.textContent;
      });
      if (here.trim().startsWith(name)) return;
    }
    throw new Error(`Tab does not reach ${name}`);
  };
  await tabTo("Strut");
  await press("Enter");
  assert.equal((await readings(page)).kingpin_offset_wheel_centre_mm, "66.0");
  await tabTo("Drawing");
  while (!(await page.textContent("#said")).startsWith("strut top mount")) await press("Tab");
  await press("Shift+ArrowRight");
  const moved = await readings(page);
  assert.notEqual(moved.kingpin_inclination_deg, "14.00°");
  assert.notEqual(moved.kingpin_offset_wheel_centre_mm, "66.0");
  await press("Escape");
  await tabTo("Points");
  await press("Enter");
  await tabTo("Lock the track rod, outer joint");
  await press("Enter");
  await tabTo("Travel");
  for (let i = 0; i < 10; i++) await page.keyboard.press("ArrowRight");
  await tabTo("Rack");
  await press("End");
  assert.equal(await box(page, "Travel").inputValue(), "+5.0");
  assert.equal(await box(page, "Rack").inputValue(), "+75.0");
  await tabTo("Caster offset at wheel centre");
  assert.match(await page.textContent("#explanation"), /Nachlaufversatz/);
  await press("Enter");
  await press("l");
  await page.waitForFunction(() => document.querySelector("#said").textContent === "Link copied");
  const link = await page.evaluate(() => navigator.clipboard.readText());
  for (const part of ["v=2", "upper=strut", "locks=tro", "caster_offset_wheel_centre", "travel=5", "rack=75"]) assert.ok(link.includes(part), part);
  await page.waitForFunction(() => document.querySelectorAll("#joint-rows tr").length >= 8);
  const rows = await page.$$eval("#joint-rows tr", (rows) => rows.map((row) => row.textContent));
  assert.ok( rows.every((text) => !text.includes("NaN")), "the drawing as a table");
  await press("z", "z", "z");
  assert.equal(await box(page, "Rack").inputValue(), "0.0");
});

test("one coordinate can be locked, a measuring error kept, and both travel in the link", async (t) => {
  const page = await open(t);
  await page.click("#tab-points");
  await take(page, "track rod, outer joint");
  await page.click("#lock-z");
  await type(page, "measuring tolerance", "2,5");
  assert.equal(await page.getAttribute("button[aria-label='Lock the track rod, outer joint']", "aria-pressed"), "mixed");
  assert.equal(await box(page, "z of the track rod, outer joint").getAttribute("readonly"), "");
  await page.focus("#drawing");
  await page.keyboard.press("Shift+ArrowUp");
  await page.keyboard.press("Shift+ArrowRight");
  await drawn(page);
  assert.equal(await box(page, "z of the track rod, outer joint").inputValue(), "297.8");
  assert.equal(await box(page, "y of the track rod, outer joint").inputValue(), "700.0");
  await page.waitForTimeout(700);
  assert.match(page.url(), /locks=tro-z&errors=tro_2\.5&/);
});

test("a swipe turns from view to view on a phone", async (t) => {
  const page = await open(t, PHONE);
  const session = await page.context().newCDPSession(page);
  const paper = await page.locator("#drawing").boundingBox();
  const swipe = async (dx) => {
    const touch = (type, x, y) => session.send("Input.dispatchTouchEvent", { type, touchPoints: type === "touchEnd" ? [] : [{ x, y }] });
    const [x, y] = [paper.x + 190, paper.y + 392];
    await touch("touchStart", x, y);
    for (let i = 1; i <= 10; i++) await touch("touchMove", x + (dx * i) / 10, y);
    await touch("touchEnd");
    await drawn(page);
  };
  const shown = () => page.$$eval(".views button", (all) => all.find((b) => b.getAttribute("aria-pressed") === "true").textContent);
  await swipe(-120);
  assert.equal(await shown(), "Side");
  await swipe(-120);
  assert.equal(await shown(), "Plan");
  await swipe(120);
  assert.equal(await shown(), "Side");
  await swipe(-30);
  assert.equal(await shown(), "Side", "too short");
});

test("on a phone a finger on a joint moves it, a finger on the paper scrolls the page", async (t) => {
  const page = await open(t, PHONE);
  const session = await page.context().newCDPSession(page);
  const swipe = async ([x, y], [dx, dy]) => {
    const touch = (type, x, y) => session.send("Input.dispatchTouchEvent", { type, touchPoints: type === "touchEnd" ? [] : [{ x, y }] });
    await touch("touchStart", x, y);
    for (let i = 1; i <= 10; i++) await touch("touchMove", x + (dx * i) / 10, y + (dy * i) / 10);
    await touch("touchEnd");
    await page.waitForTimeout(200);
  };
  const at = await take(page, "upper front, outer joint");
  const before = await readings(page);
  await swipe(at, [0, -25]);
  assert.equal(await page.evaluate(() => scrollY), 0, "the page stands still");
  assert.notDeepEqual(await readings(page), before);
  const paper = await page.locator("#drawing").boundingBox();
  const moved = await readings(page);
  await swipe([paper.x + 60, paper.y + 330], [0, -150]);
  assert.ok((await page.evaluate(() => scrollY)) > 50, "the page scrolls");
  assert.deepEqual(await readings(page), moved);
});

test("a block of rows from a spreadsheet is taken in one step, decimal commas and all", async (t) => {
  const page = await open(t);
  await page.click("#tab-points");
  const paste = (text) => page.evaluate((text) => {
    const data = new DataTransfer();
    data.setData("text", text);
    document.querySelector("#points input").dispatchEvent(new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true }));
  }, text).then(() => drawn(page));
  await paste("track rod, outer joint\t-131,5\t690\t297,8\nspring top\t10\t541\t760");
  assert.equal(await box(page, "x of the track rod, outer joint").inputValue(), "−131.5");
  assert.equal(await box(page, "y of the spring top").inputValue(), "541.0");
  await page.click("#undo");
  await drawn(page);
  assert.equal(await box(page, "y of the spring top").inputValue(), "540.0");
  assert.equal(await page.isDisabled("#undo"), true);
  await paste("spring top\t10\tabc\t760");
  assert.match(await page.textContent("#notice"), /“abc” of the spring top is not a number/);
  await page.click("#copy-points");
  await page.waitForFunction(() => document.querySelector("#said").textContent === "Table copied");
  assert.match(await page.evaluate(() => navigator.clipboard.readText()), /^lower front, inner joint\t20\.00\t340\.00\t188\.40\n/);
});

test("the pointer over a curve reads all of them there, and a drag moves the wheel", async (t) => {
  const page = await open(t);
  const captions = () => page.$$eval("#plots b", (all) => all.map((b) => b.textContent));
  const rest = await captions();
  const plot = await page.locator("#plots .plot").first().boundingBox();
  await page.mouse.move(plot.x + plot.width * 0.9, plot.y + plot.height / 2);
  await drawn(page);
  const there = await captions();
  assert.ok(rest.filter((text, i) => text !== there[i]).length >= 5, `${rest} and ${there}`);
  await page.mouse.down();
  await page.mouse.move(plot.x + plot.width * 0.8, plot.y + plot.height / 2, { steps: 4 });
  await page.mouse.up();
  await drawn(page);
  const travel = parseFloat(await box(page, "Travel").inputValue());
  assert.ok(travel > 20 && travel < 50, `${travel}`);
  await page.click("#undo");
  await drawn(page);
  assert.equal(await box(page, "Travel").inputValue(), "0.0");
});

test("travel stands upright where the reader wants it, and a drag up is travel up", async (t) => {
  const page = await open(t);
  await page.click("#over-upright");
  await drawn(page);
  const plot = await page.locator("#plots .plot").first().boundingBox();
  await drag(page, [plot.x + plot.width / 2, plot.y + plot.height / 2], [0, -plot.height / 5]);
  const travel = parseFloat(await box(page, "Travel").inputValue());
  assert.ok(travel > 10 && travel < 60, `${travel}`);
  await page.waitForFunction(() => location.hash.includes("over=upright"));
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

test("it prints as one sheet from vectors, A4 or A3, light even in the dark, with the caution", async (t) => {
  const page = await open(t, { ...DESKTOP, colorScheme: "dark" });
  for (const [format, wide, high] of [["A4", 842, 595], ["A3", 1191, 842]]) {
    const pdf = (await page.pdf({ format, landscape: true, printBackground: true })).toString("latin1");
    assert.equal(pdf.match(/\/Type \/Page\b/g).length, 1, format);
    const [, width, height] = pdf.match(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/).map(Number);
    assert.ok(Math.abs(width - wide) < 1.5 && Math.abs(height - high) < 1.5, `${format}: ${width} × ${height}`);
    assert.ok(!pdf.includes("/Subtype /Image"), "no pixels");
  }
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  assert.match(await page.textContent("#print"), /not a design approval/);
  assert.equal((await page.$$("#print .print-curves svg")).length, 6);
  await page.emulateMedia({ media: "print" });
  const [end, title, foot, sheet] = await page.evaluate(() => {
    const of = (part) => [...document.querySelectorAll(`#print ${part}`)].map((at) => at.getBoundingClientRect()).filter((box) => box.height > 0);
    const block = of(".title-block")[0];
    return [Math.max(...of(".readings tr").map((row) => row.bottom)), block.top, block.bottom, of(".print-sheet")[0].bottom];
  });
  assert.ok(end <= title && foot <= sheet, `readings end at ${end}, title block from ${title} to ${foot} on a sheet to ${sheet}`);
  await page.emulateMedia({ media: null });
  await page.evaluate(() => window.dispatchEvent(new Event("afterprint")));
  assert.equal(await page.textContent("#print"), "");
  await page.click("#whole-axle");
  await drawn(page);
  const both = (await page.pdf({ format: "A4", landscape: true, printBackground: true })).toString("latin1");
  assert.equal(both.match(/\/Type \/Page\b/g).length, 2, "the whole axle has a sheet of its own");
});

test("help opens by key, draws its own pictures, and closes", async (t) => {
  const page = await open(t);
  await page.keyboard.press("?");
  assert.equal(await page.isVisible("#help-page"), true);
  assert.equal((await page.$$("#help-pictures svg")).length, 2);
  assert.match(await page.textContent("#help-words"), /Scrub radius.*Lenkrollradius/);
  await page.uncheck("#letters");
  await page.keyboard.press("Escape");
  assert.equal(await page.isVisible("#help-page"), false);
  await page.keyboard.press("?");
  assert.equal(await page.isVisible("#help-page"), false, "letters are off");
});

for (const [name, options] of [["desktop", DESKTOP], ["phone", PHONE]]) {
  for (const colorScheme of ["light", "dark"]) {
    test(`axe finds nothing on the ${name}, ${colorScheme}`, async (t) => {
      const page = await open(t, { ...options, colorScheme });
      await page.click(name === "phone" ? "#tab-loads" : "#tab-points");
      const source = await readFile(new URL("node_modules/axe-core/axe.min.js", import.meta.url), "utf8");
      // By way of the debugger, past the page's own policy.
      await page.evaluate(`${source}; undefined`);
      const { violations, passes } = await page.evaluate(() => axe.run());
      assert.ok(passes.length > 20);
      assert.deepEqual(violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target).join(" ")}`), []);
    });
  }
}

test("a first visit moves once by itself and comes to rest; a link does not move", async (t) => {
  const page = await open(t, { ...DESKTOP, reducedMotion: "no-preference" });
  await page.waitForFunction(() => Math.abs(parseFloat(document.querySelector("tr[data-reading=wheelbase_change_mm] .now").textContent.replace("−", "-"))) > 1);
  await page.waitForFunction(() => document.querySelector("input[aria-label='Travel']").value === "0.0" && document.querySelector("input[aria-label='Rack']").value === "0.0", null, { timeout: 8000 });
  assert.equal(await page.isDisabled("#undo"), true);
  const linked = await open(t, { ...DESKTOP, reducedMotion: "no-preference" }, `#${page.url().split("#")[1]}`);
  const before = await readings(linked);
  await linked.waitForTimeout(700);
  assert.deepEqual(await readings(linked), before);
});

test("a bump sweep runs, stops where it is, and is one step to undo", async (t) => {
  const page = await open(t, { ...DESKTOP, reducedMotion: "no-preference" }, "?v=1");
  const before = await readings(page);
  await page.click("#play-bump");
  await page.waitForFunction(() => parseFloat(document.querySelector("input[aria-label='Travel']").value) > 30);
  await page.click("#play-bump");
  await drawn(page);
  const stopped = await readings(page);
  await page.waitForTimeout(400);
  assert.deepEqual(await readings(page), stopped);
  await page.click("#undo");
  await drawn(page);
  assert.deepEqual(await readings(page), before);
});

test("an idle page does nothing", async (t) => {
  const page = await open(t);
  const session = await page.context().newCDPSession(page);
  await session.send("Performance.enable");
  const script = async () => (await session.send("Performance.getMetrics")).metrics.find(({ name }) => name === "ScriptDuration").value;
  await page.waitForTimeout(800);
  const before = await script();
  await page.waitForTimeout(1500);
  assert.ok((await script()) - before < 0.005);
});
