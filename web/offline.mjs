// One self-contained HTML file of the built page: `node web/offline.mjs` after a build writes web/dist/offline.html and prints its size.
// Trunk calls it after every build. Works from disk, without a network; its links lead to the address it was saved from.
import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";

// Trunk builds into a staging folder and tells where.
const dist = process.env.TRUNK_STAGING_DIR ?? new URL("dist/", import.meta.url).pathname;
const text = (name) => readFileSync(join(dist, name), "utf8");
const base64 = (name) => readFileSync(join(dist, name)).toString("base64");
const find = (pattern) => readdirSync(dist).find((name) => pattern.test(name));
const [js, wasm, second, css] = [find(/^web-.*\.js$/), find(/^web-.*_bg\.wasm$/), find(/^web-.*_second\.wasm$/), find(/^style-.*\.css$/)];
const help = find(/^help-.*\.html$/);
const [workJs, workWasm] = [find(/^work-.*\.js$/), find(/^work-.*_bg\.wasm$/)];
const style = text(css).replace(/url\("(font\/[^"]+)"\)/g, (_, font) => `url("data:font/woff2;base64,${base64(font)}")`);
// A program stands in the page as text that nobody runs.
const kept = (id, name) => `<script id="${id}" type="application/octet-stream">${base64(name)}</script>`;
const init = (id) => `{ module_or_path: Uint8Array.from(atob(document.querySelector("#${id}").textContent), (c) => c.charCodeAt(0)) }`;
const boot = `
startPage(async () => {
  await __wbg_init(${init("program")});
  return { solve, sweep, complete };
});
`;
const bootWork = `window.labour = async (port) => labour(port, ${init("work-program")});`;
const policy = `default-src 'none'; script-src 'unsafe-inline' 'wasm-unsafe-eval'; style-src 'unsafe-inline'; font-src data:; img-src data:; base-uri 'none'; form-action 'none'`;
// Everything that refers to another file goes; its content comes in.
let page = text("index.html")
  .replace(/<link\b[^>]*>\s*/g, "")
  .replace(/<script\b[^>]*><\/script>\s*/g, "")
  .replace('<div id="help-pages"></div>', () => `<div id="help-pages">${text(help)}</div>`)
  .replace(/(http-equiv="Content-Security-Policy" content=)"[^"]*"/, `$1"${policy}"`);
const escaped = (code) => code.replace(/<\/script/g, "<\\/script");
const code = (...parts) => `<script type="module">${escaped(parts.join("\n"))}</script>`;
const scripts = [
  kept("program", wasm),
  kept("second-program", second),
  kept("work-program", workWasm),
  code(text(workJs), bootWork),
  code(text(js), text("start.js").replace("export ", ""), boot),
];
page = page
  .replace("</head>", () => `<style>${style}</style>\n</head>`)
  .replace("</body>", () => `${scripts.join("\n")}\n</body>`);
writeFileSync(join(dist, "offline.html"), page);
console.log(`offline.html: ${page.length} bytes`);
