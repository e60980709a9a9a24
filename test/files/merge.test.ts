import * as XLSX from "@e965/xlsx";
import { cellAddress, readCell, readRange } from "../../src/files/address";
import { openArchive } from "../../src/files/archive";
import { mergeBook } from "../../src/files/merge/merge-book";
import { writeBook } from "../../src/files/new-book";
import type { NewBook, NewCell } from "../../src/files/new-book-model";
import { readBook } from "../../src/files/read-book";
import { readWorkbook } from "../../src/files/read-workbook";
import { readWorkbookPart } from "../../src/files/workbook-part";
import { handMade, MAIN } from "./hand-made";
import { convert } from "./libreoffice";
import { bytesOf, differingParts, FILES, merge } from "./merge-kit";
import { asWritten, wholeBook } from "./whole-book";
import { partText, zipEntries } from "./zip-bytes";

/** Workbooks of many writers, changed as the grid changes them: what was not changed stays byte for byte. */
const sheetParts = async (file: Uint8Array) => (await readWorkbookPart(await openArchive(file))).sheets.map(({ part }) => part);

/** A number of a sheet that no array covers and no formula is in, and one far below everything. */
function placesFor({ cells }: NewBook["sheets"][number]): { plain: string | undefined; formula: string | undefined; beyond: string } {
  const covered = [...cells.values()].flatMap(({ spill }) => (spill === undefined ? [] : [readRange(spill)]));
  const free = ([address]: [string, NewCell]) => {
    const place = readCell(address);
    return place !== undefined && !covered.some((range) => range && place.row >= range.startRow && place.row <= range.endRow && place.column >= range.startColumn && place.column <= range.endColumn);
  };
  const last = Math.max(0, ...[...cells.keys()].map((address) => readCell(address)?.row ?? 0));
  return {
    plain: [...cells].find((entry) => free(entry) && entry[1].formula === undefined && typeof entry[1].value === "number")?.[0],
    formula: [...cells].find((entry) => free(entry) && entry[1].formula !== undefined)?.[0],
    beyond: cellAddress(last + 3, 2),
  };
}

describe("a workbook in which nothing was changed", () => {
  test.each([...FILES, "ours"])("%s is the very same file", async (name) => {
    const original = name === "ours" ? await writeBook(wholeBook()) : bytesOf(name);
    expect(Buffer.from(await merge(original, () => undefined)).equals(Buffer.from(original))).toBe(true);
  });
});

const merged = new Map<string, { before: Uint8Array; after: Uint8Array; expected: Map<string, Map<string, NewCell | undefined>> }>();

describe("cells that were changed", () => {
  test.each(FILES)("%s holds them, and all else of the sheet and the other parts as it was", async (name) => {
    const before = bytesOf(name);
    const expected = new Map<string, Map<string, NewCell | undefined>>();
    const after = await merge(before, (book) => {
      for (const sheet of book.sheets) {
        const { beyond, formula, plain } = placesFor(sheet);
        const wanted = new Map<string, NewCell | undefined>([[beyond, { value: "=typed & <kept> " }]]);
        if (plain !== undefined) wanted.set(plain, { ...sheet.cells.get(plain), value: 4711.5 });
        if (formula !== undefined) wanted.set(formula, { ...sheet.cells.get(formula), value: 42, formula: "21*2" });
        for (const [address, cell] of wanted) if (cell) sheet.cells.set(address, cell);
        expected.set(sheet.name, wanted);
      }
    });
    merged.set(name, { before, after, expected });
    const formulas = [...expected.values()].some((cells) => [...cells.values()].some((cell) => cell?.formula !== undefined));
    const chain = formulas && zipEntries(before).some((entry) => entry.name.endsWith("calcChain.xml")) ? ["[Content_Types].xml", "xl/_rels/workbook.xml.rels", "xl/calcChain.xml"] : [];
    const differing = differingParts(before, after).filter((part) => part !== "xl/styles.xml");
    expect(differing).toEqual([...(await sheetParts(before)), ...chain].sort());
    // Read again, everything but the three cells is what it was, looks included.
    const [old, now] = [await readWorkbook(before), await readWorkbook(after)];
    for (const [i, sheet] of now.book.sheets.entries()) {
      const cells = expected.get(sheet.name);
      for (const [address, cell] of cells ?? []) expect([address, sheet.cells.get(address)?.value, sheet.cells.get(address)?.formula]).toEqual([address, cell?.value, cell?.formula]);
      for (const [address, cell] of cells ?? []) if (cell?.style) expect([address, sheet.cells.get(address)?.style]).toEqual([address, cell.style]);
      const rest = (of: typeof sheet | undefined) => ({ ...of, cells: [...(of?.cells ?? [])].filter(([address]) => !cells?.has(address)) });
      expect(rest(sheet)).toEqual(rest(old.book.sheets[i]));
    }
    expect({ ...now, book: 0 }).toEqual({ ...old, book: 0 });
    expect(now.book.names).toEqual(old.book.names);
  });

  test("another library reads them, and LibreOffice shows them and holds as much beside them as before", () => {
    // One of each writer, and those with most beside the cells.
    const some = [...merged].filter(([name]) => /openpyxl-plain|stored|exceljs-table|pivot-kept|populate-merged|libreoffice-log|xlsxwriter-sparklines|write-excel/.test(name));
    expect(some).toHaveLength(9);
    const flat = convert(Object.fromEntries(some.flatMap(([name, { after, before }]) => [[`before-${name}`, before], [`after-${name}`, after]])), "fods");
    const count = (file: string, what: string) => (flat[file]?.toString("utf8") ?? "").split(what).length - 1;
    for (const [name, { after, expected }] of merged) {
      const { Sheets } = XLSX.read(after, { cellFormula: true });
      for (const [sheet, cells] of expected) for (const [address, cell] of cells) expect([name, sheet, address, Sheets[sheet]?.[address]?.v, Sheets[sheet]?.[address]?.f]).toEqual([name, sheet, address, cell?.value, cell?.formula]);
    }
    for (const [name, { expected }] of some) {
      expect([name, count(`after-${name}`, "=typed &amp; &lt;kept&gt;")]).toEqual([name, expected.size]);
      for (const what of ["<table:table ", "<office:annotation", "<draw:frame", "<draw:image", "<chart:series", "<calcext:conditional-format ", "<table:content-validation ", "<table:data-pilot-table "]) expect([name, what, count(`after-${name}`, what)]).toEqual([name, what, count(`before-${name}`, what)]);
    }
  });
});

const LOG = (rows: string) => new Uint8Array(handMade({ rows }));
const cellTexts = (file: Uint8Array) => Object.fromEntries([...partText(file, "xl/worksheets/sheet1.xml").matchAll(/<c r="([A-Z]+\d+)"[^>]*?(?:\/>|>.*?<\/c>)/g)].map(([text, address]) => [address, text]));

describe("one cell after the other", () => {
  test("a shared formula whose first cell is typed over leaves each of the others its own", async () => {
    const original = LOG('<row r="1"><c r="A1"><v>1</v></c><c r="B1"><f t="shared" ref="B1:B3" si="0">A1*2</f><v>2</v></c></row><row r="2"><c r="A2"><v>2</v></c><c r="B2"><f t="shared" si="0"/><v>4</v></c></row><row r="3"><c r="A3"><v>3</v></c><c r="B3"><f t="shared" si="0"/><v>6</v></c></row>');
    const file = await merge(original, ({ sheets: [log] }) => log?.cells.set("B1", { value: 9 }));
    expect(cellTexts(file)).toEqual({ A1: '<c r="A1"><v>1</v></c>', B1: '<c r="B1"><v>9</v></c>', A2: '<c r="A2"><v>2</v></c>', B2: '<c r="B2"><f>A2*2</f><v>4</v></c>', A3: '<c r="A3"><v>3</v></c>', B3: '<c r="B3"><f>A3*2</f><v>6</v></c>' });
  });

  test("a cell that is emptied keeps its look, and a formula shows what the grid shows", async () => {
    const original = LOG('<row r="1" ht="20"><c r="A1" s="0"><v>1</v></c><c r="B1"><f>A1*2</f><v>2</v></c></row>');
    const file = await merge(original, ({ sheets: [log] }) => {
      log?.cells.delete("A1");
      log?.cells.set("B1", { value: 0, formula: "A1*2" });
    });
    expect(partText(file, "xl/worksheets/sheet1.xml")).toContain('<row r="1" ht="20"><c r="A1" s="0"></c><c r="B1"><f>A1*2</f><v>0</v></c></row>');
  });

  test("a formula whose answer the grid cannot work out keeps that of the file, and whoever opens the file is asked to calculate", async () => {
    const original = LOG('<row r="1"><c r="A1"><f>[1]Other!A1</f><v>2</v></c></row>');
    const file = await merge(original, ({ sheets: [log] }) => log?.cells.set("A1", { value: "#REF!", formula: "[1]Other!A1" }));
    expect(cellTexts(file)).toEqual({ A1: '<c r="A1"><f>[1]Other!A1</f><v>2</v></c>' });
    expect(partText(file, "xl/workbook.xml")).toContain('</sheets><calcPr fullCalcOnLoad="1"/></workbook>');
  });

  test("a formula that is typed stands there in the form of the file, also one that names its own table", async () => {
    const TABLE = `<table xmlns="${MAIN}" id="1" name="Log1" displayName="Log1" ref="A1:B2"><tableColumns count="2"><tableColumn id="1" name="Feed (g)"/><tableColumn id="2" name="N"/></tableColumns></table>`;
    const LINKS = '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/table" Target="../tables/table1.xml"/></Relationships>';
    const original = new Uint8Array(handMade({ rows: '<row r="1"><c r="A1" t="str"><v>Feed (g)</v></c><c r="B1" t="str"><v>N</v></c></row><row r="2"><c r="A2"><v>2</v></c></row>', parts: { "xl/tables/table1.xml": TABLE, "xl/worksheets/_rels/sheet1.xml.rels": LINKS } }));
    const file = await merge(original, ({ sheets: [log] }) => {
      log?.cells.set("B2", { value: 4, formula: "[@[Feed (g)]]*2" });
      log?.cells.set("D2", { value: 2, formula: "SUM(E10#)+IFNA(Log1[@N],0)" });
    });
    expect(cellTexts(file)).toMatchObject({ B2: '<c r="B2"><f>Log1[[#This Row],[Feed (g)]]*2</f><v>4</v></c>', D2: '<c r="D2"><f>SUM(_xlfn.ANCHORARRAY(E10))+_xlfn.IFNA(Log1[[#This Row],[N]],0)</f><v>2</v></c>' });
  });

  test("a formula that spills is typed, shrinks, and is typed into: no cell keeps what was not there, none loses what was", async () => {
    const start = LOG('<row r="1"><c r="A1"><v>1</v></c></row>');
    const spilled = await merge(start, ({ sheets: [log] }) => {
      log?.cells.set("C1", { value: 5, formula: "SEQUENCE(A1+2,1,5)", spill: "C1:C3" });
      log?.cells.set("C2", { value: 6 });
      log?.cells.set("C3", { value: 7 });
    });
    expect(partText(spilled, "xl/metadata.xml")).toContain("XLDAPR");
    expect((await readBook(spilled)).sheets[0]?.cells.get("C1")).toEqual({ value: 5, formula: "SEQUENCE(A1+2,1,5)", spill: "C1:C3" });
    const shrunk = await merge(spilled, ({ sheets: [log] }) => {
      log?.cells.set("C1", { value: 5, formula: "SEQUENCE(A1+2,1,5)", spill: "C1:C2" });
      log?.cells.set("C2", { value: 6.5 });
      log?.cells.delete("C3");
    });
    const { cells } = (await readBook(shrunk)).sheets[0] ?? {};
    expect([cells?.get("C1"), cells?.get("C2")?.value, cells?.get("C3")]).toEqual([{ value: 5, formula: "SEQUENCE(A1+2,1,5)", spill: "C1:C2" }, 6.5, undefined]);
    const typedInto = await merge(spilled, ({ sheets: [log] }) => {
      log?.cells.set("C1", { value: "#SPILL!", formula: "SEQUENCE(A1+2,1,5)", spill: "C1" });
      log?.cells.set("C2", { value: 6 });
      log?.cells.delete("C3");
    });
    const after = (await readBook(typedInto)).sheets[0]?.cells;
    // As Excel does, the newer error is stored as an older one.
    expect([after?.get("C1"), after?.get("C2"), after?.get("C3")]).toEqual([{ value: "#VALUE!", formula: "SEQUENCE(A1+2,1,5)", spill: "C1" }, { value: 6 }, undefined]);
  });
});

/** As the grid opens a file and as it is after an edit, where the grid answers otherwise than the file says. */
async function mergeAnswers(rows: string, opened: Record<string, NewCell | undefined>, edited: Record<string, NewCell | undefined>, made: Partial<Parameters<typeof handMade>[0]> = {}): Promise<{ cells: Record<string, string>; file: Uint8Array }> {
  const original = new Uint8Array(handMade({ rows, ...made }));
  const book = asWritten(await readWorkbook(original));
  const withCells = (more: Record<string, NewCell | undefined>): NewBook => ({
    ...book,
    sheets: book.sheets.map((sheet, i) => {
      const cells = new Map(sheet.cells);
      if (i === 0) for (const [address, cell] of Object.entries(more)) if (cell) cells.set(address, cell); else cells.delete(address);
      return { ...sheet, cells };
    }),
  });
  const ids = book.sheets.map((_sheet, i) => `sheet${i + 1}`);
  const { file, reason } = await mergeBook({ original, before: { ids, book: withCells(opened) }, now: { ids, book: withCells({ ...opened, ...edited }) }, shifted: new Set() });
  if (!file) throw new Error(reason);
  return { cells: cellTexts(file), file };
}

describe("answers that the file holds", () => {
  test("stay to the last digit where no edit changed them, whatever the grid answers", async () => {
    const rows = '<row r="1"><c r="A1"><v>0.1</v></c><c r="B1"><f>A1*3</f><v>0.30000000000000004</v></c><c r="C1"><f>LATER(A1)</f><v>7</v></c><c r="D1"><f>A1+1</f></c></row>';
    const opened = { B1: { value: 0.3, formula: "A1*3" }, C1: { value: "#NAME?", formula: "LATER(A1)" }, D1: { value: 1.1, formula: "A1+1" } };
    const { cells } = await mergeAnswers(rows, opened, { F1: { value: "typed" } });
    expect(cells).toMatchObject({ B1: '<c r="B1"><f>A1*3</f><v>0.30000000000000004</v></c>', C1: '<c r="C1"><f>LATER(A1)</f><v>7</v></c>', D1: '<c r="D1"><f>A1+1</f></c>', F1: '<c r="F1" t="str"><v>typed</v></c>' });
  });

  test("give way to the grid's where an edit changed them, but for those that the grid had not known before", async () => {
    const rows = '<row r="1"><c r="A1"><v>1</v></c><c r="B1"><f>A1*3</f><v>3</v></c><c r="C1"><f>LATER(A1)</f><v>7</v></c><c r="D1"><f>SUM(A1:A2 A1:B1)</f><v>1</v></c><c r="E1"><f>[1]Other!A1*A1</f><v>9</v></c><c r="F1"><f>A1:A2*2</f><v>2</v></c></row>';
    const opened = { B1: { value: 3, formula: "A1*3" }, C1: { value: "#NAME?", formula: "LATER(A1)" }, F1: { value: 2, formula: "A1:A2*2", spill: "F1:F2" }, F2: { value: 0 } };
    const edited = { A1: { value: 2 }, B1: { value: 6, formula: "A1*3" }, C1: { value: "#VALUE!", formula: "LATER(A1)" }, D1: { value: 5, formula: "SUM(A1:A2 A1:B1)" }, E1: { value: "#REF!", formula: "[1]Other!A1*A1" }, F1: { value: 4, formula: "A1:A2*2", spill: "F1:F2" } };
    const { cells, file } = await mergeAnswers(rows, opened, edited);
    expect(cells).toEqual({ A1: '<c r="A1"><v>2</v></c>', B1: '<c r="B1"><f>A1*3</f><v>6</v></c>', C1: '<c r="C1"><f>LATER(A1)</f><v>7</v></c>', D1: '<c r="D1"><f>SUM(A1:A2 A1:B1)</f><v>1</v></c>', E1: '<c r="E1"><f>[1]Other!A1*A1</f><v>9</v></c>', F1: '<c r="F1"><f>A1:A2*2</f><v>2</v></c>' });
    expect(partText(file, "xl/workbook.xml")).toContain('<calcPr fullCalcOnLoad="1"/>');
  });

  test("of the add-in are the grid's, and so are those of formulas that read them", async () => {
    const rows = '<row r="1"><c r="A1" t="e"><f>_xldudf_ALGAL_SALINITY(1)</f><v>#NAME?</v></c><c r="B1"><f>A1*2</f><v>8</v></c><c r="C1"><f>B1+1</f><v>9</v></c><c r="D1"><f>Z1+1</f><v>4</v></c></row>';
    const opened = { A1: { value: 5, formula: "ALGAL.SALINITY(1)" }, B1: { value: 10, formula: "A1*2" }, C1: { value: 11, formula: "B1+1" }, D1: { value: 1, formula: "Z1+1" } };
    const { cells } = await mergeAnswers(rows, opened, {});
    expect(cells).toEqual({ A1: '<c r="A1"><f>_xldudf_ALGAL_SALINITY(1)</f><v>5</v></c>', B1: '<c r="B1"><f>A1*2</f><v>10</v></c>', C1: '<c r="C1"><f>B1+1</f><v>11</v></c>', D1: '<c r="D1"><f>Z1+1</f><v>4</v></c>' });
  });
});

describe("array formulas", () => {
  const METADATA = `<metadata xmlns="${MAIN}" xmlns:xda="http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray"><metadataTypes count="1"><metadataType name="XLDAPR" minSupportedVersion="120000" copy="1" pasteAll="1" pasteValues="1" merge="1" splitFirst="1" rowColShift="1" clearFormats="1" clearComments="1" assign="1" coerce="1" cellMeta="1"/></metadataTypes><futureMetadata name="XLDAPR" count="1"><bk><extLst><ext uri="{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}"><xda:dynamicArrayProperties fDynamic="1" fCollapsed="0"/></ext></extLst></bk></futureMetadata><cellMetadata count="1"><bk><rc t="1" v="0"/></bk></cellMetadata></metadata>`;
  const made = { parts: { "xl/metadata.xml": METADATA }, links: { sheetMetadata: "metadata.xml" } };
  const rows = '<row r="1"><c r="A1"><v>1</v></c><c r="C1" cm="1"><f t="array" ref="C1:C2">FILTER(A1:A2,A1:A2&gt;0)</f><v>1</v></c><c r="E1"><f t="array" ref="E1:E2">A1:A2*2</f><v>2</v></c><c r="G1"><f t="array" ref="G1">SUM(A1:A2*A1:A2)</f><v>5</v></c></row><row r="2"><c r="A2"><v>2</v></c><c r="C2"><v>2</v></c><c r="E2"><v>4</v></c></row>';
  const opened = { C1: { value: "#NAME?", formula: "FILTER(A1:A2,A1:A2>0)" }, C2: undefined };

  test("of which the grid knows no answer keep theirs and their range, also after an edit elsewhere", async () => {
    const { cells } = await mergeAnswers(rows, opened, { A2: { value: 3 }, E2: { value: 6 }, G1: { value: 10, formula: "SUM(A1:A2*A1:A2)" } }, made);
    expect(cells.C1).toBe('<c r="C1" cm="1"><f t="array" ref="C1:C2">FILTER(A1:A2,A1:A2&gt;0)</f><v>1</v></c>');
    expect(cells.C2).toBe('<c r="C2"><v>2</v></c>');
    expect([cells.E1, cells.E2]).toEqual(['<c r="E1"><f t="array" ref="E1:E2">A1:A2*2</f><v>2</v></c>', '<c r="E2"><v>6</v></c>']);
    expect(cells.G1).toBe('<c r="G1"><f t="array" ref="G1">SUM(A1:A2*A1:A2)</f><v>10</v></c>');
  });

  test("that are typed anew stay arrays of their kind", async () => {
    const { cells } = await mergeAnswers(rows, opened, { C1: { value: "#NAME?", formula: "FILTER(A1:A2,A1:A2>1)" }, E1: { value: 3, formula: "A1:A2*3", spill: "E1:E2" }, E2: { value: 6 }, G1: { value: 6, formula: "SUM(A1:A2*2)" } }, made);
    expect(cells.C1).toBe('<c r="C1" cm="1" t="e"><f t="array" ref="C1">_xlfn._xlws.FILTER(A1:A2,A1:A2&gt;1)</f><v>#NAME?</v></c>');
    expect([cells.E1, cells.E2]).toEqual(['<c r="E1"><f t="array" ref="E1:E2">A1:A2*3</f><v>3</v></c>', '<c r="E2"><v>6</v></c>']);
    expect(cells.G1).toBe('<c r="G1"><f t="array" ref="G1">SUM(A1:A2*2)</f><v>6</v></c>');
  });

  test("that are typed on the page and calculate with whole ranges are arrays in the file", async () => {
    const { cells } = await mergeAnswers(rows, {}, { I1: { value: 5, formula: "SUM(A1:A2*A1:A2)" }, J1: { value: 3, formula: "SUM(A1:A2)" } }, made);
    expect(cells.I1).toBe('<c r="I1" cm="1"><f t="array" ref="I1">SUM(A1:A2*A1:A2)</f><v>5</v></c>');
    expect(cells.J1).toBe('<c r="J1"><f>SUM(A1:A2)</f><v>3</v></c>');
  });
});
