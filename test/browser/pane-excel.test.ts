import type { Page } from "playwright-core";
import { type Harness, startHarness } from "./harness";
import { eventually } from "./pane-checks";

/**
 * The page that Excel loads, with a stand-in for the host's library, which is on the network and needs Excel behind it. It shows
 * that functions and pane share one runtime and its list of problems; it does not show that Excel itself is content.
 */
const OFFICE_LIBRARY = "https://appsforoffice.microsoft.com/lib/1/hosted/office.js";

/** The order of what happened stands in window.diary; calls of the functions go through window.associated, as Excel's do. */
const STAND_IN = `
  window.diary = [];
  window.associated = {};
  window.CustomFunctions = {
    associate: (id, calculate) => { window.diary.push("associate"); window.associated[id] = calculate; },
    Error: class extends Error { constructor(code, message) { super(message); this.code = code; } },
    ErrorCode: { invalidValue: "#VALUE!", notAvailable: "#N/A", invalidNumber: "#NUM!", divisionByZero: "#DIV/0!" },
  };
  window.Office = {
    context: { officeTheme: { bodyBackgroundColor: "#262626" } },
    onReady: (callback) => {
      window.diary.push("onReady");
      const info = { host: window.hostName, platform: "PC" };
      return Promise.resolve(callback && callback(info)).then(() => info);
    },
  };
  const cell = (shown, formula) => ({ isNullObject: false, load() { return this; }, valueTypes: [[shown]], formulas: [[formula]], formulasLocal: [[formula]] });
  const sheet = { name: "Log", getRange: () => cell("Error", "=ALGAL.LIGHT_DAILY(A1,9)") };
  const context = {
    sync: () => Promise.resolve(),
    workbook: { worksheets: { items: [sheet], load() { return this; }, getItemOrNullObject: () => sheet, onChanged: { add: () => ({}) }, onCalculated: { add: () => ({}) } } },
  };
  window.Excel = { RangeValueType: { error: "Error" }, run: (first, second) => (second || first)(context) };
`;

let harness: Harness;
let page: Page;
let outside: string[];
let errors: string[];

beforeAll(async () => {
  harness = await startHarness();
});
afterAll(() => harness.close());

async function openTaskPane(hostName: string | null): Promise<void> {
  page = await harness.context.newPage();
  outside = [];
  errors = [];
  await page.setViewportSize({ width: 350, height: 800 });
  page.on("pageerror", (error) => errors.push(error.message));
  await page.route("**/*", (route) => {
    const address = route.request().url();
    if (address.startsWith(harness.origin)) return route.continue();
    if (address === OFFICE_LIBRARY) return route.fulfill({ contentType: "text/javascript", body: `window.hostName = ${JSON.stringify(hostName)};${STAND_IN}` });
    outside.push(address);
    return route.abort();
  });
  await page.goto(`${harness.origin}/taskpane.html`);
}
afterEach(() => page.close());

it("associates the functions before it asks for the pane, and shows the pane in Excel's dark theme", async () => {
  await openTaskPane("Excel");
  await page.getByRole("heading", { name: "What now?" }).waitFor();
  const diary = await page.evaluate(() => (window as unknown as { diary: string[] }).diary);
  expect(diary[0]).toBe("associate");
  expect(diary.indexOf("onReady")).toBe(diary.length - 1);
  const ground = await page.locator(".fui-FluentProvider").evaluate((element) => getComputedStyle(element).backgroundColor);
  expect(ground).toBe("rgb(41, 41, 41)");
  expect([outside, errors]).toEqual([[], []]);
});

it("lists the problem of a function that Excel calls with its cell's address", async () => {
  await openTaskPane("Excel");
  await page.getByRole("tab", { name: "Problems" }).click();
  const message = await page.evaluate(() => {
    const { LIGHT_DAILY } = (window as unknown as { associated: Record<string, (...args: unknown[]) => unknown> }).associated;
    try {
      LIGHT_DAILY?.([["bright"]], [[9]], { address: "Log!B7" });
      return "no error";
    } catch (error) {
      return (error as Error).message;
    }
  });
  await page.getByRole("button", { name: "Log!B7" }).waitFor();
  expect(await page.getByRole("button", { name: "Log!B7" }).innerText()).toContain(message);
  expect(message).toContain("bright");
});

it("fills the pane's width and does not scroll sideways", async () => {
  await openTaskPane("Excel");
  await page.getByRole("heading", { name: "What now?" }).waitFor();
  expect(await page.evaluate(() => [document.documentElement.scrollWidth, document.documentElement.scrollHeight])).toEqual([350, 800]);
});

it("says what to do when the page is opened without Excel", async () => {
  await openTaskPane(null);
  await eventually(() => page.locator("#pane").innerText(), "Open this page from Excel, as a task pane. Without Excel, use the local page instead.");
});
