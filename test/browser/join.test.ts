import type { Locator, Page } from "playwright-core";
import { startHarness, type Harness } from "./harness";
import { axeViolations, eventually } from "./pane-checks";

/** Light and dark, one after the other. */
async function axeInBoth(): Promise<string[]> {
  const found: string[] = [];
  for (const colorScheme of ["dark", "light"] as const) {
    await page.emulateMedia({ colorScheme });
    await eventually(() => pane.locator(".fui-FluentProvider").first().evaluate((element) => getComputedStyle(element).colorScheme), colorScheme);
    found.push(...(await axeViolations(page)));
  }
  return found;
}

/** Joining a keeper's own log on the local page, from a cold page to the figures in the cells and back. */
let harness: Harness;
let page: Page;
let pane: Locator;

/** Eight days of an invented log, below a title, its nitrate test silent about its form. */
const LOG: (string | number)[][] = [
  ["My invented tank", "", "", "", ""],
  ["Tag", "Futter [g]", "Nitrat [mg/l]", "Algen [g]", "Bemerkung"],
  ...[0, 1, 2, 3, 4, 5, 6, 7].map((day) => [46000 + day, 3, day === 0 ? 10 : day === 7 ? 14 : "", day === 7 ? 60 : "", day === 3 ? "Filter gespült" : ""]),
];
const WHOLE = "A1:N40";

beforeAll(async () => {
  harness = await startHarness();
  ({ page } = await harness.open("index.html"));
  await page.evaluate(() => window.algalLedger.ready);
  pane = page.locator("#pane");
}, 120_000);
afterAll(async () => harness?.close());

const read = (sheet: string, address: string) => page.evaluate(([s, a]) => window.algalLedger.port.read(s, a), [sheet, address] as const);
const sheets = () => page.evaluate(() => window.algalLedger.port.sheetNames());
const button = (name: string): Locator => pane.getByRole("button", { name, exact: true });
/** Waits for it; when it never comes, what the pane says instead is worth more than a time. */
const says = (text: string | RegExp) =>
  pane
    .getByText(text)
    .waitFor()
    .catch(async () => {
      throw new Error(`The pane does not say ${String(text)}, but: ${await pane.innerText()}`);
    });

async function openOwn(): Promise<void> {
  await page.evaluate(async (log) => {
    await window.algalLedger.open({ sheets: [{ name: "Mine", cells: new Map() }], names: [], date1904: false }, "Mine");
    window.algalLedger.port.write("Mine", `A1:E${log.length}`, log);
    window.algalLedger.port.select("Mine", "C5");
  }, LOG);
}
async function lookAtIt(): Promise<void> {
  await pane.getByRole("tab", { name: "Start" }).click();
  if (await button("Back to Start").isVisible()) await button("Back to Start").click();
  await button("Join the log on your sheet").click();
  await says("A log on Mine, rows 3 to 10.");
}
const choose = (label: string, option: string) => pane.getByLabel(label).selectOption({ label: option });

test("an empty workbook offers three choices and a sample, and says that it holds no log", async () => {
  await page.evaluate(() => window.algalLedger.open({ sheets: [{ name: "Mine", cells: new Map() }], names: [], date1904: false }, "Mine"));
  for (const name of ["Join the log on your sheet", "Insert the weekly sheets", "Size a screen", "Add a sample to play with"]) expect(await button(name).count()).toBe(1);
  await button("Join the log on your sheet").click();
  await says("This sheet is empty: select a cell of the sheet with the log.");
  expect(await pane.getByRole("heading", { name: "Join your log" }).evaluate((heading) => heading === document.activeElement)).toBe(true);
  await button("Back to Start").click();
  expect(await button("Join the log on your sheet").evaluate((one) => one === document.activeElement)).toBe(true);
});

test("asks what the sheet leaves open, adds the account beside the log, and the figures are those worked by hand", async () => {
  await openOwn();
  const before = await read("Mine", WHOLE);
  await lookAtIt();
  expect(await button("Add columns and sheets").isDisabled()).toBe(true);
  await says("Answer 1 question above first.");
  await choose('What is "Nitrat [mg/l]"?', "NO3 (mg/L)");
  await says("Choose 1 food above first.");
  await choose("What do you feed?", "Dry pellets or flakes");
  await says("Enter the volume first.");
  await pane.getByRole("textbox", { name: "Water volume" }).fill("200");
  expect(await axeInBoth()).toEqual([]);
  await button("Add columns and sheets").click();
  await says("Added at Mine!G2, and the sheets Join, Balance, Charts, Foods. The account is on Balance.");
  await eventually(async () => (await read("Mine", "G2:K2")).values[0], ["Feed in (g N)", "Feed in (g P)", "Harvest out (g N)", "Harvest out (g P)", "What to look at"]);
  expect((await read("Mine", "A1:E10")).values).toEqual(LOG);
  const rows = (await read("Mine", "G3:J10")).values as [[number, number, number, number]];
  // By hand: 3 g of food with 45 % protein at 6.25 g protein a g N and 1,200 mg P in 100 g, the animals keep 5 %; 60 g drained, 8 % dry, 3.5 % N and 0.35 % P.
  expect(rows[0][0] / ((0.95 * 3 * 0.45) / 6.25)).toBeCloseTo(1, 6);
  expect(rows[0][1] / (0.95 * 3 * 0.012)).toBeCloseTo(1, 6);
  expect((rows.at(-1)?.[2] ?? 0) / (60 * 0.08 * 0.035)).toBeCloseTo(1, 6);
  expect((rows.at(-1)?.[3] ?? 0) / (60 * 0.08 * 0.0035)).toBeCloseTo(1, 6);
  expect(rows[0].slice(2)).toEqual(["", ""]);
  await eventually(async () => (await read("Balance", "A10:A10")).values[0]?.[0], "From");
  expect(JSON.stringify(before.values).includes("Feed in")).toBe(false);
});

test("a figure that is changed afterwards changes the account, and rows that are added come in with one click", async () => {
  const before = (await read("Mine", "G3:G3")).values[0]?.[0] as number;
  await page.evaluate(() => window.algalLedger.port.write("Mine", "B3", [[6]]));
  await eventually(async () => Math.round(1000 * (((await read("Mine", "G3:G3")).values[0]?.[0] as number) / before)), 2000);
  await page.evaluate(() => window.algalLedger.port.write("Mine", "A11:D12", [[46008, 3, "", ""], [46009, 3, "", ""]]));
  await eventually(async () => typeof (await read("Mine", "G12:G12")).values[0]?.[0], "number");
  await button("Read it again (rows or columns were added)").click();
  await says("Read again: 10 rows, columns at Mine!G2.");
});

test("what was added is taken out, and the sheet is as it was, cell for cell", async () => {
  await button("Remove what was added").click();
  await says("This takes out the added columns and the sheets Join, Balance, Charts, Foods, with what you typed on them.");
  expect(await axeInBoth()).toEqual([]);
  await button("Remove columns and sheets").click();
  await says("Removed. Your log is as it was.");
  expect(await button("Remove columns and sheets").count()).toBe(0);
  expect(await sheets()).toEqual(["Mine"]);
  const after = await read("Mine", WHOLE);
  const wanted = Array.from({ length: 40 }, (_, row) => Array.from({ length: 14 }, (_cell, column) => LOG[row]?.[column] ?? ""));
  wanted[2]?.splice(1, 1, 6);
  wanted[10]?.splice(0, 2, 46008, 3);
  wanted[11]?.splice(0, 2, 46009, 3);
  expect(after.values).toEqual(wanted);
});

test("nothing is written over: a cell in the way refuses the whole, and a new sheet takes the account", async () => {
  await openOwn();
  await page.evaluate(() => window.algalLedger.port.write("Mine", "H6", [["mine"]]));
  await page.evaluate(() => window.algalLedger.port.write("Mine", "H2", [["My notes"]]));
  const before = await read("Mine", WHOLE);
  await pane.getByRole("tab", { name: "Start" }).click();
  await button("Look at the selected sheet").click();
  await choose('What is "Nitrat [mg/l]"?', "NO3 (mg/L)");
  await choose("What do you feed?", "Mussel");
  await pane.getByRole("textbox", { name: "Water volume" }).fill("200");
  await button("Add columns and sheets").click();
  await says(/^Nothing was written: Mine!H\d is in the way/);
  expect([await read("Mine", WHOLE), await sheets()]).toEqual([before, ["Mine"]]);
  await button("Put them on a new sheet instead").click();
  await says(/^Added at Rows!A4/);
  expect(await read("Mine", WHOLE)).toEqual(before);
  await eventually(async () => (await read("Rows", "A4:B4")).values[0], ["Date", "Feed in (g N)"]);
  await button("See where it went").click();
  await pane.getByRole("heading", { name: "Where it went" }).waitFor();
  expect(await axeInBoth()).toEqual([]);
});

test("the sample is added beside what stands there, with its account", async () => {
  await page.evaluate(() => window.algalLedger.open({ sheets: [{ name: "Mine", cells: new Map() }], names: [], date1904: false }, "Mine"));
  await pane.getByRole("tab", { name: "Start" }).click();
  await button("Back to Start").click();
  await button("Add a sample to play with").click();
  await says(/^Added: Sample log, an invented log/);
  expect(await sheets()).toEqual(["Mine", "Sample log", "Join", "Balance", "Charts", "Foods"]);
  await eventually(async () => (await read("Balance", "A10:A10")).values[0]?.[0], "From");
  await pane.getByRole("tab", { name: "Budget" }).click();
  await pane.getByRole("heading", { name: "Ahead: what if" }).waitFor();
  await pane.getByRole("slider").first().waitFor();
});
