// Stories of the start: a program on its way, one that does not come, browsers that lack something.
import assert from "node:assert/strict";
import { test } from "node:test";
import { DESKTOP, PHONE, drawn, readings, started, stories } from "../harness.mjs";

const { open, unwatched } = stories();
const isDrawn = (page, canvas) => page.$eval(canvas, (canvas) => {
  const { width, height } = canvas;
  return canvas.getContext("2d").getImageData(0, 0, width, height).data.some((byte) => byte > 0);
});

test("while the program is on its way the page says so and its buttons wait", async (t) => {
  let release;
  const held = new Promise((done) => { release = done; });
  const { page } = await unwatched(t, (page) => page.route("**/*.wasm", async (route) => { await held; await route.continue(); }));
  await page.waitForSelector("text=The page’s program is loading.");
  const busy = () => page.$$eval("header, main", (parts) => parts.map((part) => `${part.inert} ${part.ariaBusy ?? part.getAttribute("aria-busy")}`));
  assert.deepEqual(await busy(), ["true true", "true true"]);
  release();
  await started(page);
  assert.deepEqual(await busy(), ["false null", "false null"]);
  assert.equal(await page.isVisible("#start"), false);
});

// What keeps the program from the page, and what is then the first thing on it.
const CAUSES = {
  "the server has none": [(page) => page.route("**/*.wasm", (route) => route.fulfill({ status: 404 })), /^The page’s program has not arrived.*Reload.*answers 404/],
  "the connection breaks": [(page) => page.route("**/*.wasm", (route) => route.abort("connectionreset")), /^The page’s program has not arrived.*Reload/],
  "half of it is there": [
    (page) => page.route("**/*.wasm", async (route) => {
      const body = await (await route.fetch()).body();
      return route.fulfill({ body: body.subarray(0, body.length / 2), contentType: "application/wasm" });
    }),
    /^This browser can’t read the page’s program.*damaged.*CompileError/,
  ],
  "its glue is missing": [(page) => page.route("**/web-*.js", (route) => route.abort()), /^The page’s program has not arrived.*Reload/],
  "its first script is missing": [(page) => page.route("**/boot.js", (route) => route.abort()), /^The page’s program is loading. If this message stays.*reload the page/],
  "the browser has no WebAssembly": [(page) => page.addInitScript(() => { delete window.WebAssembly; }), /^This browser can’t run WebAssembly.*another browser/],
};
for (const [cause, [prepare, says]] of Object.entries(CAUSES)) {
  test(`no program, because ${cause}: the page says why and how to go on`, async (t) => {
    const { page } = await unwatched(t, prepare);
    const first = page.locator(".first-word > p:visible, p.first-word:visible");
    await first.filter({ hasText: says }).waitFor();
    assert.equal(await first.count(), 1);
    assert.ok((await page.locator("#start").boundingBox()).y < 40);
  });
}

test("without JavaScript that is the first thing said, on a phone too", async (t) => {
  for (const options of [DESKTOP, PHONE]) {
    const { page } = await unwatched(t, () => {}, { ...options, javaScriptEnabled: false });
    const sentence = page.locator("noscript p");
    const { y } = await sentence.boundingBox();
    assert.ok(y < 40, `${y} px`);
    assert.equal(await page.isVisible("#start"), false);
    assert.match((await page.innerText("body")).trim(), /^This page needs/);
  }
});

test("a browser without ResizeObserver draws; one without a canvas says so; a canvas given back empty is painted anew", async (t) => {
  const { page, faults } = await unwatched(t, (page) => page.addInitScript(() => { delete window.ResizeObserver; }));
  await started(page);
  await drawn(page);
  assert.equal(await isDrawn(page, "#drawing"), true);
  assert.equal(await isDrawn(page, "#plots canvas"), true);
  await page.setViewportSize({ width: 1000, height: 800 });
  await drawn(page);
  assert.equal(await page.$eval("#drawing", (canvas) => canvas.width), await page.$eval("#paper", (paper) => paper.clientWidth));
  for (const canvas of ["#drawing", "#plots canvas:first-child", "#plots canvas:last-child"]) {
    await page.$eval(canvas, (canvas) => { canvas.width = canvas.width; });
    assert.equal(await isDrawn(page, canvas), false);
    await page.$eval(canvas, (canvas) => canvas.dispatchEvent(new Event("contextrestored")));
    await drawn(page);
    assert.equal(await isDrawn(page, canvas), true, canvas);
  }
  assert.deepEqual(faults, []);
  const blank = await unwatched(t, (page) => page.addInitScript(() => { HTMLCanvasElement.prototype.getContext = () => null; }));
  await started(blank.page);
  await drawn(blank.page);
  assert.match(await blank.page.textContent("#notice"), /nothing to draw on/);
  assert.equal((await readings(blank.page)).kingpin_offset_wheel_centre_mm, "9.9");
  assert.deepEqual(blank.faults, []);
});
