// Stories of the folder that is uploaded.
import assert from "node:assert/strict";
import { createServer } from "node:http";
import { existsSync } from "node:fs";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { faults, publish } from "../../../web/publish.mjs";
import { TYPES, launch, started } from "../harness.mjs";

const ADDRESS = "https://example.org/axles/";
let folder;
before(async () => {
  folder = await mkdtemp(join(tmpdir(), "upload-"));
  await publish(ADDRESS, folder, 1);
});
after(() => rm(folder, { recursive: true }));

/** A host as README asks for one: what is named by its content is kept, all else asked for anew, and what is packed is sent so. */
async function host(asked) {
  const server = createServer(async (request, response) => {
    const path = new URL(request.url, "http://localhost").pathname.replace(/\/$/, "/index.html");
    const file = existsSync(join(folder, path)) ? path : "/404.html";
    const lasting = /-[0-9a-f]{16}[\w]*\.\w+$/.test(file);
    asked.push(path);
    const packed = existsSync(join(folder, `${file}.br`));
    const headers = { "Content-Type": TYPES[file.match(/\.\w+$/)[0]] ?? "application/octet-stream", "Cache-Control": lasting ? "max-age=31536000, immutable" : "no-cache" };
    response.writeHead(file === path ? 200 : 404, packed ? { ...headers, "Content-Encoding": "br" } : headers);
    response.end(await readFile(join(folder, packed ? `${file}.br` : file)));
  });
  await new Promise((listening) => server.listen(0, "127.0.0.1", listening));
  return { address: `http://localhost:${server.address().port}/`, close: () => server.close() };
}

test("the folder is in order, its page knows its public address, and a second visit fetches little", async (t) => {
  assert.deepEqual(faults(ADDRESS, folder), []);
  const asked = [];
  const [server, browser] = [await host(asked), await launch()];
  t.after(async () => { await browser.close(); server.close(); });
  const page = await (await browser.newContext({ reducedMotion: "reduce" })).newPage();
  const wrong = [];
  page.on("pageerror", (error) => wrong.push(`${error}`));
  await page.goto(server.address);
  await started(page);
  await page.waitForFunction(() => document.querySelector("main").inert === false);
  await page.waitForTimeout(1000);
  await page.click("#pass-on");
  assert.match(await page.textContent("#pass-length"), /The link has/);
  assert.equal(await page.getAttribute("meta[property='og:url']", "content"), ADDRESS);
  assert.match(await page.getAttribute("meta[property='og:description']", "content"), /^Harbour shuttle, four arms: ./);
  asked.length = 0;
  await page.goto("about:blank");
  await page.goto(server.address);
  await started(page);
  assert.deepEqual(asked.filter((path) => !/index\.html|icon\.svg|woff2$/.test(path)), []);
  const lost = await page.goto(`${server.address}no/such/place`);
  assert.equal(lost.status(), 404);
  assert.equal(await page.getAttribute("a", "href"), ADDRESS);
  assert.deepEqual(wrong, []);
});

test("what is wrong with a folder is said", async (t) => {
  const damage = async (file, from, to) => {
    const path = join(folder, file);
    const before = await readFile(path, "utf8");
    assert.ok(before.includes(from), from);
    await writeFile(path, before.replace(from, to));
    t.after(() => writeFile(path, before));
  };
  await damage("index.html", 'href="icon.svg"', 'href="/icon.svg"');
  await damage("index.html", "default-src 'none'", "default-src *");
  await damage("index.html", ADDRESS, "https://example.org/");
  await damage("embedding.html", 'src="embedding.js"', 'src="embeddings.js"');
  const said = faults(ADDRESS, folder).join("\n");
  for (const sentence of [
    "index.html names /icon.svg, which is no path beside it.", "index.html has no Content-Security-Policy.", "index.html does not know its public address.",
    "embedding.html names embeddings.js, which is not there.", "index.html.br is not what index.html is.",
  ]) assert.ok(said.includes(sentence), `${sentence} in ${said}`);
  await assert.rejects(publish("example.org", folder), /begins with https:/);
});
