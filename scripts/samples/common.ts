import { pane } from "../../src/words/pane";
import type { InventedDay } from "./invented-tank";
import { LOOK, put, putRow, sketch, type Sketch } from "./sketch";

/** A sheet with the answer first (where the nutrient went, as shares of what came in), then the budget that spills below. */
export function balanceSheet(name: string, nutrient: "N" | "P", formula: string, periods: number, endsWithHarvest: boolean, title = name): Sketch {
  const sheet = sketch(name, [11, 11, 10, 10, 12, 13, 10, 12, 13, 13, 120], 8);
  const first = 9;
  const last = first + periods - 1;
  const lastHarvestRow = endsWithHarvest ? last : last - 1;
  const sum = (column: string): string => `SUM(${column}${first}:${column}${last})`;
  put(sheet, 1, 1, `${title}: where did it go?`, LOOK.title);
  // The last row may be the time since the last harvest, which says little yet: the verdict above it comes first.
  put(sheet, 1, 2, { formula: `"Up to the last harvest: "&K${lastHarvestRow}` }, LOOK.strong);
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
  const styles = [LOOK.date, LOOK.date, figure, figure, figure, figure, figure, figure, figure, figure, undefined];
  for (let row = 0; row <= periods; row += 1) {
    for (let column = 1; column <= 11; column += 1) {
      // Cell by cell, so that the answer shows in programmes without the add-in too; the row and the column count
      // themselves, so the last row can be copied down when a harvest is added.
      put(sheet, column, first - 1 + row, { formula: `INDEX(${formula},ROW()-${first - 2},COLUMN())` }, row === 0 ? LOOK.heading : styles[column - 1]);
    }
  }
  put(sheet, 1, first + periods + 1, "A new harvest makes a new row: copy the last row down. In a workbook of your own type the formula once, without INDEX: it fills the rows by itself.", LOOK.note);
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
  const sheet = sketch("Foods", [26, 18, 14, 10, 12], 1);
  putRow(sheet, 1, [...headings], LOOK.heading);
  rows.forEach((row, place) => putRow(sheet, place + 2, row));
  put(sheet, 7, 1, "Rows here add to the built-in foods, or replace one of the same name. The figures are on the label.", LOOK.note);
  return sheet;
}

export function readMe(title: string, lines: string[]): Sketch {
  const sheet = sketch("Read me", [110]);
  put(sheet, 1, 1, title, LOOK.title);
  lines.forEach((line, place) => put(sheet, 1, place + 3, line, { wrap: true }));
  put(sheet, 1, lines.length + 4, pane.start.cautionsTitle, LOOK.title);
  pane.start.cautions.forEach(({ title, text }, place) => put(sheet, 1, lines.length + 5 + place, `${title} ${text}`, { wrap: true }));
  return sheet;
}
