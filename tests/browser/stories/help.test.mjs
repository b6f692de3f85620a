// Stories of the page of help.
import assert from "node:assert/strict";
import { test } from "node:test";
import { DESKTOP, PHONE, drawn, readings, started, stories, type } from "../harness.mjs";

const { open, unwatched } = stories();

test("help opens the lowered car and its correction", async (t) => {
  const page = await open(t);
  await page.keyboard.press("?");
  await page.click("#help-prepared a >> nth=1");
  await page.waitForFunction(() => document.querySelector("#stand").textContent === "at +40.0");
  assert.equal(await page.isVisible("#help-page"), false);
  assert.match((await readings(page)).bump_steer_deg_per_mm, /−0\.4/);
});

test("help opens by key, draws its own pictures, and closes", async (t) => {
  const page = await open(t);
  await page.keyboard.press("?");
  assert.equal(await page.isVisible("#help-page"), true);
  assert.equal((await page.$$("#help-pictures svg")).length, 2);
  assert.match(await page.textContent("#help-words"), /Scrub radius.*Lenkrollradius/);
  await page.uncheck("#letters");
  await page.keyboard.press("Escape");
  assert.equal(await page.isVisible("#help-page"), false);
  await page.keyboard.press("?");
  assert.equal(await page.isVisible("#help-page"), false, "letters are off");
});

const PAGES = ["angles", "axles", "lowering", "measuring", "compliance", "lessons"];

/** Waits until all figures of the page of help that is read are made. */
const illustrated = (page, name) =>
  page.waitForFunction((name) => {
    const figures = [...document.querySelectorAll(`#help-${name}:not([hidden]) figure`)];
    return figures.length > 0 && figures.every((figure) => figure.querySelector(".picture svg") && figure.querySelector(".numbers b"));
  }, name);

for (const [device, options] of Object.entries({ desktop: DESKTOP, phone: PHONE, "a narrow phone": { ...PHONE, viewport: { width: 360, height: 640 } } }))
  test(`each page of help is opened from the contents, fits, and has its pictures and numbers: ${device}`, async (t) => {
    const page = await open(t, options);
    await page.click("#help");
    for (const name of PAGES) {
      await page.click(`#help-contents a[href="#help=${name}"]`);
      await illustrated(page, name);
      assert.equal(await page.$$eval("#help-pages article:not([hidden])", (all) => all.length), 1);
      assert.equal(await page.isVisible("#help-start"), false);
      const numbers = await page.$$eval(`#help-${name} .numbers b`, (all) => all.map((number) => number.textContent));
      for (const number of numbers) assert.match(number, name === "lessons" ? /^(−?\d[\d.]*|\?)/ : /^−?\d[\d.]*/);
      const wide = await page.$eval("#help-page", (dialog) => [dialog.scrollWidth - dialog.clientWidth, ...[...dialog.querySelectorAll("article:not([hidden]) svg")].map((svg) => svg.getBoundingClientRect().right - dialog.getBoundingClientRect().right)]);
      assert.ok(wide.every((over) => over <= 0), `${name} is ${Math.max(...wide)} px too wide`);
      assert.equal(await page.evaluate(() => document.activeElement.tagName), "H2", "whoever listens is at its heading");
    }
    const ids = await page.$$eval("#help-pages [id]", (all) => all.map((element) => element.id));
    assert.equal(new Set(ids).size, ids.length, "a picture is not clipped by another one’s edge");
  });

test("a link opens the page of help, and one with an axle that too", async (t) => {
  const page = await open(t, DESKTOP, "#help=lowering");
  await illustrated(page, "lowering");
  assert.match(await page.getAttribute("#help-contents [aria-current=page]", "href"), /lowering/);
  await page.click("#help-link");
  assert.match(await page.evaluate(() => navigator.clipboard.readText()), /#help=lowering$/);
  const both = await open(t, DESKTOP, "#v=3&of=strut.1&travel=25&end=1&help=axles");
  await illustrated(both, "axles");
  assert.equal(await both.inputValue("input[aria-label=Travel]"), "+25.0");
  assert.equal(await both.isVisible("#notice"), false, "the address is no fault");
});

test("the state of a picture opens, and the way back leads to one’s own axle and the page of help; undo leads there, too", async (t) => {
  const page = await open(t);
  await page.fill("#name", "My own axle");
  await page.press("#name", "Enter");
  await type(page, "Travel", "12");
  await page.click("#help");
  await page.click('#help-contents a[href="#help=axles"]');
  await illustrated(page, "axles");
  await page.click("#help-axles figure:nth-of-type(1) figcaption > a");
  await page.waitForFunction(() => document.querySelector("#name").value === "Harbour shuttle, strut and wishbone");
  assert.equal(await page.isVisible("#help-page"), false);
  assert.equal((await readings(page)).kingpin_offset_wheel_centre_mm, "66.0");
  await page.goBack();
  await illustrated(page, "axles");
  assert.equal(await page.inputValue("#name"), "My own axle");
  assert.equal(await page.inputValue("input[aria-label=Travel]"), "+12.0");
  await page.goForward();
  await page.waitForFunction(() => document.querySelector("#name").value === "Harbour shuttle, strut and wishbone");
  await page.click("#undo");
  assert.equal(await page.inputValue("#name"), "My own axle");
  await page.click("#help");
  await page.keyboard.press("Escape");
  await page.waitForFunction(() => !location.hash.includes("help="));
  assert.match(await page.evaluate(() => location.hash), /name=My_own_axle/);
});

test("numbers of help are in the reader’s units, and so is what they open", async (t) => {
  const page = await open(t, DESKTOP, "#v=3&of=strut.1&units=in.min.total&end=1&help=angles");
  await illustrated(page, "angles");
  const told = await page.textContent("#help-angles figure:nth-of-type(2) .numbers");
  assert.match(told, /Caster 209\.8′.*0\.\d+ in/);
  await page.click("#help-angles figure:nth-of-type(2) figcaption > a");
  await page.waitForFunction(() => document.querySelector('tr[data-reading="caster_deg"] .now').textContent === "209.8′");
});

test("a page of help prints upright with its pictures and nothing else, light even in the dark", async (t) => {
  for (const name of ["angles", "compliance"]) {
    const page = await open(t, { ...DESKTOP, colorScheme: "dark" }, `#help=${name}`);
    await illustrated(page, name);
    const pdf = (await page.pdf({ preferCSSPageSize: true, printBackground: true })).toString("latin1");
    const boxes = [...pdf.matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)].map(([, width, height]) => [Number(width), Number(height)]);
    assert.ok(boxes.length >= 2 && boxes.length <= 5, `${boxes.length} pages`);
    assert.ok(boxes.every(([width, height]) => height > width));
    await page.emulateMedia({ media: "print" });
    await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
    const seen = await page.$$eval("body > *", (all) => all.filter((part) => part.getBoundingClientRect().height > 0).map((part) => part.id));
    assert.deepEqual(seen, ["print"]);
    assert.equal((await page.$$("#print figure svg")).length, (await page.$$(`#help-${name} figure svg`)).length / 2);
    assert.match(await page.innerHTML("#print"), /#17191C/);
    assert.match(await page.textContent("#print"), new RegExp(`not a design approval.*#help=${name}$`));
    await page.evaluate(() => dispatchEvent(new Event("afterprint")));
    assert.equal(await page.textContent("#print"), "");
  }
});

test("where the pages of help can’t be fetched it says so, and they come when they can", async (t) => {
  const { page } = await unwatched(t, (page) => page.route(/help-\w+\.html/, (route) => route.abort()));
  await started(page);
  await page.click("#help");
  await page.click('#help-contents a[href="#help=axles"]');
  await page.waitForSelector("#help-missing:not([hidden])");
  await page.unroute(/help-\w+\.html/);
  await page.click('#help-contents a[href="#help=angles"]');
  await illustrated(page, "angles");
  assert.equal(await page.isVisible("#help-missing"), false);
});

test("help is reached from a pane, by keyboard, and leads back", async (t) => {
  const page = await open(t);
  await page.focus('#readings a[href="#help=angles"]');
  await page.keyboard.press("Enter");
  await illustrated(page, "angles");
  await page.keyboard.press("Escape");
  await page.waitForFunction(() => !location.hash.includes("help="));
  assert.equal(await page.isVisible("#help-page"), false);
  await page.goBack();
  await drawn(page);
  assert.equal(await page.isVisible("#help-page"), false);
});

test("the offline copy has the pages of help", async (t) => {
  const page = await open(t);
  const context = await page.context().browser().newContext({ offline: true, reducedMotion: "reduce" });
  t.after(() => context.close());
  const copy = await context.newPage();
  const faults = [];
  copy.on("pageerror", (error) => faults.push(`${error}`));
  copy.on("console", (message) => message.type() === "error" && faults.push(message.text()));
  await copy.goto(`${new URL("../../../web/dist/offline.html", import.meta.url)}#help=measuring`);
  await started(copy);
  await illustrated(copy, "measuring");
  assert.deepEqual(faults, []);
});
