import * as XLSX from "@e965/xlsx";
import type { NewBook, NewCell } from "../../src/files/new-book-model";
import { writeBook } from "../../src/files/new-book";
import { readBook } from "../../src/files/read-book";
import { shownRows } from "./libreoffice";
import { partText, zipEntries } from "./zip-bytes";

const cells = (given: Record<string, NewCell>) => new Map(Object.entries(given));

function sample(): NewBook {
  return {
    sheets: [
      {
        name: "Log",
        cells: cells({
          A1: { value: "Date", style: { bold: true, fill: "#dbeafe", border: { bottom: { line: "thin", color: "#1e3a8a" } } } },
          B1: { value: "Feed, g", style: { bold: true, fill: "#dbeafe" } },
          C1: { value: "N, g" },
          A2: { value: 46053, style: { numberFormat: "yyyy-mm-dd" } },
          B2: { value: 2.5, style: { numberFormat: "0.00" } },
          C2: { value: 0.1125, formula: 'ALGAL.FEEDLOAD_N(B2,"Nori, raw")' },
          A3: { value: 46054, style: { numberFormat: "yyyy-mm-dd" } },
          B3: { value: true },
          C3: { value: "about <1 & more", formula: 'ALGAL.VERDICT(B3,"<1")' },
          D1: { value: "=SUM(B2:B3)" },
          D2: { value: "-2 leaves" },
          D3: { value: " two\nlines ", style: { wrap: true, align: "center", verticalAlign: "top" } },
          E2: { value: { code: "#N/A" }, formula: "NA()" },
          F2: { value: 5, formula: "B2*2" },
          G1: { value: null, style: { fill: "#fef9c3" } },
        }),
        columnWidths: [12, 8.5, 0, 20],
        rowHeights: new Map([[3, 30], [9, 20]]),
        frozenRows: 1,
        frozenColumns: 1,
        merges: ["D5:F5"],
        tables: [{ name: "LogTable", ref: "A1:C3", style: "TableStyleMedium2" }],
        lists: [
          { range: "G2:G9", choices: ["mg/L NO3", 'mg/L "N"'], hint: { title: "Unit", text: "Pick one\nof two" }, error: { title: "Unit", text: "Not a unit." } },
          { range: "H2:H9", choices: { formula: "Foods!$A$2:$A$9" }, warnOnly: true },
        ],
        conditionalFormats: [{ range: "B2:B3", formula: '$B2>"1"', style: { fill: "#fecaca", bold: true, color: "#7f1d1d" } }],
        print: { orientation: "landscape", fitToWidth: true, titleRows: { from: 1, to: 1 }, area: "A1:F9", footer: "&LLog&RPage &P of &N" },
        tabColor: "#0f766e",
      },
      { name: "Foods & more", cells: cells({ A1: { value: "Food" } }), hidden: true },
    ],
    names: [{ name: "feed", ref: "Log!$B$2:$B$3" }],
    date1904: false,
    properties: { title: "A log & more" },
  };
}

describe("a new workbook", () => {
  test("is read back with its values, formulas, styles and layout", async () => {
    const book = await readBook(await writeBook(sample()));
    const [log, foods] = book.sheets;
    expect(Object.fromEntries(log?.cells ?? [])).toMatchObject({
      A1: { value: "Date", style: { bold: true, fill: "#dbeafe" } },
      A2: { value: 46053, style: { numberFormat: "yyyy-mm-dd" } },
      B2: { value: 2.5, style: { numberFormat: "0.00" } },
      C2: { value: 0.1125, formula: 'ALGAL.FEEDLOAD_N(B2,"Nori, raw")' },
      B3: { value: true },
      C3: { value: "about <1 & more", formula: 'ALGAL.VERDICT(B3,"<1")' },
      D1: { value: "=SUM(B2:B3)" },
      D3: { value: " two\nlines ", style: { wrap: true, align: "center" } },
      E2: { value: "#N/A", formula: "NA()" },
      G1: { value: null, style: { fill: "#fef9c3" } },
    });
    expect(log).toMatchObject({ frozenRows: 1, frozenColumns: 1, merges: ["D5:F5"], columnWidths: [12, 8.5, 0, 20, 0, 0, 0], tables: [{ name: "LogTable", ref: "A1:C3", columns: ["Date", "Feed, g", "N, g"] }] });
    expect(foods).toEqual({ name: "Foods & more", hidden: true, cells: new Map([["A1", { value: "Food" }]]) });
    expect(book.names).toEqual([{ name: "feed", ref: "Log!$B$2:$B$3" }]);
  });

  test("that was read is written again so that it reads the same", async () => {
    const first = await readBook(await writeBook(sample()));
    const again = await readBook(await writeBook(first));
    expect(again).toEqual(first);
  });

  test("holds formulas in the form of the file, and texts that begin like a formula as texts that stay so", async () => {
    const sheet = partText(await writeBook(sample()), "xl/worksheets/sheet1.xml");
    expect(sheet).toContain('<c r="C2"><f>_xldudf_ALGAL_FEEDLOAD_N(B2,&quot;Nori, raw&quot;)</f><v>0.1125</v></c>');
    expect(sheet).toContain('<c r="E2" t="e"><f>NA()</f><v>#N/A</v></c>');
    const styles = partText(await writeBook(sample()), "xl/styles.xml");
    const quoted = styles.split("<cellXfs")[1]?.split("</cellXfs>")[0]?.split("<xf ").slice(1).findIndex((xf) => xf.includes('quotePrefix="1"'));
    expect(sheet).toContain(`<c r="D1" s="${quoted}" t="s">`);
    expect(sheet).toContain(`<c r="D2" s="${quoted}" t="s">`);
    expect(quoted).toBeGreaterThan(0);
  });

  test("is the same byte for byte each time, with one fixed date in it", async () => {
    const [one, two] = [await writeBook(sample()), await writeBook(sample())];
    expect(Buffer.compare(one, two)).toBe(0);
    expect(partText(one, "docProps/core.xml")).toContain("<dc:title>A log &amp; more</dc:title><dc:creator>Algal Ledger</dc:creator>");
    expect(partText(one, "docProps/core.xml")).toContain('<dcterms:created xsi:type="dcterms:W3CDTF">2024-01-01T00:00:00Z</dcterms:created>');
    // 1980-01-01 00:00 in the table of contents: 0x0021 0x0000.
    const table = Buffer.from(one).indexOf(Buffer.from([0x50, 0x4b, 0x01, 0x02]));
    expect(Buffer.from(one).readUInt32LE(table + 12)).toBe(0x00210000);
  });

  test("has no part that another does not name, and a content type for each", async () => {
    const bytes = await writeBook(sample());
    const names = zipEntries(bytes).map((entry) => entry.name);
    const types = partText(bytes, "[Content_Types].xml");
    for (const name of names) {
      if (name.endsWith(".rels") || name === "[Content_Types].xml") continue;
      expect(types).toContain(`PartName="/${name}"`);
      expect(names.filter((rels) => rels.endsWith(".rels")).some((rels) => partText(bytes, rels).includes(name.split("/").pop() ?? "?"))).toBe(true);
    }
    expect(names).not.toContain("xl/metadata.xml");
  });

  test("opens in another library with the same values, formulas, table and rules", async () => {
    const book = XLSX.read(await writeBook(sample()), { cellNF: true, cellStyles: true });
    const log = book.Sheets.Log;
    expect(book.SheetNames).toEqual(["Log", "Foods & more"]);
    expect([log?.A2?.v, log?.C2?.v, log?.C2?.f, log?.C3?.v, log?.B3?.v, log?.D1?.v, log?.D1?.f, log?.D3?.v]).toEqual([46053, 0.1125, '_xldudf_ALGAL_FEEDLOAD_N(B2,"Nori, raw")', "about <1 & more", true, "=SUM(B2:B3)", undefined, " two\nlines "]);
    expect(log?.E2).toMatchObject({ t: "e", v: 0x2a });
    expect(book.Workbook?.Names?.map(({ Name, Ref }) => [Name, Ref])).toEqual([["_xlnm.Print_Area", "Log!$A$1:$F$9"], ["_xlnm.Print_Titles", "Log!$1:$1"], ["feed", "Log!$B$2:$B$3"]]);
    expect(book.Workbook?.Sheets?.map((sheet) => sheet.Hidden)).toEqual([0, 1]);
    expect(book.Props).toMatchObject({ Title: "A log & more", Author: "Algal Ledger" });
  });

  test("opens in LibreOffice with the stored results of formulas that it cannot work out itself", async () => {
    const [, second = [], third = []] = shownRows({ "book.xlsx": await writeBook(sample()) })["book.xlsx"] ?? [];
    expect(second.slice(0, 4)).toEqual(["2026-01-31", "2.50", "0.1125", "-2 leaves"]);
    expect(third[2]).toBe("about <1 & more");
    expect(second[5]).toBe("5");
  });
});

describe("a formula that spills", () => {
  const spilling = (spillAs?: "array" | "index"): NewBook => ({
    sheets: [
      {
        name: "Budget",
        cells: cells({ B2: { value: "from", formula: "ALGAL.BUDGET_N(Log,Setup)", spill: "B2:C3", ...(spillAs ? { spillAs } : {}) }, C2: { value: "to" }, B3: { value: 46053, style: { numberFormat: "yyyy-mm-dd" } }, C3: { value: 1.5 }, E2: { value: 3, formula: "C3*2" } }),
      },
    ],
    names: [],
    date1904: false,
  });

  test("is stored as Excel stores it: an array range, cell metadata, and plain values below", async () => {
    const bytes = await writeBook(spilling());
    const sheet = partText(bytes, "xl/worksheets/sheet1.xml");
    expect(sheet).toContain('<c r="B2" t="str" cm="1"><f t="array" ref="B2:C3">_xldudf_ALGAL_BUDGET_N(Log,Setup)</f><v>from</v></c><c r="C2" t="str"><v>to</v></c>');
    expect(sheet).toContain('<c r="B3" s="1"><v>46053</v></c><c r="C3"><v>1.5</v></c>');
    expect(partText(bytes, "xl/metadata.xml")).toContain('name="XLDAPR"');
    expect(partText(bytes, "xl/metadata.xml")).toContain('fDynamic="1"');
    expect(partText(bytes, "xl/_rels/workbook.xml.rels")).toContain('relationships/sheetMetadata" Target="metadata.xml"');
    expect((await readBook(bytes)).sheets[0]?.cells.get("B2")).toEqual({ value: "from", formula: "ALGAL.BUDGET_N(Log,Setup)", spill: "B2:C3" });
  });

  test("is read by another library with its range and values", async () => {
    const sheet = XLSX.read(await writeBook(spilling())).Sheets.Budget;
    expect(sheet?.B2).toMatchObject({ v: "from", F: "B2:C3" });
    expect([sheet?.C2?.v, sheet?.B3?.v, sheet?.C3?.v]).toEqual(["to", 46053, 1.5]);
  });

  test("can be stored as one formula for each cell, which LibreOffice shows without working it out", async () => {
    const bytes = await writeBook(spilling("index"));
    expect(partText(bytes, "xl/worksheets/sheet1.xml")).toContain('<c r="B3" s="1"><f>INDEX(_xldudf_ALGAL_BUDGET_N(Log,Setup),2,1)</f><v>46053</v></c><c r="C3"><f>INDEX(_xldudf_ALGAL_BUDGET_N(Log,Setup),2,2)</f><v>1.5</v></c>');
    expect(zipEntries(bytes).map((entry) => entry.name)).not.toContain("xl/metadata.xml");
    // As an array formula the same is #NAME? there: LibreOffice 7.4 works out every array formula when it opens a file.
    const shown = shownRows({ "index.xlsx": bytes, "array.xlsx": await writeBook(spilling()) });
    expect(shown["index.xlsx"]).toEqual([["", "", "", "", ""], ["", "from", "to", "", "3"], ["", "2026-01-31", "1.5", "", ""]]);
    expect(shown["array.xlsx"]?.[1]?.[4]).toBe("3");
  });
});

describe("what Excel would not open is refused", () => {
  const named = (...names: string[]): NewBook => ({ sheets: names.map((name) => ({ name, cells: new Map() })), names: [], date1904: false });

  test.each([[""], ["a".repeat(32)], ["a/b"], ["a[b"], ["'a"], ["a'"], ["a:b"], ["a*"], ["a?"], ["a\\b"]])("a sheet named %j", async (name) => {
    await expect(writeBook(named(name))).rejects.toThrow(`"${name}" cannot be the name of a sheet: 1 to 31 characters, none of [ ] : * ? / \\, and no apostrophe at either end.`);
  });

  test("two sheets of one name, and no sheet at all", async () => {
    await expect(writeBook(named("Log", "LOG"))).rejects.toThrow('Two sheets have the name "LOG".');
    await expect(writeBook(named())).rejects.toThrow("A workbook needs at least one sheet.");
  });

  test("a table whose heading is missing, not a text, or there twice", async () => {
    const table = (heading: NewCell) => ({ ...named("Log"), sheets: [{ name: "Log", cells: cells({ A1: { value: "Date" }, B1: heading }), tables: [{ name: "T", ref: "A1:B2" }] }] });
    for (const heading of [{ value: null }, { value: 5 }, { value: "DATE" }, { value: "x", formula: "A1" }]) {
      await expect(writeBook(table(heading))).rejects.toThrow("The table T needs a text heading, different from its others, in B1.");
    }
  });

  test("choices that do not fit into a rule", async () => {
    const listed = (choices: string[]) => ({ ...named("Log"), sheets: [{ name: "Log", cells: new Map(), lists: [{ range: "A1:A9", choices }] }] });
    await expect(writeBook(listed(["Nori, raw"]))).rejects.toThrow("The choices for A1:A9 are too long for a list in a cell's rule (255 characters, no commas): put them in a range.");
    await expect(writeBook(listed(["a".repeat(256)]))).rejects.toThrow("The choices for A1:A9 are too long");
  });

  test("a number that is none", async () => {
    await expect(writeBook({ ...named("Log"), sheets: [{ name: "Log", cells: cells({ A1: { value: Number.NaN } }) }] })).rejects.toThrow("NaN cannot be stored in a cell.");
  });
});
