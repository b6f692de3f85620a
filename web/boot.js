// Fetches the program and starts it. Not inline, so that the page needs no inline script.
import { startPage } from "./start.js";

const { js, wasm, work } = document.querySelector("script[data-wasm]").dataset;
// The program for long work, where it has to be done on the page; src/browser/work.rs calls this.
window.labour = async (port) => (await import(new URL(work, document.baseURI))).labour(port);
startPage(async () => {
  const [program, answer] = await Promise.all([import(new URL(js, document.baseURI)), fetch(new URL(wasm, document.baseURI))]);
  if (!answer.ok) throw new Error(`the server answers ${answer.status} for its program`);
  await program.default({ module_or_path: answer });
  return program;
});
