import fc from "fast-check";
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

  test("by a part above 10 MB that unpacks to more than 200 times its size, at the limits that hold by default", async () => {
    expect(ARCHIVE_LIMITS).toEqual({ fileBytes: 104857600, partBytes: 268435456, unpackedBytes: 536870912, ratio: 200, ratioFromBytes: 10485760, parts: 10000 });
    expect(await refusal(bomb(11 * 1024 * 1024))).toBe("The part xl/media/picture.bin would unpack to more than 200 times its size, as harmful files do; the file was not opened.");
    await expect(readBook(bomb(9 * 1024 * 1024))).resolves.toBeDefined();
  });

  test("by a part whose header hides its size: what comes out counts", async () => {
    const lying = zipOf(handMadeParts({ rows: ROWS }).map((part) => (part.name.endsWith("sheet1.xml") ? { ...part, content: `${String(part.content)}${" ".repeat(30 * 1024 * 1024)}`, says: { unpackedSize: 500 } } : part)));
    expect(lying.length).toBeLessThan(100_000);
    expect(await refusal(lying)).toMatch(/xl\/worksheets\/sheet1\.xml/);
  });

  test("by the number of its parts", async () => {
    const many = handMade({ rows: ROWS, parts: Object.fromEntries(Array.from({ length: 20 }, (_, i) => [`custom/${i}.xml`, "<a/>"])) });
    expect(await refusal(many, { ...ARCHIVE_LIMITS, parts: 24 })).toBe("The file has more than 24 parts, which no workbook needs; it was not opened.");
  });
});

describe("a file that is not what it seems is refused", () => {
  test.each(["../outside.xml", "xl/../../outside.xml", "/etc/outside.xml", "..\\outside.xml", "C:\\outside.xml", "xl\\..\\..\\outside.xml"])("a part named %s", async (name) => {
    expect(await refusal(zipOf([...handMadeParts({ rows: ROWS }), { name, content: "x" }]))).toBe("The file has a part whose name points outside the workbook; it was not opened.");
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

  test("a sheet part that is named and not there", async () => {
    const bytes = zipOf(handMadeParts({ rows: ROWS }).filter((part) => !part.name.endsWith("sheet1.xml")));
    expect(await refusal(bytes)).toBe("The workbook is damaged: its part xl/worksheets/sheet1.xml is missing.");
  });
});

test("whatever bits are flipped or bytes cut off, a file is read or refused with a sentence, never anything else", async () => {
  const whole = handMade({ rows: ROWS.repeat(1), before: '<dimension ref="A1:B1"/>' });
  await fc.assert(
    fc.asyncProperty(fc.nat(whole.length - 1), fc.nat(7), fc.boolean(), async (place, bit, cut) => {
      const bytes = Buffer.from(cut ? whole.subarray(0, place) : whole);
      if (!cut) bytes[place] = (bytes[place] ?? 0) ^ (1 << bit);
      await readBook(bytes).catch((error: unknown) => expect(error).toBeInstanceOf(Problem));
    }),
    { numRuns: 300, seed: 20261125 },
  );
});

test("a part is found whatever the case of its name and the slashes of its writer", async () => {
  const archive = await openArchive(zipOf([{ name: "XL\\Workbook.xml", content: "<a/>" }]));
  expect(await archive.text("xl/workbook.xml")).toBe("<a/>");
});
