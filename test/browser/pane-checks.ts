import fs from "node:fs";
import type { Page } from "playwright-core";
import type { AxeResults } from "axe-core";

const AXE = fs.readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
const WAIT_MS = 10_000;
const PAUSE_MS = 50;

/** What axe finds wrong in the pane, one line a place. */
export async function axeViolations(page: Page, selector = "#pane"): Promise<string[]> {
  // What still fades in has no colours of its own yet.
  await page.evaluate(() => Promise.all(document.getAnimations().filter(({ effect }) => effect?.getComputedTiming().iterations !== Infinity).map(({ finished }) => finished.catch(() => undefined))));
  await page.evaluate(AXE);
  const results = await page.evaluate((within) => (window as unknown as { axe: { run(where: string): Promise<AxeResults> } }).axe.run(within), selector);
  return results.violations.flatMap(({ id, nodes }) => nodes.map(({ target, failureSummary }) => `${id}: ${target.join(" ")}: ${failureSummary}`));
}

/** Asks until the answer is the expected one; shows the last answer when it never is. */
export async function eventually<T>(ask: () => Promise<T>, expected: T): Promise<void> {
  const until = Date.now() + WAIT_MS;
  for (;;) {
    const answer = await ask();
    if (JSON.stringify(answer) === JSON.stringify(expected)) return;
    if (Date.now() > until) {
      expect(answer).toEqual(expected);
      return;
    }
    await new Promise((resolve) => setTimeout(resolve, PAUSE_MS));
  }
}
