import { execFileSync } from "node:child_process";
import fs from "node:fs";
import path from "node:path";
import * as XLSX from "@e965/xlsx";
import type { NewCell } from "../../src/files/new-book-model";
import { writeBook } from "../../src/files/new-book";
import { readBook } from "../../src/files/read-book";
import { handMade } from "../files/hand-made";
import { partText, zipEntries } from "../files/zip-bytes";
import { buildOnce, ledger, temporaryFolder } from "./run";

const SAMPLES = path.join(__dirname, "../../samples");
let place: ReturnType<typeof temporaryFolder>;

beforeAll(buildOnce, 300_000);
beforeEach(() => {
  place = temporaryFolder();
});
afterEach(() => place.remove());

/** Writes a workbook with one sheet "Log", calculates it, and gives what the command said and the copy. */
async function calculated(cells: Record<string, NewCell>) {
  const original = await writeBook({ sheets: [{ name: "Log", cells: new Map(Object.entries(cells)) }], names: [{ name: "feed", ref: "Log!$A$1:$A$3" }], date1904: false });
  return { original, ...(await calculatedFile(original)) };
}

async function calculatedFile(original: Uint8Array) {
  fs.writeFileSync(place.at("book.xlsx"), original);
  const ran = ledger("calc", place.at("book.xlsx"), "-o", place.at("out.xlsx"));
  const copy = fs.readFileSync(place.at("out.xlsx"));
  return { ran, copy, cells: (await readBook(copy)).sheets[0]?.cells ?? new Map() };
}

describe("calc", () => {
  test("works out native formulas and ours, writes them into a copy, and says in one line what it did", async () => {
    const { ran, cells, original, copy } = await calculated({
      A1: { value: 1 },
      A2: { value: 2.5 },
      A3: { value: 3 },
      B1: { value: 0, formula: "SUM(feed)" },
      B2: { value: 6.5, formula: "A1+A2+A3" },
      B3: { value: 0, formula: "IF(B1>5,\"much\",\"little\")" },
      C1: { value: 0, formula: 'ALGAL.FOOD_N_CONTENT("Nori, raw")*B1' },
    });
    expect(ran).toEqual({ out: "4 formula cells calculated, 3 changed, 0 errors.\n", err: "", code: 0 });
    expect(["B1", "B2", "B3"].map((address) => cells.get(address)?.value)).toEqual([6.5, 6.5, "much"]);
    expect(cells.get("C1")?.value).toBeCloseTo(0.0581 / 6.25 * 6.5, 12);
    expect(cells.get("C1")?.formula).toBe('ALGAL.FOOD_N_CONTENT("Nori, raw")*B1');
    const changed = zipEntries(copy).filter((entry, i) => !entry.packed.equals(zipEntries(original)[i]?.packed ?? Buffer.alloc(0)));
    expect(changed.map(({ name }) => name)).toEqual(["xl/worksheets/sheet1.xml"]);
    expect(XLSX.read(copy).Sheets.Log?.B3?.v).toBe("much");
    expect(fs.readFileSync(place.at("book.xlsx")).equals(Buffer.from(original))).toBe(true);
  });

  test("tells each error with its cell, its code and its sentence on standard error, and stores it", async () => {
    const { ran, cells } = await calculated({ A1: { value: "abc" }, B1: { value: 1, formula: "1/0" }, B2: { value: 1, formula: 'ALGAL.ION_CONVERT(A1,"mg/L NO3","mg/L N")' }, B3: { value: 1, formula: "IFERROR(B1,5)" } });
    expect(ran.out).toBe("3 formula cells calculated, 3 changed, 2 errors.\n");
    expect(ran.code).toBe(0);
    const lines = ran.err.trimEnd().split("\n");
    expect(lines).toHaveLength(2);
    expect(lines[0]).toMatch(/^Log!B1 #DIV\/0! .+\.$/);
    expect(lines[1]).toMatch(/^Log!B2 #VALUE! .*abc/);
    expect([cells.get("B1")?.value, cells.get("B2")?.value, cells.get("B3")?.value]).toEqual(["#DIV/0!", "#VALUE!", 5]);
  });

  test("leaves a number alone that differs from the stored one in its last digits only", async () => {
    const { ran, cells } = await calculated({ A1: { value: 0.1 }, A2: { value: 0.2 }, B1: { value: 0.30000000000000004, formula: "A1+A2" }, B2: { value: 0.3000000001, formula: "A1+A2" } });
    expect(ran.out).toBe("2 formula cells calculated, 1 changed, 0 errors.\n");
    expect(cells.get("B1")?.value).toBe(0.30000000000000004);
    expect(cells.get("B2")?.value).toBeCloseTo(0.3, 14);
  });

  test("lets answers spill, grow and shrink", async () => {
    const { ran, cells } = await calculated({
      A1: { value: 1 }, A2: { value: 2 }, A3: { value: 3 },
      C1: { value: 9, formula: "A1:A3*2", spill: "C1:C2" }, C2: { value: 9 },
      E1: { value: 9, formula: "A1:A2*2", spill: "E1:E4" }, E2: { value: 9 }, E3: { value: 9 }, E4: { value: 9, style: { bold: true } },
    });
    expect(ran).toMatchObject({ out: "2 formula cells calculated, 2 changed, 0 errors.\n", err: "" });
    expect(cells.get("C1")).toEqual({ value: 2, formula: "A1:A3*2", spill: "C1:C3" });
    expect([cells.get("C2")?.value, cells.get("C3")?.value]).toEqual([4, 6]);
    expect(cells.get("E1")).toEqual({ value: 2, formula: "A1:A2*2", spill: "E1:E2" });
    expect([cells.get("E2"), cells.get("E3"), cells.get("E4")]).toEqual([{ value: 4 }, undefined, { value: null, style: { bold: true } }]);
  });

  test("leaves what it cannot work out as Excel would, says so, and works with the stored value", async () => {
    const { ran, cells } = await calculated({
      A1: { value: 2 }, A2: { value: 3 }, A3: { value: 4 },
      B1: { value: 40, formula: "NO_SUCH_FUNCTION(A1)" },
      B2: { value: 0, formula: "B1+A1" },
      B3: { value: 0, formula: "no_such_name*2" },
      C2: { value: 30, formula: "A1:A3*10" },
      D1: { value: 7, formula: "[1]Other!A1" },
      D2: { value: 0, formula: "D1*2" },
      E1: { value: 5, formula: "ALGAL.FROM_A_LATER_VERSION(A1)" },
    });
    expect(ran.out).toBe("7 formula cells calculated, 2 changed, 0 errors, 5 left as stored.\n");
    expect(new Set(ran.err.trimEnd().split("\n"))).toEqual(
      new Set([
        "Log!B1 keeps its stored value: =NO_SUCH_FUNCTION(A1) uses what Algal Ledger does not calculate, or reads such a cell.",
        "Log!B3 keeps its stored value: =no_such_name*2 uses what Algal Ledger does not calculate, or reads such a cell.",
        "Log!C2 keeps its stored value: its formula takes one value of a range by its own row or column, which Algal Ledger does not calculate.",
        "Log!D1 keeps its stored value: its formula reads another workbook.",
        "Log!E1 keeps its stored value: =ALGAL.FROM_A_LATER_VERSION(A1) uses what Algal Ledger does not calculate, or reads such a cell.",
      ]),
    );
    expect(["B1", "B2", "B3", "C2", "D1", "D2", "E1"].map((address) => cells.get(address)?.value)).toEqual([40, 42, 0, 30, 7, 14, 5]);
  });

  test("keeps the range of an array formula of the older kind", async () => {
    const array = (a: number, b: number, c: string) => `<row r="1"><c r="A1"><v>1</v></c><c r="C1"><f t="array" ref="C1:C3">A1:A2*2</f><v>${a}</v></c></row><row r="2"><c r="A2"><v>2</v></c><c r="C2"><v>${b}</v></c></row><row r="3"><c r="C3"${c}</c></row>`;
    const { ran, copy } = await calculatedFile(handMade({ rows: array(0, 0, "><v>0</v>") }));
    expect(ran.out).toBe("1 formula cell calculated, 1 changed, 0 errors.\n");
    expect(partText(copy, "xl/worksheets/sheet1.xml")).toContain(array(2, 4, ' t="e"><v>#N/A</v>'));
  });

  test("a workbook by LibreOffice or by hand comes out with only its results changed", async () => {
    const rows = '<row r="1"><c r="A1"><v>21</v></c><c r="B1" s="0"><f ca="1">A1*2</f><v>0</v></c></row>';
    const original = handMade({ rows, parts: { "xl/webextensions/webextension1.xml": "<we xmlns='urn:we'/>", "customXml/item1.xml": "anything" } });
    const { copy } = await calculatedFile(original);
    expect(partText(copy, "xl/worksheets/sheet1.xml")).toBe(partText(original, "xl/worksheets/sheet1.xml").replace("<v>0</v>", "<v>42</v>"));
    expect(zipEntries(copy).filter(({ name }) => !name.endsWith("sheet1.xml")).map(({ name, packed }) => [name, packed.toString("hex")])).toEqual(
      zipEntries(original).filter(({ name }) => !name.endsWith("sheet1.xml")).map(({ name, packed }) => [name, packed.toString("hex")]),
    );
  });

  test.each(fs.readdirSync(SAMPLES).filter((name) => name.endsWith(".xlsx")))("the sample %s holds already what is calculated from it, without an error", (name) => {
    const ran = ledger("calc", path.join(SAMPLES, name), "-o", place.at("out.xlsx"));
    expect(ran).toEqual({ out: expect.stringMatching(/^[1-9]\d* formula cells calculated, 0 changed, 0 errors\.\n$/), err: "", code: 0 });
    const [before, after] = [fs.readFileSync(path.join(SAMPLES, name)), fs.readFileSync(place.at("out.xlsx"))].map((bytes) => zipEntries(bytes).map((entry) => [entry.name, entry.packed.toString("base64")]));
    expect(after).toEqual(before);
  });
});

describe("calc writes nothing and ends with 1", () => {
  const whole = handMade({ rows: '<row r="1"><c r="A1"><f>1+1</f><v>0</v></c></row>' });
  const refused = (input: string, output: string, sentence: string) => {
    expect(ledger("calc", input, "-o", output)).toEqual({ out: "", err: `${sentence}\n`, code: 1 });
  };

  test.each<[string, Uint8Array, string]>([
    ["empty", new Uint8Array(), "The file is empty."],
    ["not a workbook", Buffer.from("date,feed\n"), "The file is not an Excel workbook (.xlsx)."],
    ["an old workbook", Buffer.concat([Buffer.from("d0cf11e0a1b11ae1", "hex"), Buffer.alloc(2000)]), "The file is in the old Excel format (.xls). Open it in Excel and save it as an Excel workbook (.xlsx)."],
    ["locked", Buffer.concat([Buffer.from("d0cf11e0a1b11ae1", "hex"), Buffer.from("EncryptedPackage", "utf16le")]), "The workbook is protected with a password. Open it in Excel, remove the password, and save it again."],
    ["cut off", whole.subarray(0, 700), "The file is damaged: it cannot be unpacked."],
    ["a bomb", handMade({ rows: "", parts: { "xl/media/a.bin": "0".repeat(12 * 1024 * 1024) } }), "The part xl/media/a.bin would unpack to more than 100 times its size, as harmful files do; the file was not opened."],
  ])("for a file that is %s", (_, bytes, sentence) => {
    fs.writeFileSync(place.at("book.xlsx"), bytes);
    refused(place.at("book.xlsx"), place.at("out.xlsx"), `${place.at("book.xlsx")}: ${sentence}`);
    expect(fs.readdirSync(place.folder)).toEqual(["book.xlsx"]);
  });

  test("for a file that is too large, without reading it", () => {
    fs.closeSync(fs.openSync(place.at("huge.xlsx"), "w"));
    fs.truncateSync(place.at("huge.xlsx"), 100 * 1024 * 1024 + 1);
    refused(place.at("huge.xlsx"), place.at("out.xlsx"), `${place.at("huge.xlsx")}: The file is larger than 100 MB, which is more than Algal Ledger opens.`);
    expect(fs.readdirSync(place.folder)).toEqual(["huge.xlsx"]);
  });

  test("for a file that is not there, a folder, and a folder for the copy that is not there", () => {
    fs.writeFileSync(place.at("book.xlsx"), whole);
    refused(place.at("none.xlsx"), place.at("out.xlsx"), `${place.at("none.xlsx")}: There is no such file.`);
    refused(place.folder, place.at("out.xlsx"), `${place.folder}: This is a folder, not a workbook.`);
    refused(place.at("book.xlsx"), place.at("no/out.xlsx"), `${place.at("no/out.xlsx")}: The folder for the copy does not exist.`);
    fs.mkdirSync(place.at("folder.xlsx"));
    refused(place.at("book.xlsx"), place.at("folder.xlsx"), `${place.at("folder.xlsx")}: This is a folder, not a workbook.`);
    expect(fs.readdirSync(place.folder).sort()).toEqual(["book.xlsx", "folder.xlsx"]);
  });

  test("when the copy would be the workbook itself, by whatever name", () => {
    fs.writeFileSync(place.at("book.xlsx"), whole);
    fs.symlinkSync(place.at("book.xlsx"), place.at("alias.xlsx"));
    fs.linkSync(place.at("book.xlsx"), place.at("twin.xlsx"));
    for (const output of [place.at("book.xlsx"), path.join(place.folder, ".", "book.xlsx"), place.at("alias.xlsx"), place.at("twin.xlsx")]) {
      refused(place.at("book.xlsx"), output, `${place.at("book.xlsx")}: The copy would replace the workbook itself; give another name after -o.`);
    }
    expect(fs.readFileSync(place.at("book.xlsx")).equals(whole)).toBe(true);
  });

  test("when the copy's name promises another kind of file", () => {
    fs.writeFileSync(place.at("book.xlsx"), whole);
    for (const name of ["out.csv", "out", "out.xlsm"]) {
      refused(place.at("book.xlsx"), place.at(name), `${place.at("book.xlsx")}: The copy keeps the kind of the workbook: give it a name that ends in .xlsx.`);
      expect(fs.existsSync(place.at(name))).toBe(false);
    }
  });

  test("and a copy that was there before stays whole; a good result takes its place", () => {
    fs.writeFileSync(place.at("bad.xlsx"), whole.subarray(0, 500));
    fs.writeFileSync(place.at("book.xlsx"), whole);
    fs.writeFileSync(place.at("out.xlsx"), "the copy of last week");
    expect(ledger("calc", place.at("bad.xlsx"), "-o", place.at("out.xlsx")).code).toBe(1);
    expect(fs.readFileSync(place.at("out.xlsx"), "utf8")).toBe("the copy of last week");
    expect(ledger("calc", place.at("book.xlsx"), "-o", place.at("out.xlsx")).code).toBe(0);
    expect(partText(fs.readFileSync(place.at("out.xlsx")), "xl/worksheets/sheet1.xml")).toContain("<f>1+1</f><v>2</v>");
    expect(fs.readdirSync(place.folder).sort()).toEqual(["bad.xlsx", "book.xlsx", "out.xlsx"]);
  });
});

test("a reader that stops early, as head does, is no fault", () => {
  const bundle = path.join(__dirname, "../../dist/node/ledger.cjs");
  const out = execFileSync("sh", ["-c", `"$0" "$1" help 2>&1 | head -n 1`, process.execPath, bundle], { encoding: "utf8" });
  expect(out).toBe("Worksheet functions (help NAME explains one):\n");
});
