import { pane } from "../../src/words/pane";
import type { InventedDay } from "./invented-tank";
import { LOOK, makeRoom, put, putAcrossMerged, putHeadings, putRow, sketch, type Sketch } from "./sketch";

/** One printed page of it needs no scaling. */
const READ_ME_WIDTH = 70;
const VERDICT_WIDTH = 90;
/** As many as most verdicts have at the longest. */
const VERDICT_LETTERS = 300;
const HOW_TO_GO_ON = "A new harvest makes a new row: copy the last row down. In a workbook of your own type the formula once, without INDEX: it fills the rows by itself.";

/** A sheet with the answer first (where the nutrient went, as shares of what came in), then the budget that spills below. */
export function balanceSheet(name: string, nutrient: "N" | "P", formula: string, periods: number, endsWithHarvest: boolean, title = name): Sketch {
  const sheet = sketch(name, [10.5, 10.5, 8.5, 8.5, 9.5, 9.5, 8.5, 9.5, 12.5, 12, VERDICT_WIDTH], 8);
  const first = 9;
  const last = first + periods - 1;
  const lastHarvestRow = endsWithHarvest ? last : last - 1;
  const sum = (column: string): string => `SUM(${column}${first}:${column}${last})`;
  put(sheet, 1, 1, `${title}: where did it go?`, LOOK.title);
  // The last row may be the time since the last harvest, which says little yet: the verdict above it comes first.
  putAcrossMerged(sheet, 2, 10, { formula: `"Up to the last harvest: "&K${lastHarvestRow}` }, LOOK.strong, VERDICT_LETTERS);
  put(sheet, 1, 7, "Invented example: no reading in this workbook is real.", LOOK.note);
  const shares: [string, string][] = [
    ["Left with the harvests", `IFERROR(${sum("E")}/(${sum("C")}+${sum("D")}),"")`],
    ["Left with water changes and otherwise", `IFERROR((${sum("F")}+${sum("G")})/(${sum("C")}+${sum("D")}),"")`],
    ["Stayed in the water and on the screen", `IFERROR(${sum("H")}/(${sum("C")}+${sum("D")}),"")`],
    ["Unexplained", `IFERROR(${sum("I")}/(${sum("C")}+${sum("D")}),"")`],
  ];
  shares.forEach(([what, share], place) => {
    put(sheet, 1, place + 3, what, place === 3 ? LOOK.answer : undefined);
    put(sheet, 5, place + 3, { formula: share }, { ...LOOK.perCent, ...(place === 3 ? LOOK.answer : {}) });
  });
  put(sheet, 6, 3, "of what came in, over the whole log", LOOK.note);
  const figure = nutrient === "N" ? LOOK.grams : LOOK.milligrams;
  const styles = [LOOK.date, LOOK.date, figure, figure, figure, figure, figure, figure, figure, figure, { wrap: true }];
  sheet.rowHeights.set(first - 1, 45);
  for (let row = 0; row <= periods; row += 1) {
    if (row > 0) makeRoom(sheet, first - 1 + row, VERDICT_LETTERS, VERDICT_WIDTH);
    for (let column = 1; column <= 11; column += 1) {
      // Cell by cell, so that the answer shows in programmes without the add-in too; the row and the column count
      // themselves, so the last row can be copied down when a harvest is added.
      put(sheet, column, first - 1 + row, { formula: `INDEX(${formula},ROW()-${first - 2},COLUMN())` }, row === 0 ? LOOK.heading : styles[column - 1]);
    }
  }
  putAcrossMerged(sheet, first + periods + 1, 10, HOW_TO_GO_ON, LOOK.note, HOW_TO_GO_ON.length);
  return sheet;
}

export const endsWithHarvest = (days: readonly InventedDay[]): boolean => days[days.length - 1]?.harvestG[0] !== null;

/** How many periods harvest-to-harvest counting gives: one before each harvest of the first screen, and the time since the last. */
export function periodCount(days: readonly InventedDay[]): number {
  const harvests = days.filter((day) => day.harvestG[0] !== null);
  return harvests.length + (endsWithHarvest(days) ? 0 : 1);
}

/** The cells of an answer that takes several columns, each with its own formula. */
export function putAcross(sheet: Sketch, column: number, row: number, count: number, formula: string, style: (Parameters<typeof put>[4])[] = []): void {
  for (let place = 1; place <= count; place += 1) put(sheet, column + place - 1, row, { formula: `INDEX(${formula},1,${place})` }, style[place - 1]);
}

/** The same formula in each row of a column, with {row} in it. */
export function putDown(sheet: Sketch, column: number, firstRow: number, lastRow: number, formula: string, style?: Parameters<typeof put>[4]): void {
  for (let row = firstRow; row <= lastRow; row += 1) put(sheet, column, row, { formula: formula.replaceAll("{row}", String(row)) }, style);
}

export function foodsSheet(rows: (string | number)[][], headings: readonly string[]): Sketch {
  const sheet = sketch("Foods", [26, 18, 14, 10, 12, 3, 40], 1);
  sheet.landscape = false;
  putHeadings(sheet, 1, headings);
  rows.forEach((row, place) => putRow(sheet, place + 2, row));
  const hint = "Rows here add to the built-in foods, or replace one of the same name. The figures are on the label.";
  put(sheet, 7, 1, hint, { ...LOOK.note, wrap: true });
  makeRoom(sheet, 1, hint.length, 40);
  return sheet;
}

export function readMe(title: string, lines: string[]): Sketch {
  const sheet = sketch("Read me", [READ_ME_WIDTH]);
  const say = (row: number, text: string): void => {
    put(sheet, 1, row, text, { wrap: true });
    makeRoom(sheet, row, text.length, READ_ME_WIDTH);
  };
  put(sheet, 1, 1, title, LOOK.title);
  lines.forEach((line, place) => say(place + 3, line));
  put(sheet, 1, lines.length + 4, pane.start.cautionsTitle, LOOK.title);
  pane.start.cautions.forEach(({ title, text }, place) => say(lines.length + 5 + place, `${title} ${text}`));
  return sheet;
}
