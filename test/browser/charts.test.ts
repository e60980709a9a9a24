import { type Harness, startHarness, type WatchedPage } from "./harness";
import { axeViolations, eventually } from "./pane-checks";

/** 2026-03-19; three weeks, fed every day, tested and harvested once a week. Invented. */
const FIRST_DAY = 46_100;
const [NITRATE, PHOSPHATE, NITROGEN, GROWTH] = [0, 1, 2, 3];
const SLOW_MS = 60_000;

let harness: Harness;
let opened: WatchedPage;

beforeAll(async () => {
  harness = await startHarness();
  opened = await openWithWeeks("light");
}, 240_000);
afterAll(async () => harness?.close());

/** A cold page: the sheets from the pane, then three weeks of the log. */
async function openWithWeeks(colorScheme: "light" | "dark"): Promise<WatchedPage> {
  const watched = await harness.open("index.html", { colorScheme, width: 1500, height: 900 });
  const { page } = watched;
  page.setDefaultTimeout(15_000);
  await page.waitForFunction(() => "algalLedger" in window);
  await page.evaluate(() => window.algalLedger.ready);
  await page.evaluate(() => window.algalLedger.open({ sheets: [{ name: "Mine", cells: new Map() }], names: [], date1904: false }, "Mine"));
  await page.getByRole("button", { name: /weekly sheets/i }).first().click();
  await page.waitForFunction(() => window.algalLedger.port.sheetNames().includes("Balance") && window.algalLedger.port.read("Balance", "B3").values[0]?.[0] !== "", null, { timeout: SLOW_MS });
  await page.evaluate((firstDay) => {
    const { port } = window.algalLedger;
    const [nitrate, phosphate, harvest] = [[10, 20, 20, 10], [0.1, 0.12, 0.1, 0.06], ["", 60, 75, 82]];
    port.write("Set-up", "B5:B8", [[265], ["0 5 10 20 40"], [0.02], [0.12]]);
    port.write("Log", "A4:F25", Array.from({ length: 22 }, (_day, i) => [firstDay + i, "Dry pellets or flakes", 3, ...[nitrate, phosphate, harvest].map((weekly) => (i % 7 === 0 ? (weekly[i / 7] ?? "") : ""))]));
    port.select("Charts", "A1");
  }, FIRST_DAY);
  await page.waitForFunction(() => document.querySelectorAll(".sheet-chart svg").length === 4, null, { timeout: SLOW_MS });
  return watched;
}

const chart = (place: number) => opened.page.locator(".sheet-chart").nth(place);
const label = (place: number) => chart(place).locator("svg").getAttribute("aria-label");
const box = async (place: number) => (await chart(place).boundingBox()) ?? { x: 0, y: 0, width: 0, height: 0 };
const read = (sheet: string, address: string) => opened.page.evaluate(([s, a]) => window.algalLedger.port.read(s, a).values, [sheet, address] as const);
const write = (sheet: string, address: string, content: unknown[][]) => opened.page.evaluate(([s, a, rows]) => window.algalLedger.port.write(s, a, rows), [sheet, address, content] as const);
const select = (sheet: string, address: string) => opened.page.evaluate(([s, a]) => window.algalLedger.port.select(s, a), [sheet, address] as const);
const press = (key: string) => opened.page.keyboard.press(key);
const focusInCells = () => opened.page.evaluate(() => (document.activeElement as HTMLElement | null)?.dataset.uComp === "editor");
const charts = async () => {
  await select("Charts", "A1");
  await opened.page.waitForFunction(() => document.querySelectorAll(".sheet-chart svg").length === 4);
};

describe("the charts of the weekly sheets", () => {
  test("stand on their sheet with a mark for every reading and a column for every period", async () => {
    const counts = (name: string) => opened.page.locator(".sheet-chart").evaluateAll((all, drawn) => all.map((one) => one.querySelectorAll(`[data-series] .${drawn}`).length), name);
    expect(await counts("mark")).toEqual([12, 12, 0, 0]);
    expect((await counts("column")).slice(0, 2)).toEqual([0, 0]);
    expect((await counts("column"))[GROWTH]).toBe(3);
    expect(await chart(NITROGEN).locator('[data-series="feed in"] .column').count()).toBe(3);
  });

  test("say their last values in words", async () => {
    // By hand: 10 on a chart of 5, 10, 20 lies between 7.5 and 15; a meter's 0.06 in steps of 0.02 between 0.05 and 0.07.
    expect(await label(NITRATE)).toContain("Lines with marks, mg/L. lowest: 4 values, the last 7.5 (2026-04-09).");
    expect(await label(NITRATE)).toContain("highest: 4 values, the last 15 (2026-04-09).");
    expect(await label(PHOSPHATE)).toContain("lowest: 4 values, the last 0.05 (2026-04-09). value: 4 values, the last 0.06 (2026-04-09). highest: 4 values, the last 0.07 (2026-04-09).");
    // Seven days of 3 g with 45 % protein, 6.25 g protein a g N, less the 5 % that the animals keep; 82 g with 8 % dry, 7 days, 0.12 m2.
    expect(await label(NITROGEN)).toContain(`feed in: 3 values, the last ${((0.95 * 21 * 0.45) / 6.25).toPrecision(4)} (2026-04-09)`);
    expect(await label(GROWTH)).toContain(`3 values, the last ${((82 * 0.08) / 7 / 0.12).toPrecision(3)} (2026-04-09)`);
  });

  test("follow an edit of the log, and its undo", async () => {
    await write("Log", "D25", [[20]]);
    await eventually(async () => /lowest: 4 values, the last 15 \(2026-04-09\)/.test((await label(NITRATE)) ?? ""), true);
    await opened.page.locator("#grid canvas[id^=univer-sheet-main-canvas]").first().click({ position: { x: 200, y: 35 } });
    await press("Control+z");
    // Undo brings the sheet of the edit to the front.
    await eventually(() => opened.page.evaluate(() => window.algalLedger.port.activeSheet()), "Log");
    await charts();
    await eventually(async () => /lowest: 4 values, the last 7.5 \(2026-04-09\)/.test((await label(NITRATE)) ?? ""), true);
  });

  test("scroll with the cells, with the wheel over the chart or over the cells, and stay under the frozen rows", async () => {
    const before = await box(NITROGEN);
    await opened.page.mouse.move(before.x + 200, (await box(NITRATE)).y + 60);
    await opened.page.mouse.wheel(0, 120);
    await eventually(async () => (await box(NITROGEN)).y < before.y - 20, true);
    const moved = await box(NITROGEN);
    const pane = await opened.page.locator(".sheet-pane").first().boundingBox();
    const frozenEnd = pane?.y ?? 0;
    expect((await box(NITRATE)).y).toBeLessThan(frozenEnd - 20);
    const chartAt = (y: number) => opened.page.evaluate(([left, top]) => document.elementFromPoint(left, top)?.closest(".sheet-chart") !== null, [before.x + 20, y] as const);
    // What went under the frozen rows is not there for the pointer.
    expect([await chartAt(frozenEnd + 5), await chartAt(frozenEnd - 5)]).toEqual([true, false]);
    await opened.page.mouse.move(before.x + 200, frozenEnd - 30);
    await opened.page.mouse.wheel(0, -2000);
    await eventually(async () => (await box(NITROGEN)).y, before.y);
    expect(moved.x).toBe(before.x);
  });

  test("grow with the columns under them and with the zoom, and go with their sheet", async () => {
    const [before, next] = [await box(NITRATE), await box(PHOSPHATE)];
    const setWidth = (pixels: number) => opened.page.evaluate((wide) => window.algalLedger.port.formats.setColumnWidth("Charts", "B1", wide), pixels);
    const [width = 0] = await opened.page.evaluate(() => window.algalLedger.port.formats.columnWidths("Charts", "B1"));
    await setWidth(width + 60);
    await eventually(async () => Math.round((await box(NITRATE)).width - before.width), 60);
    expect(Math.round((await box(PHOSPHATE)).x - next.x)).toBe(60);
    await setWidth(width);
    await eventually(async () => Math.round((await box(NITRATE)).width), Math.round(before.width));
    await opened.page.locator("#grid").getByText("100%").click();
    await opened.page.getByText("50%", { exact: true }).click();
    await eventually(async () => Math.round((await box(NITRATE)).width), Math.round(before.width / 2));
    expect(await chart(NITRATE).locator(".mark").count()).toBe(12);
    // A click while the list of sizes still fades away would only end it.
    await opened.page.getByText("100%", { exact: true }).waitFor({ state: "detached" });
    await opened.page.locator("#grid").getByText("50%").first().click();
    await opened.page.getByText("100%", { exact: true }).click();
    await eventually(async () => Math.round((await box(NITRATE)).width), Math.round(before.width));
    await select("Log", "A1");
    await eventually(() => opened.page.locator(".sheet-chart").count(), 0);
    await charts();
  });
});

describe("a value of a chart", () => {
  const value = () => chart(NITRATE).getByRole("status").textContent();

  test("shows at the pointer", async () => {
    const mark = await chart(NITRATE).locator('[data-series="highest"] .mark').nth(1).boundingBox();
    await opened.page.mouse.move((mark?.x ?? 0) + 3, (mark?.y ?? 0) + 9);
    expect(await value()).toBe("highest, 2026-03-26: 30 mg/L");
    expect(await chart(NITRATE).locator(".here").count()).toBe(1);
    await opened.page.mouse.move((mark?.x ?? 0) + 60, (mark?.y ?? 0) + 160);
    expect(await value()).toBe("");
  });

  test("is read by the arrows after Ctrl+Alt+5, without moving the chosen cell, and Escape goes back to the cells", async () => {
    await opened.page.locator("#grid canvas[id^=univer-sheet-main-canvas]").first().click({ position: { x: 200, y: 35 } });
    const chosen = await opened.page.evaluate(() => window.algalLedger.port.selection());
    await press("Control+Alt+5");
    expect(await chart(NITRATE).evaluate((one) => one === document.activeElement)).toBe(true);
    expect(await chart(NITRATE).getAttribute("aria-label")).toMatch(/^Chart, Nitrate/);
    await press("ArrowRight");
    expect(await value()).toBe("lowest, 2026-04-09: 7.5 mg/L");
    await press("ArrowLeft");
    await press("ArrowDown");
    expect(await value()).toBe("value, 2026-04-02: 22.5 mg/L");
    await press("Tab");
    expect(await value()).toBe("");
    expect(await chart(PHOSPHATE).evaluate((one) => one === document.activeElement)).toBe(true);
    expect(await opened.page.evaluate(() => window.algalLedger.port.selection())).toEqual(chosen);
    await press("Escape");
    expect(await focusInCells()).toBe(true);
    await press("ArrowDown");
    expect(await opened.page.evaluate(() => window.algalLedger.port.selection())).not.toEqual(chosen);
  });

  test("brings its chart into view from far away", async () => {
    await select("Charts", "AE60");
    await eventually(async () => (await box(NITRATE)).x < 0, true);
    await press("Control+Alt+5");
    await eventually(async () => (await box(NITRATE)).x > 0, true);
    await press("Escape");
    await charts();
  });
});

describe("a cell with a list", () => {
  const list = () => opened.page.getByRole("listbox", { name: /^Values for/ });
  const chosen = () => list().locator('[aria-selected="true"]').textContent();
  const at = async (sheet: string, address: string) => {
    await select(sheet, address);
    await opened.page.getByRole("button", { name: "Choose from the list (Alt+Down)" }).waitFor();
  };

  test("says what it is for, and opens with Alt+Down on the value that it holds", async () => {
    await opened.page.locator("#grid canvas[id^=univer-sheet-main-canvas]").first().click({ position: { x: 200, y: 35 } });
    await at("Log", "B25");
    expect(await opened.page.locator(".cell-note").textContent()).toContain("Choose a food of the sheet Foods.");
    await press("Alt+ArrowDown");
    await list().waitFor();
    expect(await chosen()).toBe("Dry pellets or flakes");
    const foods = (await read("Foods", "A4:A60")).flat().filter((food) => food !== "");
    expect(await list().getByRole("option").allTextContents()).toEqual(foods.slice(0, await list().getByRole("option").count()));
    expect(await list().getByRole("option").count()).toBeGreaterThan(20);
    await press("Escape");
    expect([await list().count(), await focusInCells()]).toEqual([0, true]);
    expect(await read("Log", "B25")).toEqual([["Dry pellets or flakes"]]);
  });

  test("takes the value chosen with Enter as if it was typed: formulas follow, and undo takes it back", async () => {
    await at("Balance", "B4");
    expect((await read("Balance", "B11:B14")).flat()).toEqual([FIRST_DAY + 7, FIRST_DAY + 14, FIRST_DAY + 21, ""]);
    await press("Alt+ArrowDown");
    await press("End");
    expect(await chosen()).toBe("whole");
    await press("Enter");
    expect(await list().count()).toBe(0);
    await eventually(() => read("Balance", "B4"), [["whole"]]);
    await eventually(async () => (await read("Balance", "B11:B12")).flat(), [FIRST_DAY + 21, ""]);
    await press("Control+z");
    await eventually(() => read("Balance", "B4"), [["harvest"]]);
  });

  test("offers the same by the pointer, and letters find a value", async () => {
    await at("Log", "B26");
    await opened.page.getByRole("button", { name: "Choose from the list (Alt+Down)" }).click();
    await opened.page.keyboard.type("dry p");
    expect(await chosen()).toBe("Dry pellets or flakes");
    await list().getByRole("option").nth(1).click();
    await eventually(() => read("Log", "B26"), await read("Foods", "A5"));
    expect(await focusInCells()).toBe(true);
    await write("Log", "B26", [[""]]);
  });

  test("shuts its list when another cell is chosen, and shows no button beside a cell without one", async () => {
    await at("Log", "B26");
    await press("Alt+ArrowDown");
    await list().waitFor();
    await select("Log", "J4");
    await eventually(() => list().count(), 0);
    expect(await opened.page.locator(".cell-button").isVisible()).toBe(false);
    expect(await opened.page.locator(".cell-note").textContent()).toBe("");
  });
});

describe("in light and dark", () => {
  test("no chart, list or note breaks a rule of accessibility", async () => {
    const dark = await openWithWeeks("dark");
    for (const { page } of [opened, dark]) {
      await page.evaluate(() => window.algalLedger.port.select("Charts", "A1"));
      await page.locator(".sheet-chart svg").first().waitFor();
      await page.locator(".sheet-chart").first().focus();
      await page.keyboard.press("End");
      expect(await page.locator(".sheet-chart").first().getByRole("status").textContent()).not.toBe("");
      expect(await axeViolations(page, ".sheet-layer")).toEqual([]);
      await page.keyboard.press("Escape");
      await page.evaluate(() => window.algalLedger.port.select("Log", "B26"));
      await page.locator(".cell-note > span").waitFor();
      expect(await axeViolations(page, ".cell-layer")).toEqual([]);
      await page.keyboard.press("Alt+ArrowDown");
      await page.locator(".choice-list").waitFor();
      expect(await axeViolations(page, ".choice-list")).toEqual([]);
      await page.keyboard.press("Escape");
    }
    expect([dark.outside, dark.errors]).toEqual([[], []]);
  }, 240_000);

  test("nothing left this machine or logged an error", () => {
    expect([opened.outside, opened.errors]).toEqual([[], []]);
  });
});
