import fs from "node:fs";
import path from "node:path";
import { NEW_METADATA_PART } from "../../src/files/metadata-part";
import { patchBook, type BookResults } from "../../src/files/patch-book";
import { readBook } from "../../src/files/read-book";
import { Problem } from "../../src/science/problem";
import { handMade, MAIN } from "./hand-made";
import { unpack, zipEntries, zipOf } from "./zip-bytes";

/** Files with something broken in them, 2,000 of them, the same in each run. A file is read and written, or refused with one sentence. */
const CASES = 2000;
const FOLDER = path.join(__dirname, "written");
const written = ["openpyxl-array-formulas", "xlsxwriter-spills"].map((name) => fs.readFileSync(path.join(FOLDER, `${name}.xlsx`)));
/** Of few parts, so that what is broken counts, and many cases take little time. */
const byHand = [
  handMade({ rows: '<row r="1"><c r="A1"><v>1</v></c><c r="B1"><f>A1*2</f><v>2</v></c><c r="C1" t="inlineStr"><is><t>a</t></is></c></row>', before: '<dimension ref="A1:C1"/>' }),
  handMade({ rows: '<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="str"><f t="shared" ref="B1:B2" si="0">A1&amp;"b"</f><v>ab</v></c></row><row r="2"><c r="A2" t="s"><v>1</v></c><c r="B2" t="str"><f t="shared" si="0"/><v>b</v></c></row>', links: { sharedStrings: "sharedStrings.xml" }, parts: { "xl/sharedStrings.xml": `<sst xmlns="${MAIN}"><si><t>a</t></si><si><r><t>b</t></r></si></sst>` } }),
  handMade({ rows: '<row r="1"><c r="A1" cm="1"><f t="array" ref="A1:B2">SORT(D1:E2)</f><v>1</v></c><c r="B1"><v>2</v></c></row><row r="2"><c r="A2"><v>3</v></c><c r="B2" t="e"><v>#N/A</v></c></row>', before: '<cols><col min="1" max="3" width="9"/></cols>', after: '<mergeCells count="1"><mergeCell ref="D4:E5"/></mergeCells>', workbookPr: '<workbookPr date1904="1"/>', links: { sheetMetadata: "metadata.xml" }, parts: { "xl/metadata.xml": NEW_METADATA_PART } }),
];
const WHOLE: readonly Buffer[] = [...byHand, ...byHand, ...byHand, ...written];

/** Numbers from 0 up to, not including, 1; the same ones each time. */
function numbersFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

type Break = (bytes: Buffer, random: () => number) => Buffer;
const place = (bytes: Buffer, random: () => number): number => Math.floor(random() * bytes.length);

const flipBits: Break = (bytes, random) => {
  const broken = Buffer.from(bytes);
  for (let i = 0; i < 1 + random() * 4; i += 1) {
    const at = place(broken, random);
    broken[at] = (broken[at] ?? 0) ^ (1 << Math.floor(random() * 8));
  }
  return broken;
};
const cutOff: Break = (bytes, random) => bytes.subarray(0, place(bytes, random));
const blank: Break = (bytes, random) => Buffer.from(bytes).fill(random() < 0.5 ? 0 : 0xff, place(bytes, random), place(bytes, random));
const takeOut: Break = (bytes, random) => {
  const at = place(bytes, random);
  return Buffer.concat([bytes.subarray(0, at), bytes.subarray(at + 1 + Math.floor(random() * 64))]);
};
const repeat: Break = (bytes, random) => {
  const at = place(bytes, random);
  return Buffer.concat([bytes.subarray(0, at), bytes.subarray(Math.max(0, at - 40)), bytes.subarray(at)]);
};
const putIn: Break = (bytes, random) => {
  const at = place(bytes, random);
  const words = ["<", ">", "&", "]]>", "<!--", '"', "&#0;", "&#x110000;", "<f t=\"array\" ref=\"A1:XFD1048576\">", "\u0000", "-1", "1e999", "\ud800", "<x:y>", "_x0000_", "ﬀ"];
  return Buffer.concat([bytes.subarray(0, at), Buffer.from(words[Math.floor(random() * words.length)] ?? "<"), bytes.subarray(at)]);
};
const BREAKS: readonly Break[] = [flipBits, cutOff, blank, takeOut, repeat, putIn];

/** Breaks the archive as it is, or one of its parts before it is packed again, so that the archive itself is whole. */
function broken(nth: number): Buffer {
  const random = numbersFrom(nth + 1);
  const whole = WHOLE[nth % WHOLE.length] ?? Buffer.alloc(0);
  const kind = BREAKS[Math.floor(nth / WHOLE.length) % BREAKS.length] ?? flipBits;
  if (random() < 0.4) return kind(whole, random);
  const entries = zipEntries(whole).filter(({ name }) => !name.endsWith("/"));
  const named = entries.filter(({ name }) => /worksheets\/sheet|workbook\.xml|sharedStrings|styles|metadata|Content_Types|\.rels$/.test(name));
  const chosen = named[Math.floor(random() * named.length)];
  return zipOf(entries.map((entry) => ({ name: entry.name, content: entry === chosen ? kind(unpack(entry), random) : unpack(entry) })));
}

/** Reads the file and stores another result in each formula cell, as the command line does; what came of it. */
async function attempt(file: Buffer, readAgain: boolean): Promise<"stored" | "nothing to store" | string> {
  try {
    const { sheets } = await readBook(file);
    const results: BookResults = new Map(sheets.map(({ name, cells }) => [name, new Map([...cells].flatMap(([address, { formula }]) => (formula === undefined ? [] : [[address, 7.5] as const])))]));
    const after = await patchBook(file, results);
    const again = readAgain ? await readBook(after) : undefined;
    for (const [name, ofSheet] of results) for (const address of ofSheet.keys()) if (again && again.sheets.find((sheet) => sheet.name === name)?.cells.get(address)?.value !== 7.5) throw new Error(`${name}!${address} does not show what was stored.`);
    return [...results.values()].some(({ size }) => size > 0) ? "stored" : "nothing to store";
  } catch (error) {
    if (error instanceof Problem) return error.message;
    throw error;
  }
}

test("2,000 broken files are each read and written, or refused with one sentence, none of them slowly", async () => {
  const outcomes = new Map<string, number>();
  let slowest = 0;
  for (let nth = 0; nth < CASES; nth += 1) {
    const file = broken(nth);
    const began = performance.now();
    const outcome = await attempt(file, nth % 4 === 0).catch((error: unknown) => `case ${nth}: ${error instanceof Error ? error.stack : String(error)}`);
    slowest = Math.max(slowest, performance.now() - began);
    expect(outcome).not.toMatch(/^case \d+/);
    expect(outcome).toMatch(/^(?:stored|nothing to store|[A-Z][^\n]*\.)$/);
    outcomes.set(outcome, (outcomes.get(outcome) ?? 0) + 1);
  }
  // Files of all sorts: some break nothing that counts, most are refused, for many reasons.
  expect(outcomes.get("stored") ?? 0).toBeGreaterThan(200);
  expect([...outcomes].filter(([outcome]) => outcome.endsWith(".")).reduce((sum, [, count]) => sum + count, 0)).toBeGreaterThan(800);
  expect(outcomes.size).toBeGreaterThan(25);
  expect(slowest).toBeLessThan(5000);
}, 120_000);
