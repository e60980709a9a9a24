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

  test("opens again here and in another library with the new results", async () => {
    const patched = await patchBook(written(writer), NEW_RESULTS);
    const [log] = (await readBook(patched)).sheets;
    expect(["B2", "C2", "C3", "D2"].map((address) => log?.cells.get(address)?.value)).toEqual([2.5, 7.5, 1 / 3, "less & <less>"]);
    expect(log?.cells.get("D2")?.formula).toBe('IF(B2>1,"much","little")');
    const other = XLSX.read(patched).Sheets.Log;
    expect([other?.C2?.v, other?.C3?.v, other?.D2?.v, other?.C2?.f]).toEqual([7.5, 1 / 3, "less & <less>", "B2*2"]);
  });
});

test("LibreOffice shows the new results of all four", async () => {
  const patched = await Promise.all(WRITERS.map(async (writer, i) => [`${i}.xlsx`, await patchBook(written(writer), NEW_RESULTS)] as const));
  for (const [, second = [], third = []] of Object.values(shownRows(Object.fromEntries(patched)))) {
    expect(second[2]).toBe("7.5");
    expect(third[2]).toMatch(/^0\.333333/);
  }
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

describe("what a zip archive notes beside its parts", () => {
  const unixTimes = Buffer.from("5554090003c0f77d69c0f77d69", "hex");
  const growthHint = Buffer.from("20a204002801a200", "hex");
  const broken = Buffer.from("ffff40", "hex");
  const parts = handMadeParts({ rows: '<row r="2"><c r="C2"><f>B2*2</f><v>5</v></c></row>' }).map((part, i) => ({ ...part, localExtra: i === 1 ? broken : Buffer.concat([unixTimes, growthHint]), centralExtra: i === 1 ? broken : unixTimes }));
  const results: BookResults = new Map([["Log", new Map([["C2", 7]])]]);

  test("stays: notes of other programs on each part, the remark on the whole", async () => {
    const before = zipOf(parts, "An invented log");
    const after = await patchBook(before, results);
    const notes = (file: Uint8Array) => zipEntries(file).map(({ name, localExtra, centralExtra }) => [name, localExtra.toString("hex"), centralExtra.toString("hex")]);
    expect(notes(after)).toEqual(notes(before));
    expect(notes(after)[0]).toEqual(["[Content_Types].xml", "5554090003c0f77d69c0f77d6920a204002801a200", "5554090003c0f77d69c0f77d69"]);
    expect(Buffer.from(after).subarray(-15).toString()).toBe("An invented log");
    expect((await readBook(after)).sheets[0]?.cells.get("C2")?.value).toBe(7);
    expect(XLSX.read(after).Sheets.Log?.C2?.v).toBe(7);
  });

  test("but for sizes of 64 bits, which are written with 32, as all of ours fit", async () => {
    const before = inZip64(parts[0]?.content.toString() ?? "");
    const { openArchive } = await import("../../src/files/archive");
    const [entry] = zipEntries(await (await openArchive(before)).withParts(new Map([["b.xml", Buffer.from("<b/>")]])));
    expect([entry?.localExtra.toString("hex"), entry?.centralExtra.toString("hex"), unpack(entry ?? never()).toString()]).toEqual([unixTimes.toString("hex"), unixTimes.toString("hex"), parts[0]?.content]);
  });

  /** One stored part whose sizes stand in the notes alone. */
  function inZip64(content: string): Buffer {
    const size = Buffer.byteLength(content);
    const note = Buffer.alloc(20);
    note.writeUInt16LE(1, 0);
    note.writeUInt16LE(16, 2);
    for (const at of [4, 12]) note.writeBigUInt64LE(BigInt(size), at);
    const extra = Buffer.concat([note, unixTimes]);
    const file = zipOf([{ name: "a.xml", content, stored: true, localExtra: extra, centralExtra: extra }]);
    const table = file.readUInt32LE(file.length - 6);
    for (const at of [18, 22, table + 20, table + 24]) file.writeUInt32LE(0xffffffff, at);
    for (const at of [4, table + 6]) file.writeUInt16LE(45, at);
    return file;
  }

  function never(): never {
    throw new Error("The part is not there.");
  }
});

test("100,000 rows are read and their results stored, changing the sheet alone, and two other readers open them", async () => {
  const rows = 100_000;
  const cells = new Map<string, { value: number | string; formula?: string }>();
  for (let row = 1; row <= rows; row += 1) {
    cells.set(`A${row}`, { value: row / 7 });
    cells.set(`B${row}`, { value: `note ${row % 50}` });
    cells.set(`C${row}`, { value: 1, formula: `A${row}*3` });
  }
  const bytes = await writeBook({ sheets: [{ name: "Log", cells }], names: [], date1904: false });
  const patched = await patchBook(bytes, new Map([["Log", new Map(Array.from({ length: rows }, (_, i) => [`C${i + 1}`, i / 3]))]]));
  const changed = zipEntries(patched).filter((entry, i) => !unpack(entry).equals(unpack(zipEntries(bytes)[i] ?? entry)));
  expect(changed.map(({ name }) => name)).toEqual([SHEET]);
  const [log] = (await readBook(patched)).sheets;
  expect([log?.cells.size, log?.cells.get(`C${rows}`)?.value]).toEqual([3 * rows, (rows - 1) / 3]);
  expect(XLSX.read(patched, { dense: true }).Sheets.Log?.["!data"]?.[rows - 1]?.[2]?.v).toBe((rows - 1) / 3);
  const shown = shownRows({ "long.xlsx": patched })["long.xlsx"] ?? [];
  expect([shown.length, shown[rows - 1]?.[1], Number(shown[rows - 1]?.[2])]).toEqual([rows, "note 0", Number(((rows - 1) / 3).toFixed(10))]);
}, 120_000);
