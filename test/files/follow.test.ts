import * as XLSX from "@e965/xlsx";
import { withoutLostSheets } from "../../src/files/merge/follow/lost-sheets";
import type { LineMove } from "../../src/files/merge/follow/line-move";
import { movedBook } from "../../src/files/merge/follow/moved-book";
import { movedFile } from "../../src/files/merge/follow/moved-file";
import { movedFormula, type SheetChanges } from "../../src/files/merge/follow/moved-formula";
import { type Merged, mergeBook } from "../../src/files/merge/merge-book";
import { readWorkbook } from "../../src/files/read-workbook";
import { withRenamedColumns } from "../../src/files/renamed-columns";
import { handMade, MAIN } from "./hand-made";
import { bytesOf, differingParts, FILES, merge } from "./merge-kit";
import { convert } from "./libreoffice";
import { asWritten } from "./whole-book";
import { partText } from "./zip-bytes";

/** Rows and columns that come and go, and sheets with another name: what names cells goes with them, and all else stays. */
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const insert = (along: LineMove["along"], first: number, count = 1) => ({ along, way: "insert" as const, first, count });
const remove = (along: LineMove["along"], first: number, count = 1) => ({ along, way: "delete" as const, first, count });
const changes = (moves: Record<string, Omit<LineMove, "sheetId">[]>, names: Record<string, string> = {}): SheetChanges => ({ moves: new Map(Object.entries(moves)), names: new Map(Object.entries(names)) });

describe("a formula after rows or columns came or went", () => {
  test.each([
    ["A2+A$3+Other!A3", insert("rows", 2), "A2+A$4+Other!A3"],
    ["SUM(A2:A9)+SUM($B:$C)+SUM(2:4)", insert("rows", 3, 2), "SUM(A2:A11)+SUM($B:$C)+SUM(2:6)"],
    ["SUM(A2:A9)+A5+Log!B3", remove("rows", 4), "SUM(A2:A8)+#REF!+Log!B3"],
    ["SUM(A5:A6)+SUM(A4:A6)", remove("rows", 4, 2), "SUM(#REF!)+SUM(A4:A4)"],
    ["'Log'!C1*C1+[1]Log!C1+LOG10(C1)", insert("columns", 0), "'Log'!D1*D1+[1]Log!C1+LOG10(D1)"],
    ["SUM(B:D)&\"C1\"&Table1[C1]", remove("columns", 2), "SUM(B:C)&\"C1\"&Table1[C1]"],
    ["SUM([1]Log!A1:A5,'[1]Log'!A1:A5,Log:Other!A1:A5,A1:A5)", insert("rows", 1), "SUM([1]Log!A1:A5,'[1]Log'!A1:A5,Log:Other!A1:A5,A1:A6)"],
    ["SUM($A$2:$A$1048576,1:1048576,3:1048576)", insert("rows", 1), "SUM($A$3:$A$1048576,1:1048576,4:1048576)"],
    ["SUM(A:XFD,A1:XFD1,B2:XFD2)", insert("columns", 0), "SUM(A:XFD,A1:XFD1,C2:XFD2)"],
    ["SUM(A1:XFD1,B:XFD)", remove("columns", 0), "SUM(A1:XFD1,A:XFC)"],
    ["A1048576+XFD1", insert("rows", 0), "#REF!+XFD2"],
    ["Log:Other!A3+SUM(A1:INDEX(A:A,3))", insert("rows", 0), "Log:Other!A3+SUM(A2:INDEX(A:A,3))"],
  ])("%s", (formula, move, after) => {
    expect(movedFormula(formula, "Log", changes({ log: [move] }))).toBe(after);
  });

  test("names several sheets as they are called now", () => {
    const named = changes({}, { log: "My new", third: "TRUE" });
    expect(movedFormula("SUM(Log:Other!B2,'Log:Other'!A1,First:Log!A1,[1]Log:Other!A1,Third!A1)", "Other", named)).toBe("SUM('My new:Other'!B2,'My new:Other'!A1,'First:My new'!A1,[1]Log:Other!A1,'TRUE'!A1)");
  });

  test("names nothing of a sheet that was deleted", () => {
    const formula = "SUM(Log!A1:B2,'log'!$C:$C)+Log!Total*Other!A1+A1+[1]Log!A1+LOG(Log!D2#)+SUM(Log:Other!A1)&\"Log!A1\"";
    expect(movedFormula(formula, "Other", { ...changes({ other: [insert("rows", 0)] }), isGone: (name) => name === "log" })).toBe('SUM(#REF!,#REF!)+#REF!*Other!A2+A2+[1]Log!A1+LOG(#REF!)+SUM(#REF!)&"Log!A1"');
  });

  test("and a book holds no formula and no name of a sheet that is not there", () => {
    const cells = new Map([["A1", { value: 8, formula: "'Log 2'!A1*2+Own!B1" }], ["A2", { value: 3, formula: "Own!B1+SUM([1]Log!A1)" }]]);
    const book = { sheets: [{ name: "Own", cells }], names: [{ name: "Portion", ref: "Log!$A$1" }, { name: "Kept", ref: "own!$A$1" }], date1904: false };
    const lost = withoutLostSheets(book);
    expect(lost.hasChanged).toBe(true);
    expect([...(lost.book.sheets[0]?.cells ?? [])]).toEqual([["A1", { value: "#REF!", formula: "#REF!*2+Own!B1" }], ["A2", { value: 3, formula: "Own!B1+SUM([1]Log!A1)" }]]);
    expect(lost.book.names.map(({ ref }) => ref)).toEqual(["#REF!", "own!$A$1"]);
    expect(withoutLostSheets(lost.book).hasChanged).toBe(false);
  });

  test("names the sheet as it is called now", () => {
    expect(movedFormula("Log!A1+'log'!B2+'[1]Log'!A1+Logs!A1+A1", "Log", changes({ log: [insert("rows", 0)] }, { log: "It's new" }))).toBe("'It''s new'!A2+'It''s new'!B3+'[1]Log'!A1+Logs!A1+A2");
  });
});

const ROWS = [
  '<row r="1" ht="30" customHeight="1"><c r="A1" t="inlineStr"><is><r><rPr><b/></rPr><t>Feed</t></r><r><t>, g</t></r><rPh sb="0" eb="1"><t>fi</t></rPh></is></c><c r="B1" t="str"><v>N</v></c></row>',
  '<row r="2" spans="1:4"><c r="A2"><v>0.10000000000000001</v></c><c r="B2"><f t="shared" ref="B2:B4" si="0">A2*2</f><v>0.2</v></c><c r="D2"><f t="array" ref="D2">SUM(A2:A4*2)</f><v>12</v></c></row>',
  '<row r="3" outlineLevel="1" s="0" customFormat="1"><c r="A3"><v>2</v></c><c r="B3"><f t="shared" si="0"/><v>4</v></c></row>',
  '<row r="4" outlineLevel="1"><c r="A4"><v>4</v></c><c r="B4"><f t="shared" si="0"/><v>8</v></c><c r="D4"><f t="dataTable" ref="D4:D5" dt2D="0" dtr="0" r1="A2"/><v>1</v></c></row>',
  '<row r="5"><c r="D5"><v>2</v></c></row>',
].join("");
const AFTER = [
  '<autoFilter ref="A1:B4"><filterColumn colId="1"/></autoFilter><mergeCells count="2"><mergeCell ref="A6:B6"/><mergeCell ref="C2:D2"/></mergeCells>',
  '<conditionalFormatting sqref="A2:A4"><cfRule type="cellIs" dxfId="0" priority="1" operator="greaterThan"><formula>$D$4</formula></cfRule></conditionalFormatting>',
  '<dataValidations count="1"><dataValidation type="list" sqref="A2:A9"><formula1>Other!$A$1:$A$3</formula1></dataValidation></dataValidations>',
  '<hyperlinks><hyperlink ref="A4" location="\'Other\'!A2"/><hyperlink ref="B3" location="Log!A4"/></hyperlinks>',
  '<rowBreaks count="1" manualBreakCount="1"><brk id="3" max="16383" man="1"/></rowBreaks><legacyDrawing r:id="rId2"/>',
].join("");
const NOTES = '<xml xmlns:v="urn:schemas-microsoft-com:vml" xmlns:x="urn:schemas-microsoft-com:office:excel"><v:shape id="s1"><br><x:ClientData ObjectType="Note"><x:Anchor>2, 15, 2, 10, 4, 15, 6, 4</x:Anchor><x:Row>3</x:Row><x:Column>1</x:Column></x:ClientData></v:shape></xml>';
const WHOLE = new Uint8Array(handMade({
  rows: ROWS,
  before: '<cols><col min="2" max="3" width="20" customWidth="1"/></cols>',
  after: AFTER,
  names: '<definedNames><definedName name="_xlnm.Print_Area" localSheetId="0">Log!$A$1:$B$4</definedName><definedName name="Feed">Log!$A$2:$A$4</definedName></definedNames>',
  sheets: '<sheet name="Other" sheetId="2" r:id="rIdMore0"/>',
  links: { worksheet: "worksheets/sheet2.xml" },
  parts: {
    "xl/worksheets/sheet2.xml": `<worksheet xmlns="${MAIN}"><sheetData><row r="1"><c r="A1"><f>SUM(Log!A2:A4)+Log!$B$3</f><v>10.1</v></c></row></sheetData></worksheet>`,
    "xl/worksheets/_rels/sheet1.xml.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${OFFICE}/comments" Target="../comments1.xml"/><Relationship Id="rId2" Type="${OFFICE}/vmlDrawing" Target="../drawings/notes.vml"/></Relationships>`,
    "xl/comments1.xml": `<comments xmlns="${MAIN}"><authors><author/></authors><commentList><comment ref="B4" authorId="0"><text><t>much</t></text></comment></commentList></comments>`,
    "xl/drawings/notes.vml": NOTES,
  },
}));

async function moved(original: Uint8Array, moves: readonly Omit<LineMove, "sheetId">[], name?: string): Promise<Merged & { file: Uint8Array }> {
  const book = asWritten(await readWorkbook(original));
  const before = { ids: book.sheets.map((_sheet, i) => `sheet${i + 1}`), book };
  const first = book.sheets[0]?.name ?? "";
  const after = movedBook(before, changes({ [first.toLowerCase()]: [...moves] }, name === undefined ? {} : { [first.toLowerCase()]: name }));
  const now = { ...after, book: { ...after.book, sheets: after.book.sheets.map((sheet, i) => (i === 0 && name !== undefined ? { ...sheet, name } : sheet)) } };
  const done = await mergeBook({ original, before, now, moves: moves.map((move) => ({ ...move, sheetId: "sheet1" })), shifted: new Set() });
  if (!done.file) throw new Error(done.reason);
  return { ...done, file: done.file };
}

describe("a file in which rows or columns came or went", () => {
  test("keeps each row and cell as it was, in its new place, with all that stands at it", async () => {
    const { file } = await moved(WHOLE, [insert("rows", 2, 2)]);
    const sheet = partText(file, "xl/worksheets/sheet1.xml");
    expect(sheet).toContain('<row r="1" ht="30" customHeight="1"><c r="A1" t="inlineStr"><is><r><rPr><b/></rPr><t>Feed</t></r><r><t>, g</t></r><rPh sb="0" eb="1"><t>fi</t></rPh></is></c>');
    expect(sheet).toContain('<row r="2" spans="1:4"><c r="A2"><v>0.10000000000000001</v></c><c r="B2"><f t="shared" ref="B2:B6" si="0">A2*2</f><v>0.2</v></c><c r="D2"><f t="array" ref="D2">SUM(A2:A6*2)</f><v>12</v></c></row>');
    expect(sheet).toContain('<row r="5" outlineLevel="1" s="0" customFormat="1"><c r="A5"><v>2</v></c><c r="B5"><f t="shared" si="0"/><v>4</v></c></row><row r="6" outlineLevel="1">');
    expect(sheet).toContain('<c r="D6"><f t="dataTable" ref="D6:D7" dt2D="0" dtr="0" r1="A2"/><v>1</v></c></row><row r="7">');
    expect(sheet).toContain('<autoFilter ref="A1:B6"><filterColumn colId="1"/></autoFilter><mergeCells count="2"><mergeCell ref="A8:B8"/><mergeCell ref="C2:D2"/></mergeCells>');
    expect(sheet).toContain('<conditionalFormatting sqref="A2:A6"><cfRule type="cellIs" dxfId="0" priority="1" operator="greaterThan"><formula>$D$6</formula>');
    expect(sheet).toContain('sqref="A2:A11"><formula1>Other!$A$1:$A$3</formula1>');
    expect(sheet).toContain('<hyperlink ref="A6" location="\'Other\'!A2"/><hyperlink ref="B5" location="Log!A6"/></hyperlinks><rowBreaks count="1" manualBreakCount="1"><brk id="5" max="16383" man="1"/>');
    expect(partText(file, "xl/worksheets/sheet2.xml")).toContain("<f>SUM(Log!A2:A6)+Log!$B$5</f><v>10.1</v>");
    expect(partText(file, "xl/workbook.xml")).toContain('localSheetId="0">Log!$A$1:$B$6</definedName><definedName name="Feed">Log!$A$2:$A$6<');
    expect(partText(file, "xl/comments1.xml")).toContain('<comment ref="B6" authorId="0">');
    expect(partText(file, "xl/drawings/notes.vml")).toBe(NOTES.replace("2, 15, 2, 10, 4, 15, 6, 4", "2, 15, 4, 10, 4, 15, 8, 4").replace("<x:Row>3<", "<x:Row>5<"));
  });

  test("loses with a row what stands at it alone, and gives each of the cells that shared its formula its own", async () => {
    const { file } = await moved(WHOLE, [remove("rows", 1)]);
    const sheet = partText(file, "xl/worksheets/sheet1.xml");
    expect(sheet).toContain('<row r="2" outlineLevel="1" s="0" customFormat="1"><c r="A2"><v>2</v></c><c r="B2"><f>A2*2</f><v>4</v></c></row><row r="3" outlineLevel="1"><c r="A3"><v>4</v></c><c r="B3"><f>A3*2</f><v>8</v></c><c r="D3"><f t="dataTable" ref="D3:D4" dt2D="0" dtr="0" r1="A2" del1="1"/>');
    expect(sheet).toContain('<mergeCells count="1"><mergeCell ref="A5:B5"/></mergeCells><conditionalFormatting sqref="A2:A3">');
    expect(partText(file, "xl/worksheets/sheet2.xml")).toContain("<f>SUM(Log!A2:A3)+Log!$B$2</f>");
  });

  test("moves columns with their widths", async () => {
    const { file } = await moved(WHOLE, [insert("columns", 1), remove("columns", 0)]);
    const sheet = partText(file, "xl/worksheets/sheet1.xml");
    expect(sheet).toContain('<cols><col min="2" max="3" width="20" customWidth="1"/></cols>');
    expect(sheet).toContain('<row r="2"><c r="B2"><f t="shared" ref="B2:B4" si="0">#REF!*2</f><v>0.2</v></c><c r="D2"><f t="array" ref="D2">SUM(#REF!*2)</f>');
    expect(sheet).toContain('<autoFilter ref="A1:B4"><filterColumn colId="1"/></autoFilter>');
    expect(sheet).toContain('<hyperlinks><hyperlink ref="B3" location="Log!#REF!"/></hyperlinks>');
  });

  test("names a sheet as it is called now, in links, rules and names too", async () => {
    const { file } = await moved(WHOLE, [], "It's new");
    expect(partText(file, "xl/worksheets/sheet1.xml")).toContain(`<hyperlink ref="A4" location="'Other'!A2"/><hyperlink ref="B3" location="'It''s new'!A4"/>`);
    expect(partText(file, "xl/worksheets/sheet2.xml")).toContain("<f>SUM('It''s new'!A2:A4)+'It''s new'!$B$3</f>");
    expect(partText(file, "xl/workbook.xml")).toContain(`<sheet name="It's new" sheetId="1" r:id="rId1"/>`);
    expect(partText(file, "xl/workbook.xml")).toContain("'It''s new'!$A$1:$B$4</definedName><definedName name=\"Feed\">'It''s new'!$A$2:$A$4<");
  });

  test("of a table lengthens it, and gives it a column with the heading that is typed there", async () => {
    const original = bytesOf("openpyxl-table-names-print.xlsx");
    const { file } = await moved(original, [insert("rows", 2), insert("columns", 1)]);
    expect(partText(file, "xl/tables/table1.xml")).toMatch(/ref="A1:H11" headerRowCount="1".*<autoFilter ref="A1:H11" \/><tableColumns count="8"><tableColumn id="1" name="Day" \/><tableColumn id="8" name="[^"]+"\/><tableColumn id="2" name="Feed, g" \/>/);
  });
});

const SHOWN = FILES.filter((name) => /charts|comments|rules|spills|merged|tables|pivot-kept|names/.test(name) && !/1904/.test(name));

test("workbooks of other writers show the same numbers in LibreOffice after rows and columns came in, and another library reads them", async () => {
  const files: Record<string, Uint8Array> = {};
  for (const name of SHOWN) {
    const original = bytesOf(name);
    const first = (await readWorkbook(original)).book.sheets[0]?.name ?? "";
    files[`before-${name}`] = original;
    files[`after-${name}`] = await movedFile(original, changes({ [first.toLowerCase()]: [insert("rows", 0, 2), insert("columns", 0)] }));
    expect(XLSX.read(files[`after-${name}`]).SheetNames).toEqual(XLSX.read(original).SheetNames);
  }
  const shown = convert(files, "csv:Text - txt - csv (StarCalc):9,34,76,1,,0,false,true,true", undefined, true);
  const texts = (text: Buffer | undefined) => (text?.toString("utf8") ?? "").split(/[\t\n]/).filter((one) => one !== "");
  for (const name of SHOWN) expect([name, texts(shown[`after-${name}`])]).toEqual([name, texts(shown[`before-${name}`])]);
}, 120_000);

test("a file in which nothing came or went is the very same, whatever it is given", async () => {
  for (const name of FILES) expect([name, differingParts(bytesOf(name), await movedFile(bytesOf(name), changes({}, { "no such sheet": "New" })))]).toEqual([name, []]);
});

test("rows inside a pivot table, and headings of a table, are not taken out without a question", async () => {
  const original = bytesOf("openpyxl-table-names-print.xlsx");
  await expect(moved(original, [remove("rows", 0)])).rejects.toThrow("The headings of a table were deleted.");
  await expect(merge(bytesOf("libreoffice-pivot.xlsx"), ({ sheets }) => sheets[0]?.cells.set("Z9", { value: 1 }), new Set(["sheet1"]))).rejects.toThrow("Something unseen stands at cells, and cells moved.");
});

describe("what has no good form without its rows or columns", () => {
  const cells = (letters: string, rows: number) => Array.from({ length: rows }, (_row, r) => `<row r="${r + 1}">${[...letters].map((letter, c) => `<c r="${letter}${r + 1}"${r === 0 ? ' t="str"' : ""}><v>${r === 0 ? `H${c}` : r}</v></c>`).join("")}</row>`).join("");
  const file = (rows: string, after = "", before = "") => new Uint8Array(handMade({ rows, after, before }));
  const withTable = (totals: number) =>
    new Uint8Array(handMade({
      rows: cells("AB", 4),
      after: '<tableParts count="1"><tablePart r:id="rId1"/></tableParts>',
      parts: {
        "xl/tables/table1.xml": `<table xmlns="${MAIN}" id="1" name="Diary" displayName="Diary" ref="A1:B4"${totals ? ' totalsRowCount="1"' : ""}><tableColumns count="2"><tableColumn id="1" name="H0"/><tableColumn id="2" name="H1"/></tableColumns></table>`,
        "xl/worksheets/_rels/sheet1.xml.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${OFFICE}/table" Target="../tables/table1.xml"/></Relationships>`,
      },
    }));

  test.each([
    ["a table's totals", withTable(1), remove("rows", 3), "The totals of a table were deleted."],
    ["all rows of a table", withTable(0), remove("rows", 1, 3), "All rows of a table were deleted."],
    ["all rows above a table's totals", withTable(1), remove("rows", 1, 2), "All rows of a table were deleted."],
    ["the first cell of an array of fixed size", file('<row r="2"><c r="D2"><f t="array" ref="D2:D4">A1:A3*2</f><v>2</v></c></row><row r="3"><c r="D3"><v>4</v></c></row><row r="4"><c r="D4"><v>6</v></c></row>'), remove("rows", 1), "The first cell of an array formula was deleted."],
  ] as const)("asks before %s goes", async (_what, original, move, reason) => {
    await expect(moved(original, [move])).rejects.toThrow(reason);
  });

  test("a list of widths that is empty is left out, and a rule reads on from the first of its ranges that is left", async () => {
    const original = file(cells("ABC", 3), '<conditionalFormatting sqref="A2:A3 C2:C3"><cfRule type="expression" priority="1"><formula>A2&gt;1</formula></cfRule></conditionalFormatting>', '<cols><col min="1" max="1" width="20" customWidth="1"/></cols>');
    const sheet = partText((await moved(original, [remove("columns", 0)])).file, "xl/worksheets/sheet1.xml");
    expect(sheet).not.toContain("<cols");
    expect(sheet).toContain('<conditionalFormatting sqref="B2:B3"><cfRule type="expression" priority="1"><formula>B2&gt;1</formula>');
  });
});

describe("headings of a table that are typed over", () => {
  const names = (given: Record<string, string>) => (table: string) => (table === "log" ? new Map(Object.entries(given)) : undefined);

  test.each([
    ["SUM(Log[Feed])+Other[Feed]+Feed", "SUM(Log[New feed])+Other[Feed]+Feed"],
    ["Log[@Feed]*Log[[#This Row],[Feed]]", "Log[@[New feed]]*Log[[#This Row],[New feed]]"],
    ["SUM(Log[[#All],[a'#b]:[feed]])", "SUM(Log[[#All],['[c'@']]:[New feed]])"],
    ["[@Feed]+[Feed]", "[@[New feed]]+[New feed]"],
    ['Log[#All]&"Log[Feed]"&[1]Log!A1', 'Log[#All]&"Log[Feed]"&[1]Log!A1'],
  ])("%s", (formula, after) => {
    expect(withRenamedColumns(formula, names({ feed: "New feed", "a#b": "[c@]" }), "Log")).toBe(after);
  });

  test("are the columns' names in the file, and formulas, names and other tables call them so", async () => {
    const TABLE = (id: number, name: string, ref: string, formula = "") => `<table xmlns="${MAIN}" id="${id}" name="${name}" displayName="${name}" ref="${ref}"><tableColumns count="2"><tableColumn id="1" name="Feed"/><tableColumn id="2" name="N">${formula}</tableColumn></tableColumns></table>`;
    const original = new Uint8Array(handMade({
      rows: '<row r="1"><c r="A1" t="str"><v>Feed</v></c><c r="B1" t="str"><v>N</v></c><c r="D1" t="str"><v>Feed</v></c><c r="E1" t="str"><v>N</v></c></row><row r="2"><c r="A2"><v>2</v></c><c r="B2"><f>Log1[[#This Row],[Feed]]*2</f><v>4.0000000000000001</v></c><c r="E2" cm="0"><f t="array" ref="E2">SUM(Log1[Feed]*1)</f><v>2</v></c></row>',
      names: "<definedNames><definedName name=\"All\">Log1[Feed]</definedName></definedNames>",
      parts: {
        "xl/tables/table1.xml": TABLE(1, "Log1", "A1:B2", "<calculatedColumnFormula>Log1[[#This Row],[Feed]]*2</calculatedColumnFormula>"),
        "xl/tables/table2.xml": TABLE(2, "Log2", "D1:E2", "<calculatedColumnFormula>SUM(Log1[Feed])+Log2[Feed]</calculatedColumnFormula>"),
        "xl/worksheets/_rels/sheet1.xml.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${[1, 2].map((i) => `<Relationship Id="rId${i}" Type="${OFFICE}/table" Target="../tables/table${i}.xml"/>`).join("")}</Relationships>`,
      },
    }));
    const file = await merge(original, ({ sheets: [log] }) => {
      log?.cells.set("A1", { value: "Food (g)" });
      // As the grid has it.
      log?.cells.set("B2", { value: 4, formula: "Log1[[#This Row],[Food (g)]]*2" });
      log?.cells.set("E2", { value: 2, formula: "SUM(Log1[Food (g)]*1)", spill: "E2", fixedSpill: true });
    });
    expect(partText(file, "xl/tables/table1.xml")).toContain('<tableColumn id="1" name="Food (g)"/><tableColumn id="2" name="N"><calculatedColumnFormula>Log1[[#This Row],[Food (g)]]*2</calculatedColumnFormula>');
    expect(partText(file, "xl/tables/table2.xml")).toContain('<tableColumn id="1" name="Feed"/><tableColumn id="2" name="N"><calculatedColumnFormula>SUM(Log1[Food (g)])+Log2[Feed]</calculatedColumnFormula>');
    expect(partText(file, "xl/workbook.xml")).toContain('<definedName name="All">Log1[Food (g)]</definedName>');
    expect(partText(file, "xl/worksheets/sheet1.xml")).toContain('<c r="B2"><f>Log1[[#This Row],[Food (g)]]*2</f><v>4.0000000000000001</v></c><c r="E2" cm="0"><f t="array" ref="E2">SUM(Log1[Food (g)]*1)</f><v>2</v></c>');
  });
});
