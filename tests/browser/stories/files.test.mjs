// Stories of layout files.
import assert from "node:assert/strict";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { drawn, readings, saved, stories } from "../harness.mjs";

const { open } = stories();
const STRUT = new URL("../../../demo-layouts/strut.json", import.meta.url);

test("layout files open, come back, and bad ones are refused in a sentence", async (t) => {
  const page = await open(t);
  const strut = await readFile(STRUT);
  const pick = (name, buffer) => page.setInputFiles("#file", { name, mimeType: "application/json", buffer });
  await pick("strut.json", strut);
  await page.waitForFunction(() => document.querySelector("#kind").textContent.includes("strut"));
  await drawn(page);
  assert.equal((await readings(page)).kingpin_offset_wheel_centre_mm, "66.0");
  const file = await saved(page, () => page.click("#save"));
  assert.deepEqual(JSON.parse(await readFile(file, "utf8")), JSON.parse(strut));
  const before = await readings(page);
  const broken = JSON.parse(strut);
  broken.track_rod.outer = broken.track_rod.inner;
  broken.wheel.loaded_radius = -1;
  // On disk: to be handed to the browser byte by byte it is too long.
  const folder = await mkdtemp(join(tmpdir(), "layout-"));
  t.after(() => rm(folder, { recursive: true }));
  await writeFile(join(folder, "huge.json"), Buffer.alloc(45_000_000, 32));
  await page.setInputFiles("#file", join(folder, "huge.json"));
  await page.waitForFunction(() => document.querySelector("#notice").textContent.includes("45000 kB"));
  for (const [name, text, words] of [
    ["none.json", Buffer.from("{"), ["not a layout file"]],
    ["broken.json", Buffer.from(JSON.stringify(broken)), ["track rod are 0.000 mm apart", "loaded radius is -1 mm"]],
  ]) {
    await pick(name, text);
    await page.waitForFunction((word) => document.querySelector("#notice").textContent.includes(word), words[0]);
    const notice = await page.textContent("#notice");
    for (const word of words) assert.ok(notice.includes(word), `${name}: ${notice}`);
  }
  assert.deepEqual(await readings(page), before);
});
