// What the page loads before it stands, compressed as a server would, and its limit; what comes right after; what comes with the first long work, and with the first page of help. The
// offline copy and the sample page are not loaded by it.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";

// 300 kB was the limit of the sheet alone and 450 kB that with Loads, the whole axle, comparing, passing on and lessons. The car as it is built, alignment,
// influence, measuring, compliance, wheel space and spread made it 797 kB. Since then the page stands on what a first visit calls of its program, and the rest
// comes after (web/split.mjs): 448 kB then, 506 kB with goals, fit, margins, the pictorial view and fair lessons. Since panes are furnished when they are
// first opened, 100 kB of these come after, too.
const FIRST = 440_000;
const SECOND = 650_000;
const WORK = 445_000;
const HELP = 30_000;
// What begins any work says so (`work.rs`): the page's own program has none of it.
const BEGINS_WORK = "There is no work of the name";

const folder = fileURLToPath(new URL("../../web/dist/", import.meta.url));
const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile() && !/LICENSE|README|offline|embedding/.test(entry.name));
const totals = { first: 0, second: 0, work: 0, help: 0 };
const when = (name) => (name.startsWith("help-") ? "help" : name.startsWith("work-") ? "work" : /_second\.wasm$/.test(name) ? "second" : "first");
for (const file of files) {
  const raw = readFileSync(join(file.parentPath ?? file.path, file.name));
  const size = /woff2$/.test(file.name) ? raw.length : gzipSync(raw, { level: 9 }).length;
  totals[when(file.name)] += size;
  console.log(`${String(size).padStart(8)}  ${file.name}`);
  if (/^web-.*wasm$/.test(file.name) && raw.includes(BEGINS_WORK)) throw new Error(`${file.name} holds work that is done elsewhere`);
}
console.log(`${String(totals.first).padStart(8)}  bytes in all, of ${FIRST}`);
console.log(`${String(totals.second).padStart(8)}  bytes more once it stands, of ${SECOND}`);
console.log(`${String(totals.work).padStart(8)}  bytes more with the first long work, of ${WORK}`);
console.log(`${String(totals.help).padStart(8)}  bytes more with the first page of help, of ${HELP}`);
process.exit(totals.first < FIRST && totals.second < SECOND && totals.work < WORK && totals.help < HELP ? 0 : 1);
