/**
 * Workbook code through the object model of Excel's own client library, and through the stand-in alone: the same workbook, the same
 * answer. The library builds its batches, checks arguments, keeps references and hands out loaded values as in Excel; what a batch
 * asks for is replayed on the stand-in, since there is no Excel here. It is held to the requirement set of the manifest: a member
 * that is newer would be refused.
 *
 * Not replayed: the selection event of the workbook and the file of the document, which go through Office's own document object.
 */
import { cellAddress } from "../../../src/host/engine/address";
import { planScreen } from "../../../src/science/sizing-plan";
import { FOODS } from "../../../src/science/constants/foods";
import { findBudgetFormulas } from "../../../src/workbook/budget-formulas";
import { readBudgetSource } from "../../../src/workbook/budget-source";
import { joinLog } from "../../../src/workbook/join/join-log";
import { type Look, lookAtSelection } from "../../../src/workbook/join/look";
import { putSample } from "../../../src/workbook/join/put-sample";
import { lookAgain, readAgain } from "../../../src/workbook/join/read-again";
import { listJoins, removeJoin } from "../../../src/workbook/join/take-back";
import { showCell, stillWrong } from "../../../src/workbook/problems";
import { putSizing } from "../../../src/workbook/put-sizing";
import { insertWeekly } from "../../../src/workbook/weekly/insert-weekly";
import { LOGS } from "../join/logs/all";
import type { MemoryGrid } from "../memory-grid";
import { bothWays, type Scenario } from "./both-ways";

const TODAY = Date.UTC(2026, 10, 25);
const mysids = FOODS.find(({ name }) => name === "Mysids, frozen") ?? FOODS[0];
const WISH = {
  foods: mysids ? [{ food: mysids, gPerDay: 3 }] : [], retainedShare: 0.05, volumeL: 180, changedShareAWeek: 0.1, targetNO3MgPerL: 5, targetPO4MgPerL: 0.1, temperatureC: 25,
  setting: "ordinary" as const, lightUmolPerM2S: 250, hoursPerDay: 14, sheetWidthCm: 30, litSides: 2 as const,
};

/** Puts an invented log on the first sheet and selects the cell that its keeper would. */
function keep(grid: MemoryGrid, name: string): void {
  const log = LOGS.find((one) => one.name === name);
  if (!log) throw new Error(`no log "${name}"`);
  log.grid.forEach((row, r) => row.forEach((cell, c) => cell !== "" && grid.put("Mine", cellAddress(r, c), cell)));
  grid.select("Mine", cellAddress(log.selected.row, log.selected.column));
}

/** Joins as the columns are proposed; of two columns for one thing the first. */
function joinAsProposed(seen: Look, onNewSheet = false, signal?: AbortSignal) {
  const proposed = seen.columns.map(({ meaning }) => meaning);
  const meanings = proposed.map((meaning, place) => (proposed.indexOf(meaning) === place ? meaning : null));
  return joinLog(seen, { meanings, dateOrder: null, setUp: { "Volume (L)": 265 }, onNewSheet }, signal);
}

/** A signal that says stop when it has been asked so many times. */
function stopAfter(asks: number): AbortSignal {
  let asked = 0;
  return { get aborted() { return (asked += 1) > asks; } } as AbortSignal;
}

const SIMPLE = "under our own headings";
const TITLED = "below a merged title and a blank row";
/** The words of the sentence with which a scenario ends, or null where it must succeed. */
type Refusal = string | null;

const SCENARIOS: readonly (readonly [name: string, refusal: Refusal, scenario: Scenario])[] = [
  ["the weekly sheets, twice", null, async () => [await insertWeekly(), await insertWeekly()]],
  ["the weekly sheets, stopped on the way", "Stopped", () => insertWeekly(stopAfter(5))],
  ["the weekly sheets, where a name is refused", "Excel refused the new sheets", (grid) => {
    grid.names.add = () => { throw new Error("refused"); };
    return insertWeekly();
  }],
  ["the sheet of a plan, twice", null, async () => [await putSizing(WISH, planScreen(WISH)), await putSizing(WISH, planScreen(WISH))]],
  ["a log looked at", null, async (grid) => { keep(grid, TITLED); return lookAtSelection(); }],
  ["a log joined beside it, listed, read again with more rows, and given back", null, async (grid) => {
    keep(grid, TITLED);
    const joined = await joinAsProposed(await lookAtSelection());
    for (let day = 18; day < 60; day += 1) grid.put("Mine", `A${day + 4}`, 46000 + day);
    const { known } = await lookAgain(1);
    const again = await readAgain(1, { meanings: known.map((one) => one ?? null), dateOrder: null });
    return [joined, again, await listJoins(), await removeJoin(1, true)];
  }],
  ["a log joined on a sheet of its own", null, async (grid) => { keep(grid, TITLED); return joinAsProposed(await lookAtSelection(), true); }],
  ["a log joined, stopped on the way", "Stopped", async (grid) => { keep(grid, TITLED); return joinAsProposed(await lookAtSelection(), false, stopAfter(4)); }],
  ["a log with a cell in the way", "Mine!L20 is in the way", async (grid) => {
    keep(grid, TITLED);
    grid.put("Mine", "L20", "mine");
    return joinAsProposed(await lookAtSelection());
  }],
  ["a table joined", null, async (grid) => {
    keep(grid, SIMPLE);
    await tabled();
    return [await joinAsProposed(await lookAtSelection()), await listJoins()];
  }],
  ["a table joined and given back", null, async (grid) => {
    keep(grid, SIMPLE);
    await tabled();
    await joinAsProposed(await lookAtSelection());
    return removeJoin(1, false);
  }],
  ["the sample, and its account found", null, async () => [await putSample(TODAY), await findBudgetFormulas(), await readBudgetSource(null)]],
  ["the sample, stopped", "Stopped", () => putSample(TODAY, AbortSignal.abort())],
  ["the budgets of the weekly sheets", null, async () => { await insertWeekly(); return [await findBudgetFormulas(), await readBudgetSource("Log"), await readBudgetSource("gone")]; }],
  ["a cell shown", null, () => showCell("Other!C3")],
  ["a cell of a sheet that is gone", 'no sheet "Gone"', () => showCell("Gone!B7")],
  ["errors that stand", null, async (grid) => {
    grid.put("Mine", "B2", "#VALUE!", "=ALGAL.LIGHT_DAILY(A2,9)");
    grid.put("Mine", "B3", 4, "=ALGAL.LIGHT_DAILY(A3,9)");
    return stillWrong(["Mine!B2", "Mine!B3", "Gone!B2"].map((address) => ({ address, origin: address })));
  }],
  // Each tenth, from all the kinds of headings and dates.
  ...LOGS.filter((_log, place) => place % 10 === 0).map(({ name }) => [`a log joined and left so: ${name}`, null, async (grid: MemoryGrid) => {
    keep(grid, name);
    return joinAsProposed(await lookAtSelection());
  }] as const),
];

const tabled = () => Excel.run(async ({ workbook }) => {
  workbook.worksheets.getItem("Mine").tables.add("A1:K21", true).name = "Diary";
});

it.each(SCENARIOS)("gives the same workbook and the same answer: %s", async (_name, refusal, scenario) => {
  const { genuine, standIn, batches, leftReferences } = await bothWays(["Mine", "Other"], scenario);
  expect(genuine.refusal).toEqual(refusal === null ? null : expect.stringMatching(`^WorkbookProblem: .*${refusal}`));
  expect(genuine).toEqual(standIn);
  expect(batches).toBeGreaterThan(0);
  expect(leftReferences).toBe(0);
});

it("writes the same blocks where the library cuts a range of more than 1,500 cells into rows", async () => {
  const rows = Array.from({ length: 700 }, (_row, r) => [r, `=A${r + 1}*2`, `text ${r}`]);
  const { genuine, standIn } = await bothWays(["Mine"], () => Excel.run(async ({ workbook }) => {
    workbook.worksheets.getItem("Mine").getRange("B3:D702").formulas = rows;
  }));
  expect(genuine).toEqual(standIn);
  expect(genuine.book).toContain('Mine cells ["D702",{"value":"text 699"}]');
});
