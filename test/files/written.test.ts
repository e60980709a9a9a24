import fs from "node:fs";
import path from "node:path";
import * as XLSX from "@e965/xlsx";
import { cellAddress, cellsOf, readRange } from "../../src/files/address";
import { openArchive } from "../../src/files/archive";
import type { BookCell } from "../../src/files/book";
import type { CellResult } from "../../src/files/cell-result";
import { writeBook } from "../../src/files/new-book";
import { type FormulaResult, patchBook } from "../../src/files/patch-book";
import { readBook } from "../../src/files/read-book";
import { readWorkbookPart } from "../../src/files/workbook-part";
import { handMade, MAIN } from "./hand-made";
import { convert } from "./libreoffice";
import { wholeBook } from "./whole-book";
import { unpack, zipEntries } from "./zip-bytes";

/** Workbooks of many writers (see written/README.md) get other results in all their formula cells; all else must stay. */
const FOLDER = path.join(__dirname, "written");
const FILES = fs.readdirSync(FOLDER).filter((name) => name.endsWith(".xlsx"));

interface Patched {
  before: Uint8Array;
  after: Uint8Array;
  /** By sheet name: what each formula cell, and each cell that it fills, must show now. */
  expected: Map<string, Map<string, CellResult>>;
  /** Numbers that formulas of one cell must show now, which another program does not calculate anew. */
  plainNumbers: number[];
}

const ROWS = '<row r="1"><c r="A1"><v>46053</v></c><c r="B1"><f>A1*2</f><v>92106</v></c><c r="C1" t="str"><f>A1&amp;"x"</f><v>46053x</v></c></row>';
const STRICT = "http://purl.oclc.org/ooxml";
/** What no writer above writes, but the format allows. */
const BY_HAND: Readonly<Record<string, Uint8Array>> = {
  "by-hand-prefixes.xlsx": handMade({ rows: "", parts: { "xl/worksheets/sheet1.xml": `<?xml version='1.0'?><x:worksheet xmlns:x='${MAIN}'><x:sheetData><x:row r='1'><x:c r="A1"><x:v>1</x:v></x:c><x:c  r="B1" ><x:f >A1*2</x:f ><x:v >2</x:v ></x:c ><x:c r="C1"><x:f>A1</x:f></x:c></x:row></x:sheetData></x:worksheet>` } }),
  "by-hand-inline-shared.xlsx": handMade({ rows: `<row r="1"><c r="A1" t="inlineStr"><is><r><t>a</t></r><rPh sb="0" eb="1"><t>no</t></rPh></is></c><c r="B1" t="str"><f t="shared" ref="B1:B3" si="4">A1&amp;"!"</f><v>a!</v></c></row><row r="2"><c r="A2" t="inlineStr"><is><t xml:space="preserve"> b </t></is></c><c r="B2" t="str"><f t="shared" si="4"/><v> b !</v></c></row><!-- <row r="3"/> --><row r="3"><c r="A3"/><c r="B3" t="str"><f t="shared" si="4"/><v>!</v></c></row>` }),
  "by-hand-1904-right-to-left.xlsx": handMade({ rows: ROWS, workbookPr: '<workbookPr date1904="true"/>', before: '<sheetViews><sheetView rightToLeft="1" workbookViewId="0"/></sheetViews>' }),
  "by-hand-line-ends-and-mark.xlsx": handMade({ rows: "", parts: { "xl/worksheets/sheet1.xml": `\uFEFF<?xml version="1.0" encoding="utf-8"?>\r\n<worksheet xmlns="${MAIN}">\r\n  <sheetData>\r\n${ROWS}\r\n  </sheetData>\r\n<?a remark?>\r\n</worksheet>\r\n` } }),
  "by-hand-strict.xlsx": handMade({
    rows: "",
    parts: {
      "_rels/.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="a" Type="${STRICT}/officeDocument/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
      "xl/workbook.xml": `<workbook xmlns="${STRICT}/spreadsheetml/main" xmlns:q="${STRICT}/officeDocument/relationships" conformance="strict"><sheets><sheet name="Log" sheetId="1" q:id="b"/></sheets></workbook>`,
      "xl/_rels/workbook.xml.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="b" Type="${STRICT}/officeDocument/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
      "xl/worksheets/sheet1.xml": `<worksheet xmlns="${STRICT}/spreadsheetml/main"><sheetData>${ROWS}</sheetData></worksheet>`,
    },
  }),
  "by-hand-much-beside.xlsx": handMade({
    rows: ROWS,
    after: '<extLst><ext uri="{0}"><a:b xmlns:a="urn:a" r="C1"/></ext></extLst>',
    names: "<definedNames><definedName name=\"feed\">Log!$A$1</definedName></definedNames>",
    links: { calcChain: "calcChain.xml", externalLink: "externalLinks/externalLink1.xml" },
    parts: {
      "xl/calcChain.xml": `<calcChain xmlns="${MAIN}"><c r="C1" i="1"/><c r="B1"/></calcChain>`,
      "xl/externalLinks/externalLink1.xml": `<externalLink xmlns="${MAIN}"/>`,
      "xl/webextensions/webextension1.xml": "<we:webextension xmlns:we='urn:we'/>",
      "customXml/item1.xml": "<not well formed",
      "docProps/thumbnail.jpeg": "\u00ff\u00d8",
    },
  }),
};

const patched = new Map<string, Patched>();

beforeAll(async () => {
  for (const name of FILES) patched.set(name, await patch(fs.readFileSync(path.join(FOLDER, name))));
  patched.set("ours.xlsx", await patch(await writeBook(wholeBook())));
  for (const [name, made] of Object.entries(BY_HAND)) patched.set(name, await patch(made));
});

async function patch(before: Uint8Array): Promise<Patched> {
  const expected: Patched["expected"] = new Map();
  const results = new Map<string, Map<string, FormulaResult>>();
  const plainNumbers: number[] = [];
  let nth = 0;
  for (const { name, cells } of (await readBook(before)).sheets) {
    const shown = new Map<string, CellResult>();
    const ofSheet = new Map<string, FormulaResult>();
    for (const [address, cell] of cells) {
      if (cell.formula === undefined) continue;
      const range = readRange(cell.spill ?? address);
      if (!range) throw new Error(`${address} has no place.`);
      const values = [...cellsOf(range)].map(({ row, column }) => {
        const value = otherThan(cell.value, (nth += 1));
        shown.set(cellAddress(row, column), value);
        return value;
      });
      if (cell.spill === undefined && typeof values[0] === "number") plainNumbers.push(values[0]);
      const width = range.endColumn - range.startColumn + 1;
      ofSheet.set(address, Array.from({ length: values.length / width }, (_, r) => values.slice(r * width, (r + 1) * width)));
    }
    if (ofSheet.size > 0) results.set(name, ofSheet);
    expected.set(name, shown);
  }
  return { before, after: await patchBook(before, results), expected, plainNumbers };
}

/** Another result, no two alike, mostly of the same kind. */
function otherThan(value: BookCell["value"], nth: number): CellResult {
  if (typeof value === "boolean") return { code: "#N/A" };
  if (typeof value === "string" && !value.startsWith("#")) return ` <${nth}> & =more\n`;
  return nth + 0.125;
}

const one = (name: string): Patched => patched.get(name) ?? fail(name);
function fail(name: string): never {
  throw new Error(`${name} was not patched.`);
}

test("there are at least thirty, of at least four writers, and every formula of theirs is known", () => {
  const writers = new Set(FILES.map((name) => /^(?:write-excel-file|xlsx-populate|[a-z]+)/.exec(name)?.[0]));
  expect(FILES.length).toBeGreaterThanOrEqual(30);
  expect([...writers].sort()).toEqual(["exceljs", "libreoffice", "openpyxl", "sheetjs", "write-excel-file", "xlsx-populate", "xlsxwriter"]);
  for (const name of FILES) expect([name, [...one(name).expected.values()].reduce((sum, { size }) => sum + size, 0) > 2]).toEqual([name, true]);
});

describe.each([...FILES, "ours.xlsx", ...Object.keys(BY_HAND)])("%s", (name) => {
  test("keeps every part that holds no formula byte by byte", async () => {
    const { before, after, expected } = one(name);
    const workbook = await readWorkbookPart(await openArchive(before));
    const withFormulas = workbook.sheets.filter((sheet) => expected.get(sheet.name)?.size).map(({ part }) => part);
    const [old, now] = [zipEntries(before), zipEntries(after)];
    expect(now.map((entry) => entry.name)).toEqual(old.map((entry) => entry.name));
    const changed = old.filter((entry, i) => !entry.packed.equals(now[i]?.packed ?? Buffer.alloc(0)) || entry.crc !== now[i]?.crc || entry.method !== now[i]?.method);
    expect(changed.map((entry) => entry.name).sort()).toEqual(withFormulas.sort());
  });

  test("changes in a sheet nothing but the results of its formulas", async () => {
    const { before, after, expected } = one(name);
    for (const sheet of (await readWorkbookPart(await openArchive(before))).sheets) {
      const addresses = expected.get(sheet.name) ?? new Map<string, CellResult>();
      const [old, now] = [before, after].map((file) => withoutResults(unpack(zipEntries(file).find((entry) => entry.name === sheet.part) ?? fail(sheet.part)).toString("utf8"), addresses));
      expect(now).toBe(old);
    }
  });

  test("is read again here, and by another library, with the new results and all else as before", async () => {
    const { before, after, expected } = one(name);
    const [ours, oursBefore] = [await readBook(after), await readBook(before)];
    const [other, otherBefore] = [after, before].map((file) => XLSX.read(file, { cellFormula: true, cellNF: true, cellStyles: true })) as [XLSX.WorkBook, XLSX.WorkBook];
    expect(other.SheetNames).toEqual(otherBefore.SheetNames);
    expect(other.Workbook).toEqual(otherBefore.Workbook);
    expect({ ...ours, sheets: 0 }).toEqual({ ...oursBefore, sheets: 0 });
    for (const [i, { cells, ...rest }] of ours.sheets.entries()) {
      const sheet = rest.name;
      const shown = expected.get(sheet) ?? new Map<string, CellResult>();
      const { cells: cellsBefore, ...restBefore } = oursBefore.sheets[i] ?? fail(sheet);
      expect(rest).toEqual(restBefore);
      expect(withoutValues(cells, shown)).toEqual(withoutValues(cellsBefore, shown));
      const [theirs, theirsBefore] = [other.Sheets[sheet] ?? {}, otherBefore.Sheets[sheet] ?? {}];
      for (const [address, result] of shown) {
        const code = typeof result === "object" ? result.code : undefined;
        expect([address, cells.get(address)?.value]).toEqual([address, code ?? result]);
        expect([address, code === undefined ? theirs[address]?.v : theirs[address]?.w]).toEqual([address, code ?? result]);
        expect([address, theirs[address]?.f]).toEqual([address, theirsBefore[address]?.f]);
      }
      for (const key of new Set([...Object.keys(theirs), ...Object.keys(theirsBefore)])) if (!shown.has(key)) expect([key, theirs[key]]).toEqual([key, theirsBefore[key]]);
    }
  });
});

/** What a reader of its own finds beside values: how often each of these stands in the workbook as LibreOffice holds it. */
const HELD = ["<table:table ", "<office:annotation", "<draw:frame", "<draw:object", "<draw:image", "<draw:custom-shape", "<chart:series", "<calcext:conditional-format ", "<calcext:data-bar ", "<calcext:sparkline ", "<table:content-validation ", "<table:data-pilot-table ", "<table:database-range", "<table:named-range", "<table:named-expression", "<text:a ", "table:number-matrix-columns-spanned", "table:number-columns-spanned", 'style:writing-mode="rl-tb"', "<table:null-date", "table:formula="];

/** How many formulas LibreOffice calculates when it opens them: shared ones, those that read a table, a text of another sheet. */
const CALCULATED_THERE: Readonly<Record<string, number>> = { "exceljs-shared-formulas.xlsx": 9, "libreoffice-from-xlsxwriter-tables.xlsx": 3, "openpyxl-hidden-protected-rich.xlsx": 1, "xlsxwriter-tables.xlsx": 3 };

test("LibreOffice opens each and holds the same in it as before, with the new results in the formulas that it does not calculate itself", () => {
  const pairs = [...patched].flatMap(([name, { before, after }]) => [[`before-${name}`, before], [`after-${name}`, after]] as const);
  const flat = convert(Object.fromEntries(pairs), "fods");
  const held = (file: string) => HELD.map((what) => [what, (flat[file] ?? fail(file)).toString("utf8").split(what).length - 1]);
  for (const [name, { plainNumbers }] of patched) {
    expect([name, held(`after-${name}`)]).toEqual([name, held(`before-${name}`)]);
    const numbers = new Set([...(flat[`after-${name}`] ?? fail(name)).toString("utf8").matchAll(/office:(?:boolean-)?value="([\d.]+)"/g)].map(([, number]) => Number(number)));
    expect([name, plainNumbers.filter((number) => !numbers.has(number)).length <= (CALCULATED_THERE[name] ?? 0)]).toEqual([name, true]);
  }
});

/** The text of a sheet without what formulas show, and without the cells that they fill and what tells how far the cells go. */
function withoutResults(xml: string, shown: ReadonlyMap<string, unknown>): string {
  const filled = [...xml.matchAll(/<(?:\w+:)?f\b[^>]*\bref="([A-Z]+\d+:[A-Z]+\d+)"/g)].length > 0;
  const bare = xml.replace(/<((?:\w+:)?)c\b([^>]*?)(?:\/>|>(.*?)<\/\1c\s*>)/gs, (cell: string, prefix: string, attributes: string, inner = "") => {
    const address = /\br=["']([A-Z]+\d+)["']/.exec(attributes)?.[1] ?? "";
    if (!shown.has(address)) return cell;
    if (!/<(?:\w+:)?f\b/.test(inner)) return "";
    return `<${prefix}c${attributes.replace(/\s+t=(["'])\w+\1/, "")}>${inner.replace(/<(?:\w+:)?(v|is)\b[^>]*?(?:\/>|>.*?<\/(?:\w+:)?\1\s*>)/gs, "")}</${prefix}c>`;
  });
  return filled ? bare.replace(/(<(?:\w+:)?row\b[^>]*?) spans="[\d:]+"/g, "$1").replace(/(<(?:\w+:)?dimension ref=)"[^"]*"/, "$1") : bare;
}

/** Cells as they were read, without what formulas show and without the cells that they fill. */
function withoutValues(cells: ReadonlyMap<string, BookCell>, addresses: ReadonlyMap<string, unknown>): [string, BookCell][] {
  return [...cells].flatMap(([address, cell]): [string, BookCell][] => {
    if (!addresses.has(address)) return [[address, cell]];
    return cell.formula === undefined ? [] : [[address, { ...cell, value: null }]];
  });
}
