// Stories of a program that stops.
import assert from "node:assert/strict";
import { test } from "node:test";
import { addressed, box, started, stories, type } from "../harness.mjs";

const { unwatched } = stories();

// Each takes something away that the program needs, and does something that needs it.
const TRAPS = {
  "after a promise": async (page) => {
    await page.evaluate(() => document.querySelector("#said").remove());
    await page.click("#copy-link");
  },
  "in a frame": async (page) => {
    await page.evaluate(() => document.querySelector("#words").remove());
    await box(page, "Travel").fill("nonsense");
    await box(page, "Travel").press("Enter");
  },
  "in an event within an event": async (page) => {
    await page.evaluate(() => {
      document.querySelector("#help-page").remove();
      document.querySelector("#file").addEventListener("click", (event) => {
        event.preventDefault();
        document.querySelector("#help").click();
      });
    });
    await page.click("#story");
    await page.evaluate(() => document.querySelector("#open").click());
  },
};
for (const [place, trap] of Object.entries(TRAPS)) {
  test(`a program that stops ${place} says so, and a reload goes on where it was`, async (t) => {
    const { page, faults } = await unwatched(t, () => {});
    await started(page);
    await type(page, "Travel", "17");
    await addressed(page, /travel=17&/);
    await trap(page);
    await page.waitForSelector("#stopped", { timeout: 3000 });
    assert.match(await page.textContent("#stopped"), /has stopped.*in the link in the address bar.*My drafts.*Reload/s);
    assert.ok(faults.length > 0);
    assert.equal(await page.$eval("main", (main) => main.inert), true);
    const goesOn = async (button, travel) => {
      await page.evaluate(() => { window.old = true; });
      await page.click(button);
      await page.waitForFunction(() => !window.old && document.querySelector("tr[data-reading] td.now:not(:empty)"));
      assert.equal(await page.isVisible("#stopped"), false);
      assert.equal(await box(page, "Travel").inputValue(), travel);
    };
    await goesOn("#reload", "+17.0");
    await trap(page);
    await goesOn("#afresh", "0.0");
    assert.equal(await page.isVisible("#notice"), false);
    await page.click("#mine");
    assert.ok((await page.$$("#mine-rows tr")).length > 0, "the work is still under Mine");
  });
}
