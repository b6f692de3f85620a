// Long work beside the page, by the page's own program: it comes compiled, with the task; see src/browser/work.rs.
addEventListener("message", async ({ data: [js, module, task] }) => {
  try {
    const program = await import(js);
    await program.default({ module_or_path: module });
    program.work(task, (slice) => postMessage(slice));
  } catch (error) {
    // The page hears of errors, but not of broken promises.
    setTimeout(() => { throw error; });
  }
});
