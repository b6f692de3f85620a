// Stories of a film of the slide show.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { test } from "node:test";
import { drawn, saved, stories } from "../harness.mjs";

const { open } = stories();
// Small, so that a busy machine encodes it as fast as it is painted.
const SMALL = { viewport: { width: 720, height: 480 } };

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
  const page = await open(t, SMALL);
  await page.click("#story");
  await page.click("#story-tell");
  await drawn(page);
  await page.click("#story-record");
  const began = Date.now();
  await page.waitForTimeout(400);
  await page.keyboard.press("ArrowRight");
  // Nothing moves from here on.
  await page.waitForTimeout(3000);
  const film = await saved(page, () => page.click("#story-record"));
  const took = (Date.now() - began) / 1000;
  const { length, corner } = await play(page, film);
  assert.ok(length > took - 1.2 && length < took + 1, `${length} s of ${took} s`);
  const [red, green, blue, opacity] = corner;
  assert.equal(opacity, 255, `${corner}`);
  assert.ok(red > 235 && green > 235 && blue > 225, `paper, not ${corner}`);
});

test("a film ends with its story, however that ends", async (t) => {
  const page = await open(t, SMALL);
  await page.click("#story");
  await page.click("#story-tell");
  await drawn(page);
  await page.click("#story-record");
  await page.waitForTimeout(1200);
  await page.focus("#drawing");
  const film = await saved(page, () => page.keyboard.press("Escape"));
  assert.ok((await readFile(film)).length > 1000);
});
