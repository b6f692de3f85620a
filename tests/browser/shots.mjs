// Pictures of the built page: `node shots.mjs FOLDER`, desktop, tablet and phone, light and dark.
import { DESKTOP, PHONE, launch, serve } from "./harness.mjs";

const folder = process.argv[2] ?? ".";
const link = process.argv[3] ?? "";
const TABLET = { viewport: { width: 1024, height: 768 } };
const server = await serve();
const browser = await launch();
for (const [name, options] of Object.entries({ desktop: DESKTOP, tablet: TABLET, phone: PHONE })) {
  for (const colorScheme of ["light", "dark"]) {
    const page = await (await browser.newContext({ ...options, colorScheme, reducedMotion: "reduce" })).newPage();
    page.on("pageerror", (error) => console.error(`${name} ${colorScheme}: ${error}`));
    page.on("console", (message) => message.type() === "error" && console.error(`${name} ${colorScheme}: ${message.text()}`));
    await page.goto(server.address + link);
    await page.waitForSelector("tr[data-reading] td.now:not(:empty)");
    await page.waitForTimeout(300);
    await page.screenshot({ path: `${folder}/${name}-${colorScheme}.png`, fullPage: process.argv[4] === "whole" });
  }
}
await browser.close();
server.close();
