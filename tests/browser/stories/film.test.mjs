// Stories of a film of the slide show: frame by frame where the browser can encode, recorded live where it can't.
import assert from "node:assert/strict";
import { mkdir, readFile, writeFile } from "node:fs/promises";
import { test } from "node:test";
import { drawn, notInFirefox, saved, started, stories } from "../harness.mjs";

const { open } = stories();
// Small, so that a busy machine records it as fast as it is painted.
const SMALL = { viewport: { width: 720, height: 480 } };

/** Plays a film back in a page of its own: its size and length, and the pixels at some seconds, every 4th px across and down, in three colours and opacity. */
async function play(page, film, seconds) {
  const player = await page.context().newPage();
  const bytes = (await readFile(film)).toString("base64");
  const seen = await player.evaluate(async ([bytes, seconds]) => {
    const data = Uint8Array.from(atob(bytes), (c) => c.charCodeAt(0));
    const video = document.createElement("video");
    video.muted = true;
    const wrong = new Promise((_, fail) => (video.onerror = () => fail(new Error(`it does not play: ${video.error?.message}`))));
    const ready = new Promise((done) => (video.onloadedmetadata = done));
    video.src = URL.createObjectURL(new Blob([data], { type: "video/webm" }));
    await Promise.race([ready, wrong]);
    const [width, height, length] = [video.videoWidth, video.videoHeight, video.duration];
    const canvas = Object.assign(document.createElement("canvas"), { width, height });
    const context = canvas.getContext("2d", { willReadFrequently: true });
    const pictures = [];
    for (const at of seconds) {
      const there = new Promise((done) => (video.onseeked = done));
      video.currentTime = at < 0 ? length + at : at;
      await Promise.race([there, wrong]);
      // A picture may come a moment after it is said to be there.
      let all = [0];
      for (let tries = 0; tries < 200 && all.every((byte) => byte === 0); tries++) {
        if (tries) await new Promise(requestAnimationFrame);
        context.clearRect(0, 0, width, height);
        context.drawImage(video, 0, 0);
        all = context.getImageData(0, 0, width, height).data;
      }
      // As text: the driver takes many seconds for so many numbers.
      let some = "";
      for (let y = 0; y < height; y += 4) for (let x = 0; x < width; x += 4) some += String.fromCharCode(...all.subarray(4 * (y * width + x), 4 * (y * width + x) + 4));
      pictures.push({ some: btoa(some), png: canvas.toDataURL().split(",")[1] });
    }
    return { width, height, length, pictures };
  }, [bytes, seconds]);
  await player.close();
  return { ...seen, pictures: seen.pictures.map(({ some, png }) => ({ some: Buffer.from(some, "base64"), png })) };
}

/** How many of the sampled pixels of two pictures are clearly others. */
function others(a, b) {
  let count = 0;
  for (let k = 0; k < a.length; k += 4) if ([0, 1, 2].some((c) => Math.abs(a[k + c] - b[k + c]) > 48)) count++;
  return count;
}

/** Elements of a Matroska file, by nothing but their ids' and lengths' leading bits (RFC 8794): ids and contents. */
function elements(bytes) {
  const found = [];
  for (let at = 0; at < bytes.length; ) {
    const number = (keep) => {
      const size = Math.clz32(bytes[at]) - 23;
      let value = keep ? bytes[at] : bytes[at] & (2 ** (8 - size) - 1);
      for (let k = 1; k < size; k++) value = value * 256 + bytes[at + k];
      at += size;
      return value;
    };
    const [id, length] = [number(true), number(false)];
    found.push([id, bytes.subarray(at, at + length)]);
    at += length;
  }
  return found;
}
const [SEGMENT, CLUSTER, BLOCK] = [0x18538067, 0x1f43b675, 0xa3];

const SHOW = "v=3&of=four-arm.1&s0.of=strut.1&s0.pins=kingpin_offset_wheel_centre&s0.said=The_first.&s0.lasts=2&s0.view=front"
  + "&s1.of=four-arm.1&s1.pins=kingpin_offset_wheel_centre&s1.said=The_second.&s1.lasts=3&s1.view=front&hands=build&end=1";

for (const [choice, width, height] of [["level", 1920, 1080], ["upright", 1080, 1920]]) {
  test(`a ${choice} film has each frame at its time, opaque, its last hold with it`, { timeout: 300_000, ...notInFirefox("a picture takes most of a second there") }, async (t) => {
    const page = await open(t, undefined, `#${SHOW}`);
    assert.ok(await page.evaluate(() => "VideoEncoder" in window), "a Chromium without WebCodecs can't tell this story");
    await page.click("#story");
    assert.match(await page.textContent("#film-says"), /at its exact time/);
    await page.selectOption("#film-size", { index: choice === "level" ? 0 : 1 });
    const [film] = await Promise.all([page.waitForEvent("download", { timeout: 280_000 }), page.click("#film-make")]);
    assert.equal(film.suggestedFilename(), "ghostpin.webm");
    const path = await film.path();
    const [, segment] = elements(await readFile(path)).find(([id]) => id === SEGMENT);
    const blocks = elements(segment).filter(([id]) => id === CLUSTER).flatMap(([, cluster]) => elements(cluster)).filter(([id]) => id === BLOCK);
    assert.equal(blocks.length, 5 * 30, "as many frames as seconds times thirty");
    const seen = await play(page, path, [0.2, 1.8, 3.6, 4.5, -0.02]);
    assert.deepEqual([seen.width, seen.height], [width, height]);
    assert.ok(Math.abs(seen.length - 5) < 0.001, `${seen.length} s`);
    if (process.env.FRAMES) {
      await mkdir(process.env.FRAMES, { recursive: true });
      for (const [k, { png }] of seen.pictures.entries()) await writeFile(`${process.env.FRAMES}/${choice}-${k}.png`, Buffer.from(png, "base64"));
    }
    const [begins, ends, later, held, last] = seen.pictures.map(({ some }) => some);
    for (const picture of [begins, ends, later, held, last]) {
      for (let k = 3; k < picture.length; k += 4) assert.equal(picture[k], 255, "opaque");
      const paper = picture.slice(0, 3);
      assert.ok(paper[0] > 235 && paper[1] > 235 && paper[2] > 225, `paper, not ${paper}`);
    }
    const few = begins.length / 4 / 1000;
    assert.ok(others(begins, ends) < few, "a shot in which nothing moves stands");
    assert.ok(others(ends, later) > 5 * few, "the second shot is another");
    assert.ok(others(later, held) < few && others(held, last) < few, "and holds to the end");
  });
}

test("a film that is stopped is none, and the page goes on", async (t) => {
  const page = await open(t, SMALL);
  await page.click("#story");
  await page.click("#film-make");
  await page.waitForFunction(() => /^Picture \d+ of \d+/.test(document.querySelector("#film-says").textContent));
  assert.equal(await page.isDisabled("#film-make"), true);
  await page.click("#film-stop");
  await page.waitForFunction(() => document.querySelector("#film-says").textContent === "Stopped; no video was saved.");
  assert.equal(await page.isVisible("#film-stop"), false);
  await page.keyboard.press("Escape");
  await page.click("#demos button:nth-child(1)");
});

/** The page in a browser that can't encode. */
async function unable(t, parameters) {
  const page = await open(t, SMALL, parameters);
  await page.addInitScript(() => delete window.VideoEncoder);
  await page.reload();
  await started(page);
  return page;
}

test("where frames can't be encoded the page says so, tells the show from its beginning and records it to its end", async (t) => {
  const page = await unable(t, `#${SHOW}`);
  await page.click("#story");
  assert.match(await page.textContent("#film-says"), /can’t encode single pictures: the show is recorded while it plays/);
  assert.equal(await page.isVisible("#film-size"), false);
  await page.click("#film-make");
  await page.waitForFunction(() => document.querySelector("#story-at").textContent === "1 of 2");
  await page.keyboard.press("ArrowRight");
  await page.waitForTimeout(2000);
  const film = await saved(page, () => page.keyboard.press("Escape"));
  const { length, pictures } = await play(page, film, [-0.2]);
  assert.ok(length > 1, `${length} s`);
  assert.equal(pictures[0].some[3], 255);
});

test("a recording lasts as long as it was recorded, its last hold with it, on opaque paper", async (t) => {
  const page = await unable(t, "");
  await page.click("#story");
  await page.click("#story-tell");
  await drawn(page);
  await page.click("#story-record");
  const began = Date.now();
  await page.waitForTimeout(400);
  await page.keyboard.press("ArrowRight");
  await drawn(page);
  const moved = (Date.now() - began) / 1000;
  // Nothing moves from here on: without its last hold the recording would end here.
  await page.waitForTimeout(5000);
  const film = await saved(page, () => page.click("#story-record"));
  const took = (Date.now() - began) / 1000;
  const { length, pictures: [{ some }] } = await play(page, film, [-0.2]);
  // A slow machine's first picture comes late, so that what came before the hold may be missing, and its file long after the end.
  assert.ok(length > moved + 1 && length < took + 1, `${length} s, of ${moved} s and a hold, ${took} s in all`);
  const [red, green, blue, opacity] = some;
  assert.equal(opacity, 255);
  assert.ok(red > 235 && green > 235 && blue > 225, `paper, not ${[red, green, blue]}`);
});
