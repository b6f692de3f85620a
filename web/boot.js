// Starts the program and hands out its JavaScript interface. Not inline, so that the page needs no inline script.
const { js, wasm } = document.querySelector("script[data-wasm]").dataset;
try {
  const program = await import(new URL(js, document.baseURI));
  await program.default({ module_or_path: new URL(wasm, document.baseURI) });
  window.ghostpin = { solve: program.solve, sweep: program.sweep };
  window.dispatchEvent(new Event("ghostpin"));
} catch (error) {
  document.body.textContent = `The page could not start: ${error}. It needs a browser with WebAssembly.`;
  throw error;
}
