import fs from "node:fs";
import path from "node:path";
import { startHarness } from "../test/browser/harness";
import { pane } from "../src/words/pane";
import { SCREENS } from "../src/pane/screen-tabs";

/**
 * Takes pictures of every screen of the pane, whole length, at the width that Excel gives it, light and dark, to be looked at:
 * `npm run build`, then `npm run shots`. They stand in .cache/shots and are not committed.
 */
const TARGET = path.join(__dirname, "../.cache/shots");
const WIDTH = 350;
/** For the reckoning of the budget and the drawing of what it found. */
const SETTLED_MS = 2500;

async function takeShots(): Promise<void> {
  fs.mkdirSync(TARGET, { recursive: true });
  const harness = await startHarness();
  try {
    for (const colorScheme of ["light", "dark"] as const) {
      const { page } = await harness.open("index.html", { width: 1400, height: 900, colorScheme });
      await page.waitForFunction(() => "algalLedger" in window);
      await page.evaluate(() => window.algalLedger.ready);
      // The pane alone, as wide as in Excel and as long as its longest screen.
      await page.evaluate((width) => {
        const host = document.getElementById("pane");
        if (host) Object.assign(host.style, { position: "fixed", inset: "0 auto auto 0", width: `${width}px`, height: "6000px", zIndex: "10" });
      }, WIDTH);
      await page.setViewportSize({ width: 1400, height: 6000 });
      for (const screen of SCREENS) {
        await page.locator("#pane").getByRole("tab", { name: pane.tabs[screen] }).click();
        await page.waitForTimeout(SETTLED_MS);
        const height = await page.evaluate(() => {
          const panel = [...document.querySelectorAll('#pane [role="tabpanel"]')].find((one) => one.checkVisibility());
          return panel ? panel.getBoundingClientRect().top + (panel.firstElementChild?.getBoundingClientRect().height ?? 0) : 900;
        });
        const file = path.join(TARGET, `${screen}-${colorScheme}.png`);
        await page.screenshot({ path: file, clip: { x: 0, y: 0, width: WIDTH, height: Math.min(6000, Math.ceil(height) + 20) } });
        console.log(path.relative(process.cwd(), file));
      }
      await page.close();
    }
  } finally {
    await harness.close();
  }
}

takeShots().catch((error: Error) => {
  console.error(error.message);
  process.exit(1);
});
