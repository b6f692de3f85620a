// Puts the page together once Trunk has built it; Trunk calls this, see Trunk.toml. index.html is the page's table of contents: where it
// says <!-- part: NAME -->, parts/NAME.html comes in, which may name parts itself, and style/NAME.css, if there is one, joins the one style
// sheet; <!-- style: NAME --> is for a style without markup of its own. The sheet keeps their order, so that a later one may overrule an
// earlier one. The program for long work is put together here, too, and the page's program split in two. Reads the sources, writes into Trunk's staging folder: nothing in the source tree is generated.
import { createHash } from "node:crypto";
import { existsSync, readFileSync, readdirSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { comesFirst } from "./first.mjs";
import { shortNames, split } from "./split.mjs";

const stage = process.env.TRUNK_STAGING_DIR;
const source = (path) => new URL(path, import.meta.url);
const styles = [];
const left = new Set(["parts", "style"].flatMap((folder) => readdirSync(source(folder)).map((file) => `${folder}/${file}`)));
const take = (path) => {
  left.delete(path);
  return readFileSync(source(path), "utf8");
};

function composed(markup) {
  return markup.replace(/^( *)<!-- (part|style): (\w+) -->\n/gm, (_, indent, kind, name) => {
    const style = `style/${name}.css`;
    if (kind === "style" || existsSync(source(style))) styles.push(take(style));
    return kind === "style" ? "" : composed(take(`parts/${name}.html`)).replace(/^(?=.)/gm, indent);
  });
}

const page = composed(readFileSync(join(stage, "index.html"), "utf8"));
if (left.size > 0) throw new Error(`The page names no place for ${[...left].join(", ")}.`);

// Without comments and indentation. Named by its content and vouched for, as Trunk does it with the program.
const sheet = styles.join("").replace(/\/\*[^]*?\*\//g, "").replace(/^\s+/gm, "");
const digest = (...content) => content.reduce((hash, part) => hash.update(part), createHash("sha384")).digest();
const named = (...content) => digest(...content).toString("hex").slice(0, 16);
const style = `style-${named(sheet)}.css`;
writeFileSync(join(stage, style), sheet);
const link = `<link rel="stylesheet" href="./${style}" integrity="sha384-${digest(sheet).toString("base64")}">`;

// The program for long work, which Trunk does not name so: its glue and what stands behind it (worker.js) are one file.
const [glue, program, worker] = [join(stage, "work.js"), join(stage, "work_bg.wasm"), readFileSync(source("worker.js"), "utf8")];
const labour = `${readFileSync(glue, "utf8")}\n${worker}`;
const work = `work-${named(labour, readFileSync(program))}`;
const addressed = labour.replace("work_bg.wasm", `${work}_bg.wasm`);
if (addressed === labour) throw new Error("The glue of the program for long work does not say where that is.");
writeFileSync(join(stage, `${work}.js`), addressed);
renameSync(program, join(stage, `${work}_bg.wasm`));
rmSync(glue);

// The page's program, as Trunk names it, in its two parts; behind its glue stands how the second comes (second.js).
const [, built] = page.match(/data-js="\.\/([\w-]+)\.js"/);
// Both take functions in by short names, and the glue is without comments and indentation.
const unsplit = readFileSync(join(stage, `${built}_bg.wasm`));
const short = shortNames(unsplit);
const called = (name) => short.get(name) ?? name;
const parts = split(unsplit, (name) => !comesFirst(name), called);
const bare = (code) => code.replace(/^\s+/gm, "").replace(/^\/\*\*[^]*?\*\/\n/gm, "").replace(/^\/\/.*\n/gm, "");
const linked = bare(readFileSync(join(stage, `${built}.js`), "utf8")).replace(/\w+/g, called).replace(/^"\.\/web_bg\.js": import0,$/m, '$&\nsecond: { fetch: fetchSecond },');
if (!linked.includes("fetchSecond")) throw new Error("The glue of the page's program does not say what that takes in.");
const binding = `${linked}\n${readFileSync(source("second.js"), "utf8")}`;
const web = `web-${named(binding, ...parts)}`;
const made = new Map([["_bg.wasm", parts[0]], ["_second.wasm", parts[1]], [".js", binding.replace("web_second.wasm", `${web}_second.wasm`)]]);
for (const [end, content] of made) {
  rmSync(join(stage, `${built}${end}`), { force: true });
  writeFileSync(join(stage, `${web}${end}`), content);
}

// The illustrated pages of help are one file, fetched when somebody opens the first of them.
const pages = readdirSync(source("help")).sort().map((file) => readFileSync(source(`help/${file}`), "utf8")).join("").replace(/^\s+/gm, "");
const help = `help-${named(pages)}.html`;
writeFileSync(join(stage, help), pages);

const whole = page
  .replace('data-pages="help.html"', `data-pages="./${help}"`)
  .replace('<link rel="stylesheet" href="style.css">', link)
  .replace('data-work="./work.js"', `data-work="./${work}.js"`)
  .replace(/(href="\.\/web-\w+?)(\.js|_bg\.wasm)("[^>]* integrity=")[^"]*/g, (_, name, end, then) => `${name}${end}${then}sha384-${digest(made.get(end)).toString("base64")}`)
  .replaceAll(`./${built}`, `./${web}`);
writeFileSync(join(stage, "index.html"), whole);
