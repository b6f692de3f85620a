// Stories of the offline copy, from disk.
import assert from "node:assert/strict";
import { rename } from "node:fs/promises";
import { test } from "node:test";
import { addressed, drawn, readings, started, stories, type } from "../harness.mjs";

const { open } = stories();

test("an offline copy works from disk and passes on the public address", async (t) => {
  const page = await open(t);
  await page.click("#pass-on");
  const [download] = await Promise.all([page.waitForEvent("download"), page.click("#pass-offline")]);
  const path = `${await download.path()}.html`;
  await rename(await download.path(), path);
  const context = await page.context().browser().newContext({ offline: true, reducedMotion: "reduce", permissions: ["clipboard-read", "clipboard-write"] });
  t.after(() => context.close());
  const copy = await context.newPage();
  const faults = [];
  copy.on("pageerror", (error) => faults.push(`${error}`));
  copy.on("console", (message) => message.type() === "error" && faults.push(message.text()));
  copy.on("request", (request) => /^(file|data|blob):/.test(request.url()) || faults.push(request.url()));
  await copy.goto(`file://${path}`);
  await started(copy);
  assert.deepEqual(await readings(copy), await readings(page));
  await type(copy, "Travel", "12");
  await copy.click("#pass-on");
  assert.match(await copy.textContent("#pass-length"), /The link has/);
  await copy.keyboard.press("Escape");
  await copy.focus("#drawing");
  await addressed(copy, /travel=12&/);
  assert.match(await copy.getAttribute("meta[name=address]", "content"), new RegExp(`^${page.url().split("#")[0]}`));
  assert.deepEqual(faults, []);
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
  await started(copy);
  assert.deepEqual(await readings(copy), await readings(page));
  assert.equal(await copy.inputValue("#name"), "My “own” axle & more");
  const link = (await page.getAttribute("#open-full", "href")) ?? "";
  assert.equal(link, "");
  await copy.goto(`file://${path}#demo=1&v=1`);
  await copy.reload();
  await started(copy);
  assert.notEqual(await copy.inputValue("#name"), "My “own” axle & more", "a link goes before");
});
