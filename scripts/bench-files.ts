import { spawn } from "node:child_process";
import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { newEngine } from "../src/cli/engine";
import type { BookCell } from "../src/files/book";
import { cellAddress } from "../src/files/address";
import { writeBook } from "../src/files/new-book";
import { nativeCopy } from "../src/native/native-copy";
import { profileThatRecalculates } from "../test/files/libreoffice";

/** Files beside an independent engine, in one run: `calc` of a long log against LibreOffice on its copy in plain formulas, and many workbooks in one call. */
export interface FileLine {
  what: string;
  measured: string;
  limit: string;
  kept: boolean;
}

const LEDGER = path.join(__dirname, "../dist/node/ledger.cjs");
const ROWS = 10_000;

interface Ran {
  seconds: number;
  /** Of all processes of the run together. */
  peakMB: number;
}

/** Runs a program and looks every 50 ms how much memory it and its children hold. */
function measured(program: string, args: string[]): Promise<Ran> {
  const start = performance.now();
  const child = spawn(program, args, { stdio: "ignore", detached: true });
  let peak = 0;
  const look = setInterval(() => {
    let sum = 0;
    for (const id of fs.readdirSync("/proc")) {
      if (!/^\d+$/.test(id)) continue;
      try {
        const stat = fs.readFileSync(`/proc/${id}/stat`, "utf8");
        const fields = stat.slice(stat.lastIndexOf(")") + 2).split(" ");
        // Process group, and resident pages of 4 kB.
        if (Number(fields[2]) === child.pid) sum += Number(fields[21]) * 4096;
      } catch {
        // It ended meanwhile.
      }
    }
    peak = Math.max(peak, sum);
  }, 50);
  return new Promise((resolve, reject) => {
    child.on("error", reject);
    child.on("close", (code) => {
      clearInterval(look);
      if (code !== 0) reject(new Error(`${program} ended with ${code}`));
      else resolve({ seconds: (performance.now() - start) / 1000, peakMB: peak / 1024 ** 2 });
    });
  });
}

/** Ten thousand days of one tank: a budget a month, the feed's nitrogen row by row, and a few totals. Invented. */
function longLog(rows: number): { log: Map<string, BookCell>; setUp: Map<string, BookCell> } {
  const log = new Map<string, BookCell>();
  const put = (row: number, column: number, value: string | number): void => void log.set(cellAddress(row, column), { value });
  ["Date", "Food", "Feed (g)", "NO3 (mg/L)", "PO4 (mg/L)", "Harvest (g)", "Water change (L)"].forEach((heading, column) => put(0, column, heading));
  for (let day = 0; day < rows; day += 1) {
    const row = day + 1;
    put(row, 0, 36_000 + day);
    put(row, 1, "Mysids, frozen");
    put(row, 2, 4 + (day % 3));
    if (day % 14 === 0) put(row, 3, 10 + (day % 5));
    if (day > 0 && day % 14 === 0) put(row, 5, 450 + (day % 11));
    if (day % 28 === 7) put(row, 6, 20);
    log.set(cellAddress(row, 7), { value: null, formula: `ALGAL.FEEDLOAD_N(C${row + 1},B${row + 1})` });
  }
  return { log, setUp: new Map<string, BookCell>([["A1", { value: "Volume (L)" }], ["B1", { value: 200 }], ["A2", { value: "NO3 kit steps" }], ["B2", { value: 0.5 }]]) };
}

const bookOf = (rows: number): Promise<Uint8Array> => {
  const { log, setUp } = longLog(rows);
  const budget = new Map<string, BookCell>([["A1", { value: null, formula: `ALGAL.BUDGET_N(Log!A1:G${rows + 1},'Set-up'!A1:B2,"month")` }]]);
  // Plain formulas of the keeper's own, which only the engine can calculate.
  const totals = new Map<string, BookCell>([
    ["A1", { value: null, formula: `SUM(Log!C2:C${rows + 1})` }],
    ["A2", { value: null, formula: `AVERAGE(Log!H2:H${rows + 1})` }],
    ["A3", { value: null, formula: "SUM(Nitrogen!E2:E400)" }],
  ]);
  return writeBook({ sheets: [{ name: "Log", cells: log }, { name: "Set-up", cells: setUp }, { name: "Totals", cells: totals }, { name: "Nitrogen", cells: budget }], names: [], date1904: false });
};

export async function fileLines(): Promise<FileLine[]> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), "algal-ledger-bench-"));
  const at = (name: string): string => path.join(folder, name);
  try {
    fs.writeFileSync(at("long.xlsx"), await bookOf(ROWS));
    const ours = await measured(process.execPath, [LEDGER, "calc", at("long.xlsx"), "-o", at("calculated.xlsx")]);
    const engine = newEngine();
    const began = performance.now();
    const copy = await nativeCopy(new Uint8Array(fs.readFileSync(at("calculated.xlsx"))), (book) => {
      engine.open(book);
      return engine.calculate();
    }, { title: "long.xlsx", day: "2026-01-01" }).finally(() => engine.dispose());
    const making = (performance.now() - began) / 1000;
    fs.writeFileSync(at("native.xlsx"), copy.file);
    const theirs = await measured(process.env.SOFFICE_PATH ?? "soffice", [`-env:UserInstallation=file://${profileThatRecalculates(folder)}`, "--headless", "--convert-to", "xlsx", "--outdir", at("out"), at("native.xlsx")]);

    const few = await many(at, 10);
    const hundred = await many(at, 100);
    const ratio = (one: number, other: number): string => `${(one / other).toFixed(2)} x`;
    return [
      { what: `calc of a budget workbook of ${ROWS.toLocaleString("en")} rows`, measured: `${ours.seconds.toFixed(1)} s`, limit: "", kept: true },
      { what: "  LibreOffice recalculating its copy in plain formulas", measured: `${theirs.seconds.toFixed(1)} s`, limit: "", kept: true },
      { what: "  our time against its", measured: ratio(ours.seconds, theirs.seconds), limit: "at most 0.33 x", kept: ours.seconds / theirs.seconds <= 1 / 3 },
      { what: `  our peak memory (${ours.peakMB.toFixed(0)} MB) against its (${theirs.peakMB.toFixed(0)} MB)`, measured: ratio(ours.peakMB, theirs.peakMB), limit: "", kept: true },
      { what: `  making that copy (${copy.translated.toLocaleString("en")} cells, ${copy.frozen.length} frozen)`, measured: `${making.toFixed(1)} s`, limit: "", kept: true },
      { what: "calc of 100 workbooks in one call", measured: `${hundred.seconds.toFixed(1)} s`, limit: "", kept: true },
      { what: "  a workbook, against ten in one call", measured: ratio(hundred.seconds / 100, few.seconds / 10), limit: "at most 1.2 x", kept: hundred.seconds / 100 <= (1.2 * few.seconds) / 10 },
      { what: `  peak memory (${hundred.peakMB.toFixed(0)} MB), against ten in one call`, measured: ratio(hundred.peakMB, few.peakMB), limit: "at most 1.3 x", kept: hundred.peakMB <= 1.3 * few.peakMB },
    ];
  } finally {
    fs.rmSync(folder, { recursive: true, force: true });
  }
}

async function many(at: (name: string) => string, count: number): Promise<Ran> {
  const book = await bookOf(120);
  const names = Array.from({ length: count }, (_, place) => at(`tank-${count}-${place}.xlsx`));
  for (const name of names) fs.writeFileSync(name, book);
  return measured(process.execPath, [LEDGER, "calc", ...names, "-o", at(`calculated-${count}`)]);
}
