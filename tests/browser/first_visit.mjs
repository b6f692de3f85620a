// What somebody does who sees the page for the first time: what the program's first part is made for (web/first.mjs).
import { DESKTOP, drag, drawn, take } from "./harness.mjs";

export const NEWCOMER = { ...DESKTOP, reducedMotion: "no-preference" };

/** Looks on while the greeting moves the axle, points at things, and drags a joint, the wheel and the rack. */
export async function firstVisit(page) {
  await page.waitForFunction(() => Math.abs(parseFloat(document.querySelector("input[aria-label='Travel']").value.replace("−", "-"))) > 3);
  await page.waitForFunction(() => ["Travel", "Rack"].every((name) => document.querySelector(`input[aria-label="${name}"]`).value === "0.0"));
  await drag(page, await take(page, "upper front, outer joint"), [20, 0]);
  await page.click("#undo");
  const [x, y] = await take(page, "track rod, outer joint");
  await page.keyboard.press("Escape");
  await drag(page, [x + 30, y - 60], [0, -15]);
  await page.click("#at-rest");
  const inner = await take(page, "track rod, inner joint");
  await page.keyboard.press("Escape");
  await drag(page, [inner[0] - 100, inner[1]], [10, 0]);
  const { width, height } = page.viewportSize();
  for (let across = 0.1; across < 1; across += 0.1) for (let down = 0.1; down < 1; down += 0.1) await page.mouse.move(across * width, down * height);
  await drawn(page);
  // The address and the draft are written.
  await page.waitForFunction(() => /rack=/.test(location.hash));
}
