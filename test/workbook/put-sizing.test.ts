import type { CalculatedSheet } from "../../src/host/engine/engine";
import { CellError } from "../../src/functions/cell-error";
import type { BookCell } from "../../src/files/book";
import { FOODS } from "../../src/science/constants/foods";
import { planScreen, type ScreenWish } from "../../src/science/sizing-plan";
import { sizeSheet } from "../../src/words/size-sheet";
import { freeSheetName, putSizing } from "../../src/workbook/put-sizing";
import { excelTests } from "./excel-tests";
import type { MemoryGrid } from "./memory-grid";

const food = (name: string) => FOODS.find((one) => one.name === name) ?? (() => { throw new Error(name); })();
const WISH: ScreenWish = {
  foods: [{ food: food("Mysids, frozen"), gPerDay: 3 }, { food: food("Dry pellets or flakes"), gPerDay: 0.5 }],
  retainedShare: 0.05,
  volumeL: 180,
  changedShareAWeek: 0.1,
  targetNO3MgPerL: 5,
  targetPO4MgPerL: 0.1,
  temperatureC: 25,
  setting: "ordinary",
  lightUmolPerM2S: 250,
  hoursPerDay: 14,
  sheetWidthCm: 30,
  litSides: 2,
};

const { engine, open } = excelTests();
let grid: MemoryGrid;
beforeEach(() => {
  grid = open(["Log"]);
  grid.put("Log", "A1", "Feed (g)");
});

/** The sheet as the engine of the local page calculates it. */
async function calculated(sheet: string, change: Readonly<Record<string, string | number>> = {}): Promise<CalculatedSheet> {
  const cells = new Map<string, BookCell>();
  for (const [address, { value, formula }] of grid.sheets.byName(sheet).cells) {
    cells.set(address, formula ? { value: null, formula: formula.replace(/^=/, "") } : { value: value as string | number });
  }
  for (const [address, value] of Object.entries(change)) cells.set(address, { value });
  engine().open({ sheets: [{ name: sheet, cells }], names: [], date1904: false });
  const [answer] = await engine().calculate();
  if (!answer) throw new Error("no sheet");
  return answer;
}

/** Where the row with that label stands. */
function row(sheet: CalculatedSheet, label: string): number {
  const found = [...sheet.values].find(([address, value]) => value === label && address.startsWith("A"));
  if (!found) throw new Error(`no row ${label}`);
  return Number(found[0].slice(1));
}
const figures = (sheet: CalculatedSheet, label: string, columns = "BCD"): number[] => [...columns].map((column) => sheet.values.get(`${column}${row(sheet, label)}`) as number);
function expectRange(got: number[], { low, high, ...rest }: { low: number; high: number; value?: number; middle?: number }): void {
  [low, rest.value ?? rest.middle ?? NaN, high].forEach((wanted, place) => expect((got[place] ?? NaN) / wanted).toBeCloseTo(1, 6));
}

it("writes a new sheet, in front and at its first cell, and touches no other", async () => {
  expect(await putSizing(WISH, planScreen(WISH))).toBe("Size");
  expect(grid.sheetNames()).toEqual(["Log", "Size"]);
  expect(grid.selection()).toEqual({ sheet: "Size", address: "A1" });
  expect(grid.diary.filter((entry) => entry.startsWith("write Log"))).toEqual([]);
  expect(grid.sheets.byName("Size").cells.get("A6")).toEqual({ value: "Mysids, frozen" });
});

it("takes the next free name and replaces nothing", async () => {
  const plan = planScreen(WISH);
  await putSizing(WISH, plan);
  grid.put("Size", "B6", 99);
  expect(await putSizing(WISH, plan)).toBe("Size 2");
  expect([grid.sheetNames(), grid.sheets.byName("Size").cells.get("B6")?.value]).toEqual([["Log", "Size", "Size 2"], 99]);
});

it.each([
  [["Log"], "Size"],
  [["SIZE", "Size 3"], "Size 2"],
  [["size", "size 2"], "Size 3"],
])("beside the sheets %j the name is %s", (taken, name) => expect(freeSheetName("Size", taken)).toBe(name));

it("gives the plan's figures by its own formulas, and no cell shows an error", async () => {
  const plan = planScreen(WISH);
  await putSizing(WISH, plan);
  const sheet = await calculated("Size");
  expect([...sheet.values.values()].filter((value) => value instanceof CellError)).toEqual([]);
  const { answers } = sizeSheet;
  const screen = plan.screen ?? (() => { throw new Error("no screen"); })();
  expectRange(figures(sheet, answers.leftN), plan.loads.N.left);
  expectRange(figures(sheet, answers.leftP), plan.loads.P.left);
  expectRange(figures(sheet, answers.area), screen.area);
  expectRange(figures(sheet, answers.watts), screen.watts);
  expectRange(figures(sheet, answers.energy), screen.kWhAWeek);
  expectRange(figures(sheet, answers.flow), screen.flowLPerH);
  expectRange(figures(sheet, answers.harvest), screen.harvestDrainedGAWeek);
  expect(figures(sheet, answers.lightSum, "C")[0]).toBeCloseTo(12.6, 9);
  expect(figures(sheet, answers.sheets, "C")).toEqual([screen.sheets.count]);
  expect(figures(sheet, answers.height, "C")[0]).toBeCloseTo(screen.sheets.heightCm, 6);
  const [low, high, least, most] = figures(sheet, sizeSheet.habitArea, "BCDE");
  expect([low, high]).toEqual([expect.closeTo(plan.habit.areaM2.low, 9), expect.closeTo(plan.habit.areaM2.high, 9)]);
  expect([least, most]).toEqual([expect.closeTo(plan.habit.carried?.low ?? NaN, 9), expect.closeTo(plan.habit.carried?.high ?? NaN, 9)]);
  expect(figures(sheet, sizeSheet.intervalDays, "B")[0]).toBeCloseTo(plan.intervalDays.value, 9);
});

it("follows a changed cell: twice the food without water changes is twice the area", async () => {
  const dry = { ...WISH, changedShareAWeek: 0 };
  await putSizing(dry, planScreen(dry));
  const before = figures(await calculated("Size"), sizeSheet.answers.area);
  const after = figures(await calculated("Size", { B6: 6, B7: 1 }), sizeSheet.answers.area);
  after.forEach((area, place) => expect(area / (before[place] ?? NaN)).toBeCloseTo(2, 9));
});

it("counts a food that is written into a spare row", async () => {
  await putSizing(WISH, planScreen(WISH));
  const before = figures(await calculated("Size"), sizeSheet.answers.leftN, "C")[0] ?? NaN;
  const after = figures(await calculated("Size", { A8: "Cod", B8: 1 }), sizeSheet.answers.leftN, "C")[0] ?? NaN;
  // 1 g of cod, 17.81 % protein / 6.25, less the 5 % that is kept.
  expect(after - before).toBeCloseTo((0.1781 / 6.25) * 0.95, 9);
});

it("leaves a target that was left empty empty, and counts no sink for it", async () => {
  const open = { ...WISH, changedShareAWeek: 0, targetNO3MgPerL: null, targetPO4MgPerL: null };
  const plan = planScreen(open);
  await putSizing(open, plan);
  const sheet = await calculated("Size");
  expectRange(figures(sheet, sizeSheet.answers.area), plan.screen?.area ?? { low: 0, middle: 0, high: 0 });
});

it("says what to do when Excel refuses the sheet", async () => {
  grid.sheets.add = () => {
    throw Object.assign(new Error("protected"), { code: "AccessDenied" });
  };
  await expect(putSizing(WISH, planScreen(WISH))).rejects.toThrow("The sheet could not be added.");
  expect(grid.sheetNames()).toEqual(["Log"]);
});
