// Says in a sentence what became of the program when it can't: on the way to the page, at its start, or when it stops. The sentences stand
// in parts/start.html; nothing here needs WebAssembly.
const find = (id) => document.querySelector(id);

/** The program has come: the page can be used. */
function ready() {
  find("#start").hidden = true;
  for (const part of document.querySelectorAll("[aria-busy]")) {
    part.removeAttribute("aria-busy");
    part.inert = false;
  }
}

/** The program has not come: says why, and what to do, in place of the word that it is loading. */
function missing(error) {
  const why = find(
    typeof WebAssembly === "undefined" ? "#without" : error instanceof WebAssembly.CompileError ? "#unread" : "#undelivered",
  );
  for (const sentence of find("#start").children) sentence.hidden = sentence !== why;
  why.append(` (${error})`);
}

/** The program has stopped, maybe for want of its second part (second.js). It may still seem to answer, so nothing can be pressed any more but the ways to go on. */
function stopped({ name }) {
  if (!find("#stopped").hidden) return;
  document.querySelectorAll("dialog[open]").forEach((dialog) => dialog.close());
  if (document.fullscreenElement) document.exitFullscreen();
  document.querySelectorAll("header, main").forEach((part) => (part.inert = true));
  find("#start").hidden = true;
  find("#undelivered-part").hidden = name !== "Undelivered";
  find("#broken").hidden = name === "Undelivered";
  find("#stopped").hidden = false;
  find("#reload").addEventListener("click", () => location.reload());
  find("#afresh").addEventListener("click", () => {
    location.hash = "v=2&embed=0";
    location.reload();
  });
}

/** True for what a program in WebAssembly throws when it can't go on. */
const isTrap = (error) => typeof WebAssembly !== "undefined" && error instanceof WebAssembly.RuntimeError;

/** Hands out a function of the program; if it traps, the page says so, whoever catches it. */
const watched = (call) => (...given) => {
  try {
    return call(...given);
  } catch (error) {
    if (isTrap(error)) stopped(error);
    throw error;
  }
};

/** Starts the program that `load` fetches, and hands out its JavaScript interface. */
export async function startPage(load) {
  addEventListener("error", ({ error }) => isTrap(error) && stopped(error));
  addEventListener("unhandledrejection", ({ reason }) => isTrap(reason) && stopped(reason));
  try {
    const program = await load();
    ready();
    window.ghostpin = { solve: watched(program.solve), sweep: watched(program.sweep) };
    window.dispatchEvent(new Event("ghostpin"));
    // Once the first frame is shown. What does not come now is fetched when it is called.
    requestAnimationFrame(() => setTimeout(() => program.complete().catch(() => {})));
  } catch (error) {
    if (isTrap(error)) stopped(error);
    else missing(error);
    throw error;
  }
}
