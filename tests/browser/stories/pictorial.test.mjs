// Stories of the pictorial view: turned by hand and by keys, a click, the standard's two projections, and a phone.
import assert from "node:assert/strict";
import { test } from "node:test";
import { DESKTOP, PHONE, drag, drawn, readings, stories } from "../harness.mjs";

const { open } = stories();
const LARGE = { viewport: { width: 1920, height: 1080 } };

const turn = async (page) => (await page.getAttribute("#pictorial-drawing", "data-turn")).split(" ").map(Number);

/** Counts from now on how often each canvas is painted: a painting begins with its transform. */
const count = (page) =>
  page.evaluate(() => {
    window.painted = {};
    const set = CanvasRenderingContext2D.prototype.setTransform;
    CanvasRenderingContext2D.prototype.setTransform = function (...given) {
      window.painted[this.canvas.id] = (window.painted[this.canvas.id] ?? 0) + 1;
      return set.apply(this, given);
    };
  });

const middle = async (page) => {
  const box = await page.locator("#pictorial-drawing").boundingBox();
  return [box.x + box.width / 2, box.y + box.height / 2];
};

test("on a large screen it has its own place, and turning it draws nothing else and changes no reading", async (t) => {
  const page = await open(t, LARGE);
  assert.equal(await page.isVisible("#pictorial-drawing"), true);
  assert.deepEqual(await turn(page), [45, 35.3], "isometric at first");
  const [before, address] = [await readings(page), page.url()];
  // A hand that comes down anywhere stops what plays, which is a frame of its own.
  const [x, y] = await middle(page);
  await page.mouse.move(x, y);
  await page.mouse.down();
  await drawn(page);
  await count(page);
  await page.mouse.move(x + 40, y + 20, { steps: 8 });
  await drawn(page);
  assert.deepEqual(await turn(page), [65, 45.3]);
  const painted = await page.evaluate(() => window.painted);
  assert.ok(painted["pictorial-drawing"] >= 1, "it was drawn");
  assert.deepEqual(Object.keys(painted), ["pictorial-drawing"], "and nothing else");
  await page.mouse.up();
  assert.deepEqual(await readings(page), before);
  assert.equal(page.url(), address, "how it is turned is in no link");
});

test("arrow keys turn it, Home and End and the buttons are the standard’s two projections", async (t) => {
  const page = await open(t, LARGE);
  await page.focus("#pictorial-drawing");
  await page.keyboard.press("ArrowLeft");
  await drawn(page);
  assert.deepEqual(await turn(page), [40, 35.3]);
  assert.match(await page.textContent("#said"), /parallel projection, from ahead, inboard and above/);
  await page.keyboard.press("Shift+ArrowUp");
  await drawn(page);
  assert.deepEqual(await turn(page), [40, 20.3]);
  await page.keyboard.press("End");
  await drawn(page);
  assert.deepEqual(await turn(page), [20.7, 19.5]);
  assert.equal(await page.getAttribute("#turn-dimetric", "aria-pressed"), "true");
  await page.click("#turn-isometric");
  await drawn(page);
  assert.deepEqual(await turn(page), [45, 35.3]);
  assert.match(await page.textContent("#said"), /isometric/);
  await page.click("#turn-side");
  await drawn(page);
  assert.deepEqual(await turn(page), [-45, 35.3]);
  await page.click("#turn-tyre");
  await drawn(page);
  assert.equal(await page.getAttribute("#turn-tyre", "aria-pressed"), "false");
});

test("a click takes a joint in hand in every view, a click beside puts it down", async (t) => {
  const page = await open(t, LARGE);
  await page.focus("#drawing");
  await page.keyboard.press("Tab");
  await drawn(page);
  const at = (await page.getAttribute("#pictorial-drawing", "data-joint")).split(" ").map(Number);
  const name = (await page.textContent("#said")).split(":")[0];
  await page.keyboard.press("Escape");
  await drawn(page);
  assert.equal(await page.getAttribute("#pictorial-drawing", "data-joint"), "");
  const box = await page.locator("#pictorial-drawing").boundingBox();
  await page.mouse.click(box.x + at[0], box.y + at[1]);
  await drawn(page);
  assert.equal(await page.textContent("#said"), name);
  assert.notEqual(await page.getAttribute("#drawing", "data-joint"), "", "the other views have it in hand too");
  await page.mouse.click(box.x + 8, box.y + 60);
  await drawn(page);
  assert.equal(await page.getAttribute("#drawing", "data-joint"), "");
});

test("on a desktop it takes the place of front and plan view and gives it back, and stays as it was turned", async (t) => {
  const page = await open(t, DESKTOP);
  assert.equal(await page.isVisible("#pictorial-drawing"), false);
  await page.click("#view-pictorial");
  await drawn(page);
  assert.equal(await page.getAttribute("#view-pictorial", "aria-pressed"), "true");
  await drag(page, await middle(page), [-30, 0]);
  assert.deepEqual(await turn(page), [30, 35.3]);
  await page.click("#view-pictorial");
  await drawn(page);
  assert.equal(await page.isVisible("#pictorial-drawing"), false);
  await page.click("#view-pictorial");
  await drawn(page);
  assert.deepEqual(await turn(page), [30, 35.3]);
});

const scale = async (page) => Number(await page.getAttribute("#pictorial-drawing", "data-scale"));

test("a wheel with Ctrl, two fingers and a double click: nearer, and back", async (t) => {
  const page = await open(t, LARGE);
  const [x, y] = await middle(page);
  await drawn(page);
  const fitted = await scale(page);
  await page.mouse.move(x, y);
  await page.keyboard.down("Control");
  await page.mouse.wheel(0, -300);
  await page.keyboard.up("Control");
  await drawn(page);
  assert.ok(Math.abs((await scale(page)) / fitted - 1.1 ** 3) < 0.01, `${await scale(page)} from ${fitted}`);
  await page.mouse.dblclick(x, y);
  await drawn(page);
  assert.equal(await scale(page), fitted);
  const phone = await open(t, PHONE);
  await phone.click("#view-pictorial");
  await drawn(phone);
  const [small, seen, [a, b]] = [await scale(phone), await turn(phone), await middle(phone)];
  const session = await phone.context().newCDPSession(phone);
  const touch = (type, apart) => session.send("Input.dispatchTouchEvent", { type, touchPoints: apart ? [{ x: a - apart, y: b, id: 0 }, { x: a + apart, y: b, id: 1 }] : [] });
  await touch("touchStart", 30);
  for (let apart = 33; apart <= 60; apart += 3) await touch("touchMove", apart);
  await touch("touchEnd");
  await drawn(phone);
  assert.ok(Math.abs((await scale(phone)) / small - 2) < 0.1, `${await scale(phone)} from ${small}`);
  assert.deepEqual(await turn(phone), seen, "a pinch does not turn");
  assert.equal(await phone.evaluate(() => [visualViewport.scale, scrollY].join()), "1,0", "nor does it move the page");
});

test("with both wheels shown both are in it", async (t) => {
  const page = await open(t, DESKTOP);
  await page.click("#view-pictorial");
  await drawn(page);
  const one = await scale(page);
  await page.click("#whole-axle");
  await drawn(page);
  assert.ok((await scale(page)) < 0.8 * one, "two wheels need more room");
  await page.click("#one-wheel");
  await drawn(page);
  assert.equal(await scale(page), one);
});

test("on a phone it is a fourth view: a button or a swipe brings it, a finger across turns it", async (t) => {
  const page = await open(t, PHONE);
  const session = await page.context().newCDPSession(page);
  const swipe = async ([x, y], dx) => {
    const touch = (type, x) => session.send("Input.dispatchTouchEvent", { type, touchPoints: type === "touchEnd" ? [] : [{ x, y }] });
    await touch("touchStart", x);
    for (let i = 1; i <= 10; i++) await touch("touchMove", x + (dx * i) / 10);
    await touch("touchEnd");
    await drawn(page);
  };
  await page.click("#view-plan");
  await drawn(page);
  const paper = await page.locator("#drawing").boundingBox();
  await swipe([paper.x + 190, paper.y + 392], -120);
  assert.equal(await page.isVisible("#pictorial-drawing"), true);
  assert.equal(await page.getAttribute("#view-plan", "aria-pressed"), "false");
  await swipe(await middle(page), 60);
  const [azimuth] = await turn(page);
  assert.ok(azimuth > 60 && azimuth <= 75, `${azimuth}`);
  assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= 390);
  await page.click("#view-front");
  await drawn(page);
  assert.equal(await page.isVisible("#pictorial-drawing"), false);
  assert.equal(await page.getAttribute("#view-front", "aria-pressed"), "true");
});
