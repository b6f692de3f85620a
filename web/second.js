// What stands behind the glue of the page's program; compose.mjs puts it there. The program is split in two (split.mjs), and this is how the second part
// comes: in the background once the page stands (start.js), or at once where it is called before that.
const address = () => new URL("web_second.wasm", import.meta.url);
const bytes = (text) => Uint8Array.from(text, (c) => c.charCodeAt(0));
/** The offline copy has it in the page (offline.mjs). */
const kept = () => document.querySelector("#second-program");
const unpacked = () => bytes(atob(kept().textContent));
/** What it takes in. Its own functions are then in the first part's table. */
const taken = () => ({ ...__wbg_get_imports(), first: wasm });

/** Brings the second part while nobody waits for it. If it does not come, it is fetched again where it is called. */
export async function complete() {
  if (wasm.come.value) return;
  await __wbg_load(kept() ? unpacked() : await fetch(address()), taken());
  wasm.come.value = 1;
}

/** Brings the second part before a call goes on that needs it. The program is in the middle of something, so nothing else may happen meanwhile. */
function fetchSecond() {
  try {
    new WebAssembly.Instance(new WebAssembly.Module(kept() ? unpacked() : delivered()), taken());
  } catch (error) {
    throw Object.assign(new WebAssembly.RuntimeError(`${error}`), { name: "Undelivered" });
  }
  wasm.come.value = 1;
}

/** The second part from its server, waited for: that goes with text only, so each byte comes as a character. */
function delivered() {
  const request = new XMLHttpRequest();
  request.open("GET", address(), false);
  request.overrideMimeType("text/plain; charset=x-user-defined");
  request.send();
  if (request.status !== 200) throw new Error(`the server answers ${request.status}`);
  return bytes(request.responseText);
}
