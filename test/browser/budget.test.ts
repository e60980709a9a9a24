import type { Locator, Page } from "playwright-core";
import { type Harness, startHarness, type WatchedPage } from "./harness";
import { axeViolations, eventually } from "./pane-checks";

/** The screen Budget on the local page, over the first sample as it is calculated there. */
let harness: Harness;
let watched: WatchedPage;
let page: Page;
let pane: Locator;

/** The lamps in the sample's set-up. */
const LAMPS = [["=ALGAL.LIGHT_FROM_WATTS(38,B3)"], [14]];

beforeAll(async () => {
  harness = await startHarness();
  watched = await harness.open("index.html");
  page = watched.page;
  await page.evaluate(() => window.algalLedger.ready);
  pane = page.locator("#pane");
  await pane.getByRole("tab", { name: "Budget" }).click();
  await pane.getByText("As the formula in Nitrogen!A8 reads it.").waitFor();
});
afterAll(() => harness.close());

const write = (sheet: string, address: string, content: unknown[][]): Promise<void> =>
  page.evaluate(([s, a, c]) => window.algalLedger.port.write(s as string, a as string, c as unknown[][]), [sheet, address, content] as const);
const cells = (sheet: string, address: string): Promise<unknown[][]> =>
  page.evaluate(([s = "", a = ""]) => window.algalLedger.port.read(s, a).values, [sheet, address]);
const selection = (): Promise<unknown> => page.evaluate(() => window.algalLedger.port.selection());
const period = (): Locator => pane.getByRole("combobox", { name: "Period" });
const flows = (name: string): Locator => pane.getByRole("table", { name: `${name}: where it went` });
const shownRow = (table: Locator, name: string): Promise<string> => table.getByRole("row", { name }).innerText().then((text) => text.replace(/\s+/g, " ").trim());
const three = (value: unknown): string => String(Number(Number(value).toPrecision(3)));

it.each([["Nitrogen", "Nitrogen"], ["Phosphorus", "Phosphorus"]])("shows the verdict and the figures of %s that stand in the sheet's cells", async (name, sheet) => {
  const rows = (await cells(sheet, "A9:K19")).filter(([from]) => typeof from === "number");
  const latest = rows.at(-2) ?? [];
  const [, , feed, , harvest, , , , , , verdict] = latest;
  expect(await period().inputValue()).toBe("latest");
  const headline = String(verdict).split(/(?<=\.) (?=[A-Z])/)[0] ?? "";
  await pane.getByText(headline, { exact: true }).waitFor();
  expect(await shownRow(flows(name), "Feed")).toMatch(new RegExp(`^Feed ${three(feed).replace(".", "\\.")} \\d+ %$`));
  expect(await shownRow(flows(name), "Harvest")).toMatch(new RegExp(`^Harvest ${three(harvest).replace(".", "\\.")} \\d+ %$`));
  await period().selectOption("whole");
  const total = rows.reduce((sum, row) => sum + Number(row[2]), 0);
  await eventually(() => shownRow(flows(name), "Feed").then((text) => text.split(" ")[1]), three(total));
  await period().selectOption("latest");
});

it("follows the cells: a wrong cell is named, its period has no picture, and both are back when it is put right", async () => {
  const [[before]] = (await cells("Log", "C100")) as [[unknown]];
  await write("Log", "C100", [["a lot"]]);
  await pane.getByText("No picture: this period is reckoned as soon as").first().waitFor();
  await pane.getByText(/Row 100, Feed \(g\): .*a lot/).first().waitFor();
  expect(await flows("Nitrogen").count()).toBe(0);
  await write("Log", "C100", [[before]]);
  await pane.getByText("No picture: this period is reckoned as soon as").first().waitFor({ state: "detached" });
});

it("names the rows that the forecast needs, and forecasts as soon as they stand; a slider moves it by keyboard and comes back", async () => {
  await write("Set-up", "B9:B10", [[""], [""]]);
  await pane.getByText(/Add to the set-up, .*"Light \(umol m-2 s-1\)" and "Light hours"/).waitFor();
  await write("Set-up", "B9:B10", LAMPS);
  await pane.getByRole("slider", { name: "Food" }).waitFor();
  const eightWeeks = (): Promise<string[]> => pane.getByRole("table", { name: "Ahead: what if" }).getByRole("row", { name: /^NO3/ }).getByRole("cell").allInnerTexts();
  const before = await eightWeeks();
  expect(before).toHaveLength(4);
  const food = pane.getByRole("slider", { name: "Food" });
  await food.focus();
  for (let press = 0; press < 10; press += 1) await page.keyboard.press("ArrowLeft");
  expect(await food.getAttribute("aria-valuetext")).toBe("-50 %");
  const high = (texts: string[]): number => Number(/[\d.]+$/.exec(texts[2] ?? "")?.[0]);
  await eventually(async () => high(await eightWeeks()) < high(before), true);
  await page.keyboard.press("Home");
  await page.keyboard.press("End");
  await eventually(async () => high(await eightWeeks()) > high(before), true);
  await pane.getByRole("button", { name: "As in the log" }).click();
  await eventually(eightWeeks, before);
});

it("goes to the row of a warning", async () => {
  const go = pane.getByRole("button", { name: "Go to Log!A73:H73" });
  await go.focus();
  await page.keyboard.press("Enter");
  await eventually(selection, { sheet: "Log", address: "A73:H73" });
  expect(((await cells("Log", "G73")) as [[unknown]])[0][0]).toBe(20);
});

it.each(["light", "dark"] as const)("has no violation that axe finds at 350 px, %s", async (colorScheme) => {
  await page.emulateMedia({ colorScheme });
  await eventually(() => pane.locator(".fui-FluentProvider").evaluate((element) => getComputedStyle(element).colorScheme), colorScheme);
  await pane.getByRole("slider", { name: "Food" }).waitFor();
  expect((await pane.boundingBox())?.width).toBe(350);
  await pane.getByText("More on nitrogen").click();
  expect(await axeViolations(page)).toEqual([]);
  await pane.getByText("More on nitrogen").click();
  expect(watched.errors).toEqual([]);
  expect(watched.outside).toEqual([]);
});

it("gives each log of a workbook its own account, and follows when another workbook is opened", async () => {
  await page.locator("#sample").selectOption({ index: 1 });
  // Cells were changed above, which the page does not let go unasked.
  await page.getByRole("dialog").getByRole("button", { name: "Discard changes" }).click();
  const logs = pane.getByRole("combobox", { name: "Log" });
  await logs.waitFor();
  expect(await logs.getByRole("option").allInnerTexts()).toEqual(["Mill log", "Heron log"]);
  await pane.getByText("As the formula in 'Mill nitrogen'!A8 reads it.").waitFor();
  await logs.selectOption("Heron log");
  await pane.getByText("As the formula in 'Heron nitrogen'!A8 reads it.").waitFor();
  await page.locator("#sample").selectOption({ index: 0 });
  await pane.getByText("As the formula in Nitrogen!A8 reads it.").waitFor();
});
