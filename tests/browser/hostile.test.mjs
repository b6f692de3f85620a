// Stories of what goes wrong: hands that are too fast, programs that do not come or stop, browsers that lack something.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { DESKTOP, PHONE, box, drawn, launch, readings, serve, stories, type } from "./harness.mjs";

const open = stories();
const started = (page) => page.waitForSelector("tr[data-reading] td.now:not(:empty)", { state: "attached" });
const isDrawn = (page, canvas) => page.$eval(canvas, (canvas) => {
  const { width, height } = canvas;
  return canvas.getContext("2d").getImageData(0, 0, width, height).data.some((byte) => byte > 0);
});

let server, browser;
before(async () => {
  server = await serve();
  browser = await launch();
});
after(async () => {
  await browser.close();
  server.close();
});

/** A page that may fail, its faults in a list; `prepare` sees it before it is opened. */
async function unwatched(t, prepare, options = DESKTOP) {
  const context = await browser.newContext({ reducedMotion: "reduce", ...options });
  t.after(() => context.close());
  const page = await context.newPage();
  const faults = [];
  page.on("pageerror", (error) => faults.push(`${error}`));
  await prepare(page);
  await page.goto(server.address);
  return { page, faults };
}

async function tellShots(page, captions) {
  await page.click("#story");
  for (const caption of captions) {
    await page.fill("#story-caption", caption);
    await page.click("#story-add");
    await drawn(page);
  }
}
const shots = (page) => page.$$eval("#story-shots li span", (all) => all.map((span) => span.textContent));
const lastButton = (page, name) => page.locator(`#story-shots li:last-child button:has-text("${name}")`);

test("Remove hit twice before a frame is drawn drops one shot, and so does a double click", async (t) => {
  const page = await open(t);
  await tellShots(page, ["one", "two", "three", "four"]);
  await lastButton(page, "Remove").evaluate((button) => { button.click(); button.click(); });
  await drawn(page);
  assert.deepEqual(await shots(page), ["one", "two", "three"]);
  await lastButton(page, "Remove").evaluate((button) => { button.click(); button.previousSibling.click(); });
  await drawn(page);
  assert.deepEqual(await shots(page), ["one", "two"]);
  await page.locator("#story-shots li:first-child button:has-text('Remove')").dblclick({ delay: 20 });
  await drawn(page);
  assert.deepEqual(await shots(page), ["two"]);
  await page.keyboard.press("Escape");
  await type(page, "Travel", "9");
  assert.equal(await box(page, "Travel").inputValue(), "+9.0");
});

test("a number that is being typed when another axle takes its box away is nobody’s coordinate", async (t) => {
  const page = await open(t);
  await page.click("#demos button:nth-child(1)");
  await page.waitForTimeout(700);
  const strut = page.url().split("#")[1];
  const before = await readings(page);
  await page.click("#demos button:nth-child(5)");
  await page.click("#tab-points");
  await page.waitForTimeout(700);
  await box(page, "y of the track rod, inner joint").click();
  await page.keyboard.type("99");
  await page.evaluate((link) => { location.hash = link; }, strut);
  await page.waitForFunction(() => document.querySelector("#kind").textContent.includes("strut"));
  await drawn(page);
  assert.deepEqual(await readings(page), before);
  await type(page, "Travel", "9");
  assert.equal(await box(page, "Travel").inputValue(), "+9.0");
});

// Each takes something away that the program needs, and does something that needs it.
const TRAPS = {
  "after a promise": async (page) => {
    await page.evaluate(() => document.querySelector("#said").remove());
    await page.click("#copy-link");
  },
  "in a frame": async (page) => {
    await page.evaluate(() => document.querySelector("#words").remove());
    await page.click("#whole-axle");
  },
  "in an event within an event": async (page) => {
    await page.evaluate(() => {
      document.querySelector("#help-page").remove();
      document.querySelector("#file").addEventListener("click", (event) => {
        event.preventDefault();
        document.querySelector("#help").click();
      });
    });
    await page.click("#story");
    await page.evaluate(() => document.querySelector("#open").click());
  },
};
for (const [place, trap] of Object.entries(TRAPS)) {
  test(`a program that stops ${place} says so, and a reload goes on where it was`, async (t) => {
    const { page, faults } = await unwatched(t, () => {});
    await started(page);
    await type(page, "Travel", "17");
    await page.waitForTimeout(700);
    await trap(page);
    await page.waitForSelector("#stopped", { timeout: 3000 });
    assert.match(await page.textContent("#stopped"), /has stopped.*in the link in the address bar.*My drafts.*Reload/s);
    assert.ok(faults.length > 0);
    assert.equal(await page.$eval("main", (main) => main.inert), true);
    const goesOn = async (button, travel) => {
      await page.evaluate(() => { window.old = true; });
      await page.click(button);
      await page.waitForFunction(() => !window.old && document.querySelector("tr[data-reading] td.now:not(:empty)"));
      assert.equal(await page.isVisible("#stopped"), false);
      assert.equal(await box(page, "Travel").inputValue(), travel);
    };
    await goesOn("#reload", "+17.0");
    await trap(page);
    await goesOn("#afresh", "0.0");
    assert.equal(await page.isVisible("#notice"), false);
    await page.click("#mine");
    assert.ok((await page.$$("#mine-rows tr")).length > 0, "the work is still under Mine");
  });
}

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

test("two hundred changes of axle, and of what is pinned, leave no node, listener or memory behind", async (t) => {
  const page = await open(t);
  const session = await page.context().newCDPSession(page);
  const count = async () => {
    await session.send("HeapProfiler.collectGarbage");
    const { nodes, jsEventListeners } = await session.send("Memory.getDOMCounters");
    return { nodes, jsEventListeners, heap: (await session.send("Runtime.getHeapUsage")).usedSize };
  };
  const change = (times) => page.evaluate(async (times) => {
    const frame = () => new Promise((done) => requestAnimationFrame(done));
    for (let i = 0; i < times; i++) {
      document.querySelector(`#demos button:nth-child(${1 + (i % 6)})`).click();
      await frame();
      document.querySelector("tr[data-reading=motion_ratio] button").click();
      await frame();
    }
  }, times);
  await change(12);
  const before = await count();
  await change(200);
  const now = await count();
  const grown = Object.fromEntries(Object.keys(now).map((what) => [what, now[what] - before[what]]));
  // Kinds of axle have more or fewer joints; once more the same is 200 times 266 nodes.
  assert.ok(grown.nodes < 1000 && grown.jsEventListeners < 300 && grown.heap < 1_000_000, JSON.stringify(grown));
});

test("what bears a name of its own outlives demos that are tried out in one stay", async (t) => {
  const page = await open(t);
  await page.fill("#name", "My own work");
  await page.press("#name", "Enter");
  await type(page, "Travel", "11");
  for (let i = 0; i < 14; i++) {
    await page.click(`#demos button:nth-child(${1 + (i % 6)})`);
    await type(page, "Travel", `${20 + i}`);
  }
  await page.waitForTimeout(700);
  await page.click("#mine");
  const kept = await page.$$eval("#mine-rows tr", (rows) => rows.map((row) => row.children[1].textContent));
  assert.equal(kept.length, 12);
  assert.equal(kept[11], "My own work");
  await page.click("#mine-rows tr:nth-child(12) button:first-of-type");
  await drawn(page);
  assert.equal(await box(page, "Travel").inputValue(), "+11.0");
});

test("while the program is on its way the page says so and its buttons wait", async (t) => {
  let release;
  const held = new Promise((done) => { release = done; });
  const { page } = await unwatched(t, (page) => page.route("**/*.wasm", async (route) => { await held; await route.continue(); }));
  await page.waitForTimeout(900);
  assert.equal(await page.isVisible("text=The page’s program is loading."), true);
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
    await page.waitForTimeout(1500);
    const shown = await page.locator(".first-word > p:visible, p.first-word:visible").allTextContents();
    assert.equal(shown.length, 1);
    assert.match(shown[0], says);
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

test("nothing is wider than a window of 200 px", async (t) => {
  const page = await open(t, { viewport: { width: 200, height: 600 } });
  assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), 200);
});
