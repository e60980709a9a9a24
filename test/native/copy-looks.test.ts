import { writeBook } from "../../src/files/new-book";
import type { NewCell } from "../../src/files/new-book-model";
import { readBook } from "../../src/files/read-book";
import { partText, zipEntries } from "../files/zip-bytes";
import { excelTests } from "../workbook/excel-tests";
import { sheetOfRows } from "./entry-sheets";
import { pairOf } from "./judging";

/** How a copy in plain formulas looks and prints. Invented. */
const { engine } = excelTests();

async function copied() {
  const log = sheetOfRows("Keeper's log", [["Date", "Feed (g)", "Food", "NO3 (mg/L)"], [46100, 4, "Cod", 5], [46107, 5, "Cod", 6], [46114, 5, "Cod", 7]]);
  const results = new Map<string, NewCell>([
    ["A1", { value: null, formula: "ALGAL.BUDGET_N('Keeper''s log'!A1:D4,'Set up'!A1:B1,\"week\")" }],
    ["A9", { value: null, formula: "ALGAL.SALINITY_FROM_SG(1.0264,\"25/25\")", style: { bold: true, numberFormat: "0.00" } }],
    ["A10", { value: null, formula: "ALGAL.HARVEST_DRY(100)", style: { bold: true, numberFormat: "0.00" } }],
  ]);
  const file = await writeBook({ sheets: [log, sheetOfRows("Set up", [["Volume (L)", 200]]), { name: "Results", cells: results }], names: [{ name: "Own", ref: "'Set up'!$B$1" }], date1904: false });
  const { copy } = await pairOf("tank", file, engine());
  return { copy, book: await readBook(copy.file), workbook: partText(copy.file, "xl/workbook.xml") };
}

test("a value that was a formula has a fill and keeps its other looks; a formula has none", async () => {
  const { book, copy } = await copied();
  const cells = book.sheets.find(({ name }) => name === "Results")?.cells;
  expect(copy.frozen.map(({ address }) => address)).toEqual(["A9"]);
  expect(cells?.get("A9")?.style).toMatchObject({ bold: true, numberFormat: "0.00", fill: "#efe3d3" });
  expect(cells?.get("A10")?.style).toMatchObject({ bold: true, numberFormat: "0.00" });
  expect(cells?.get("A10")?.style?.fill).toBeUndefined();
});

test("every sheet that came with the copy repeats its headings on paper, and an account prints its answer alone, on pages of its width", async () => {
  const { workbook, book, copy } = await copied();
  const place = (name: string): number => book.sheets.findIndex((sheet) => sheet.name === name);
  expect(place("Workings account 1")).toBeGreaterThan(3);
  expect(workbook).toContain(`<definedName name="_xlnm.Print_Titles" localSheetId="${place("Workings account 1")}">'Workings account 1'!$4:$5</definedName>`);
  expect(workbook).toContain(`<definedName name="_xlnm.Print_Area" localSheetId="${place("Workings account 1")}">'Workings account 1'!$A$1:$L$7</definedName>`);
  expect(workbook).toContain(`<definedName name="_xlnm.Print_Titles" localSheetId="${place("Sources")}">Sources!$4:$4</definedName>`);
  expect(workbook).toContain('<definedName name="Own">');
  const parts = zipEntries(Buffer.from(copy.file)).filter(({ name }) => /workings\d*\.xml$/.test(name)).map(({ name }) => partText(copy.file, name));
  const account = parts.find((xml) => xml.includes("The account behind")) ?? "";
  expect(account).toContain('<pageSetUpPr fitToPage="1"/>');
  expect(account).toMatch(/<pageSetup orientation="landscape" fitToHeight="0"\/>/);
  expect(account).toContain('<col min="12" max="12" width="70" customWidth="1"/>');
});

test("the cover names the sheet that the formulas read their coefficients from, where the keeper has one of that name", async () => {
  const cells = new Map<string, NewCell>([["A1", { value: null, formula: "ALGAL.HARVEST_DRY(100)" }]]);
  const { copy } = await pairOf("weekly", await writeBook({ sheets: [{ name: "Balance", cells }, sheetOfRows("Sources", [["Kept by hand", 1]])], names: [], date1904: false }), engine());
  const { sheets } = await readBook(copy.file);
  const cover = [...(sheets[0]?.cells.values() ?? [])].map(({ value }) => value);
  expect(cover).toContain("Sources 2. The coefficients that the formulas read stand on Sources 2 and nowhere else, each with its unit and where it comes from.");
  expect(sheets.find(({ name }) => name === "Balance")?.cells.get("A1")?.formula).toContain("'Sources 2'!");
});
