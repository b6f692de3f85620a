// Makes of the built page the folder to upload to any static host, and checks it: node web/publish.mjs ADDRESS FOLDER, which web/publish.sh calls.
// The page is told its public address; what it is passed on with, picture and description, it makes itself of its first axle; what has no name by its
// content gets one, so that it may be kept for ever; and beside each file stands what a host can send in its place, compressed.
import { createHash } from "node:crypto";
import { cpSync, existsSync, mkdirSync, readFileSync, readdirSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join, posix } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { brotliCompressSync, brotliDecompressSync, constants, gunzipSync, gzipSync } from "node:zlib";

const DIST = fileURLToPath(new URL("dist/", import.meta.url));
/** What is smaller when compressed; fonts and pictures are compressed as they are. */
const PACKED = /\.(html|js|css|wasm|svg|json|txt)$/;
const HARDEST = constants.BROTLI_MAX_QUALITY;
const PACKERS = {
  ".gz": [(bytes) => gzipSync(bytes, { level: 9 }), gunzipSync],
  ".br": [(bytes, quality) => brotliCompressSync(bytes, { params: { [constants.BROTLI_PARAM_QUALITY]: quality } }), brotliDecompressSync],
};
/** A name by its content: it never means anything else. */
const LASTING = /-[0-9a-f]{16}(_bg|_second)?\.\w+$/;
const escaped = (text) => text.replace(/&/g, "&amp;").replace(/"/g, "&quot;").replace(/</g, "&lt;");

const files = (folder) => readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile())
  .map((entry) => join(entry.parentPath ?? entry.path, entry.name).slice(join(folder, "/").length)).sort();

/** Changes a text in a file; it has to be there. */
function change(path, from, to) {
  const text = readFileSync(path, "utf8");
  if (!text.includes(from)) throw new Error(`${path} does not say ${from}`);
  writeFileSync(path, text.replaceAll(from, to));
}

/** Names a file by its content, also where others name it. */
function name(folder, file, ...others) {
  const digest = createHash("sha384").update(readFileSync(join(folder, file))).digest("hex").slice(0, 16);
  const named = file.replace(/(?=\.\w+$)/, `-${digest}`);
  renameSync(join(folder, file), join(folder, named));
  others.forEach((other) => change(join(folder, other), `./${file}`, `./${named}`));
  return named;
}

/** The picture of the first axle, as the page saves it, and what the page says of it. */
async function introduced(folder) {
  const { launch, serve, started } = await import("../tests/browser/harness.mjs");
  const [server, browser] = [await serve(folder), await launch()];
  try {
    const page = await (await browser.newContext({ reducedMotion: "reduce" })).newPage();
    await page.goto(server.address);
    await started(page);
    await page.click("#pass-on");
    const [download] = await Promise.all([page.waitForEvent("download"), page.click("#pass-png")]);
    const says = await page.evaluate(() => [document.querySelector("#name").value, document.querySelector("#note").value]);
    return { picture: readFileSync(await download.path()), says };
  } finally {
    await browser.close();
    server.close();
  }
}

const MISSING = (address) => `<!doctype html>
<html lang="en">
<head>
  <meta charset="utf-8">
  <meta http-equiv="Content-Security-Policy" content="default-src 'none'; base-uri 'none'; form-action 'none'">
  <meta name="viewport" content="width=device-width, initial-scale=1">
  <title>Ghostpin: nothing here</title>
</head>
<body>
  <h1>There is nothing at this address</h1>
  <p><a href="${escaped(address)}">Ghostpin, front-axle geometry</a>: a link to an axle begins like this one, and goes on after #.</p>
</body>
</html>
`;

/** Makes the folder; `quality` says how hard Brotli tries, which takes half a minute at its hardest. */
export async function publish(address, folder, quality = HARDEST) {
  if (!/^https?:\/\/[^\s"<>?#]+\/$/.test(address)) throw new Error(`The address begins with https:// and ends with /; “${address}” does not.`);
  if (existsSync(folder) && readdirSync(folder).length > 0 && !existsSync(join(folder, "offline.html"))) throw new Error(`${folder} holds something else.`);
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  for (const file of files(DIST)) if (!file.startsWith(".")) cpSync(join(DIST, file), join(folder, file));
  const index = join(folder, "index.html");
  change(index, '<meta name="address" content="">', `<meta name="address" content="${escaped(address)}">`);
  name(folder, "start.js", "boot.js", "index.html");
  name(folder, "boot.js", "index.html");
  const { picture, says } = await introduced(folder);
  writeFileSync(join(folder, "picture.png"), picture);
  const shown = name(folder, "picture.png");
  const tags = { "og:type": "website", "og:url": address, "og:title": "Ghostpin: front-axle geometry", "og:description": says.filter(Boolean).join(": "), "og:image": address + shown };
  const lines = Object.entries(tags).map(([property, content]) => `  <meta property="${property}" content="${escaped(content)}">\n`);
  change(index, "</head>", `  ${lines.join("").trimStart()}</head>`);
  writeFileSync(join(folder, "404.html"), MISSING(address));
  for (const file of files(folder)) {
    if (!PACKED.test(file)) continue;
    for (const [end, [pack]] of Object.entries(PACKERS)) writeFileSync(join(folder, file + end), pack(readFileSync(join(folder, file)), quality));
  }
}

/** What is wrong with such a folder, a sentence each. */
export function faults(address, folder) {
  const found = [];
  const all = new Set(files(folder));
  const text = (file) => readFileSync(join(folder, file), "utf8");
  for (const file of all) {
    const packer = Object.entries(PACKERS).find(([end]) => file.endsWith(end));
    if (packer) {
      const [end, [, unpack]] = packer;
      const original = file.slice(0, -end.length);
      if (!all.has(original) || !unpack(readFileSync(join(folder, file))).equals(readFileSync(join(folder, original)))) found.push(`${file} is not what ${original} is.`);
    } else if (PACKED.test(file)) {
      for (const end of Object.keys(PACKERS)) if (!all.has(file + end)) found.push(`${file} has no ${end} beside it.`);
    }
    // Pages of help are parts, which the page fetches and shows.
    if (/\.html$/.test(file) && !/^help-/.test(file) && !/http-equiv="Content-Security-Policy" content="default-src 'none'/.test(text(file))) found.push(`${file} has no Content-Security-Policy.`);
    // The offline copy has everything in it.
    if (!/\.(html|css)$/.test(file) || file === "offline.html") continue;
    for (const [, one, two] of text(file).matchAll(/(?:\b(?:href|src|data-js|data-wasm|data-work)="([^"]*)"|url\("?([^")]*)"?\))/g)) {
      const path = (one ?? two).split("#")[0];
      if (path === address || /^(data:|$)/.test(path)) continue;
      if (/^(\/|\w+:)/.test(path)) found.push(`${file} names ${path}, which is no path beside it.`);
      else if (!all.has(posix.normalize(posix.join(dirname(file), path === "./" ? "index.html" : path)))) found.push(`${file} names ${path}, which is not there.`);
    }
  }
  for (const file of ["index.html", "404.html", "offline.html", "embedding.html"]) if (!all.has(file)) found.push(`There is no ${file}.`);
  if (all.has("index.html")) {
    const page = text("index.html");
    if (!page.includes(`<meta name="address" content="${escaped(address)}">`)) found.push("index.html does not know its public address.");
    const picture = page.match(/<meta property="og:image" content="([^"]*)">/)?.[1]?.slice(address.length);
    if (!picture || !all.has(picture)) found.push("index.html has no picture to be passed on with.");
    if (!/<meta property="og:description" content="[^"]{20,}">/.test(page)) found.push("index.html has no description to be passed on with.");
    for (const file of all) if (/\.(wasm|css)$/.test(file) && !LASTING.test(file)) found.push(`${file} is not named by its content.`);
    for (const [, script] of page.matchAll(/<script[^>]* src="\.\/([^"]*)"/g)) if (!LASTING.test(script)) found.push(`${script} is not named by its content.`);
  }
  return found;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  const [address, folder] = process.argv.slice(2);
  try {
    await publish(address, folder);
    const wrong = faults(address, folder);
    if (wrong.length > 0) throw new Error(wrong.join("\n"));
    const lasting = files(folder).filter((file) => LASTING.test(file));
    console.log(`${folder} is ready: upload all of it to ${address}\nNamed by their content, ${lasting.length} files may be kept for a year; the rest is to be asked for anew each time.`);
  } catch (error) {
    console.error(error.message);
    process.exitCode = 1;
  }
}
