// Stories of the page embedded in another.
import assert from "node:assert/strict";
import { test } from "node:test";
import { addressed, stories, type } from "../harness.mjs";

const { open } = stories();

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

test("embedded, a bare address shows the first demo, never the visitor’s own work, and stays small however wide it is", async (t) => {
  const page = await open(t);
  await page.fill("#name", "My private axle");
  await page.press("#name", "Enter");
  await type(page, "Travel", "7");
  await addressed(page, /name=My_private_axle&.*travel=7&/);
  const host = await page.context().newPage();
  await host.setViewportSize({ width: 1500, height: 700 });
  await host.goto(page.url().split("#")[0] + "embedding.html");
  const said = await host.evaluate(() => new Promise((done) => {
    addEventListener("message", ({ data }) => data.ghostpin === 1 && done(data.parameters));
    const frame = Object.assign(document.createElement("iframe"), { src: "./#embed=1", id: "bare" });
    frame.style.cssText = "width: 1400px; height: 600px";
    document.body.prepend(frame);
  }));
  assert.doesNotMatch(said, /private/);
  assert.match(said, /travel=0&/);
  const frame = host.frames().find((frame) => frame.url().endsWith("embed=1") || frame.url().includes("#embed"));
  await frame.waitForSelector("#view-front[aria-pressed=true]");
  assert.notEqual(await frame.inputValue("#name"), "My private axle");
  // One view alone fills its strip: the axle's letters stand nowhere but there, and the buttons turn it.
  assert.equal(await frame.isVisible("#view-side"), true);
  const before = await frame.$eval("#drawing", (canvas) => canvas.toDataURL());
  await frame.click("#view-side");
  // The buttons choose the view.
  await frame.waitForFunction((before) => document.querySelector("#drawing").toDataURL() !== before, before);
  // The pictorial one too: it fills the strip below the buttons, is turned there, and gives its place back.
  await frame.click("#view-pictorial");
  await frame.waitForSelector("#pictorial-drawing[data-turn]");
  const [strip, view] = await Promise.all(["#paper", "#pictorial-drawing"].map((id) => frame.locator(id).boundingBox()));
  assert.ok(Math.abs(view.width - strip.width) < 1 && view.y > strip.y && Math.abs(view.y + view.height - strip.y - strip.height) < 1, JSON.stringify([strip, view]));
  await frame.focus("#pictorial-drawing");
  await host.keyboard.press("End");
  await frame.waitForSelector('#pictorial-drawing[data-turn="20.7 19.5"]');
  await frame.click("#view-front");
  await frame.waitForSelector("#pictorial-drawing", { state: "hidden" });
});
