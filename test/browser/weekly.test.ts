import { type Harness, startHarness, type WatchedPage } from "./harness";

let harness: Harness;
let opened: WatchedPage;

beforeAll(async () => {
  harness = await startHarness();
  opened = await harness.open("index.html");
  await opened.page.waitForFunction(() => "algalLedger" in window);
  await opened.page.evaluate(() => window.algalLedger.ready);
  await opened.page.evaluate(() => window.algalLedger.open({ sheets: [{ name: "Mine", cells: new Map() }], names: [], date1904: false }, "Mine"));
}, 120_000);
afterAll(async () => harness?.close());

const read = (sheet: string, address: string) => opened.page.evaluate(([s, a]) => window.algalLedger.port.read(s, a).values, [sheet, address] as const);
const write = (sheet: string, address: string, content: unknown[][]) => opened.page.evaluate(([s, a, rows]) => window.algalLedger.port.write(s, a, rows), [sheet, address, content] as const);
const shows = (sheet: string, address: string, wanted: string) =>
  opened.page.waitForFunction(([s, a, w]) => new RegExp(w).test(String(window.algalLedger.port.read(s, a).values[0]?.[0])), [sheet, address, wanted] as const, { timeout: 20_000 });

/** No cell of the sheets shows an error. */
async function noErrors(): Promise<void> {
  for (const sheet of ["Set-up", "Log", "Balance", "Charts", "Foods", "Sources"]) {
    const cells = (await read(sheet, "A1:W80")).flat();
    expect(cells.filter((cell) => typeof cell === "string" && /^#[A-Z/0]+[!?]?$/.test(cell))).toEqual([]);
  }
}

describe("the first week, as a new keeper fills it", () => {
  test("the pane puts the sheets behind the keeper's own, and the balance says what it needs first", async () => {
    await opened.page.getByRole("button", { name: /weekly sheets/i }).first().click();
    await shows("Balance", "B3", "Volume");
    expect(await opened.page.evaluate(() => window.algalLedger.port.sheetNames())).toEqual(["Mine", "Set-up", "Log", "Balance", "Charts", "Foods", "Sources"]);
    await noErrors();
  });

  test("then that the log is empty, without an error cell on the way", async () => {
    await write("Set-up", "B5:B8", [[265], ["0 5 10 20 40"], [0.02], [0.12]]);
    await shows("Balance", "B3", "no dated row");
    await noErrors();
  });

  test("and with a week of food, two readings and a harvest both budgets stand, with their verdicts", async () => {
    const day = (i: number) => [46100 + i, "Dry pellets or flakes", 3, i === 0 ? 10 : i === 6 ? 20 : "", i === 0 ? 0.1 : i === 6 ? 0.12 : "", i === 6 ? 60 : ""];
    await write("Log", "A4:F10", [0, 1, 2, 3, 4, 5, 6].map(day));
    await shows("Balance", "B5", "of the N that came in");
    await shows("Balance", "B6", "of the P that came in");
    expect((await read("Balance", "A10:C11"))[0]).toEqual(["From", "To", "Feed in (g N)"]);
    const [[from, to, feedN]] = (await read("Balance", "A11:C11")) as [[number, number, number]];
    const [[, , feedP]] = (await read("Balance", "M11:O11")) as [[number, number, number]];
    // By hand: seven days fed 21 g of 45 % protein, 6.25 g protein a g N, 1,200 mg P in 100 g; the animals keep 5 %.
    expect([from, to]).toEqual([46100, 46106]);
    expect(feedN / ((0.95 * 21 * 0.45) / 6.25)).toBeCloseTo(1, 6);
    expect(feedP / (0.95 * 21 * 0.012)).toBeCloseTo(1, 6);
    await noErrors();
  });

  test("one step of undo takes the week back and the balance asks for it again", async () => {
    await opened.page.locator("#grid canvas[id^=univer-sheet-main-canvas]").first().click({ position: { x: 300, y: 200 } });
    await opened.page.keyboard.press("Control+z");
    await shows("Balance", "B3", "no dated row");
    await noErrors();
  });

  test("nothing of it left this machine or logged an error", () => {
    expect(opened.outside).toEqual([]);
    expect(opened.errors).toEqual([]);
  });
});
