// Lists in web/first.txt what a first visit calls of the page's program, as web/first.mjs reads it: `node tests/browser/first.mjs`, after a build of the page.
// Its visits are run in the page built last, with that build's program as it was before it was split, told at each call.
import { cpSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { plain } from "../../web/first.mjs";
import { shortNames, watched } from "../../web/split.mjs";
import { NEWCOMER, firstVisit } from "./first_visit.mjs";
import { PHONE, launch, serve, started } from "./harness.mjs";

const top = fileURLToPath(new URL("../../", import.meta.url));
// Where Trunk leaves it, with its names.
const program = readFileSync(join(process.env.CARGO_TARGET_DIR ?? join(top, "target"), "wasm-opt/release/web_bg.wasm"));
const short = shortNames(program);
const { bytes, names } = watched(program, (name) => short.get(name));
if (names.every((name) => name === "")) throw new Error("The program has no names.");

const folder = mkdtempSync(join(tmpdir(), "first-"));
cpSync(join(top, "web/dist"), folder, { recursive: true });
writeFileSync(join(folder, readdirSync(folder).find((name) => /^web-.*_bg\.wasm$/.test(name))), bytes);
const index = join(folder, "index.html");
writeFileSync(index, readFileSync(index, "utf8").replace(/ integrity="[^"]*"/g, ""));

const [server, browser] = [await serve(folder), await launch()];
const called = new Set();
// Also on a computer four times as slow: other things are then in time, or late.
for (const [options, visit, slower] of [[NEWCOMER, firstVisit, 1], [NEWCOMER, firstVisit, 4], [PHONE, started, 1]]) {
  const page = await (await browser.newContext(options)).newPage();
  await (await page.context().newCDPSession(page)).send("Emulation.setCPUThrottlingRate", { rate: slower });
  await page.addInitScript((count) => {
    const hits = (window.hits = new Uint8Array(count));
    const { instantiateStreaming } = WebAssembly;
    WebAssembly.instantiateStreaming = (answer, imports) => instantiateStreaming.call(WebAssembly, answer, { ...imports, first: { hit: (k) => { hits[k] = 1; } } });
  }, names.length);
  await page.goto(server.address);
  await started(page);
  await visit(page);
  // Somebody may leave before the second part has come.
  await page.evaluate(() => dispatchEvent(new Event("pagehide")));
  for (const k of await page.evaluate(() => [...window.hits.keys()].filter((k) => window.hits[k]))) called.add(plain(names[k]));
}
await browser.close();
server.close();
rmSync(folder, { recursive: true });
writeFileSync(join(top, "web/first.txt"), `${[...called].sort().join("\n")}\n`);
console.log(`${called.size} names`);
