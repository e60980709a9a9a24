import type { Locator, Page } from "playwright-core";
import { type Harness, startHarness, type WatchedPage } from "./harness";
import { axeViolations, eventually } from "./pane-checks";

/** The pane on the local page: the same code that Excel runs, over the real grid. */
let harness: Harness;
let watched: WatchedPage;
let page: Page;
let pane: Locator;

const WRONG = '=ALGAL.LIGHT_DAILY("bright",9)';

beforeAll(async () => {
  harness = await startHarness();
  await harness.context.grantPermissions(["clipboard-read", "clipboard-write"]);
  watched = await harness.open("index.html");
  page = watched.page;
  await page.evaluate(() => window.algalLedger.ready);
  pane = page.locator("#pane");
  await pane.getByText("As in this workbook").waitFor();
});
afterAll(() => harness.close());

/** One page for all: it takes seconds to open. Each test leaves the workbook and the pane as it found them. */
afterEach(async () => {
  for (const [sheet, address] of WRITTEN) await write(sheet, address, "");
  WRITTEN.length = 0;
  await select("Log", "A1");
  await page.emulateMedia({ colorScheme: "light" });
  await tab("Functions").click();
  await pane.getByRole("searchbox").fill("");
  await tab("Start").click();
  await eventually(() => tab("Problems").innerText().then((text) => text.trim()), "Problems");
});

const WRITTEN: [string, string][] = [];
const tab = (name: string | RegExp): Locator => pane.getByRole("tab", { name });
const problem = (address: string): Locator => pane.getByRole("button", { name: address });
const selection = (): Promise<unknown> => page.evaluate(() => window.algalLedger.port.selection());
const select = (sheet: string, address: string): Promise<void> =>
  page.evaluate(([s = "", a = ""]) => window.algalLedger.port.select(s, a), [sheet, address]);
async function write(sheet: string, address: string, content: string): Promise<void> {
  if (content !== "") WRITTEN.push([sheet, address]);
  await page.evaluate(([s = "", a = "", c]) => window.algalLedger.port.write(s, a, [[c]]), [sheet, address, content]);
}
const read = (sheet: string, address: string): Promise<unknown> =>
  page.evaluate(([s = "", a = ""]) => window.algalLedger.port.read(s, a).values[0]?.[0], [sheet, address]);

/** Types into a cell as a user does: choose it, type, Enter. */
async function type(sheet: string, address: string, text: string): Promise<void> {
  WRITTEN.push([sheet, address]);
  await page.locator('#grid canvas[id^="univer-sheet-main-canvas"]').click({ position: { x: 300, y: 200 } });
  await select(sheet, address);
  await page.keyboard.type(text);
  await page.keyboard.press("Enter");
}

describe("Problems", () => {
  it("lists a wrong formula that is typed in the grid, and a click goes to its cell", async () => {
    await tab("Problems").click();
    await pane.getByText("Every ALGAL formula that was calculated has its answer.").waitFor();
    await type("Log", "P5", WRONG);
    await problem("Log!P5").waitFor();
    expect(await problem("Log!P5").innerText()).toMatch(/^Log!P5\s+ALGAL\.LIGHT_DAILY\s+.*bright/s);
    expect((await tab("Problems").innerText()).replace(/\s+/g, " ")).toBe("Problems 1");
    expect(await pane.getByRole("status").first().textContent()).toBe("1 cell with a problem.");

    await select("Set-up", "A1");
    await problem("Log!P5").click();
    await eventually(selection, { sheet: "Log", address: "P5" });
    expect(watched.errors).toEqual([]);
    expect(watched.outside).toEqual([]);
  });

  it("goes to the cell by Enter, also on a sheet whose name has a hyphen", async () => {
    await write("Set-up", "F7", WRONG);
    await tab("Problems").click();
    await problem("'Set-up'!F7").focus();
    await page.keyboard.press("Enter");
    await eventually(selection, { sheet: "Set-up", address: "F7" });
  });

  it("drops a cell when its formula is put right or deleted", async () => {
    await write("Log", "P5", WRONG);
    await write("Log", "P6", WRONG);
    await tab("Problems").click();
    await problem("Log!P6").waitFor();
    await write("Log", "P5", "=ALGAL.LIGHT_DAILY(200,9)");
    await problem("Log!P5").waitFor({ state: "detached" });
    expect(await problem("Log!P6").count()).toBe(1);
    await write("Log", "P6", "");
    await problem("Log!P6").waitFor({ state: "detached" });
    await pane.getByText("Every ALGAL formula that was calculated has its answer.").waitFor();
    expect(await read("Log", "P5")).toBeCloseTo(6.48, 10);
  });
});

describe("Start", () => {
  it("copies the budget formula of the open sample, and the formula calculates in a free cell", async () => {
    await pane.getByText("As in this workbook").waitFor();
    await pane.getByRole("button", { name: "Copy the formula for nitrogen" }).click();
    await pane.getByRole("button", { name: "Copy the formula for nitrogen" }).getByText("Copied").waitFor();
    const copied = await page.evaluate(() => navigator.clipboard.readText());
    expect(copied).toMatch(/^=ALGAL\.BUDGET_N\(/);
    await write("Set-up", "H30", copied);
    await eventually(() => read("Set-up", "H30"), "From");
    expect(await read("Set-up", "R30")).toBe("Verdict");
    expect(typeof (await read("Set-up", "J31"))).toBe("number");
  });
});

describe("Functions", () => {
  it("finds a function by a word of its help and opens its arguments", async () => {
    await tab("Functions").click();
    await pane.getByRole("searchbox").fill("displace rock");
    await pane.getByText("1 function.").waitFor();
    await pane.getByRole("button", { name: /ALGAL\.NET_VOLUME/ }).click();
    await pane.getByText("gross_l", { exact: true }).waitFor();
    expect(await pane.getByRole("link", { name: /Help for ALGAL\.NET_VOLUME/ }).getAttribute("href")).toBe("help.html#NET_VOLUME");
  });

  it("keeps what was searched while another tab is in front", async () => {
    await tab("Functions").click();
    await pane.getByRole("searchbox").fill("harvest");
    await tab("Start").click();
    await tab("Functions").click();
    expect(await pane.getByRole("searchbox").inputValue()).toBe("harvest");
  });
});

describe("keyboard and accessibility", () => {
  it("moves between the tabs by arrows, Home and End, with one stop of the Tab key", async () => {
    await tab("Start").focus();
    const shown = () => pane.getByRole("heading", { level: 2 }).innerText();
    const steps: [string, string][] = [["ArrowRight", "Budget"], ["ArrowRight", "Size a screen"], ["ArrowRight", "Problems"], ["ArrowRight", "Functions"], ["ArrowRight", "What now?"], ["ArrowLeft", "Functions"], ["Home", "What now?"], ["End", "Functions"]];
    for (const [key, heading] of steps) {
      await page.keyboard.press(key);
      await eventually(shown, heading);
    }
    await page.keyboard.press("Tab");
    expect(await page.evaluate(() => document.activeElement?.getAttribute("role"))).toBe("tabpanel");
  });

  it.each(["light", "dark"] as const)("has no violation that axe finds, on any tab, %s", async (colorScheme) => {
    await page.emulateMedia({ colorScheme });
    await eventually(() => pane.locator(".fui-FluentProvider").evaluate((element) => getComputedStyle(element).colorScheme), colorScheme);
    expect((await pane.boundingBox())?.width).toBe(350);
    expect(await axeViolations(page)).toEqual([]);
    await tab("Problems").click();
    await pane.getByRole("heading", { name: "Problems" }).waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await write("Log", "P5", WRONG);
    await problem("Log!P5").waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await tab("Functions").click();
    const entry = pane.getByRole("button", { name: /ALGAL\.FEEDLOAD_N/ });
    if ((await entry.getAttribute("aria-expanded")) === "false") await entry.click();
    await pane.getByText("retained_share", { exact: true }).waitFor();
    await eventually(() => pane.evaluate((element) => element.getAnimations({ subtree: true }).filter(({ playState }) => playState === "running").length), 0);
    expect(await axeViolations(page)).toEqual([]);
  });

  it.each([320, 450])("does not scroll sideways at %i px", async (width) => {
    await page.addStyleTag({ content: `:root { --pane-width: ${width}px !important; }` });
    await write("Log", "P5", WRONG);
    for (const name of ["Start", "Budget", "Size", "Problems", "Functions"]) {
      await tab(name).click();
      const panel = pane.getByRole("tabpanel");
      await panel.waitFor();
      expect(await panel.evaluate((element) => [element.clientWidth <= window.innerWidth, element.scrollWidth - element.clientWidth])).toEqual([true, 0]);
    }
    expect((await pane.boundingBox())?.width).toBe(width);
  });
});

describe("another workbook", () => {
  it("changes the formulas when another sample is opened beside the pane", async () => {
    const formula = () => pane.locator("code").first().textContent();
    const before = await formula();
    await page.locator("#sample").selectOption({ index: 1 });
    // The tests before wrote into the first one.
    await page.getByRole("dialog").getByRole("button", { name: "Discard changes" }).click();
    await eventually(async () => (await formula()) === before, false);
    expect(await formula()).toMatch(/^=ALGAL\.BUDGET_N\(/);
    await page.locator("#sample").selectOption({ index: 0 });
    await eventually(formula, before);
  });
});
