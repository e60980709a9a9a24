import fs from "node:fs";
import path from "node:path";
import * as XLSX from "@e965/xlsx";
import fc from "fast-check";
import { writeBook } from "../../src/files/new-book";
import { type BookResults, patchBook } from "../../src/files/patch-book";
import { readBook } from "../../src/files/read-book";
import { handMadeParts } from "./hand-made";
import { convert, shownRows } from "./libreoffice";
import { partText, unpack, zipEntries, zipOf } from "./zip-bytes";

/** The same small log from four writers: formulas in C2, C3 (numbers) and D2 (text), everything else untouched. */
const files: Record<string, Uint8Array> = {};
const NEW_RESULTS: BookResults = new Map([["Log", new Map<string, number | string>([["C2", 7.5], ["C3", 1 / 3], ["D2", "less & <less>"]])]]);

beforeAll(async () => {
  const { "office-log.fods": office } = convert({ "office-log.fods": fs.readFileSync(path.join(__dirname, "office-log.fods")) }, "xlsx:Calc MS Excel 2007 XML");
  files.LibreOffice = office ?? new Uint8Array();

  const sheet = XLSX.utils.aoa_to_sheet([["Date", "Feed", "Twice", "Words"], [46053, 2.5, 5, "much"], [46054, 0.125, 0.25, null]]);
  Object.assign(sheet, { C2: { t: "n", v: 5, f: "B2*2" }, C3: { t: "n", v: 0.25, f: "B3*2" }, D2: { t: "s", v: "much", f: 'IF(B2>1,"much","little")' } });
  const book = XLSX.utils.book_new();
  XLSX.utils.book_append_sheet(book, sheet, "Log");
  XLSX.utils.book_append_sheet(book, XLSX.utils.aoa_to_sheet([["Nori, invented"]]), "Foods");
  files["the npm library"] = XLSX.write(book, { type: "buffer", bookType: "xlsx", compression: true });

  files["our own writer"] = await writeBook({
    sheets: [
      {
        name: "Log",
        cells: new Map(Object.entries({ A1: { value: "Date" }, B1: { value: "Feed" }, A2: { value: 46053 }, B2: { value: 2.5 }, B3: { value: 0.125 }, C2: { value: 5, formula: "B2*2" }, C3: { value: 0.25, formula: "B3*2" }, D2: { value: "much", formula: 'IF(B2>1,"much","little")' } })),
        tables: [{ name: "LogTable", ref: "A1:B3" }],
        conditionalFormats: [{ range: "B2:B3", formula: "$B2>1", style: { fill: "#fecaca" } }],
        lists: [{ range: "E2:E9", choices: ["a", "b"] }],
      },
      { name: "Foods", cells: new Map([["A1", { value: "Nori, invented" }]]) },
    ],
    names: [{ name: "feed", ref: "Log!$B$2:$B$3" }],
    date1904: false,
  });

  const rows = '<row r="2" spans="2:4"><c r="B2"><v>2.5</v></c><c r="C2"><f ca="1">B2*2</f><v>5</v></c><c r="D2" t="str"><f>IF(B2&gt;1,"much","little")</f><v>much</v></c></row><!-- a remark --><row r="3"><c r="B3"><v>0.125</v></c><c r="C3"><f>B3*2</f><v>0.25</v></c></row>';
  files["a hand"] = zipOf([
    ...handMadeParts({
      rows,
      after: '<legacyDrawing r:id="rId9"/>',
      parts: { "xl/calcChain.xml": '<calcChain xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><c r="C2" i="1"/></calcChain>', "xl/charts/chart1.xml": "<c:chartSpace xmlns:c='urn:chart'/>", "xl/webextensions/webextension1.xml": "<we:webextension xmlns:we='urn:we'/>", "customXml/item1.xml": "<not well formed" },
    }),
    { name: "xl/media/image1.png", content: Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 1, 2, 3, 255, 254]), stored: true },
    { name: "xl/vbaProject.bin", content: Buffer.from(Array.from({ length: 5000 }, (_, i) => (i * i) % 251)) },
  ]);
});

const WRITERS = ["LibreOffice", "the npm library", "our own writer", "a hand"];
const written = (writer: string) => files[writer] ?? new Uint8Array();
/** Which part holds the sheet Log. */
const SHEET = "xl/worksheets/sheet1.xml";

describe.each(WRITERS)("a workbook by %s", (writer) => {
  test("keeps every other part's packed bytes, names, order and checksums when results are stored", async () => {
    const before = zipEntries(written(writer));
    const after = zipEntries(await patchBook(written(writer), NEW_RESULTS));
    expect(after.map(({ name }) => name)).toEqual(before.map(({ name }) => name));
    const different = before.filter((entry, i) => {
      const other = after[i];
      return entry.method !== other?.method || entry.crc !== other.crc || entry.unpackedSize !== other.unpackedSize || !entry.packed.equals(other.packed);
    });
    expect(different.map(({ name }) => name)).toEqual([SHEET]);
  });

  test("has in the touched sheet nothing changed but the stored results of the formulas", async () => {
    const before = partText(written(writer), SHEET);
    const after = partText(await patchBook(written(writer), NEW_RESULTS), SHEET);
    const withoutResults = (xml: string) =>
      xml.replace(/<c r="(C2|C3|D2)"[^>]*>.*?<\/c>/g, (cell) => cell.replace(/<v[^>]*>[^<]*<\/v>/, "<v/>").replace(/ t="(str|n|s)"/, ""));
    expect(after).not.toBe(before);
    expect(withoutResults(after)).toBe(withoutResults(before));
    expect(after).toContain("<v>0.3333333333333333</v>");
    expect(after).toContain("<v>less &amp; &lt;less&gt;</v>");
  });

  test("is the same in every part when the results are what is stored already", async () => {
    const same: BookResults = new Map([["Log", new Map<string, number | string>([["C2", 5], ["C3", 0.25], ["D2", "much"]])]]);
    const [before, after] = [zipEntries(written(writer)), zipEntries(await patchBook(written(writer), same))];
    expect(after.map(({ name, crc, packed }) => ({ name, crc, packed }))).toEqual(before.map(({ name, crc, packed }) => ({ name, crc, packed })));
  });

  test("opens again here, in another library and in LibreOffice with the new results", async () => {
    const patched = await patchBook(written(writer), NEW_RESULTS);
    const [log] = (await readBook(patched)).sheets;
    expect(["B2", "C2", "C3", "D2"].map((address) => log?.cells.get(address)?.value)).toEqual([2.5, 7.5, 1 / 3, "less & <less>"]);
    expect(log?.cells.get("D2")?.formula).toBe('IF(B2>1,"much","little")');
    const other = XLSX.read(patched).Sheets.Log;
    expect([other?.C2?.v, other?.C3?.v, other?.D2?.v, other?.C2?.f]).toEqual([7.5, 1 / 3, "less & <less>", "B2*2"]);
    const [, second = [], third = []] = shownRows({ "patched.xlsx": patched })["patched.xlsx"] ?? [];
    expect(second[2]).toBe("7.5");
    expect(third[2]).toMatch(/^0\.333333/);
  });
});

test("the original is left as it was", async () => {
  const original = Buffer.from(written("a hand"));
  await patchBook(written("a hand"), NEW_RESULTS);
  expect(Buffer.compare(original, written("a hand"))).toBe(0);
});

test("whatever results are stored, exactly these are read back and all else reads the same", async () => {
  const value = fc.oneof(fc.double({ noNaN: true, noDefaultInfinity: true }), fc.string({ unit: "grapheme", maxLength: 20 }), fc.boolean(), fc.constantFrom({ code: "#N/A" }, { code: "#DIV/0!" }));
  const bytes = written("a hand");
  const before = (await readBook(bytes)).sheets[0];
  await fc.assert(
    fc.asyncProperty(value, value, async (one, two) => {
      const after = (await readBook(await patchBook(bytes, new Map([["Log", new Map([["C2", one], ["D2", two]])]])))).sheets[0];
      const plain = (result: typeof one) => (typeof result === "object" ? result.code : Object.is(result, -0) ? 0 : result);
      expect(after?.cells.get("C2")).toEqual({ value: plain(one), formula: "B2*2" });
      expect(after?.cells.get("D2")?.value).toEqual(plain(two));
      for (const address of ["B2", "B3", "C3"]) expect(after?.cells.get(address)).toEqual(before?.cells.get(address));
    }),
    { numRuns: 150, seed: 20261125 },
  );
});

test("10,000 rows are read and their results stored in a few seconds, changing the sheet alone", async () => {
  const cells = new Map<string, { value: number | string; formula?: string }>();
  for (let row = 1; row <= 10_000; row += 1) {
    for (let column = 0; column < 6; column += 1) cells.set(`${"ABCDEF"[column]}${row}`, { value: column < 4 ? (row * column) / 7 : `note ${row % 50}` });
    cells.set(`G${row}`, { value: 1, formula: `ALGAL.FEEDLOAD_N(B${row},"x")` });
  }
  const bytes = await writeBook({ sheets: [{ name: "Log", cells }], names: [], date1904: false });
  const results = new Map(Array.from({ length: 10_000 }, (_, i) => [`G${i + 1}`, i / 3]));
  const began = performance.now();
  const book = await readBook(bytes);
  const patched = await patchBook(bytes, new Map([["Log", results]]));
  const took = performance.now() - began;
  expect(book.sheets[0]?.cells.size).toBe(70_000);
  expect((await readBook(patched)).sheets[0]?.cells.get("G10000")?.value).toBe(9999 / 3);
  const changed = zipEntries(patched).filter((entry, i) => !unpack(entry).equals(unpack(zipEntries(bytes)[i] ?? entry)));
  expect(changed.map(({ name }) => name)).toEqual([SHEET]);
  // Under a second on an idle machine; the bound leaves room for a busy one.
  expect(took).toBeLessThan(6000);
});
