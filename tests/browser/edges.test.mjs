// Stories of what is easily forgotten: a film's last hold, an interrupted greeting, the copy that is taken along, a narrow column.
import assert from "node:assert/strict";
import { readFile, rename } from "node:fs/promises";
import { test } from "node:test";
import { DESKTOP, PHONE, box, drawn, readings, stories, type } from "./harness.mjs";

const open = stories();
const MOVES = { ...DESKTOP, reducedMotion: "no-preference" };

/** Plays a film back in a page of its own: its length in s, and a corner's colour near its end. */
async function play(page, film) {
  const player = await page.context().newPage();
  const bytes = (await readFile(film)).toString("base64");
  const seen = await player.evaluate(async (bytes) => {
    const data = Uint8Array.from(atob(bytes), (c) => c.charCodeAt(0));
    const video = document.createElement("video");
    video.muted = true;
    video.src = URL.createObjectURL(new Blob([data], { type: "video/webm" }));
    const seek = (at) => new Promise((there, wrong) => {
      video.onseeked = there;
      video.onerror = () => wrong(new Error(`it does not play: ${video.error?.message}`));
      video.currentTime = at;
    });
    await new Promise((ready) => (video.onloadedmetadata = ready));
    const length = video.duration;
    await seek(Math.max(0, length - 0.2));
    const canvas = Object.assign(document.createElement("canvas"), { width: video.videoWidth, height: video.videoHeight });
    const context = canvas.getContext("2d");
    context.drawImage(video, 0, 0);
    const [x, y] = [canvas.width - 3, 3];
    return { length, corner: [...context.getImageData(x, y, 1, 1).data] };
  }, bytes);
  await player.close();
  return seen;
}

test("a film lasts as long as it was recorded, its last hold with it, on opaque paper", async (t) => {
  const page = await open(t);
  await page.click("#story");
  await page.click("#story-tell");
  await drawn(page);
  await page.click("#story-record");
  const began = Date.now();
  await page.waitForTimeout(400);
  await page.keyboard.press("ArrowRight");
  // Nothing moves from here on.
  await page.waitForTimeout(3000);
  const [film] = await Promise.all([page.waitForEvent("download"), page.click("#story-record")]);
  const took = (Date.now() - began) / 1000;
  const { length, corner } = await play(page, await film.path());
  assert.ok(length > took - 1.2 && length < took + 1, `${length} s of ${took} s`);
  const [red, green, blue, opacity] = corner;
  assert.equal(opacity, 255, `${corner}`);
  assert.ok(red > 235 && green > 235 && blue > 225, `paper, not ${corner}`);
});

test("a film ends with its story, however that ends", async (t) => {
  const page = await open(t);
  await page.click("#story");
  await page.click("#story-tell");
  await drawn(page);
  await page.click("#story-record");
  await page.waitForTimeout(1200);
  await page.focus("#drawing");
  const [film] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Escape")]);
  assert.ok((await readFile(await film.path())).length > 1000);
});

test("an interrupted greeting leaves the axle at rest", async (t) => {
  const moving = (page) => page.waitForFunction(() => Math.abs(parseFloat(document.querySelector("input[aria-label='Travel']").value.replace("−", "-"))) > 3);
  const interruptions = [
    (page) => page.click("#demos button:nth-child(1)"),
    (page) => page.keyboard.press("l"),
    (page) => page.mouse.click(900, 500),
    (page) => page.evaluate(() => { location.hash = "v=1"; }),
  ];
  for (const interrupt of interruptions) {
    const page = await open(t, MOVES);
    await moving(page);
    await interrupt(page);
    await page.waitForTimeout(150);
    await drawn(page);
    assert.equal(await box(page, "Travel").inputValue(), "0.0", `${interrupt}`);
    assert.equal(await box(page, "Rack").inputValue(), "0.0", `${interrupt}`);
    await page.waitForTimeout(300);
    assert.equal(await box(page, "Travel").inputValue(), "0.0", `${interrupt}`);
  }
});

test("travel beyond the usual widens handle and curves", async (t) => {
  const page = await open(t);
  await type(page, "Travel", "90");
  assert.equal(await page.getAttribute("#travel-handle", "max"), "100");
  assert.equal(await page.$eval("#travel-handle", (handle) => handle.value), "90");
  await page.click("#at-rest");
  await drawn(page);
  assert.equal(await page.getAttribute("#travel-handle", "max"), "60");
});

test("a story told over a rolled axle tells of one wheel, and gives the roll back", async (t) => {
  const page = await open(t);
  await page.click("#whole-axle");
  await drawn(page);
  await type(page, "Roll", "3");
  const before = await readings(page);
  await page.click("#story");
  await page.click("#story-tell");
  await page.waitForFunction(() => document.querySelector("#story-at").textContent === "1 of 7");
  await drawn(page);
  assert.equal((await readings(page)).kingpin_offset_wheel_centre_mm, "66.0");
  await page.keyboard.press("Escape");
  await drawn(page);
  assert.deepEqual(await readings(page), before);
});

test("an offline copy opens with what was open when it was saved", async (t) => {
  const page = await open(t);
  await page.click("#demos button:nth-child(1)");
  await type(page, "Travel", "12");
  await page.fill("#name", "My “own” axle & more");
  await page.press("#name", "Enter");
  await drawn(page);
  await page.click("#pass-on");
  const [download] = await Promise.all([page.waitForEvent("download"), page.click("#pass-offline")]);
  const path = `${await download.path()}.html`;
  await rename(await download.path(), path);
  const context = await page.context().browser().newContext({ offline: true });
  t.after(() => context.close());
  const copy = await context.newPage();
  await copy.goto(`file://${path}`);
  await copy.waitForSelector("tr[data-reading] td.now:not(:empty)");
  assert.deepEqual(await readings(copy), await readings(page));
  assert.equal(await copy.inputValue("#name"), "My “own” axle & more");
  const link = (await page.getAttribute("#open-full", "href")) ?? "";
  assert.equal(link, "");
  await copy.goto(`file://${path}#demo=1&v=1`);
  await copy.reload();
  await copy.waitForSelector("tr[data-reading] td.now:not(:empty)");
  assert.notEqual(await copy.inputValue("#name"), "My “own” axle & more", "a link goes before");
});

test("no value runs over its name or out of its column", async (t) => {
  for (const width of [1366, 1440]) {
    const page = await open(t, { viewport: { width, height: 900 } });
    for (const demo of [1, 2, 4, 6]) {
      await page.click(`#demos button:nth-child(${demo})`);
      for (const travel of ["0", "-58"]) {
        await type(page, "Travel", travel);
        const over = await page.$$eval("tr[data-reading]", (rows) => rows.filter((row) => row.offsetParent).flatMap((row) => {
          const wide = [...row.querySelectorAll("td:not(.spark)")].filter((cell) => cell.scrollWidth > cell.clientWidth);
          const name = document.createRange();
          name.selectNodeContents(row.querySelector("th button"));
          const runs = name.getBoundingClientRect().right > row.querySelector("td.now").getBoundingClientRect().left + 1;
          return wide.map((cell) => `${row.dataset.reading}: ${cell.textContent}`).concat(runs ? [row.dataset.reading] : []);
        }));
        assert.deepEqual(over, [], `${width} px, demo ${demo}, travel ${travel}`);
      }
    }
    assert.ok(await page.evaluate(() => [...document.querySelectorAll("tr[data-reading]")].every((row) => row.offsetHeight <= 27)));
  }
});

test("the legend has a second line only where the plots have one", async (t) => {
  const page = await open(t);
  assert.equal(await page.isVisible("#key-faint"), false, "with the rack at 0 both would say the same");
  await type(page, "Rack", "20");
  assert.equal(await page.textContent("#key"), "rack +20.0");
  assert.equal(await page.isVisible("#key-faint"), true);
  await page.click("#whole-axle");
  await drawn(page);
  await page.click("#over-roll");
  await drawn(page);
  assert.equal(await page.isVisible("#key-faint"), false);
});

test("opening Loads changes nothing; the chosen case is named on the drawing", async (t) => {
  const page = await open(t);
  await page.click("#tab-loads");
  await page.waitForTimeout(700);
  assert.equal(await page.isDisabled("#undo"), true);
  assert.match(await page.textContent("#assumes"), /Choose a load/);
  await page.selectOption("#case", { label: "Braking 0.8 g" });
  await page.click("#pass-on");
  const [download] = await Promise.all([page.waitForEvent("download"), page.click("#pass-svg")]);
  assert.match((await readFile(await download.path())).toString(), />Braking 0\.8 g</);
});

test("embedded, a bare address shows the first demo, never the visitor’s own work, and stays small however wide it is", async (t) => {
  const page = await open(t);
  await page.fill("#name", "My private axle");
  await page.press("#name", "Enter");
  await type(page, "Travel", "7");
  await page.waitForTimeout(700);
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
  await host.waitForTimeout(200);
  assert.notEqual(await frame.$eval("#drawing", (canvas) => canvas.toDataURL()), before, "the buttons choose the view");
});

test("after Enter in a number box Z undoes, and no letter lands in it", async (t) => {
  const page = await open(t);
  for (const name of ["Travel", "Rack"]) {
    await box(page, name).fill("24");
    await box(page, name).press("Enter");
    await drawn(page);
    await page.keyboard.press("z");
    await drawn(page);
    assert.equal(await box(page, name).inputValue(), "0.0");
    await page.keyboard.press("y");
    await drawn(page);
    assert.equal(await box(page, name).inputValue(), "+24.0");
    await page.keyboard.press("Control+z");
    await drawn(page);
    assert.equal(await box(page, name).inputValue(), "0.0");
  }
  await box(page, "Travel").fill("");
  await page.keyboard.type("1e1");
  await page.keyboard.press("Enter");
  await drawn(page);
  assert.equal(await box(page, "Travel").inputValue(), "+10.0");
  assert.equal(await page.isVisible("#notice"), false);
});

test("a note of 1,500 letters is edited and stays whole", async (t) => {
  const page = await open(t);
  const note = "n".repeat(1500);
  await page.fill("#note", note);
  await page.press("#note", "Tab");
  await drawn(page);
  await page.focus("#note");
  await page.keyboard.press("Control+End");
  await page.keyboard.press("Backspace");
  await page.press("#note", "Tab");
  await page.waitForTimeout(700);
  assert.match(page.url(), /note=n{1499}&/);
});

test("the joints’ hidden table says the unit it is in", async (t) => {
  const page = await open(t);
  await page.click("#unit-length");
  await page.waitForFunction(() => document.querySelector("#joints caption").textContent.endsWith(", in"));
});

test("printed curves’ captions stay in their frames", async (t) => {
  const page = await open(t);
  await page.click("#demos button:nth-child(1)");
  await page.emulateMedia({ media: "print" });
  await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
  const over = await page.$$eval(".print-curves figure", (figures) => figures.filter((figure) => {
    const frame = figure.parentElement.getBoundingClientRect();
    return [...figure.querySelectorAll("span, b")].some((part) => part.getBoundingClientRect().right > frame.right || part.scrollWidth > figure.clientWidth);
  }).map((figure) => figure.textContent));
  assert.deepEqual(over, []);
  assert.equal(await page.$$eval(".print-curves figure", (figures) => figures.length), 6);
  const doubled = await page.$$eval(".print-curves svg", (all) => all.filter((svg) => {
    const places = [...svg.querySelectorAll("text")].map((text) => `${text.getAttribute("x")} ${text.getAttribute("y")} ${text.textContent}`);
    return new Set(places).size !== places.length;
  }).length);
  assert.equal(doubled, 0, "no number is lettered twice");
});

test("nothing but the page’s own width on a phone", async (t) => {
  const page = await open(t, PHONE);
  assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= 390);
});
