// Stories of the program's second part, which comes once the page stands (web/split.mjs, web/second.js).
import assert from "node:assert/strict";
import { test } from "node:test";
import { NEWCOMER, firstVisit } from "../first_visit.mjs";
import { addressed, drawn, readings, started, stories } from "../harness.mjs";

const { open, unwatched } = stories();
const SECOND = "**/*_second.wasm";

/** Opens the page; what is asked of the server for the second part is counted and answered by `answer(route, number)`. */
async function visited(t, answer, options) {
  let asked = 0;
  const { page, faults } = await unwatched(t, (page) => page.route(SECOND, (route) => answer(route, ++asked)), options);
  await started(page);
  return { page, faults, asked: () => asked };
}
const lost = (route) => route.abort("connectionreset");

test("the second part comes by itself, once", async (t) => {
  const page = await open(t);
  const asked = [];
  await page.context().on("request", (request) => asked.push(new URL(request.url()).pathname));
  await page.reload();
  await started(page);
  await page.waitForFunction(() => performance.getEntriesByType("resource").some(({ name }) => name.endsWith("_second.wasm")));
  await page.click("#tab-loads");
  await drawn(page);
  assert.equal(asked.filter((path) => path.endsWith("_second.wasm")).length, 1);
});

test("a first visit up to the first drags does without the second part", async (t) => {
  const { page, faults, asked } = await visited(t, lost, NEWCOMER);
  await firstVisit(page);
  assert.equal(asked(), 1);
  assert.deepEqual(faults, []);
});

test("what needs the second part before it has come fetches it and goes on", async (t) => {
  const { page, faults, asked } = await visited(t, (route, number) => (number === 1 ? lost(route) : route.continue()));
  await page.click("#tab-loads");
  await page.selectOption("#case", { index: 2 });
  await drawn(page);
  const { page: whole } = await visited(t, (route) => route.continue());
  await whole.click("#tab-loads");
  await whole.selectOption("#case", { index: 2 });
  await drawn(whole);
  assert.equal(await page.textContent("#loads"), await whole.textContent("#loads"));
  assert.deepEqual(await readings(page), await readings(whole));
  assert.equal(asked(), 2);
  assert.deepEqual(faults, []);
});

test("where the second part can’t be fetched, the page says so, and the work is kept", async (t) => {
  const { page } = await visited(t, lost, NEWCOMER);
  await firstVisit(page);
  const before = await addressed(page, /rack=\d/);
  await page.click("#tab-loads");
  await page.waitForSelector("#stopped");
  assert.match(await page.innerText("#stopped"), /^This needs a part of the page’s program that has not arrived.*in the link in the address bar.*My drafts.*Reload/);
  assert.equal(await page.$eval("main", (main) => main.inert), true);
  await page.unroute(SECOND);
  await page.click("#reload");
  await started(page);
  assert.equal(await addressed(page, /rack=\d/), before);
});
