// Stories of scripts that call the page, the ill-meant ones too.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { test } from "node:test";
import { box, drawn, readings, stories, type } from "../harness.mjs";

const { open } = stories();
const STRUT = new URL("../../../demo-layouts/strut.json", import.meta.url);

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

test("scripts whose options throw get their own error, a thousand times, and cost the page nothing", async (t) => {
  const page = await open(t);
  const strut = await page.evaluate(async () => {
    const { proxy, revoke } = Proxy.revocable({}, {});
    revoke();
    const thrower = () => { throw new Error("mine"); };
    const layout = { layout: 1, name: "", note: "", wheel: { centre: [0, 765, 305], camber: -0.5, toe: 0.1, loaded_radius: 305, free_radius: 316, width: 205 },
      lower: { kind: "wishbone", front: [20, 340, 188], rear: [-330, 400, 200], outer: [12, 707, 178] }, upper: { kind: "wishbone", front: [100, 440, 500], rear: [-140, 445, 499], outer: [-23, 684, 510] },
      track_rod: { inner: [-125, 360, 226], outer: [-120, 690, 219] }, rack: { travel: 75, per_turn: 52, mount: "subframe" },
      spring: { on: "lower", top: [10, 540, 760], foot: [14, 590, 190], rate: 70 } };
    const options = [new Proxy({}, { ownKeys: thrower }), new Proxy({}, { get: thrower, ownKeys: () => [] }), proxy, { get travel() { return thrower(); } }, { travel: { get from() { return thrower(); } } }];
    const said = options.map((bad) => {
      let message;
      for (let i = 0; i < 1000; i++) try { ghostpin.solve(layout, bad); message = "nothing"; } catch (error) { message = error.message; }
      return message;
    });
    return { said, camber: ghostpin.solve(layout, { travel: 10 }).camber_deg, words: ["x", [1], 5].map((bad) => { try { ghostpin.solve(layout, bad); } catch (error) { return error.message; } }) };
  });
  assert.deepEqual([strut.said[0], strut.said[1], strut.said[3], strut.said[4]], ["mine", "mine", "mine", "mine"]);
  assert.match(strut.said[2], /revoked/);
  assert.equal(typeof strut.camber, "number");
  for (const word of strut.words) assert.match(word, /^The option/);
  await page.click("#demos button:nth-child(1)");
  await drawn(page);
  assert.equal((await readings(page)).kingpin_offset_wheel_centre_mm, "66.0");
});
