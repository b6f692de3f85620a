// Stories of a class: the drawing with its pinned readings on a projector, a slide show there, and the link as a code for the last row.
import assert from "node:assert/strict";
import { test } from "node:test";
import { DESKTOP, PHONE, drawn, readings, stories } from "../harness.mjs";

const { open } = stories();
const BEAMER = { viewport: { width: 1024, height: 768 } };
const size = (page, selector) => page.$eval(selector, (element) => element.getBoundingClientRect().toJSON());

for (const [name, options] of Object.entries({ projector: BEAMER, desktop: DESKTOP, phone: PHONE })) {
  test(`on a ${name} the drawing takes the window, is dragged as ever, and gives it back`, async (t) => {
    const page = await open(t, options);
    const { width, height } = options.viewport;
    await page.click("#project");
    await drawn(page);
    const paper = await size(page, "#drawing");
    assert.ok(paper.width >= width - 1 && paper.height > 0.85 * height, JSON.stringify(paper));
    assert.equal(await page.isVisible("#drawer"), false);
    const bar = await size(page, "#projector");
    assert.ok(bar.top >= paper.bottom - 1 && bar.bottom <= height + 1, "the buttons lie over nothing");
    await page.click("#project-front");
    await drawn(page);
    assert.equal(await page.getAttribute("#project-front", "aria-pressed"), "true");
    // The joint is taken where it is seen: a px of the scene is more than one here.
    await page.focus("#drawing");
    await page.keyboard.press("Tab");
    await drawn(page);
    const [x, y] = (await page.getAttribute("#drawing", "data-joint")).split(" ").map(Number);
    const before = await readings(page);
    await page.mouse.move(paper.x + x, paper.y + y);
    await page.mouse.down();
    await page.mouse.move(paper.x + x, paper.y + y - 30, { steps: 4 });
    await page.mouse.up();
    await drawn(page);
    const [, higher] = (await page.getAttribute("#drawing", "data-joint")).split(" ").map(Number);
    assert.ok(Math.abs(y - 30 - higher) < 2, `${y} ${higher}`);
    assert.notDeepEqual(await readings(page), before);
    await page.keyboard.press("Escape");
    await drawn(page);
    assert.equal(await page.isVisible("#projector"), false);
    assert.equal(await page.isVisible("#drawer"), true);
  });
}

test("one key shows the link as large as the window, and Escape takes it away", async (t) => {
  const page = await open(t, BEAMER, "#v=3&of=strut.1&c=ws_20&end=1");
  await page.keyboard.press("p");
  await drawn(page);
  await page.keyboard.press("q");
  const code = await size(page, "#code-wall-code svg");
  assert.ok(code.width >= 767 && code.height >= 767, JSON.stringify(code));
  await page.keyboard.press("Escape");
  assert.equal(await page.$eval("#code-wall", (wall) => wall.open), false);
  await drawn(page);
  assert.equal(await page.isVisible("#projector"), true, "Escape takes one thing away");
  await page.click("#project-code");
  assert.equal(await page.$eval("#code-wall", (wall) => wall.open), true);
  await page.click("#code-wall");
  assert.equal(await page.$eval("#code-wall", (wall) => wall.open), false);
  await page.keyboard.press("Escape");
  await drawn(page);
  assert.equal(await page.isVisible("#projector"), false);
});
