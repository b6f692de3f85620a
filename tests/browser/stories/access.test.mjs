// Stories of the page as programs for access meet it.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { test } from "node:test";
import { DESKTOP, PHONE, stories } from "../harness.mjs";

const { open } = stories();

for (const [name, options] of [["desktop", DESKTOP], ["phone", PHONE]]) {
  for (const colorScheme of ["light", "dark"]) {
    test(`axe finds nothing on the ${name}, ${colorScheme}`, async (t) => {
      const page = await open(t, { ...options, colorScheme });
      await page.click(name === "phone" ? "#tab-loads" : "#tab-points");
      const source = await readFile(new URL("../node_modules/axe-core/axe.min.js", import.meta.url), "utf8");
      // By way of the debugger, past the page's own policy.
      await page.evaluate(`${source}; undefined`);
      const check = async () => {
        const { violations, passes } = await page.evaluate(() => axe.run());
        assert.ok(passes.length > 20);
        assert.deepEqual(violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target).join(" ")}`), []);
      };
      await check();
      await page.click("#tab-measure");
      await page.fill("#tapes", "1 A 300");
      await page.locator("#tapes").blur();
      await page.waitForSelector("#tape-readings td");
      await check();
    });
  }
}

test("the joints’ hidden table says the unit it is in", async (t) => {
  const page = await open(t);
  await page.click("#unit-length");
  await page.waitForFunction(() => document.querySelector("#joints caption").textContent.endsWith(", in"));
});
