import fs from "node:fs";
import path from "node:path";
import { read } from "@e965/xlsx";
import { host } from "../../src/words/host";
import { convert } from "./libreoffice";

/** The committed sample workbooks, looked at with readers that are not ours. */
const folder = path.join(__dirname, "../../samples");
const files = Object.fromEntries(host.samples.map(({ file }) => [file, new Uint8Array(fs.readFileSync(path.join(folder, file)))]));

interface OdsCell {
  readonly formula: string;
  readonly shown: string;
}

/** What LibreOffice makes of every formula cell: it opens the file, keeps or recalculates, and saves in its own format. */
function formulaCells(flat: string): OdsCell[] {
  return [...flat.matchAll(/<table:table-cell[^>]*table:formula="([^"]*)"[^>]*?(?:\/>|>([\s\S]*?)<\/table:table-cell>)/g)].map((match) => ({
    formula: match[1] ?? "",
    shown: (match[2] ?? "").replace(/<[^>]+>/g, ""),
  }));
}

const opened = convert(files, "fods");

test.each(host.samples.map(({ file }) => file))("%s opens in LibreOffice with every ALGAL value showing", (file) => {
  const cells = formulaCells(opened[file]?.toString("utf8") ?? "");
  const ours = cells.filter(({ formula }) => /ALGAL/i.test(formula));
  expect(ours.length).toBeGreaterThan(100);
  expect(ours.filter(({ shown }) => /#NAME|Err:|#VALUE|#REF|#N\/A/.test(shown))).toEqual([]);
});

test.each(host.samples.map(({ file }) => file))("%s stores ALGAL functions as Excel does, and shows no error to another reader", (file) => {
  const book = read(files[file], { type: "array", cellFormula: true });
  let stored = 0;
  for (const name of book.SheetNames) {
    for (const [address, cell] of Object.entries(book.Sheets[name] ?? {}) as [string, { f?: string; t?: string }][]) {
      if (address.startsWith("!") || !cell.f) continue;
      if (/ALGAL/.test(cell.f)) {
        expect(cell.f).toMatch(/_xldudf_ALGAL_[A-Z_]+\(/);
        expect(cell.f).not.toMatch(/(?<!_)ALGAL\./);
        stored += 1;
      }
      expect(cell.t).not.toBe("e");
    }
  }
  expect(stored).toBeGreaterThan(100);
});

test("every sheet of every sample that shows figures says that it is invented, or the workbook's Read me does", () => {
  for (const [file, bytes] of Object.entries(files)) {
    const book = read(bytes, { type: "array" });
    const text = Object.values(book.Sheets["Read me"] ?? {}).map((cell) => String((cell as { v?: unknown }).v ?? "")).join(" ");
    expect(`${file}: ${text}`).toContain("no ");
    expect(text).toContain("Invented example");
    expect(text).toContain("residual-current");
  }
});
