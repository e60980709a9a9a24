import fs from "node:fs";
import path from "node:path";
import zlib from "node:zlib";
import { worksheetFunctions } from "../src/functions";
import { fileLines } from "./bench-files";
import { joinPane } from "../src/words/join-pane";
import { startHarness } from "../test/browser/harness";

/** Measures speed and size in one run and prints them as a table with ratios: `npm run bench`. Needs a build and a browser. */
interface Line {
  what: string;
  measured: string;
  limit: string;
  kept: boolean;
}

const root = path.join(__dirname, "..");
const site = path.join(root, "dist/site");
const call = (name: string, ...args: unknown[]): unknown => (worksheetFunctions.get(name) as (...given: unknown[]) => unknown)(...args);

/** The middle of five runs, ms, after two that warm up the compiler. */
function time(run: () => void): number {
  run();
  run();
  const times = [0, 1, 2, 3, 4].map(() => {
    const start = performance.now();
    run();
    return performance.now() - start;
  });
  return times.sort((a, b) => a - b)[2] ?? NaN;
}

/** A harvest of about 450 g drained takes what is fed, one of 120 g leaves most of it unexplained. */
function inventedLog(rows: number, harvestG = 120): unknown[][] {
  const lines: unknown[][] = [["Date", "Food", "Feed (g)", "NO3 (mg/L)", "PO4 (mg/L)", "Harvest (g)", "Water change (L)"]];
  for (let day = 0; day < rows; day += 1) {
    lines.push([10000 + day, "Mysids, frozen", 4 + (day % 3), day % 7 === 0 ? 10 + (day % 5) : "", day % 7 === 0 ? 0.08 : "", day > 0 && day % 14 === 0 ? harvestG + (day % 11) : "", day % 14 === 7 ? 20 : ""]);
  }
  return lines;
}

function speed(): Line[] {
  const setUp = [["Volume (L)", 200], ["NO3 kit steps", 0.5]];
  const [decade, century] = [inventedLog(3650), inventedLog(36_500)];
  const budget = (log: unknown[][]): number => time(() => call("BUDGET_N", log, setUp, null, null, null));
  const [ten, hundred] = [budget(decade), budget(century)];
  const both = (log: unknown[][]): number => time(() => call("BUDGET_BOTH", log, setUp, "week", null, null));
  // 520 weeks and ten times as many.
  const [weeks, tenfold, misfits] = [both(inventedLog(3641, 450)), both(inventedLog(36_401, 450)), both(inventedLog(3641))];
  const area = time(() => call("SCRUBAREA_NEEDED", [[0.05]], [[0.005]], [[13.7]], [[10]], [[0.3]], null, null, 100_000, null));
  const ahead = time(() => call("FORECAST_READING", [[10]], [[0.3]], [[265]], [[0.05]], [[0.005]], [[0.2]], [[13.7]], [[56]], [[7]], [[10]], [[7]], [[0.1]], null, null, null));
  const warnings = time(() => call("BUDGET_WARNINGS", decade, setUp, null, null));
  const feed = time(() => {
    for (let index = 0; index < 100_000; index += 1) call("FEEDLOAD_N", [[index % 50]], [["Cod"]], null, null, null);
  });
  return [
    { what: "BUDGET_N over 3,650 rows", measured: `${ten.toFixed(0)} ms`, limit: "", kept: true },
    { what: "BUDGET_N over 36,500 rows", measured: `${hundred.toFixed(0)} ms`, limit: "", kept: true },
    { what: "  growth of time for ten times the rows", measured: `${(hundred / ten).toFixed(1)} x`, limit: "at most 12 x", kept: hundred / ten <= 12 },
    { what: "BUDGET_BOTH over 520 weeks, a row a day", measured: `${weeks.toFixed(0)} ms`, limit: "at most 200 ms", kept: weeks <= 200 },
    { what: "  growth of time for ten times the rows", measured: `${(tenfold / weeks).toFixed(1)} x`, limit: "at most 12 x", kept: tenfold / weeks <= 12 },
    { what: "  where no week fits and a suspect is sought in each", measured: `${misfits.toFixed(0)} ms`, limit: "", kept: true },
    { what: "SCRUBAREA_NEEDED with 100,000 draws", measured: `${area.toFixed(0)} ms`, limit: "at most 150 ms", kept: area <= 150 },
    { what: "FORECAST_READING over 8 weeks, 300 draws", measured: `${ahead.toFixed(0)} ms`, limit: "", kept: true },
    { what: "BUDGET_WARNINGS over 3,650 rows", measured: `${warnings.toFixed(0)} ms`, limit: "at most 100 ms", kept: warnings <= 100 },
    { what: "100,000 calls of FEEDLOAD_N", measured: `${feed.toFixed(0)} ms`, limit: "", kept: true },
    { what: "  one call against one row of the budget", measured: `${(feed / 100_000 / (ten / 3650)).toFixed(2)} x`, limit: "", kept: true },
  ];
}

function sizes(): Line[] {
  const kilobytes = (file: string): number => zlib.gzipSync(fs.readFileSync(path.join(site, file))).length / 1024;
  const functions = kilobytes("functions.js");
  const text = fs.readFileSync(path.join(site, "functions.js"), "utf8");
  const clean = !/FluentProvider|createRoot|univer/i.test(text);
  return [
    { what: "functions bundle, gzip", measured: `${functions.toFixed(1)} kB`, limit: "at most 60 kB", kept: functions <= 60 },
    { what: "  pane or grid code in it", measured: clean ? "none" : "some", limit: "none", kept: clean },
  ];
}

/** What the pane loads to be usable, after the functions; the rest comes when a screen is first wanted. */
function paneSizes(): Line[] {
  const kilobytes = (file: string): number => zlib.gzipSync(fs.readFileSync(path.join(site, file))).length / 1024;
  const pane = kilobytes("pane.js");
  const later = ["join", "help", "hand-over"].map((name) => `${name} ${kilobytes(`${name}.js`).toFixed(0)}`);
  return [
    { what: "pane code, gzip, loaded after the functions", measured: `${pane.toFixed(1)} kB`, limit: "at most 250 kB", kept: pane <= 250 },
    { what: `  loaded when first wanted, kB: ${later.join(", ")}`, measured: "", limit: "", kept: true },
  ];
}

/** From the click on "Add" to the last row's account, in the middle of three joins of 3,650 rows. */
async function joinTime(): Promise<Line> {
  const harness = await startHarness(site);
  try {
    const { page } = await harness.open("index.html");
    await page.evaluate(() => window.algalLedger.ready);
    const log = inventedLog(3650, 450).map(([date, ...rest]) => [typeof date === "number" ? date + 30_000 : date, ...rest]);
    const last = `I${log.length}`;
    const pane = page.locator("#pane");
    const times: number[] = [];
    for (let run = 0; run < 3; run += 1) {
      await page.evaluate(async (rows) => {
        await window.algalLedger.open({ sheets: [{ name: "Mine", cells: new Map() }], names: [], date1904: false }, "Mine");
        window.algalLedger.port.write("Mine", `A1:G${rows.length}`, rows);
        window.algalLedger.port.select("Mine", "B9");
      }, log);
      await pane.getByRole("button", { name: run === 0 ? joinPane.open : joinPane.look }).click();
      await pane.getByRole("textbox", { name: joinPane.setUp.volume.label }).fill("200");
      await pane.getByRole("button", { name: joinPane.add }).waitFor();
      times.push(
        await page.evaluate(
          async ([cell, label]) => {
            const add = [...document.querySelectorAll<HTMLButtonElement>("#pane button")].find((one) => one.textContent === label);
            const start = performance.now();
            add?.click();
            while (typeof window.algalLedger.port.read("Mine", cell).values[0]?.[0] !== "number") await new Promise((resolve) => setTimeout(resolve, 5));
            return performance.now() - start;
          },
          [last, joinPane.add] as const,
        ),
      );
      await pane.getByRole("button", { name: joinPane.look }).waitFor();
    }
    const ms = times.sort((a, b) => a - b)[1] ?? NaN;
    return { what: "join of a 3,650-row log, from the click to the last value", measured: `${(ms / 1000).toFixed(2)} s`, limit: "under 2 s", kept: ms < 2000 };
  } finally {
    await harness.close();
  }
}

async function pageReady(): Promise<Line> {
  const harness = await startHarness(site);
  const start = performance.now();
  const { page } = await harness.open("index.html");
  await page.waitForFunction(() => "algalLedger" in window);
  await page.evaluate(() => (window as unknown as { algalLedger: { ready: Promise<void> } }).algalLedger.ready);
  const ms = performance.now() - start;
  await harness.close();
  return { what: "local page from a cold start to calculated cells", measured: `${(ms / 1000).toFixed(1)} s`, limit: "", kept: true };
}

async function main(): Promise<void> {
  const lines = [...speed(), ...sizes(), ...paneSizes(), await pageReady(), await joinTime(), ...(await fileLines())];
  const width = Math.max(...lines.map((line) => line.what.length));
  for (const { what, measured, limit, kept } of lines) {
    console.log(`${what.padEnd(width)}  ${measured.padStart(9)}  ${limit.padEnd(14)} ${limit ? (kept ? "kept" : "NOT KEPT") : ""}`.trimEnd());
  }
  if (lines.some((line) => !line.kept)) process.exitCode = 1;
}

main().catch((error: Error) => {
  console.error(error.message);
  process.exit(1);
});
