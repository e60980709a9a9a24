import * as XLSX from "@e965/xlsx";
import { type BookResults, type FormulaResult, patchBook } from "../../src/files/patch-book";
import { NEW_METADATA_PART } from "../../src/files/metadata-part";
import { readBook } from "../../src/files/read-book";
import { handMade, type HandMade, handMadeParts, MAIN } from "./hand-made";
import { shownRows } from "./libreoffice";
import { partText, zipEntries, zipOf } from "./zip-bytes";

const SHEET = "xl/worksheets/sheet1.xml";
const log = (results: Record<string, FormulaResult>): BookResults => new Map([["Log", new Map(Object.entries(results))]]);
const WITH_METADATA = { links: { sheetMetadata: "metadata.xml" }, parts: { "xl/metadata.xml": NEW_METADATA_PART } };

/** What stands from <dimension> or <sheetData> to its end after these results were stored. */
async function patched(made: HandMade, results: Record<string, FormulaResult>): Promise<string> {
  const sheet = partText(await patchBook(handMade(made), log(results)), SHEET);
  return sheet.slice(sheet.search(/<\w*:?sheetData/), sheet.indexOf("</worksheet>")).replace(/^<sheetData>|<\/sheetData>$/g, "");
}

const row = (cells: string, number = 1, attributes = "") => `<row r="${number}"${attributes}>${cells}</row>`;

describe("the result of a formula is stored in its cell", () => {
  test.each<[string, FormulaResult, string]>([
    ["a number", 0.1 + 0.2, '<c r="A1" s="3"><f>B1</f><v>0.30000000000000004</v></c>'],
    ["a very small number", 1e-7, '<c r="A1" s="3"><f>B1</f><v>1e-7</v></c>'],
    ["a text", "a < b & c", '<c r="A1" s="3" t="str"><f>B1</f><v>a &lt; b &amp; c</v></c>'],
    ["a text with blanks at its ends", " a ", '<c r="A1" s="3" t="str"><f>B1</f><v xml:space="preserve"> a </v></c>'],
    ["a text with a character that XML cannot hold", "a\u0001_x0041_", '<c r="A1" s="3" t="str"><f>B1</f><v>a_x0001__x005F_x0041_</v></c>'],
    ["an empty text", "", '<c r="A1" s="3" t="str"><f>B1</f><v></v></c>'],
    ["a boolean", true, '<c r="A1" s="3" t="b"><f>B1</f><v>1</v></c>'],
    ["an error", { code: "#N/A" }, '<c r="A1" s="3" t="e"><f>B1</f><v>#N/A</v></c>'],
    ["an error that the file format does not know", { code: "#SPILL!" }, '<c r="A1" s="3" t="e"><f>B1</f><v>#VALUE!</v></c>'],
  ])("%s", async (_, result, cell) => {
    expect(await patched({ rows: row('<c r="A1" s="3"><f>B1</f><v>7</v></c><c r="C1"><v>8</v></c>') }, { A1: result })).toBe(row(`${cell}<c r="C1"><v>8</v></c>`));
  });

  test("and takes the place of one of another kind", async () => {
    for (const before of ['<c r="A1" t="str"><f>B1</f><v>x</v></c>', '<c r="A1" t="e"><f>B1</f><v>#N/A</v></c>', "<c r='A1'  t='b' ><f>B1</f><v>1</v></c >", '<c r="A1"><f>B1</f></c>', '<c r="A1"><f>B1</f><v/></c>', '<c r="A1" t="inlineStr"><f>B1</f><is><t>x</t></is></c>']) {
      const after = await patched({ rows: row(before) }, { A1: 5 });
      expect(after.replace(/\s*>/g, ">").replace(/'/g, '"')).toBe(row('<c r="A1"><f>B1</f><v>5</v></c>'));
    }
  });

  test("and nothing else of the cell moves: remarks, extensions, unknown attributes, the spelling of its tags", async () => {
    const cell = (type: string, value: string) => `<c  s='1' r="A1"${type} x:a="1" xmlns:x="urn:x"><!-- a --><f ca='1' >B1 &gt; 2</f>${value}<extLst><ext uri="u"/></extLst></c >`;
    expect(await patched({ rows: row(cell("", "<v >7</v>")) }, { A1: 8 })).toBe(row(cell("", "<v>8</v>")));
  });

  test("under whatever prefix the sheet has", async () => {
    const sheet = (value: string) => `<x:worksheet xmlns:x="${MAIN}"><x:sheetData><x:row r="1"><x:c r="A1"><x:f>B1</x:f>${value}</x:c></x:row></x:sheetData></x:worksheet>`;
    const bytes = await patchBook(handMade({ rows: "", parts: { [SHEET]: sheet("") } }), log({ A1: 5 }));
    expect(partText(bytes, SHEET)).toBe(sheet("<x:v>5</x:v>"));
  });

  test("for every cell that shares a formula, without touching the formula", async () => {
    const shared = (a: number, b: number) => row(`<c r="A1"><f t="shared" ref="A1:A2" si="0">B1*2</f><v>${a}</v></c>`) + row(`<c r="A2"><f t="shared" si="0"/><v>${b}</v></c>`, 2);
    expect(await patched({ rows: shared(1, 2) }, { A1: 10, A2: 20 })).toBe(shared(10, 20));
  });

  test("a byte order mark and a file's own line ends stay", async () => {
    const sheet = (value: number) => `\uFEFF<?xml version="1.0"?>\r\n<worksheet xmlns="${MAIN}">\r\n<sheetData>\r\n${row(`<c r="A1"><f>B1</f><v>${value}</v></c>`)}\r\n</sheetData>\r\n</worksheet>\r\n`;
    expect(partText(await patchBook(handMade({ rows: "", parts: { [SHEET]: sheet(1) } }), log({ A1: 2 })), SHEET)).toBe(sheet(2));
  });
});

describe("an answer that spills", () => {
  const dynamic = (ref: string, value: string, style = "") => `<c r="B2"${style} cm="1"><f t="array" ref="${ref}">_xldudf_ALGAL_X(A1)</f>${value}</c>`;

  test("fills the cells below and beside its formula, where rows and cells are made in their order", async () => {
    const made = { ...WITH_METADATA, before: '<dimension ref="A1:D3"/>', rows: row('<c r="A1"><v>1</v></c>') + row(`<c r="A2"><v>1</v></c>${dynamic("B2", "<v>1</v>")}<c r="E2"><v>9</v></c>`, 2, ' spans="1:5"') + row('<c r="A3"><v>3</v></c>', 3, ' spans="1:1" ht="20"') + row('<c r="A7"><v>7</v></c>', 7) };
    expect(await patched(made, { B2: [[1, "two"], [3, true], [5, { code: "#N/A" }]] })).toBe(
      row('<c r="A1"><v>1</v></c>') +
        row(`<c r="A2"><v>1</v></c>${dynamic("B2:C4", "<v>1</v>")}<c r="C2" t="str"><v>two</v></c><c r="E2"><v>9</v></c>`, 2, ' spans="1:5"') +
        row('<c r="A3"><v>3</v></c><c r="B3"><v>3</v></c><c r="C3" t="b"><v>1</v></c>', 3, ' spans="1:3" ht="20"') +
        row('<c r="B4"><v>5</v></c><c r="C4" t="e"><v>#N/A</v></c>', 4) +
        row('<c r="A7"><v>7</v></c>', 7),
    );
    const whole = partText(await patchBook(handMade(made), log({ B2: [[1, 2, 3], [4, 5, 6], [7, 8, 9]] })), SHEET);
    expect(whole).toContain('<dimension ref="A1:D4"/>');
  });

  test("goes into rows and cells that are there without content, keeping their styles", async () => {
    const made = { ...WITH_METADATA, rows: `${row(dynamic("B2", "<v>1</v>"), 2)}<row r="3" s="4" customFormat="1" />${row('<c r="B4" s="5"/>', 4)}` };
    expect(await patched(made, { B2: [[1], [2], [3]] })).toBe(`${row(dynamic("B2:B4", "<v>1</v>"), 2)}<row r="3" s="4" customFormat="1"><c r="B3" s="4"><v>2</v></c></row>${row('<c r="B4" s="5"><v>3</v></c>', 4)}`);
  });

  test("takes the style of the column where a cell is made", async () => {
    const made = { ...WITH_METADATA, before: '<cols><col min="2" max="3" width="9" style="6"/></cols>', rows: row(dynamic("B2", "<v>1</v>"), 2) };
    expect(await patched(made, { B2: [[1, 2]] })).toBe(row(`${dynamic("B2:C2", "<v>1</v>")}<c r="C2" s="6"><v>2</v></c>`, 2));
  });

  test("that became smaller leaves the cells that it does not cover empty, with their styles", async () => {
    const made = { ...WITH_METADATA, rows: row(`${dynamic("B2:C3", "<v>1</v>")}<c r="C2" s="7" t="str"><v>two</v></c>`, 2) + row('<c r="B3" s="8"><v>3</v></c><c r="C3" t="inlineStr"><is><t>x</t></is></c>', 3) };
    expect(await patched(made, { B2: [[1], [4]] })).toBe(row(`${dynamic("B2:B3", "<v>1</v>")}<c r="C2" s="7"></c>`, 2) + row('<c r="B3" s="8"><v>4</v></c><c r="C3"></c>', 3));
    expect(await patched(made, { B2: 5 })).toBe(row(`${dynamic("B2", "<v>5</v>")}<c r="C2" s="7"></c>`, 2) + row('<c r="B3" s="8"></c><c r="C3"></c>', 3));
  });

  test("of an array formula of the older kind keeps its range: cut, repeated, or filled up with #N/A", async () => {
    const fixed = (a: string, b: string) => row(`<c r="B2"><f t="array" ref="B2:C2">A1*2</f>${a}</c><c r="C2" s="2"${b}</c>`, 2);
    const made = { rows: fixed("<v>1</v>", "><v>2</v>") };
    expect(await patched(made, { B2: [[5, 6, 7], [8, 9, 10]] })).toBe(fixed("<v>5</v>", "><v>6</v>"));
    expect(await patched(made, { B2: 5 })).toBe(fixed("<v>5</v>", "><v>5</v>"));
    const tall = (values: string[]) => values.map((value, i) => row(`<c r="B${i + 2}"${value.startsWith("#") ? ' t="e"' : ""}>${i === 0 ? '<f t="array" ref="B2:B4">A1:A2</f>' : ""}<v>${value}</v></c>`, i + 2)).join("");
    expect(await patched({ rows: tall(["1", "2", "3"]) }, { B2: [[7], [8]] })).toBe(tall(["7", "8", "#N/A"]));
  });

  test("of a plain formula makes it a formula that spills, as Excel marks one, and adds the part that explains the mark", async () => {
    const bytes = handMade({ rows: row('<c r="B2" s="1"><f>_xldudf_ALGAL_X(A1)</f><v>1</v></c>', 2) });
    const after = await patchBook(bytes, log({ B2: [["a", "b"]] }));
    expect(partText(after, SHEET)).toContain('<c r="B2" s="1" t="str" cm="1"><f t="array" ref="B2:C2">_xldudf_ALGAL_X(A1)</f><v>a</v></c><c r="C2" t="str"><v>b</v></c>');
    expect(partText(after, "xl/metadata.xml")).toBe(NEW_METADATA_PART);
    expect(partText(after, "[Content_Types].xml")).toContain('<Override PartName="/xl/metadata.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheetMetadata+xml"/></Types>');
    expect(partText(after, "xl/_rels/workbook.xml.rels")).toContain('<Relationship Id="rId2" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sheetMetadata" Target="metadata.xml"/></Relationships>');
    expect((await readBook(after)).sheets[0]?.cells.get("B2")).toEqual({ value: "a", formula: "ALGAL.X(A1)", spill: "B2:C2" });
    expect(XLSX.read(after).Sheets.Log?.B2).toMatchObject({ v: "a", F: "B2:C2" });
    // A plain formula with one value stays as it is, and so do the three parts.
    const single = await patchBook(bytes, log({ B2: [["a"]] }));
    expect(partText(single, SHEET)).toContain('<c r="B2" s="1" t="str"><f>_xldudf_ALGAL_X(A1)</f><v>a</v></c>');
    expect(zipEntries(single).map(({ name }) => name)).toEqual(zipEntries(bytes).map(({ name }) => name));
  });

  test("uses the mark that the workbook has, or adds one to metadata of another kind without renumbering", async () => {
    const other = (types: string, rest: string) => `<m:metadata xmlns:m="${MAIN}">${types}${rest}</m:metadata>`;
    const rich = other('<m:metadataTypes count="1"><m:metadataType name="XLRICHVALUE"/></m:metadataTypes>', '<m:futureMetadata name="XLRICHVALUE" count="1"><m:bk/></m:futureMetadata><m:cellMetadata count="1"><m:bk><m:rc t="1" v="0"/></m:bk></m:cellMetadata><m:valueMetadata count="1"><m:bk><m:rc t="1" v="0"/></m:bk></m:valueMetadata>');
    const plain = row('<c r="B2"><f>X(A1)</f><v>1</v></c>', 2);
    const marked = await patchBook(handMade({ rows: plain, links: { sheetMetadata: "metadata.xml" }, parts: { "xl/metadata.xml": NEW_METADATA_PART } }), log({ B2: [[1, 2]] }));
    expect(partText(marked, SHEET)).toContain('<c r="B2" cm="1"><f t="array" ref="B2:C2">');
    expect(partText(marked, "xl/metadata.xml")).toBe(NEW_METADATA_PART);

    const added = await patchBook(handMade({ rows: plain, links: { sheetMetadata: "metadata.xml" }, parts: { "xl/metadata.xml": rich } }), log({ B2: [[1, 2]] }));
    expect(partText(added, SHEET)).toContain('<c r="B2" cm="2"><f t="array" ref="B2:C2">');
    const metadata = partText(added, "xl/metadata.xml");
    expect(metadata).toContain('<m:metadataTypes count="2"><m:metadataType name="XLRICHVALUE"/><m:metadataType name="XLDAPR"');
    expect(metadata).toContain('<m:cellMetadata count="2"><m:bk><m:rc t="1" v="0"/></m:bk><m:bk><m:rc t="2" v="0"/></m:bk></m:cellMetadata><m:valueMetadata');
    expect((await readBook(added)).sheets[0]?.cells.get("B2")).toEqual({ value: 1, formula: "X(A1)", spill: "B2:C2" });

    const valuesOnly = rich.replace(/<m:cellMetadata.*<\/m:cellMetadata>/, "");
    const first = await patchBook(handMade({ rows: plain, links: { sheetMetadata: "metadata.xml" }, parts: { "xl/metadata.xml": valuesOnly } }), log({ B2: [[1, 2]] }));
    expect(partText(first, SHEET)).toContain('<c r="B2" cm="1">');
    expect((await readBook(first)).sheets[0]?.cells.get("B2")?.fixedSpill).toBeUndefined();
  });

  test("shows in LibreOffice beside what the keeper typed, in a file that stays whole", async () => {
    const bytes = await patchBook(handMade({ rows: row('<c r="A1"><v>1</v></c><c r="B1"><f>SUM(A1:A3)</f><v>0</v></c>') + row('<c r="A2"><v>2</v></c>', 2) }), log({ B1: 3 }));
    expect(shownRows({ "spill.xlsx": bytes })["spill.xlsx"]).toEqual([["1", "3"], ["2", ""]]);
  });
});

describe("nothing is written, and a sentence says why", () => {
  const refused = (made: HandMade, results: Record<string, FormulaResult>) => expect(patchBook(handMade(made), log(results))).rejects;
  const plain = '<c r="B2"><f>X(A1)</f><v>1</v></c>';

  test.each([
    ["a typed number", '<c r="B3"><v>7</v></c>'],
    ["a typed text", '<c r="B3" t="str"><v></v></c>'],
    ["a text of its own", '<c r="B3" t="inlineStr"><is><t>x</t></is></c>'],
    ["another formula", '<c r="B3"><f>A1</f></c>'],
  ])("when an answer would cover %s", async (_, cell) => {
    await refused({ rows: row(plain, 2) + row(cell, 3) }, { B2: [[1], [2]] }).toThrow("The answer of B2 would cover B3, which is not empty.");
  });

  test("when two answers would cover the same cell", async () => {
    await refused({ rows: row(plain, 2) + row('<c r="A3"><f>X(A1)</f></c>', 3) }, { B2: [[1], [2]], A3: [[1, 2]] }).toThrow("The answer of A3 would cover B3, which is not empty.");
  });

  test("when there is no formula, no cell or no sheet for a result", async () => {
    await refused({ rows: row('<c r="B2"><v>1</v></c>', 2) }, { B2: 5 }).toThrow("B2 has no formula, so no result can be stored there.");
    await refused({ rows: row(plain, 2) }, { C9: 5 }).toThrow("C9 has no formula, so no result can be stored there.");
    await expect(patchBook(handMade({ rows: row(plain, 2) }), new Map([["Tank", new Map([["B2", 5]])]]))).rejects.toThrow('The workbook has no sheet "Tank".');
  });

  test("when an answer would leave the worksheet", async () => {
    await refused({ rows: row('<c r="XFD1048576"><f>X(1)</f></c>', 1048576) }, { XFD1048576: [[1], [2]] }).toThrow("The answer of XFD1048576 would reach beyond the edge of the worksheet.");
  });

  test("when cells that share a formula would spill", async () => {
    await refused({ rows: row('<c r="B2"><f t="shared" ref="B2:B3" si="0">X(A1)</f></c>', 2) + row('<c r="B3"><f t="shared" si="0"/></c>', 3) }, { B3: [[1, 2]] }).toThrow(
      "B3 shares its formula with other cells, so an answer of several cells cannot be stored there. Enter the formula anew in that cell.",
    );
  });

  test("when the sheet is in an encoding that is not written here", async () => {
    const utf16 = `\uFEFF<worksheet xmlns="${MAIN}"><sheetData>${row('<c r="A1"><f>B1</f><v>1</v></c>')}</sheetData></worksheet>`;
    const bytes = zipOf(handMadeParts({ rows: "" }).map((part) => (part.name === SHEET ? { ...part, content: Buffer.from(utf16, "utf16le") } : part)));
    expect((await readBook(bytes)).sheets[0]?.cells.get("A1")).toEqual({ value: 1, formula: "B1" });
    await expect(patchBook(bytes, log({ A1: 5 }))).rejects.toThrow("The part xl/worksheets/sheet1.xml is in a text encoding that Algal Ledger does not write; nothing was changed.");
  });

  test("when metadata are built in a way that no mark can be added to", async () => {
    const odd = `<metadata xmlns="${MAIN}"><metadataTypes count="1"><metadataType name="XLDAPR"/></metadataTypes></metadata>`;
    await refused({ rows: row(plain, 2), links: { sheetMetadata: "metadata.xml" }, parts: { "xl/metadata.xml": odd } }, { B2: [[1, 2]] }).toThrow(
      "The part xl/metadata.xml is built in a way that Algal Ledger does not know, so an answer of several cells cannot be stored; nothing was changed.",
    );
  });

  test("a number that is none is a fault of ours, not the keeper's", async () => {
    await refused({ rows: row(plain, 2) }, { B2: Number.POSITIVE_INFINITY }).toThrow("Infinity cannot be stored in a cell.");
  });
});
