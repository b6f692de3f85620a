// Stories of the sheet of paper.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { test } from "node:test";
import { inflateSync } from "node:zlib";
import { DESKTOP, drawn, inFirefox, notInFirefox, stories } from "../harness.mjs";

const { open } = stories();
const AS_PAPER = notInFirefox("its driver does not show a page as paper");

/** Sheets of paper, lying, mm. */
const [A4, A3] = [[297, 210], [420, 297]];
/** Firefox's driver hands on inches where centimetres are meant. */
const mm = (length) => `${inFirefox ? length * 2.54 : length}mm`;

/** What the page prints, with its packed parts unpacked where that is what they are. */
async function printed(page, [width, height]) {
  const bytes = await page.pdf({ width: mm(width), height: mm(height), printBackground: true });
  const parts = bytes.toString("latin1").matchAll(/\/FlateDecode[^]*?stream\r?\n([^]*?)endstream/g);
  const unpacked = [...parts].map(([, packed]) => {
    try {
      return inflateSync(Buffer.from(packed, "latin1")).toString("latin1");
    } catch {
      return "";
    }
  });
  return bytes.toString("latin1") + unpacked.join("\n");
}
const pages = (pdf) => pdf.match(/\/Type\s*\/Page\b/g)?.length;

test("it prints as one sheet from vectors, A4 or A3, light even in the dark, with the caution", async (t) => {
  const page = await open(t, { ...DESKTOP, colorScheme: "dark" });
  for (const [paper, wide, high] of [[A4, 842, 595], [A3, 1191, 842]]) {
    const pdf = await printed(page, paper);
    assert.equal(pages(pdf), 1, `${paper}`);
    const [, width, height] = pdf.match(/\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]/).map(Number);
    assert.ok(Math.abs(width - wide) < 1.5 && Math.abs(height - high) < 1.5, `${paper}: ${width} × ${height}`);
    assert.ok(!pdf.includes("/Subtype /Image"), "no pixels");
  }
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  assert.match(await page.textContent("#print"), /not a design approval/);
  assert.equal((await page.$$("#print .print-curves svg")).length, 6);
  await page.evaluate(() => window.dispatchEvent(new Event("afterprint")));
  assert.equal(await page.textContent("#print"), "");
  await page.click("#whole-axle");
  await drawn(page);
  assert.equal(pages(await printed(page, A4)), 2, "the whole axle has a sheet of its own");
});

test("on paper the readings end above the title block", AS_PAPER, async (t) => {
  const page = await open(t);
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  await page.emulateMedia({ media: "print" });
  const [end, title, foot, sheet] = await page.evaluate(() => {
    const of = (part) => [...document.querySelectorAll(`#print ${part}`)].map((at) => at.getBoundingClientRect()).filter((box) => box.height > 0);
    const block = of(".title-block")[0];
    return [Math.max(...of(".readings tr").map((row) => row.bottom)), block.top, block.bottom, of(".print-sheet")[0].bottom];
  });
  assert.ok(end <= title && foot <= sheet, `readings end at ${end}, title block from ${title} to ${foot} on a sheet to ${sheet}`);
});

test("what is shown of the axle in space is printed as it is turned, on a sheet of its own, and stands in the picture that is passed on", AS_PAPER, async (t) => {
  const page = await open(t, DESKTOP);
  const svg = async () => {
    const [download] = await Promise.all([page.waitForEvent("download"), page.click("#pass-svg")]);
    return readFile(await download.path(), "utf8");
  };
  await page.click("#pass-on");
  const plain = await svg();
  assert.doesNotMatch(plain, />Pictorial view</, "it is not shown");
  await page.keyboard.press("Escape");
  await page.click("#view-pictorial");
  await page.click("#turn-dimetric");
  await drawn(page);
  const pdf = (await page.pdf({ format: "A4", landscape: true, printBackground: true })).toString("latin1");
  assert.equal(pdf.match(/\/Type \/Page\b/g).length, 2);
  assert.ok(!pdf.includes("/Subtype /Image"), "no pixels");
  await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
  const sheet = page.locator("#print .print-sheet").nth(1);
  assert.match(await sheet.textContent(), /dimetric, from ahead, inboard and above[^]*virtual steering axis[^]*four arms[^]*not a design approval/);
  const clips = await page.$$eval("clipPath", (all) => all.map((clip) => clip.id));
  const own = await sheet.locator("clipPath").evaluateAll((all) => all.map((clip) => clip.id));
  assert.ok(own.length > 0 && own.every((id) => clips.filter((other) => other === id).length === 1), `nothing else clips it: ${own}`);
  await page.evaluate(() => dispatchEvent(new Event("afterprint")));
  await page.click("#pass-on");
  const picture = await svg();
  assert.match(picture, />Pictorial view<[^]*not a design approval/);
  assert.match(picture, />dimetric, from ahead, inboard and above</);
  const [before, wide] = [plain, picture].map((text) => Number(text.match(/^<svg [^>]*width="(\d+)/)[1]));
  assert.ok(wide > before + 400, `${before}, ${wide}`);
});

test("printed curves’ captions stay in their frames", AS_PAPER, async (t) => {
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
