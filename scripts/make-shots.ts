import fs from "node:fs";
import path from "node:path";
import { startHarness } from "../test/browser/harness";
import { pane } from "../src/words/pane";
import { SCREENS } from "../src/pane/screen-tabs";
import { handOver } from "../src/words/hand-over";
import { joinPane } from "../src/words/join-pane";
import { LOGS } from "../test/workbook/join/logs/all";
import type { Page } from "playwright-core";

/**
 * Takes pictures of every screen of the pane, whole length, at the width that Excel gives it, light and dark, to be looked at:
 * `npm run build`, then `npm run shots`. They stand in .cache/shots and are not committed.
 */
const TARGET = path.join(__dirname, "../.cache/shots");
const WIDTH = 350;
/** For the reckoning of the budget and the drawing of what it found. */
const SETTLED_MS = 2500;
const LONGEST = 6000;
/** A keeper's log with a doubtful column; as invented as the rest. */
const OWN_LOG = "two heading rows, harvests of two screens";
const DOUBTFUL_LOG = "Nitrat ohne Angabe der Form";

async function takeShots(): Promise<void> {
  fs.mkdirSync(TARGET, { recursive: true });
  const harness = await startHarness();
  try {
    for (const colorScheme of ["light", "dark"] as const) {
      const { page } = await harness.open("index.html", { width: 1400, height: 900, colorScheme });
      await page.waitForFunction(() => "algalLedger" in window);
      await page.evaluate(() => window.algalLedger.ready);
      // The pane alone, as wide as in Excel and as long as its longest screen.
      await page.evaluate(
        ([width, height]) => {
          const host = document.getElementById("pane");
          if (host) Object.assign(host.style, { position: "fixed", inset: "0 auto auto 0", width: `${width}px`, height: `${height}px`, zIndex: "10" });
        },
        [WIDTH, LONGEST] as const,
      );
      await page.setViewportSize({ width: 1400, height: LONGEST });
      for (const screen of SCREENS) {
        await tab(page, screen).click();
        await page.waitForTimeout(SETTLED_MS);
        await shot(page, `${screen}-${colorScheme}`);
      }
      await tab(page, "start").click();
      await page.locator("#pane").getByRole("button", { name: handOver.open }).click();
      await page.locator("#pane").getByRole("button", { name: handOver.make }).waitFor();
      await shot(page, `hand-over-${colorScheme}`);
      await page.locator("#pane").getByRole("button", { name: handOver.back }).click();
      await joinShots(page, colorScheme);
      await page.close();
    }
  } finally {
    await harness.close();
  }
}

const tab = (page: Page, screen: (typeof SCREENS)[number]) => page.locator("#pane").getByRole("tab", { name: pane.tabs[screen] });

/** The states of joining a log, from a sheet without one to what was added, and taking it back. */
async function joinShots(page: Page, colorScheme: string): Promise<void> {
  const button = (name: string | RegExp) => page.locator("#pane").getByRole("button", { name });
  const gridOf = (wanted: string) => LOGS.find(({ name }) => name === wanted)?.grid ?? [];
  await openOwn(page, []);
  await tab(page, "start").click();
  await button(joinPane.open).click();
  await button(joinPane.look).waitFor();
  await shot(page, `join-none-${colorScheme}`);
  await openOwn(page, gridOf(OWN_LOG));
  await button(joinPane.look).click();
  await page.waitForTimeout(SETTLED_MS);
  await shot(page, `join-sure-${colorScheme}`);
  await openOwn(page, gridOf(DOUBTFUL_LOG));
  await button(joinPane.lookAgain).click();
  await page.waitForTimeout(SETTLED_MS);
  await shot(page, `join-found-${colorScheme}`);
  for (const select of await page.locator("#pane select:visible").all()) if ((await select.inputValue()) === "") await select.selectOption({ index: 1 });
  await page.locator("#pane").getByRole("textbox", { name: joinPane.setUp.volume.label }).fill("265");
  await shot(page, `join-ready-${colorScheme}`);
  await button(joinPane.add).click();
  await button(joinPane.seeAccount).waitFor({ timeout: 20_000 });
  await shot(page, `join-done-${colorScheme}`);
  await button(joinPane.remove).click();
  await shot(page, `join-remove-${colorScheme}`);
  await button(joinPane.seeAccount).click();
  await page.waitForTimeout(SETTLED_MS);
  await shot(page, `join-budget-${colorScheme}`);
}

/** A workbook of one sheet with these cells, its fifth row selected. */
async function openOwn(page: Page, grid: readonly (readonly unknown[])[]): Promise<void> {
  const cells = grid.flatMap((row, r) => row.flatMap((value, c) => (value === "" || value === null || value === undefined ? [] : [{ row: r + 1, column: c + 1, value }])));
  await page.evaluate(async (filled) => {
    await window.algalLedger.open({ sheets: [{ name: "Mine", cells: new Map() }], names: [], date1904: false }, "Mine");
    for (const { row, column, value } of filled) window.algalLedger.port.write("Mine", `${String.fromCharCode(64 + column)}${row}`, [[value]]);
    window.algalLedger.port.select("Mine", "B5");
  }, cells);
}

async function shot(page: Page, name: string): Promise<void> {
  const height = await page.evaluate(() => {
    const panel = [...document.querySelectorAll('#pane [role="tabpanel"]')].find((one) => one.checkVisibility());
    return panel ? panel.getBoundingClientRect().top + (panel.firstElementChild?.getBoundingClientRect().height ?? 0) : 900;
  });
  const file = path.join(TARGET, `${name}.png`);
  await page.screenshot({ path: file, clip: { x: 0, y: 0, width: WIDTH, height: Math.min(LONGEST, Math.ceil(height) + 20) } });
  console.log(path.relative(process.cwd(), file));
}

takeShots().catch((error: Error) => {
  console.error(error.message);
  process.exit(1);
});
