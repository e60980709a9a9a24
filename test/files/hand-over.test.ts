import fs from "node:fs";
import path from "node:path";
import * as XLSX from "@e965/xlsx";
import packageJson from "../../package.json";
import { coverOf } from "../../src/files/hand-over/cover-lines";
import { frozenCopy } from "../../src/files/hand-over/frozen-copy";
import { writeBook } from "../../src/files/new-book";
import { readBook } from "../../src/files/read-book";
import { VERSION } from "../../src/words/hand-over";
import { host } from "../../src/words/host";
import { handMade } from "./hand-made";
import { shownRows } from "./libreoffice";
import { partText, unpack, zipEntries, zipOf } from "./zip-bytes";

const SAMPLES = path.join(__dirname, "../../samples");
const cover = coverOf("tank.xlsx", "2026-01-31");
const formulaOf = (text: string): string => `<f>${text}</f>`;
const COPY = "_xldudf_ALGAL_CHANGE_COUNT(40,10,0.2)";

describe.each(host.samples.map(({ file }) => file))("%s", (file) => {
  const original = new Uint8Array(fs.readFileSync(path.join(SAMPLES, file)));

  test("keeps every value and every other formula, and has no ALGAL formula left", async () => {
    const before = await readBook(original);
    const { file: copy, frozen } = await frozenCopy(original, cover);
    const after = await readBook(copy);
    expect(after.sheets.map(({ name }) => name)).toEqual(["Cover", ...before.sheets.map(({ name }) => name)]);
    let gone = 0;
    for (const sheet of before.sheets) {
      const now = after.sheets.find(({ name }) => name === sheet.name);
      for (const [address, cell] of sheet.cells) {
        const frozenNow = now?.cells.get(address);
        expect([sheet.name, address, frozenNow?.value ?? null]).toEqual([sheet.name, address, cell.value]);
        expect(frozenNow?.style).toEqual(cell.style);
        if (/ALGAL/.test(cell.formula ?? "")) gone += 1;
        else expect(frozenNow?.formula).toBe(cell.formula);
        expect(frozenNow?.formula ?? "").not.toMatch(/ALGAL/);
      }
    }
    expect(gone).toBeGreaterThan(100);
    expect(frozen.reduce((sum, { cells }) => sum + cells.length, 0)).toBe(gone);
    expect(after.names).toEqual(before.names);
  });

  test("shows the same to LibreOffice, with the cover in front", async () => {
    const { file: copy } = await frozenCopy(original, cover);
    const [shown] = Object.values(shownRows({ "copy.xlsx": copy }));
    expect(shown?.slice(0, 4).map(([first, second]) => [first, second ?? ""])).toEqual([["Copy for readers without Algal Ledger", ""], ["Made from", "tank.xlsx"], ["Made on", "2026-01-31"], ["Made with", `Algal Ledger ${VERSION}`]]);
    const book = XLSX.read(copy, { type: "array" });
    expect(book.SheetNames[0]).toBe("Cover");
    expect(JSON.stringify(Object.values(book.Sheets))).not.toMatch(/_xldudf|ALGAL\./);
  });

  test("keeps the packed bytes of every part that it has no reason to touch", async () => {
    const { file: copy } = await frozenCopy(original, cover);
    const now = new Map(zipEntries(Buffer.from(copy)).map((entry) => [entry.name, entry]));
    const touched = zipEntries(Buffer.from(original)).filter(({ name, packed }) => !now.get(name)?.packed.equals(packed)).map(({ name }) => name);
    for (const name of touched) expect(name).toMatch(/^(?:\[Content_Types\]\.xml|xl\/workbook\.xml|xl\/_rels\/workbook\.xml\.rels|xl\/styles\.xml|xl\/worksheets\/sheet\d+\.xml|xl\/tables\/table\d+\.xml|xl\/calcChain\.xml|_rels\/\.rels|xl\/webextensions\/.*)$/);
  });
});

describe("a workbook made by hand", () => {
  const made = handMade({
    workbookPr: '<bookViews><workbookView activeTab="1" firstSheet="1"/></bookViews>',
    rows:
      `<row r="1"><c r="A1"><v>3</v></c><c r="B1" cm="1"><f t="array" ref="B1:C1">${COPY}</f><v>7</v></c><c r="C1" t="str"><v>=A1</v></c></row>` +
      `<row r="2"><c r="A2">${formulaOf("A1*2")}<v>6</v></c><c r="B2"><f t="shared" ref="B2:B3" si="0">A1*${COPY}</f><v>21</v></c><c r="C2">${formulaOf("SUM(_xlfn.ANCHORARRAY(B1))")}<v>7</v></c></row>` +
      `<row r="3"><c r="B3"><f t="shared" si="0"/><v>0</v></c><c r="C3"><f>"ALGAL.CHANGE_COUNT(1)"&amp;A1</f><v>1</v></c><c r="D3">${formulaOf(COPY)}</c><c r="E3" t="e">${formulaOf(COPY)}<v>#VALUE!</v></c></row>`,
    before: '<sheetViews><sheetView tabSelected="1" workbookViewId="0"/></sheetViews>',
    names: `<definedNames><definedName name="own" localSheetId="0">Log!$A$1</definedName><definedName name="Cover_name">${COPY}</definedName></definedNames>`,
    links: { calcChain: "calcChain.xml" },
    parts: { "xl/calcChain.xml": '<calcChain xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><c r="A2" i="1"/><c r="B1"/></calcChain>' },
  });

  test("loses shared, spilling and spill-reading formulas of ours, and no other one; a text that only names a function stays", async () => {
    const { file, frozen } = await frozenCopy(made, cover);
    expect(frozen).toEqual([{ sheet: "Log", cells: ["B1", "B2", "C2", "B3", "D3", "E3"], blank: ["D3"] }]);
    const log = (await readBook(file)).sheets.find(({ name }) => name === "Log")?.cells;
    expect(["A2", "B1", "B2", "B3", "C2", "C3"].map((cell) => [log?.get(cell)?.value, log?.get(cell)?.formula])).toEqual([[6, "A1*2"], [7, undefined], [21, undefined], [0, undefined], [7, undefined], [1, '"ALGAL.CHANGE_COUNT(1)"&A1']]);
    expect(partText(file, "xl/worksheets/sheet1.xml")).toContain('<c r="E3" t="e"><v>#VALUE!</v></c>');
    expect(log?.get("C1")?.value).toBe("=A1");
    expect(partText(file, "xl/worksheets/sheet1.xml")).not.toMatch(/cm=|tabSelected/);
  });

  test("counts its names from the new first sheet on, and shows the cover", async () => {
    const { file } = await frozenCopy(made, cover);
    const workbook = partText(file, "xl/workbook.xml");
    expect(workbook).toContain('<sheets><sheet name="Cover" sheetId="2" r:id=');
    expect(workbook).toContain('<definedName name="own" localSheetId="1">');
    expect(workbook).toContain("<workbookView/>");
    expect(partText(file, "xl/worksheets/cover.xml")).toContain("Cover_name");
    expect(partText(file, "xl/worksheets/cover.xml")).toContain("D3");
  });

  test("drops the chain of calculation with its link and its content type", async () => {
    const { file } = await frozenCopy(made, cover);
    expect(zipEntries(Buffer.from(file)).map(({ name }) => name)).not.toContain("xl/calcChain.xml");
    expect(partText(file, "xl/_rels/workbook.xml.rels")).not.toContain("calcChain");
    expect(partText(file, "[Content_Types].xml")).not.toContain("calcChain");
  });

  test("takes a free name for the cover", async () => {
    const both = handMade({ rows: `<row r="1"><c r="A1">${formulaOf(COPY)}<v>7</v></c></row>`, sheets: '<sheet name="cover" sheetId="9" r:id="rId1"/>' });
    const { file } = await frozenCopy(both, cover);
    expect(partText(file, "xl/workbook.xml")).toContain('<sheet name="Cover 2" sheetId="10"');
  });

  test("is refused when it has nothing of ours", async () => {
    await expect(frozenCopy(handMade({ rows: '<row r="1"><c r="A1"><f>1+1</f><v>2</v></c></row>' }), cover)).rejects.toThrow("No cell has an ALGAL formula");
  });
});

test("a table does not fill our formula into new rows", async () => {
  const book = await writeBook({ sheets: [{ name: "Log", cells: new Map([["A1", { value: "Feed" }], ["B1", { value: "N" }], ["A2", { value: 2 }], ["B2", { value: 7, formula: "ALGAL.CHANGE_COUNT(40,10,0.2)" }]]), tables: [{ name: "T", ref: "A1:B2" }] }], names: [], date1904: false });
  const table = partText(book, "xl/tables/table1.xml").replace(/(<tableColumn id="2"[^>]*?)\/>/, `$1><calculatedColumnFormula>${COPY}</calculatedColumnFormula></tableColumn>`);
  expect(table).toContain("calculatedColumnFormula");
  const parts = zipEntries(book).map((entry) => ({ name: entry.name, content: entry.name === "xl/tables/table1.xml" ? table : unpack(entry) }));
  const { file } = await frozenCopy(zipOf(parts), cover);
  expect(partText(file, "xl/tables/table1.xml")).not.toContain("calculatedColumnFormula");
  expect((await readBook(file)).sheets[1]?.tables?.[0]?.columns).toEqual(["Feed", "N"]);
});

test("the version on the cover is that of the package", () => {
  expect(VERSION).toBe(packageJson.version);
});
