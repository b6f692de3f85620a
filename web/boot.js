// Fetches the program and starts it. Not inline, so that the page needs no inline script.
import { startPage } from "./start.js";

const { js, wasm } = document.querySelector("script[data-wasm]").dataset;
startPage(async () => {
  const [program, answer] = await Promise.all([import(new URL(js, document.baseURI)), fetch(new URL(wasm, document.baseURI))]);
  if (!answer.ok) throw new Error(`the server answers ${answer.status} for its program`);
  await program.default({ module_or_path: answer });
  return program;
});
