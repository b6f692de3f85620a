// What stands behind the glue of the program for long work; compose.mjs puts it there. It does what is asked for at a port: as a worker beside the page or,
// where none comes, on the page between two of its turns. src/browser/work.rs asks.

/** How long a slice takes, ms: on the page there is time left for a frame; from a worker, what comes of it is shown so often. */
const SLICE = typeof document === "undefined" ? 50 : 8;

/** The program, once it has come; one that has not is fetched again when it is next asked for. */
let ready;

/**
 * Hears `[number, task]`; a task takes the place of the one before at its next slice, and without one the work just ends. Tells `[number, done, of, news]`
 * after each slice, the first of which is empty; `[number, sentence]` where the task is refused; `[number]` where the program does not come or stops.
 */
export function labour(port, program) {
  ready ??= __wbg_init(program).catch((error) => {
    ready = undefined;
    throw error;
  });
  let number, work, next;
  const slice = (ms) => {
    const told = work.slice(ms);
    port.postMessage([number, ...told]);
    if (told[0] < told[1]) next = setTimeout(attempt, 0, () => slice(SLICE));
  };
  const begin = (task) => {
    work?.free();
    work = undefined;
    if (task === undefined) return;
    work = new Work(task);
    slice(0);
  };
  const attempt = async (act) => {
    try {
      await act();
    } catch (error) {
      // What has stopped is not touched again.
      work = undefined;
      port.postMessage(typeof error === "string" ? [number, error] : [number]);
    }
  };
  port.onmessage = ({ data: [at, task] }) => {
    clearTimeout(next);
    number = at;
    attempt(async () => {
      await ready;
      if (number === at) begin(task);
    });
  };
}

if (typeof document === "undefined") onmessage = ({ data: port }) => labour(port);
