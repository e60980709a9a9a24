import { readBook } from "../../src/files/read-book";
import { nativeCopy } from "../../src/native/native-copy";
import { handMade } from "../files/hand-made";
import { partText } from "../files/zip-bytes";
import { excelTests } from "../workbook/excel-tests";

/** What a copy makes of the keeper's own formulas, names and rules that have to do with ours. Invented. */
const { engine } = excelTests();
const OURS = "_xldudf_ALGAL_HARVEST_DRY";
const X14 = "http://schemas.microsoft.com/office/spreadsheetml/2009/9/main";
const rule = (formula: string, id: number): string => `<cfRule type="expression" priority="${id}"><formula>${formula}</formula></cfRule>`;
const validation = (cells: string, formula: string): string => `<dataValidation type="custom" sqref="${cells}"><formula1>${formula}</formula1></dataValidation>`;

const made = handMade({
  rows:
    `<row r="1"><c r="A1"><v>100</v></c><c r="B1" cm="1"><f t="array" ref="B1:B3">${OURS}(A1:A3)</f><v>8</v></c><c r="C1"><f>SUM(_xlfn.ANCHORARRAY(B1))</f><v>48</v></c><c r="D1"><f>Tenth*2</f><v>16</v></c></row>` +
    `<row r="2"><c r="A2"><v>200</v></c><c r="B2"><v>16</v></c><c r="C2"><f>MAX(B1:B3)&amp;""</f><v>24</v></c><c r="D2"><f>Whole+1</f><v>49</v></c><c r="E2"><f t="shared" ref="E2:E3" si="0">ROWS(_xlfn.ANCHORARRAY($B$1))</f><v>3</v></c></row>` +
    `<row r="3"><c r="A3"><v>300</v></c><c r="B3"><v>24</v></c><c r="E3"><f t="shared" si="0"/><v>3</v></c></row>`,
  after:
    `<conditionalFormatting sqref="A1:A3">${rule(`${OURS}(A1)&gt;9`, 1)}${rule("A1&gt;150", 2)}</conditionalFormatting><conditionalFormatting sqref="D1:D2">${rule("Tenth&gt;3", 3)}</conditionalFormatting>` +
    `<dataValidations count="3">${validation("F1", `${OURS}(A1)&gt;1`)}${validation("F2", "COUNTIF(_xlfn.ANCHORARRAY($B$1),F2)&gt;0")}${validation("F3", "F3&gt;0")}</dataValidations>` +
    `<extLst><ext xmlns:x14="${X14}" uri="{CCE6A557-97BC-4b89-ADB6-D9C93CAAB3DF}"><x14:dataValidations xmlns:xm="http://schemas.microsoft.com/office/excel/2006/main" count="1"><x14:dataValidation type="custom"><x14:formula1><xm:f>${OURS}(A2)&gt;1</xm:f></x14:formula1><xm:sqref>G1:G9</xm:sqref></x14:dataValidation></x14:dataValidations></ext></extLst>`,
  names: `<definedNames><definedName name="Tenth">${OURS}(Log!$A$1)</definedName><definedName name="Fifth" localSheetId="0">2*Tenth</definedName><definedName name="Whole">SUM(_xlfn.ANCHORARRAY(Log!$B$1))</definedName></definedNames>`,
});

async function copied() {
  const copy = await nativeCopy(made, (book) => {
    engine().open(book);
    return engine().calculate();
  }, { title: "invented.xlsx", day: "2026-11-26" });
  const book = await readBook(copy.file);
  return { copy, book, log: book.sheets.find(({ name }) => name === "Log")?.cells, sheet: partText(copy.file, "xl/worksheets/sheet1.xml"), workbook: partText(copy.file, "xl/workbook.xml"), cover: partText(copy.file, "xl/worksheets/cover.xml") };
}

test("a formula that reads all that spills from one of ours reads the range that was filled, and keeps its value", async () => {
  const { log, workbook, sheet } = await copied();
  expect(["C1", "E2", "E3", "C2"].map((cell) => [log?.get(cell)?.formula, log?.get(cell)?.value])).toEqual([["SUM(B1:B3)", 48], ["ROWS($B$1:$B$3)", 3], ["ROWS($B$1:$B$3)", 3], ['MAX(B1:B3)&""', 24]]);
  expect(workbook).toContain('<definedName name="Whole">SUM(Log!$B$1:$B$3)</definedName>');
  expect(sheet).toContain("<formula1>COUNTIF($B$1:$B$3,F2)&gt;0</formula1>");
  expect(sheet + workbook).not.toContain("ANCHORARRAY");
});

test("names, formats and validations that need the add-in are taken out with what only held them, and the others stay", async () => {
  const { sheet, workbook } = await copied();
  expect(workbook).not.toMatch(/Tenth|Fifth/);
  expect(sheet).toContain('<conditionalFormatting sqref="A1:A3"><cfRule type="expression" priority="2"><formula>A1&gt;150</formula></cfRule></conditionalFormatting>');
  expect(sheet).not.toMatch(/sqref="D1:D2"|ALGAL|extLst|x14/);
  expect(sheet).toContain('<dataValidations count="2">');
});

test("the cover lists them with their place and their formula, and a cell that reads such a name is a value", async () => {
  const { copy, log, cover } = await copied();
  for (const text of ["Log, A1:A3", "Log, D1:D2", "Log, F1", "Log, G1:G9", "=ALGAL.HARVEST_DRY(A1)&gt;9", "=ALGAL.HARVEST_DRY(Log!$A$1)", "Fifth"]) expect(cover).toContain(`>${text}<`);
  expect([log?.get("D1")?.formula, log?.get("D1")?.value, log?.get("D2")?.formula]).toEqual([undefined, 16, "Whole+1"]);
  expect(copy.frozen.map(({ address, why }) => [address, why])).toEqual([["D1", "name"]]);
});
