// Stories of long work told to the built page: 200 hand-ins are marked beside it, or in slices on it, and it stays at hand.
import assert from "node:assert/strict";
import { test } from "node:test";
import { drawn, started, stories } from "../harness.mjs";

const { open } = stories();
const OFFLINE = new URL("../../../web/dist/offline.html", import.meta.url).href;
const ALL = 200;

/** What a class hands in: one answer to the first exercise, under as many names. */
async function handIns(page) {
  await page.click("#tab-lesson");
  await page.click("#exercises li:nth-child(1) button");
  await drawn(page);
  await page.fill("#guess", "-9");
  await page.fill("#own-words", "Two\tcolumns, 50 %\nand a line");
  await page.fill("#by", "Ada");
  await page.click("#check");
  await page.waitForFunction(() => document.querySelector("#verdict").textContent !== "" && location.hash.includes("by=Ada"));
  await page.click("#lesson summary");
  const link = page.url();
  return Array.from({ length: ALL }, (_, at) => link.replace("by=Ada", `by=Ada${at}`)).join("\n");
}

/**
 * Pastes links and waits until `until` says how far they are marked, then clicks or pastes others (`then`): the words shown on the way,
 * the longest wait for a frame, ms. It hears of each word as it is written, not a frame later: where frames are slow, all may be marked
 * by the next one.
 */
const paste = (page, links, until, then = {}) =>
  page.evaluate(async ([links, until, then]) => {
    const [area, words] = ["#hand-ins", "#marked"].map((id) => document.querySelector(id));
    const frame = () => new Promise(requestAnimationFrame);
    area.value = links;
    // The browser lays out the text it was given: that is not the page's work.
    for (let i = 0; i < 3; i++) await frame();
    const said = new Set();
    let [going, last, worst] = [true, performance.now(), 0];
    const reached = new Promise((done) => {
      new MutationObserver((_, observer) => {
        said.add(words.textContent);
        if (!new RegExp(until).test(words.textContent)) return;
        observer.disconnect();
        if (then.click) document.querySelector(then.click).click();
        if (then.links) {
          area.value = then.links;
          area.dispatchEvent(new Event("input"));
        }
        done((going = false));
      }).observe(words, { childList: true, characterData: true, subtree: true });
    });
    area.dispatchEvent(new Event("input"));
    while (going) {
      await frame();
      const now = performance.now();
      [last, worst] = [now, Math.max(worst, now - last)];
    }
    await reached;
    return { said: [...said], worst };
  }, [links, until, then]);

const rows = (page) => page.$$eval("#handed tr", (all) => all.slice(1).map((row) => [...row.children].map((cell) => cell.textContent)));

/** All are marked, the page answers meanwhile, and *Stop* keeps what is done. */
async function marks(t, page, links, workers) {
  const { said, worst } = await paste(page, links, `^Marked ${ALL} of`);
  t.diagnostic(`longest wait for a frame: ${worst.toFixed(0)} ms`);
  // The page had its turn between the slices: progress on the way was heard of. How long the longest frame took is printed, not judged.
  const between = said.filter((words) => /^Marked [1-9]/.test(words) && !words.startsWith(`Marked ${ALL} of`));
  assert.ok(between.length > 0 && said.includes(`Marked ${ALL} of ${ALL}.`), `progress: ${said}`);
  assert.equal(await page.isVisible("#stop-marking"), false);
  const all = await rows(page);
  assert.deepEqual(all.map(([line]) => line), Array.from({ length: ALL }, (_, at) => `${at + 1}`));
  assert.deepEqual(all.map(([, name]) => name), Array.from({ length: ALL }, (_, at) => `Ada${at}`));
  for (const row of all) assert.deepEqual(row.slice(2), all[0].slice(2));
  const heads = await page.$$eval("#handed tr:first-child > *", (cells) => cells.map((cell) => cell.textContent));
  const told = (head) => all[0][heads.indexOf(head)];
  assert.deepEqual([told("answer"), told("written answer")], ["-9 mm", "Two columns, 50 % and a line"]);
  assert.deepEqual([told("target reached"), told("prediction: sign right"), told("written answer given")], ["open", "open", "yes"]);
  assert.equal(told("Kingpin offset at wheel centre (mm)"), "66");
  assert.equal(page.workers().length, 0, "no worker is left");

  let begun = 0;
  page.on("worker", () => begun++);
  await paste(page, links, "^Marked [1-9]", { click: "#stop-marking" });
  await drawn(page);
  assert.equal(begun, workers);
  const stopped = await page.textContent("#marked");
  const kept = await rows(page);
  assert.ok(kept.length > 0 && kept.length < ALL, `${kept.length} rows`);
  assert.equal(stopped, `Marked ${kept.length} of ${ALL}. Stopped.`);
  assert.deepEqual(kept, all.slice(0, kept.length));
  await page.waitForTimeout(400);
  assert.deepEqual(await rows(page), kept, "nothing comes after it has been stopped");
  assert.equal(page.workers().length, 0, "nor goes on unseen");

  await paste(page, links, "^Marked [1-9]", { links: links.split("\n").slice(7, 9).join("\n\n") });
  await page.waitForFunction(() => document.querySelector("#marked").textContent === "Marked 2 of 2.");
  const unnumbered = (some) => some.map((row) => row.slice(1));
  assert.deepEqual(unnumbered(await rows(page)), unnumbered(all.slice(7, 9)), "pasting begins anew");
  assert.equal(begun, 2 * workers, "by the worker that is there");
  await page.fill("#hand-ins", "");
  assert.deepEqual([await page.textContent("#marked"), await rows(page)], ["", []]);
}

test("200 hand-ins are marked in a worker, while the page answers, until they are stopped", async (t) => {
  const page = await open(t);
  await marks(t, page, await handIns(page), 1);
});

test("without workers they are marked in slices on the page", async (t) => {
  const page = await open(t);
  await page.addInitScript(() => delete window.Worker);
  await page.reload();
  await started(page);
  await marks(t, page, await handIns(page), 0);
});

/** Has the first requests for the worker's file answered with something else than a program. */
async function broken(page, times) {
  await page.route("**/work-*.js", (route) => route.fulfill({ contentType: "text/javascript", body: "throw 0" }), { times });
  // The browser remarks nothing but the error that the page hears.
  await page.evaluate(() => addEventListener("error", (event) => event.preventDefault()));
}

test("where the worker does not start, too", async (t) => {
  const page = await open(t);
  await broken(page, 1);
  const links = (await handIns(page)).split("\n").slice(0, 3).join("\n");
  await page.fill("#hand-ins", links);
  await page.waitForFunction(() => document.querySelector("#marked").textContent === "Marked 3 of 3.");
  assert.equal((await rows(page)).length, 3);
});

test("where the program for it does not come at all, the page says so", async (t) => {
  const page = await open(t);
  await broken(page, 2);
  const links = (await handIns(page)).split("\n").slice(0, 3).join("\n");
  await page.fill("#hand-ins", links);
  await page.waitForFunction(() => /can’t be fetched/.test(document.querySelector("#marked").textContent));
  assert.equal(await page.isVisible("#stop-marking"), false);
  assert.deepEqual(await rows(page), []);
});

test("the program for it is fetched with the first work, and not before", async (t) => {
  const page = await open(t);
  const asked = [];
  await page.context().on("request", (request) => asked.push(new URL(request.url()).pathname));
  await page.reload();
  await started(page);
  const link = (await handIns(page)).split("\n")[0];
  const programs = () => asked.filter((path) => path.endsWith("_bg.wasm")).map((path) => path.slice(1, 5));
  assert.deepEqual(programs(), ["web-"]);
  await page.fill("#hand-ins", link);
  await page.waitForFunction(() => document.querySelector("#marked").textContent === "Marked 1 of 1.");
  assert.deepEqual(programs(), ["web-", "work"]);
});

test("in the offline copy, from disk", async (t) => {
  const served = await open(t);
  const page = await served.context().newPage();
  const faults = [];
  page.on("pageerror", (error) => faults.push(`${error}`));
  page.on("console", (message) => message.type() === "error" && faults.push(message.text()));
  await page.goto(OFFLINE);
  await started(page);
  await marks(t, page, await handIns(page), 0);
  assert.deepEqual(faults, []);
});
