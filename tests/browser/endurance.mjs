// Long use of the built page, printed and not judged: `node tests/browser/endurance.mjs MINUTES CHANGES` drags a joint for so many minutes and changes the axle
// so many times, and prints what the page holds meanwhile: kB of JavaScript,
// kB of the program's own memory, nodes and listeners.
import { DESKTOP, drawn, launch, serve, started, take } from "./harness.mjs";

const [minutes, changes] = [Number(process.argv[2] ?? 10), Number(process.argv[3] ?? 2000)];
const [server, browser] = [await serve(), await launch()];
const page = await (await browser.newContext({ ...DESKTOP, reducedMotion: "reduce" })).newPage();
page.on("pageerror", (error) => console.log(`${error}`));
await page.addInitScript(() => {
  window.memories = new Set();
  for (const name of ["instantiate", "instantiateStreaming"]) {
    const made = WebAssembly[name];
    WebAssembly[name] = async (...given) => {
      const program = await made(...given);
      for (const shared of Object.values((program.instance ?? program).exports)) if (shared instanceof WebAssembly.Memory) window.memories.add(shared);
      return program;
    };
  }
});
await page.goto(server.address);
await started(page);
const session = await page.context().newCDPSession(page);

async function tell(when) {
  await session.send("HeapProfiler.collectGarbage");
  const { nodes, jsEventListeners } = await session.send("Memory.getDOMCounters");
  const { usedSize } = await session.send("Runtime.getHeapUsage");
  const own = await page.evaluate(() => [...window.memories].reduce((sum, memory) => sum + memory.buffer.byteLength, 0));
  console.log(`${when}: ${Math.round(usedSize / 1000)} kB, the program's own ${Math.round(own / 1000)} kB, ${nodes} nodes, ${jsEventListeners} listeners`);
}

const [x, y] = await take(page, "upper front, outer joint");
await tell("at first");
const end = Date.now() + minutes * 60_000;
let frames = 0;
for (let minute = 1; Date.now() < end; minute++) {
  const pause = Math.min(end, Date.now() + 60_000);
  await page.mouse.move(x, y);
  await page.mouse.down();
  while (Date.now() < pause) {
    await page.mouse.move(x + 12 * Math.sin(frames / 9), y + 8 * Math.cos(frames / 7));
    await drawn(page);
    frames++;
  }
  await page.mouse.move(x, y);
  await page.mouse.up();
  await tell(`after ${minute} min of dragging, ${frames} frames`);
}

const change = (times) => page.evaluate(async (times) => {
  const frame = () => new Promise((done) => requestAnimationFrame(done));
  for (let i = 0; i < times; i++) {
    document.querySelector(`#demos button:nth-child(${1 + (i % 6)})`).click();
    await frame();
  }
}, times);
// So many at a time that a wait for them is no longer than a driver waits.
for (let done = 0; done < changes; done += 200) {
  await change(Math.min(200, changes - done));
  await tell(`after ${Math.min(done + 200, changes)} changes of axle`);
}
await browser.close();
server.close();
