import fs from "node:fs";
import path from "node:path";
import { writeBook } from "../src/files/new-book";
import type { NewBook, NewSheet } from "../src/files/new-book-model";
import { worksheetFunctions } from "../src/functions";
import { CellError } from "../src/functions/cell-error";
import metadata from "../src/functions/generated/functions.json";
import { createEngine } from "../src/host/engine/engine";
import { host } from "../src/words/host";
import { messyLog } from "./samples/messy-log";
import { oneTank } from "./samples/one-tank";
import type { Sketch } from "./samples/sketch";
import { twoPonds } from "./samples/two-ponds";

/** Builds the sample workbooks, with the values that our own engine calculates stored beside each formula: `npm run samples`. */
const SHEETS: Record<string, () => Sketch[]> = { "one-tank-16-weeks.xlsx": oneTank, "two-ponds.xlsx": twoPonds, "messy-diary.xlsx": messyLog };

/** The samples with the titles that the page shows for them. */
const SAMPLES = host.samples.map(({ file, title }) => {
  const sheets = SHEETS[file];
  if (!sheets) throw new Error(`No sheets are made for ${file}.`);
  return { file, title, sheets };
});

async function build(file: string, title: string, sketches: Sketch[]): Promise<Uint8Array> {
  const book: NewBook = {
    sheets: sketches.map((sheet): NewSheet => ({
      name: sheet.name,
      cells: sheet.cells,
      columnWidths: sheet.columnWidths,
      frozenRows: sheet.frozenRows,
      merges: sheet.merges,
      rowHeights: sheet.rowHeights,
      print: { orientation: sheet.landscape ? "landscape" : "portrait", fitToWidth: true, ...(sheet.titleRows > 0 ? { titleRows: { from: 1, to: sheet.titleRows } } : {}), footer: "&L&F&R&P / &N" },
    })),
    names: [],
    date1904: false,
    properties: { title, subject: "Invented example for Algal Ledger", description: "No tank, keeper or reading in this workbook is real.", created: "2026-11-25T00:00:00Z" },
  };
  const engine = createEngine({ metadata: metadata as never, functions: worksheetFunctions as never });
  engine.open(book as never);
  for (const calculated of await engine.calculate()) {
    const sheet = book.sheets.find((one) => one.name === calculated.name);
    for (const [address, cell] of sheet?.cells ?? []) {
      if (cell.formula === undefined) continue;
      const value = calculated.values.get(address);
      if (value instanceof CellError) {
        const why = engine.problems.list().map((problem) => `${problem.address}: ${problem.sentence}`).join("\n");
        throw new Error(`${file}, ${calculated.name}!${address}: ${value.code} from =${cell.formula}\n${why}`);
      }
      cell.value = value ?? "";
    }
  }
  engine.dispose();
  return writeBook(book);
}

async function main(): Promise<void> {
  const folder = path.join(__dirname, "../samples");
  fs.mkdirSync(folder, { recursive: true });
  for (const { file, title, sheets } of SAMPLES) {
    const bytes = await build(file, title, sheets());
    fs.writeFileSync(path.join(folder, file), bytes);
    console.log(`samples/${file}: ${Math.round(bytes.length / 1024)} kB`);
  }
}

main().catch((error: Error) => {
  console.error(error.message);
  process.exit(1);
});
