import { spawn, spawnSync } from "node:child_process";
import fs from "node:fs";
import path from "node:path";
import { writeBook } from "../../src/files/new-book";
import { readBook } from "../../src/files/read-book";
import { type HandMade, handMade, handMadeParts, MAIN } from "../files/hand-made";
import { zipOf } from "../files/zip-bytes";
import { buildOnce, ledger, temporaryFolder } from "./run";

/** Files that are made to do harm, through the command as it is run: one sentence, exit 1, no file, in little time and memory. */
const BUNDLE = path.join(__dirname, "../../dist/node/ledger.cjs");
const GIGABYTE = 1024 * 1024;
const SHEET = "xl/worksheets/sheet1.xml";
let place: ReturnType<typeof temporaryFolder>;

beforeAll(buildOnce, 300_000);
beforeEach(() => {
  place = temporaryFolder();
});
afterEach(() => place.remove());

interface Watched {
  code: number | null;
  err: string;
  seconds: number;
  /** The most that the command and what it started had in memory together, kB; 0 where the system does not tell. */
  memory: number;
}

function watched(...args: string[]): Promise<Watched> {
  const began = performance.now();
  const child = spawn(process.execPath, [BUNDLE, ...args], { stdio: ["ignore", "ignore", "pipe"] });
  let err = "";
  let memory = 0;
  child.stderr.on("data", (piece: Buffer) => (err += piece.toString()));
  const look = setInterval(() => (memory = Math.max(memory, memoryOf(child.pid ?? 0))), 25);
  return new Promise((resolve) => {
    child.on("close", (code) => {
      clearInterval(look);
      resolve({ code, err, seconds: (performance.now() - began) / 1000, memory });
    });
  });
}

function memoryOf(pid: number): number {
  try {
    const own = Number(/VmRSS:\s+(\d+)/.exec(fs.readFileSync(`/proc/${pid}/status`, "utf8"))?.[1] ?? 0);
    const started = fs.readFileSync(`/proc/${pid}/task/${pid}/children`, "utf8").split(" ").filter((one) => one.trim() !== "");
    return started.reduce((sum, one) => sum + memoryOf(Number(one)), own);
  } catch {
    return 0;
  }
}

const sheet = (content: string): HandMade => ({ rows: "", parts: { [SHEET]: content } });
const formula = (text: string): Buffer => handMade({ rows: `<row r="1"><c r="A1"><v>1</v></c><c r="C1"><f>${text}</f><v>5</v></c></row>` });
const entities = Array.from({ length: 30 }, (_, i) => `<!ENTITY e${i + 1} "&e${i};&e${i};">`).join("");

test.each<[string, () => Uint8Array, RegExp]>([
  ["40 MB of blanks in 40 kB", () => handMade(sheet(`<worksheet xmlns="${MAIN}">${" ".repeat(40 * 1024 * 1024)}</worksheet>`)), /would unpack to more than 100 times its size/],
  ["a part whose size in the table is a lie", () => zipOf(handMadeParts({ rows: "" }).map((part) => (part.name === SHEET ? { ...part, content: " ".repeat(40 * 1024 * 1024), says: { unpackedSize: 900 } } : part))), /sheet1\.xml/],
  ["entities that grow to a billion letters", () => handMade(sheet(`<!DOCTYPE x [<!ENTITY e0 "ha">${entities}]><worksheet xmlns="${MAIN}">&e30;</worksheet>`)), /declares a document type/],
  ["50,000 elements one in the other", () => handMade({ rows: `${"<a>".repeat(50_000)}${"</a>".repeat(50_000)}` }), /nested deeper/],
  ["an element of 300,000 attributes", () => handMade({ rows: `<row ${Array.from({ length: 300_000 }, (_, i) => `a${i}=""`).join(" ")}/>` }), /more attributes than any workbook needs/],
  ["an array formula that claims a whole worksheet", () => handMade({ rows: '<row r="1"><c r="A1"><f t="array" ref="A1:XFD1048576">1</f><v>1</v></c></row>' }), /more than 2 million cells/],
  ["a part that points outside", () => zipOf([...handMadeParts({ rows: "" }), { name: "../../outside.txt", content: "x" }]), /points outside the workbook/],
  ["a formula that makes 17 billion values", () => formula("SUM(MAKEARRAY(1048576,16384,LAMBDA(r,c,r)))"), /takes longer than \d+ s/],
  ["the first half of a workbook", () => fs.readFileSync(path.join(__dirname, "../../samples/one-tank-16-weeks.xlsx")).subarray(0, 11_000), /damaged: it cannot be unpacked/],
  ["formulas in a text file that calls itself a workbook", () => Buffer.from("Day,Feed\n=cmd|' /C calc'!A0,@SUM(1)\n"), /not an Excel workbook/],
])("%s", async (_what, made, sentence) => {
  fs.writeFileSync(place.at("book.xlsx"), made());
  const { code, err, seconds, memory } = await watched("calc", place.at("book.xlsx"), "-o", place.at("out.xlsx"));
  expect(err).toMatch(sentence);
  expect(err).toMatch(/^[^\n]+\.\n$/);
  expect(code).toBe(1);
  expect(fs.readdirSync(place.folder)).toEqual(["book.xlsx"]);
  expect(memory).toBeLessThan(GIGABYTE);
  // Under 5 s on a machine that does nothing else; the bound leaves room for a busy one.
  expect(seconds).toBeLessThan(20);
}, 60_000);

test("a formula that would look at every cell of a sheet keeps its stored value", async () => {
  fs.writeFileSync(place.at("book.xlsx"), formula("SUM(A1:XFD1048576)"));
  expect(ledger("calc", place.at("book.xlsx"), "-o", place.at("out.xlsx"))).toEqual({ out: "1 formula cell calculated, 0 changed, 0 errors, 1 left as stored.\n", err: "Log!C1 keeps its stored value: its formula reads more cells than Algal Ledger calculates.\n", code: 0 });
});

test("texts that begin like a formula stay texts, through reading, calculating and writing", async () => {
  const texts = ["=1+1", "+1", "-1+2", "@SUM(1)", "=HYPERLINK(\"https://example.com\",\"x\")", "\t=1", "=cmd|' /C calc'!A0"];
  const cells = new Map<string, { value: string | number; formula?: string }>();
  texts.forEach((text, i) => {
    cells.set(`A${i + 1}`, { value: text });
    cells.set(`B${i + 1}`, { value: 0, formula: `LEN(A${i + 1})` });
    cells.set(`C${i + 1}`, { value: "", formula: `A${i + 1}&""` });
  });
  fs.writeFileSync(place.at("book.xlsx"), await writeBook({ sheets: [{ name: "Log", cells }], names: [], date1904: false }));
  expect(ledger("calc", place.at("book.xlsx"), "-o", place.at("out.xlsx")).err).toBe("");
  const after = (await readBook(fs.readFileSync(place.at("out.xlsx")))).sheets[0]?.cells;
  texts.forEach((text, i) => expect(["A", "B", "C"].map((column) => [after?.get(`${column}${i + 1}`)?.value, after?.get(`${column}${i + 1}`)?.formula])).toEqual([[text, undefined], [text.length, `LEN(A${i + 1})`], [text, `A${i + 1}&""`]]));
});

describe("a run that is cut short leaves the file that stood there", () => {
  const OLD = "the copy of last week";

  beforeEach(() => {
    fs.copyFileSync(path.join(__dirname, "../../samples/one-tank-16-weeks.xlsx"), place.at("book.xlsx"));
    fs.writeFileSync(place.at("out.xlsx"), OLD);
  });

  test("when the disk takes only its first 4 kB", () => {
    // The shell's limit counts blocks of 512 bytes, or of 1024; the copy has more than 20 kB.
    const limited = spawnLimited(`ulimit -f 4; exec "$0" "$@"`, [process.execPath, BUNDLE, "calc", place.at("book.xlsx"), "-o", place.at("out.xlsx")]);
    expect(limited).toEqual({ code: 1, err: `${place.at("out.xlsx")}: The copy cannot be written there; check who may write to that folder, and the space left.\n` });
    expect(fs.readFileSync(place.at("out.xlsx"), "utf8")).toBe(OLD);
    expect(fs.readdirSync(place.folder).sort()).toEqual(["book.xlsx", "out.xlsx"]);
  });

  test.each([500, 1400])("when it is killed after %i ms", async (after) => {
    const child = spawn(process.execPath, [BUNDLE, "calc", place.at("book.xlsx"), "-o", place.at("out.xlsx")], { stdio: "ignore", detached: true });
    const closed = new Promise((resolve) => child.on("close", resolve));
    await new Promise((resolve) => setTimeout(resolve, after));
    if (child.exitCode === null && child.pid !== undefined) process.kill(-child.pid, "SIGKILL");
    await closed;
    const now = fs.readFileSync(place.at("out.xlsx"));
    if (now.toString() !== OLD) expect((await readBook(now)).sheets.length).toBeGreaterThan(1);
  });
});

function spawnLimited(script: string, args: string[]): { code: number | null; err: string } {
  const { status, stderr } = spawnSync("sh", ["-c", script, ...args], { encoding: "utf8" });
  return { code: status, err: stderr };
}
