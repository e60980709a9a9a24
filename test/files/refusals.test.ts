import { openArchive } from "../../src/files/archive";
import { ARCHIVE_LIMITS } from "../../src/files/archive-limits";
import { patchBook } from "../../src/files/patch-book";
import { readBook } from "../../src/files/read-book";
import { Problem } from "../../src/science/problem";
import { handMade, handMadeParts, MAIN } from "./hand-made";
import { zipOf } from "./zip-bytes";

const ROWS = '<row r="1"><c r="A1"><v>1</v></c><c r="B1"><f>A1*2</f><v>2</v></c></row>';
const utf16 = (text: string) => Buffer.from(text, "utf16le");
const compoundFile = (...streams: string[]) => Buffer.concat([Buffer.from("d0cf11e0a1b11ae1", "hex"), Buffer.alloc(1024), ...streams.map(utf16)]);

/** The sentence with which reading is refused; both doors of the room must refuse alike. */
async function refusal(bytes: Uint8Array, limits = ARCHIVE_LIMITS): Promise<string> {
  const sentences = await Promise.all(
    [readBook(bytes, limits), patchBook(bytes, new Map([["Log", new Map([["B1", 3]])]]), limits)].map((attempt) =>
      attempt.then(
        () => "it was opened",
        (error: unknown) => (error instanceof Problem && error.kind === "value" ? error.message : `not a Problem: ${String(error)}`),
      ),
    ),
  );
  expect(sentences[1]).toBe(sentences[0]);
  return sentences[0] ?? "";
}

describe("a file that is no workbook is refused with a sentence of its own", () => {
  test.each<[string, Uint8Array, string]>([
    ["an empty file", new Uint8Array(), "The file is empty."],
    ["a text file", Buffer.from("date;feed\n2026-01-01;2\n"), "The file is not an Excel workbook (.xlsx)."],
    ["an old workbook", compoundFile("Workbook"), "The file is in the old Excel format (.xls). Open it in Excel and save it as an Excel workbook (.xlsx)."],
    ["a workbook with a password", compoundFile("EncryptionInfo", "EncryptedPackage"), "The workbook is protected with a password. Open it in Excel, remove the password, and save it again."],
    ["a zip archive of something else", zipOf([{ name: "notes.txt", content: "hello" }]), "The file is a zip archive without an Excel workbook in it."],
    ["an empty zip archive", zipOf([]), "The file is a zip archive without an Excel workbook in it."],
    [
      "a binary workbook",
      zipOf(handMadeParts({ rows: "" }).map((part) => (part.name === "_rels/.rels" ? { ...part, content: String(part.content).replace("workbook.xml", "workbook.bin") } : part))),
      "The file is a binary Excel workbook (.xlsb). Open it in Excel and save it as an Excel workbook (.xlsx).",
    ],
    [
      "a text document",
      zipOf(handMadeParts({ rows: "", parts: { "xl/workbook.xml": '<document xmlns="urn:text"/>' } })),
      "The file is a zip archive without an Excel workbook in it.",
    ],
    ["a zip archive whose end is missing", handMade({ rows: ROWS }).subarray(0, 900), "The file is damaged: it cannot be unpacked."],
  ])("%s", async (_, bytes, sentence) => {
    expect(await refusal(bytes)).toBe(sentence);
  });
});

describe("a file that would cost too much to open is refused before it does", () => {
  const bomb = (size: number) => handMade({ rows: ROWS, parts: { "xl/media/picture.bin": "0".repeat(size) } });

  test("by its size on the disk", async () => {
    const bytes = handMade({ rows: ROWS });
    expect(await refusal(bytes, { ...ARCHIVE_LIMITS, fileBytes: bytes.length - 1 })).toMatch(/^The file is larger than [\d.]+ MB, which is more than Algal Ledger opens\.$/);
    await expect(readBook(bytes, { ...ARCHIVE_LIMITS, fileBytes: bytes.length })).resolves.toBeDefined();
  });

  test("by the size of one part", async () => {
    expect(await refusal(bomb(3 * 1024 * 1024), { ...ARCHIVE_LIMITS, partBytes: 2 * 1024 * 1024 })).toBe("The part xl/media/picture.bin would unpack to more than 2 MB; the file was not opened.");
  });

  test("by the size of all parts together", async () => {
    const bytes = handMade({ rows: ROWS, parts: { "a.bin": "a".repeat(700_000), "b.bin": "b".repeat(700_000) } });
    expect(await refusal(bytes, { ...ARCHIVE_LIMITS, unpackedBytes: 1024 * 1024 })).toBe("The file would unpack to more than 1 MB; it was not opened.");
  });

  test("by a part above 10 MB that unpacks to more than 100 times its size, at the limits that hold by default", async () => {
    expect(ARCHIVE_LIMITS).toEqual({ fileBytes: 104857600, partBytes: 134217728, unpackedBytes: 536870912, ratio: 100, ratioFromBytes: 10485760, parts: 10000, marks: 16000000 });
    expect(await refusal(bomb(11 * 1024 * 1024))).toBe("The part xl/media/picture.bin would unpack to more than 100 times its size, as harmful files do; the file was not opened.");
    await expect(readBook(bomb(9 * 1024 * 1024))).resolves.toBeDefined();
  });

  test("by a part whose header hides its size: what comes out counts", async () => {
    const lying = zipOf(handMadeParts({ rows: ROWS }).map((part) => (part.name.endsWith("sheet1.xml") ? { ...part, content: `${String(part.content)}${" ".repeat(30 * 1024 * 1024)}`, says: { unpackedSize: 500 } } : part)));
    expect(lying.length).toBeLessThan(100_000);
    expect(await refusal(lying)).toMatch(/xl\/worksheets\/sheet1\.xml/);
  });

  test("by a part whose letters are all tags, which take long to read", async () => {
    const bytes = handMade({ rows: "<row/>".repeat(1000) });
    expect(await refusal(bytes, { ...ARCHIVE_LIMITS, marks: 1000 })).toBe("The workbook holds more cells or formats than Algal Ledger opens; it was not opened.");
    await expect(readBook(bytes, { ...ARCHIVE_LIMITS, marks: 1200 })).resolves.toBeDefined();
  });

  test("by elements that are nested without end", async () => {
    expect(await refusal(handMade({ rows: `${"<a>".repeat(300)}${"</a>".repeat(300)}` }))).toBe("The part xl/worksheets/sheet1.xml has elements nested deeper than any workbook needs, as harmful files do; the file was not opened.");
    await expect(readBook(handMade({ rows: `${"<a>".repeat(200)}${"</a>".repeat(200)}` }))).resolves.toBeDefined();
  });

  test("by attributes of one element without end", async () => {
    expect(await refusal(handMade({ rows: `<row ${Array.from({ length: 40_001 }, (_, i) => `a${i}=""`).join(" ")}/>` }))).toBe("The part xl/worksheets/sheet1.xml has an element with more attributes than any workbook needs, as harmful files do; the file was not opened.");
    // A cell's text may be as long as a cell holds, whatever letters it has.
    await expect(readBook(handMade({ rows: `<row r="1"><c r="A1" t="str"><v>${"=".repeat(32_767)}</v></c></row>` }))).resolves.toBeDefined();
  });

  test("by array formulas that claim more cells than a worksheet in use has", async () => {
    const claims = (...refs: string[]) => handMade({ rows: refs.map((ref, i) => `<row r="${i + 1}"><c r="A${i + 1}"><f t="array" ref="${ref}">1</f></c></row>`).join("") });
    const sentence = (cell: string) => `The array formulas in xl/worksheets/sheet1.xml fill, with that of ${cell}, more than 2 million cells, which is more than Algal Ledger opens.`;
    expect(await refusal(claims("A1:XFD1048576"))).toBe(sentence("A1"));
    expect(await refusal(claims("A1:A1048576", "B1:B1048576"))).toBe(sentence("A2"));
    await expect(readBook(claims("A1:A1048576"))).resolves.toBeDefined();
  });

  test("by more cells than two million", async () => {
    const cells = Array.from({ length: 123 }, (_, i) => `<row r="${i + 1}">${"<c/>".repeat(i < 122 ? 16_384 : 1152 + 1)}</row>`).join("");
    expect(await refusal(handMade({ rows: cells }))).toBe("The part xl/worksheets/sheet1.xml has more than 2 million cells, which is more than Algal Ledger opens.");
  }, 120_000);

  test("by the number of its parts", async () => {
    const many = handMade({ rows: ROWS, parts: Object.fromEntries(Array.from({ length: 20 }, (_, i) => [`custom/${i}.xml`, "<a/>"])) });
    expect(await refusal(many, { ...ARCHIVE_LIMITS, parts: 24 })).toBe("The file has more than 24 parts, which no workbook needs; it was not opened.");
  });
});

describe("a file that is not what it seems is refused", () => {
  test.each(["../outside.xml", "xl/../../outside.xml", "/etc/outside.xml", "..\\outside.xml", "C:\\outside.xml", "xl\\..\\..\\outside.xml"])("a part named %s", async (name) => {
    expect(await refusal(zipOf([...handMadeParts({ rows: ROWS }), { name, content: "x" }]))).toBe("The file has a part whose name points outside the workbook; it was not opened.");
  });

  test.each(["xl/a\nb.xml", "xl/\u001b[2Jb.xml", "xl/\u2028b.xml"])("a part whose name would break a sentence or steer the screen: %j", async (name) => {
    expect(await refusal(zipOf([...handMadeParts({ rows: ROWS }), { name, content: "x" }]))).toBe("The file has a part whose name points outside the workbook; it was not opened.");
  });

  test("a part in a text encoding that a workbook may not have", async () => {
    const bytes = (encoding: string, letters: string) => zipOf(handMadeParts({ rows: "" }).map((part) => (part.name.endsWith("sheet1.xml") ? { ...part, content: Buffer.from(`<?xml version="1.0" encoding="${encoding}"?><worksheet xmlns="${MAIN}"><sheetData><row r="1"><c r="A1" t="str"><v>${letters}</v></c><c r="B1"><f>1</f></c></row></sheetData></worksheet>`, "latin1") } : part)));
    expect(await refusal(bytes("ISO-8859-1", "é"))).toBe("The part xl/worksheets/sheet1.xml is in the text encoding ISO-8859-1, which a workbook may not have. Open the workbook in Excel and save it again.");
    // Two letters of Latin script that are, byte for byte, one of UTF-8: read wrong, they would look right.
    expect(await refusal(bytes("windows-1252", "Ã©"))).toBe("The part xl/worksheets/sheet1.xml is in the text encoding windows-1252, which a workbook may not have. Open the workbook in Excel and save it again.");
    expect(await refusal(bytes("UTF-8", "é"))).toBe("The workbook is damaged: its part xl/worksheets/sheet1.xml cannot be read.");
    await expect(readBook(bytes("us-ascii", "e"))).resolves.toBeDefined();
  });

  test("two parts of one name, whatever their case", async () => {
    const parts = handMadeParts({ rows: ROWS });
    const twice = zipOf([...parts, { name: "XL/Worksheets/sheet1.xml", content: "<x/>" }]);
    expect(await refusal(twice)).toBe("The workbook is damaged: it has two parts of the name XL/Worksheets/sheet1.xml.");
  });

  test("parts that are locked with a zip password", async () => {
    const locked = zipOf(handMadeParts({ rows: ROWS }).map((part) => ({ ...part, says: { flags: 0x0801 } })));
    expect(await refusal(locked)).toBe("The workbook is protected with a password. Open it in Excel, remove the password, and save it again.");
  });

  test("a part that declares entities, which could grow without end", async () => {
    const entities = '<!DOCTYPE worksheet [<!ENTITY a "ha"><!ENTITY b "&a;&a;">]>';
    const bytes = handMade({ rows: ROWS, parts: { "xl/worksheets/sheet1.xml": `${entities}<worksheet xmlns="${MAIN}"><sheetData/></worksheet>` } });
    expect(await refusal(bytes)).toBe("The part xl/worksheets/sheet1.xml declares a document type, which a workbook may not; the file was not opened.");
  });

  test.each([
    ["an open tag", "<row r='1'><c r='A1'><v>1</v></row>"],
    ["an unknown entity", "<row r='1'><c r='A1' t='str'><v>&nbsp;</v></c></row>"],
    ["a number that is none", "<row r='1'><c r='A1'><v>12abc</v></c><c r='B1'><f>A1*2</f></c></row>"],
    ["a number beyond all numbers", "<row r='1'><c r='A1'><v>1e999</v></c><c r='B1'><f>A1*2</f></c></row>"],
  ])("a sheet with %s", async (what, rows) => {
    const attempt = readBook(handMade({ rows }));
    await expect(attempt).rejects.toThrow(new Problem("value", "The workbook is damaged: its part xl/worksheets/sheet1.xml cannot be read."));
    if (what.includes("tag") || what.includes("entity")) expect(await refusal(handMade({ rows }))).toBe("The workbook is damaged: its part xl/worksheets/sheet1.xml cannot be read.");
  });

  test.each(["A0", "XFE1", "A1048577", "1A", "A2"])("a cell %s in row 1", async (address) => {
    const bytes = handMade({ rows: `<row r="1"><c r="${address}"><v>1</v></c></row>` });
    expect(await refusal(bytes)).toBe(`The workbook is damaged: xl/worksheets/sheet1.xml has a cell ${address}, which is outside a worksheet.`);
  });

  test("a cell whose shared text is missing", async () => {
    await expect(readBook(handMade({ rows: '<row r="1"><c r="A1" t="s"><v>7</v></c></row>' }))).rejects.toThrow("The workbook is damaged: the text of cell A1 in xl/worksheets/sheet1.xml is missing.");
  });

  test("an address that would break the sentence", async () => {
    expect(await refusal(handMade({ rows: '<row r="1"><c r="A1&#10;and more than fits a line"><v>1</v></c></row>' }))).toBe("The workbook is damaged: xl/worksheets/sheet1.xml has a cell A1?and more than fit, which is outside a worksheet.");
  });

  test("a sheet that is said to lie outside the file", async () => {
    const links = '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" TargetMode="External" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="https://example.com/sheet1.xml"/></Relationships>';
    expect(await refusal(handMade({ rows: ROWS, parts: { "xl/_rels/workbook.xml.rels": links } }))).toBe("The workbook is damaged: its part Log is missing.");
  });

  test("a sheet part that is named and not there", async () => {
    const bytes = zipOf(handMadeParts({ rows: ROWS }).filter((part) => !part.name.endsWith("sheet1.xml")));
    expect(await refusal(bytes)).toBe("The workbook is damaged: its part xl/worksheets/sheet1.xml is missing.");
  });
});

test("a part is found whatever the case of its name and the slashes of its writer", async () => {
  const archive = await openArchive(zipOf([{ name: "XL\\Workbook.xml", content: "<a/>" }]));
  expect(await archive.text("xl/workbook.xml")).toBe("<a/>");
});
