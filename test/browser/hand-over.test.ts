import fs from "node:fs";
import type { Locator, Page } from "playwright-core";
import { readBook } from "../../src/files/read-book";
import { convert } from "../files/libreoffice";
import { FORBIDDEN, recalculatedByOffice } from "../native/judging";
import { type Harness, startHarness } from "./harness";
import { axeViolations, eventually } from "./pane-checks";

/** Handing a copy over on the local page, from a cold page to the file that the browser saves. */
let harness: Harness;
let page: Page;
let pane: Locator;

beforeAll(async () => {
  harness = await startHarness();
  ({ page } = await harness.open("index.html"));
  await page.evaluate(() => window.algalLedger.ready);
  pane = page.locator("#pane");
}, 120_000);
afterAll(async () => harness?.close());

const button = (name: string): Locator => pane.getByRole("button", { name, exact: true });

test("says what leaves, what stays and what comes, and saves a copy that shows the same without the add-in", async () => {
  const shown = (sheet: string, address: string) => page.evaluate(([s, a]) => window.algalLedger.port.read(s, a).values, [sheet, address] as const);
  const nitrogen = await shown("Nitrogen", "A8:K19");
  await button("Make a copy to hand over").click();
  await pane.getByRole("heading", { name: "What leaves" }).waitFor();
  expect(await pane.getByRole("heading", { name: "Hand over a copy" }).evaluate((heading) => heading === document.activeElement)).toBe(true);
  for (const text of [/^Nitrogen: \d+ cells?$/, /^Phosphorus: \d+ cells?$/, "This workbook itself, unchanged"]) expect(await pane.getByText(text).count()).toBe(1);
  for (const colorScheme of ["dark", "light"] as const) {
    await page.emulateMedia({ colorScheme });
    await eventually(() => pane.locator(".fui-FluentProvider").first().evaluate((element) => getComputedStyle(element).colorScheme), colorScheme);
    expect(await axeViolations(page)).toEqual([]);
  }
  await pane.getByRole("radio", { name: "Values alone" }).check();
  const [download] = await Promise.all([page.waitForEvent("download"), button("Make the copy").click()]);
  await pane.getByText("The copy is made, with a cover sheet in front. Save it under a name of its own.").waitFor();
  expect(download.suggestedFilename()).toMatch(/ - copy\.xlsx$/);
  const file = fs.readFileSync(await download.path());
  const book = await readBook(file);
  expect(book.sheets[0]?.name).toBe("Cover");
  expect(book.sheets.flatMap(({ cells }) => [...cells.values()].filter(({ formula }) => /ALGAL/.test(formula ?? "")))).toEqual([]);
  const copied = book.sheets.find(({ name }) => name === "Nitrogen")?.cells;
  nitrogen.forEach((row, r) => row.forEach((value, c) => expect(copied?.get(`${String.fromCharCode(65 + c)}${8 + r}`)?.value ?? "").toEqual(value)));
  const opened = convert({ "copy.xlsx": file }, "fods")["copy.xlsx"]?.toString("utf8") ?? "";
  expect(opened).toContain("Copy for readers without Algal Ledger");
  expect(opened).not.toMatch(/#NAME\?|ALGAL\./);
  expect(await shown("Nitrogen", "A8:K19")).toEqual(nitrogen);
});

test("saves a copy with plain formulas, which another program calculates to the same figures", async () => {
  const nitrogen = await page.evaluate(() => window.algalLedger.port.read("Nitrogen", "A8:K19").values);
  await pane.getByRole("radio", { name: "Plain formulas, which follow the entries" }).check();
  const [download] = await Promise.all([page.waitForEvent("download"), button("Make the copy").click()]);
  await pane.getByText(/^The copy is made: \d+ cells follow the entries, 4 cells became values\./).waitFor();
  const file = fs.readFileSync(await download.path());
  const formulas = (await readBook(file)).sheets.flatMap(({ cells }) => [...cells.values()].flatMap(({ formula }) => formula ?? []));
  expect(formulas.filter((formula) => FORBIDDEN.test(formula))).toEqual([]);
  const recalculated = (await recalculatedByOffice({ copy: file })).get("copy")?.sheets.find(({ name }) => name === "Nitrogen")?.cells;
  nitrogen.forEach((row, r) =>
    row.forEach((value, c) => {
      const other = recalculated?.get(`${String.fromCharCode(65 + c)}${8 + r}`)?.value ?? "";
      if (typeof value === "number") expect(Math.abs(Number(other) - value)).toBeLessThanOrEqual(Math.max(1e-15, 1e-9 * Math.abs(value)));
      else expect(other).toBe(value);
    }),
  );
}, 120_000);

test("a workbook without a formula of ours needs no copy", async () => {
  await button("Back to Start").click();
  await page.evaluate(() => window.algalLedger.open({ sheets: [{ name: "Mine", cells: new Map() }], names: [], date1904: false }, "Mine"));
  await button("Make a copy to hand over").click();
  await pane.getByText("No cell of this workbook has an ALGAL formula. It can be shared as it is.").waitFor();
});
