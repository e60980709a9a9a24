import * as XLSX from "@e965/xlsx";
import { writeBook } from "../../src/files/new-book";
import type { NewCell, NewSheet } from "../../src/files/new-book-model";
import { readWorkbook } from "../../src/files/read-workbook";
import { handMade, handMadeParts, MAIN } from "./hand-made";
import { convert } from "./libreoffice";
import { bytesOf, differingParts, FILES, merge, tryMerge } from "./merge-kit";
import { wholeBook } from "./whole-book";
import { partText, zipEntries, zipOf } from "./zip-bytes";

/** What changes in a file beside the cells of its sheets: sheets that come and go, names, XML parts, widths, rules, tables, charts. */
const WEEKLY: NewSheet = {
  name: "Log & more",
  cells: new Map([
    ["A1", { value: "Day", style: { bold: true, fill: "#0f766e", color: "#ffffff" } }],
    ["B1", { value: "Feed" }],
    ["A2", { value: 46053, style: { numberFormat: "yyyy-mm-dd" } }],
    ["B2", { value: 3.5 }],
    ["D2", { value: 0.5, formula: "ALGAL.BUDGET_N(A1:B2,B2:B9)", spill: "D2:D3" }],
    ["D3", { value: "two" }],
  ]),
  columnWidths: [12, 8],
  tables: [{ name: "WeeklyLog", ref: "A1:B2", style: "TableStyleLight1" }],
  validations: [{ range: "B2:B9", kind: "decimal", operator: "greaterThan", formula1: "0", allowsBlank: true }],
  conditionalFormats: [{ range: "B2:B9", formula: "$B2>9", style: { fill: "#fce4de" } }],
  charts: [{ name: "Feed", kind: "Line", title: "Feed", categoryTitle: null, valueTitle: "g", legend: false, series: [{ name: "Feed", values: "'Log & more'!$B$2:$B$9", xValues: null }], position: "F2:K12" }],
  print: { orientation: "landscape", titleRows: { from: 1, to: 1 } },
};
const JOIN = { id: "{0B1C2D3E-0000-4000-8000-00000000ABCE}", namespaceUri: "urn:algal-ledger:test", xml: '<log xmlns="urn:algal-ledger:test">é</log>' };
const RICH = FILES.filter((name) => /picture|pivot|charts|rules|sparklines|tables|names|plain|libreoffice-log|sheetjs-stored/.test(name));

const merged = new Map<string, Uint8Array>();

describe("a sheet, a name and an XML part that come in", () => {
  test.each(RICH)("%s keeps its own sheets byte for byte", async (name) => {
    const before = bytesOf(name);
    const after = await merge(before, (book, ids) => {
      book.sheets.push(WEEKLY);
      ids.push("new");
      book.names.push({ name: "WeeklyFeed", ref: "'Log & more'!$B$2:$B$9" });
      book.xmlParts?.push(JOIN);
    });
    merged.set(name, after);
    const old = new Set(zipEntries(before).map((entry) => entry.name));
    const touched = differingParts(before, after).filter((part) => old.has(part));
    expect(touched.filter((part) => !/^(?:\[Content_Types\]\.xml|_rels\/\.rels|xl\/workbook\.xml|xl\/_rels\/workbook\.xml\.rels|xl\/styles\.xml|xl\/metadata\.xml)$/.test(part))).toEqual([]);
    const [read, was] = [await readWorkbook(after), await readWorkbook(before)];
    expect(read.book.sheets.slice(0, -1)).toEqual(was.book.sheets);
    expect(read.extras.sheets.slice(0, -1)).toEqual(was.extras.sheets);
    expect(read.unshown).toEqual(was.unshown);
    expect(read.extras.xmlParts).toEqual([...was.extras.xmlParts, JOIN]);
    expect(read.book.names).toContainEqual({ name: "WeeklyFeed", ref: "'Log & more'!$B$2:$B$9" });
    const [sheet, extras] = [read.book.sheets.at(-1), read.extras.sheets.at(-1)];
    for (const [address, cell] of WEEKLY.cells) expect([address, sheet?.cells.get(address)]).toMatchObject([address, cell]);
    expect(sheet?.tables?.map(({ name: table, ref }) => [table, ref])).toEqual([["WeeklyLog", "A1:B2"]]);
    expect(extras?.charts).toEqual(WEEKLY.charts);
    expect(extras?.validations).toEqual(WEEKLY.validations);
    expect(extras?.conditionalFormats).toEqual(WEEKLY.conditionalFormats);
    expect(extras?.print).toMatchObject(WEEKLY.print ?? {});
    expect(zipEntries(after).some((entry) => entry.name === "xl/webextensions/taskpanes.xml")).toBe(true);
  });

  test("another library and LibreOffice open all of them, with the new sheet in its place", () => {
    for (const [name, file] of merged) expect([name, XLSX.read(file).SheetNames.at(-1), XLSX.read(file).Sheets["Log & more"]?.B2?.v]).toEqual([name, "Log & more", 3.5]);
    const some = [...merged].filter(([name]) => /links-picture|pivot-kept|xlsxwriter-charts/.test(name));
    const flat = convert(Object.fromEntries(some), "fods");
    for (const [name] of some) expect([name, /table:name="Log &amp; more"/.test(flat[name]?.toString("utf8") ?? ""), /office:value="3.5"/.test(flat[name]?.toString("utf8") ?? "")]).toEqual([name, true, true]);
  });
});

describe("sheets of the file", () => {
  test("are renamed, hidden, put in another order and taken out, with the names that belong to them", async () => {
    const before = await writeBook({ ...wholeBook(), sheets: wholeBook().sheets.map(({ name, cells, hidden, veryHidden }): NewSheet => ({ name, cells, ...(hidden ? { hidden } : {}), ...(veryHidden ? { veryHidden } : {}) })), names: [{ name: "Local", ref: "'Foods & more'!$A$2", sheet: 1 }] });
    const after = await merge(before, (book, ids) => {
      book.sheets.reverse();
      ids.reverse();
      book.sheets.shift();
      ids.shift();
      const [foods, log] = book.sheets;
      if (foods) foods.hidden = true;
      if (log) log.name = "Diary";
    });
    const { book } = await readWorkbook(after);
    expect(book.sheets.map(({ hidden, name }) => [name, hidden === true])).toEqual([["Foods & more", true], ["Diary", false]]);
    expect(partText(after, "xl/workbook.xml")).toContain('<definedName name="Local" localSheetId="0">');
    expect(zipEntries(after).map((entry) => entry.name)).not.toContain("xl/worksheets/sheet3.xml");
    expect(partText(after, "[Content_Types].xml")).not.toContain("sheet3.xml");
  });

  test("that are taken out leave no name, list or link that names them", async () => {
    const cells = new Map<string, NewCell>([["A1", { value: 3 }], ["B1", { value: 6, formula: "Foods!A1*2" }], ["B2", { value: 6, formula: "Portion*2" }]]);
    const before = await writeBook({
      sheets: [{ name: "Foods", cells: new Map([["A1", { value: 3 }]]) }, { name: "Log", cells, validations: [{ range: "C1:C9", kind: "list", formula1: "Foods!$A$1:$A$3", allowsBlank: true }] }],
      names: [{ name: "Portion", ref: "Foods!$A$1" }, { name: "Own", ref: "Log!$A$1" }],
      date1904: false,
    });
    const after = await merge(before, ({ sheets }, ids) => {
      sheets.shift();
      ids.shift();
      sheets[0]?.cells.set("B1", { value: "#REF!", formula: "#REF!*2" }).set("B2", { value: "#REF!", formula: "Portion*2" });
    });
    const { book } = await readWorkbook(after);
    expect(partText(after, "xl/workbook.xml")).toContain('<definedName name="Own">Log!$A$1</definedName><definedName name="Portion">#REF!</definedName>');
    expect(["B1", "B2"].map((at) => [book.sheets[0]?.cells.get(at)?.formula, book.sheets[0]?.cells.get(at)?.value])).toEqual([["#REF!*2", "#REF!"], ["Portion*2", "#REF!"]]);
    expect(partText(after, "xl/worksheets/sheet2.xml")).not.toContain("Foods");
  });

  test("with something unseen stay as they are: no file is made when rows went to another place beside a picture, and none when a sheet that a pivot table may read is taken out", async () => {
    const picture = await tryMerge(bytesOf("openpyxl-comments-links-picture.xlsx"), () => undefined, new Set(["sheet1"]));
    expect([picture.file, picture.unshown]).toEqual([null, [["hyperlink", 2], ["picture", 1], ["comment", 2]]]);
    const pivot = await tryMerge(bytesOf("openpyxl-pivot-kept.xlsx"), ({ sheets }, ids) => {
      sheets.shift();
      ids.shift();
    });
    expect(pivot.file).toBeNull();
    expect(pivot.unshown.map(([kind]) => kind)).toContain("pivotTable");
    const renamed = await merge(bytesOf("openpyxl-pivot-kept.xlsx"), ({ sheets: [first] }) => {
      if (first) first.name = "Other";
    });
    expect(partText(renamed, "xl/pivotCache/pivotCacheDefinition1.xml")).toMatch(/<worksheetSource[^>]* sheet="Other"/);
  });
});

const LAYOUT = '<sheetFormatPr defaultRowHeight="15"/><cols><col min="1" max="3" width="12" style="0" customWidth="1"/><col min="4" max="16384" width="9"/></cols>';
const AFTER = '<pageMargins left="0.7" right="0.7" top="0.75" bottom="0.75" header="0.3" footer="0.3"/><drawing r:id="rIdX"/><extLst><ext uri="{0}"/></extLst>';
const part = (file: Uint8Array) => partText(file, "xl/worksheets/sheet1.xml");

describe("a sheet's layout", () => {
  const before = new Uint8Array(handMade({ rows: '<row r="1" spans="1:2"><c r="A1"><v>1</v></c></row><row r="4"><c r="A4"><v>4</v></c></row>', before: LAYOUT, after: AFTER }));

  test("is written into its own elements, all else stays", async () => {
    const after = await merge(before, ({ sheets: [log] }) => {
      if (!log) return;
      log.columnWidths = [12, 20.5, 12];
      log.hiddenColumns = [3];
      log.rowHeights = new Map([[1, 30], [3, 18]]);
      log.hiddenRows = [4];
      log.merges = ["A1:B2"];
      log.frozenRows = 1;
      log.tabColor = "#0f766e";
      log.hideGridLines = true;
    });
    const xml = part(after);
    expect(xml).toContain('<cols><col min="1" max="1" width="12" style="0" customWidth="1"/><col min="2" max="2" width="20.5" style="0" customWidth="1"/><col min="3" max="3" width="12" style="0" customWidth="1" hidden="1"/><col min="4" max="16384" width="9"/></cols>');
    expect(xml).toContain('<row r="1" spans="1:2" ht="30" customHeight="1"><c r="A1"><v>1</v></c></row><row r="3" ht="18" customHeight="1"/><row r="4" hidden="1">');
    expect(xml).toContain(`</sheetData><mergeCells count="1"><mergeCell ref="A1:B2"/></mergeCells>${AFTER}`);
    expect(xml).toMatch(/<worksheet [^>]*><sheetPr><tabColor rgb="FF0F766E"\/><\/sheetPr><sheetViews><sheetView workbookViewId="0" showGridLines="0"><pane ySplit="1" topLeftCell="A2"/);
    const { book } = await readWorkbook(after);
    expect(book.sheets[0]).toMatchObject({ columnWidths: [12, 20.5, 12], hiddenColumns: [3], hiddenRows: [4], merges: ["A1:B2"], frozenRows: 1, tabColor: "#0f766e", hideGridLines: true });
  });

  test("is the same again when it is taken back", async () => {
    const wide = await merge(before, ({ sheets: [log] }) => {
      if (log) log.merges = ["A1:B2"];
    });
    const back = await merge(wide, ({ sheets: [log] }) => {
      if (log) log.merges = [];
    });
    expect(part(back)).toBe(part(before));
  });
});

describe("the look of a cell", () => {
  test("differs in what was changed only: letters, protection and indent of the file stay", async () => {
    const styles = '<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><fonts count="2"><font><sz val="11"/><name val="Calibri"/></font><font><i/><sz val="14"/><color theme="4"/><name val="Georgia"/><family val="1"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border/></borders><cellStyleXfs count="1"><xf/></cellStyleXfs><cellXfs count="2"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/><xf numFmtId="2" fontId="1" fillId="0" borderId="0" xfId="0"><alignment indent="2"/><protection locked="0"/></xf></cellXfs></styleSheet>';
    const before = new Uint8Array(handMade({ rows: '<row r="1"><c r="A1" s="1"><v>1</v></c><c r="B1" s="1"><v>2</v></c></row>', links: { styles: "styles.xml" }, parts: { "xl/styles.xml": styles } }));
    const after = await merge(before, ({ sheets: [log] }) => {
      log?.cells.set("A1", { value: 1, style: { ...log.cells.get("A1")?.style, bold: true, fill: "#fef9c3", numberFormat: '0.0" g"', align: "right" } });
    });
    const xml = partText(after, "xl/styles.xml");
    expect(xml).toContain('<numFmts count="1"><numFmt numFmtId="164" formatCode="0.0&quot; g&quot;"/></numFmts><fonts count="3">');
    expect(xml).toContain('<font><b/><i/><sz val="14"/><color theme="4"/><name val="Georgia"/><family val="1"/></font></fonts>');
    expect(xml).toContain('<xf numFmtId="164" fontId="2" fillId="2" borderId="0" xfId="0" applyNumberFormat="1" applyFont="1" applyFill="1" applyAlignment="1"><alignment indent="2" horizontal="right"/><protection locked="0"/></xf></cellXfs>');
    expect(part(after)).toContain('<c r="A1" s="2"><v>1</v></c><c r="B1" s="1"><v>2</v></c>');
  });
});

test("a file without styles gets them with its first look, and its other cells look as before", async () => {
  const after = await merge(new Uint8Array(handMade({ rows: '<row r="1"><c r="A1"><v>1</v></c><c r="B1"><v>2</v></c></row>' })), ({ sheets: [log] }) => {
    log?.cells.set("A1", { value: 1, style: { bold: true } });
  });
  const { book } = await readWorkbook(after);
  expect([book.sheets[0]?.cells.get("A1"), book.sheets[0]?.cells.get("B1")]).toEqual([{ value: 1, style: { bold: true } }, { value: 2 }]);
  expect(XLSX.read(after).Sheets.Log?.B1?.v).toBe(2);
});

describe("rules", () => {
  const RULES = '<conditionalFormatting sqref="A1:A9"><cfRule type="dataBar" priority="2"><dataBar><cfvo type="min"/><cfvo type="max"/><color rgb="FF638EC6"/></dataBar></cfRule><cfRule type="expression" dxfId="0" priority="1"><formula>A1&gt;5</formula></cfRule></conditionalFormatting><dataValidations count="2"><dataValidation type="list" allowBlank="1" sqref="B1:B9"><formula1>"a,b"</formula1></dataValidation><dataValidation type="whole" operator="greaterThan" sqref="C1 D1"><formula1>1</formula1></dataValidation></dataValidations>';
  const STYLES = '<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><fonts count="1"><font/></fonts><fills count="1"><fill/></fills><borders count="1"><border/></borders><cellXfs count="1"><xf/></cellXfs><dxfs count="1"><dxf><font><b/><color rgb="FFFF0000"/></font></dxf></dxfs></styleSheet>';
  const before = new Uint8Array(handMade({ rows: '<row r="1"><c r="A1"><v>1</v></c></row>', after: RULES, links: { styles: "styles.xml" }, parts: { "xl/styles.xml": STYLES } }));
  /** As the grid holds them: one rule for each range. */
  const split = (sheet: NewSheet) => {
    sheet.validations = (sheet.validations ?? []).flatMap((rule) => rule.range.split(" ").map((range) => ({ ...rule, range })));
  };

  test("that are added stand beside those of the file, in front or behind, and the data bar stays", async () => {
    const after = await merge(before, ({ sheets: [log] }) => {
      if (!log) return;
      log.conditionalFormats = [{ range: "C1", formula: "C1=1", style: { fill: "#dbeafe" } }, ...(log.conditionalFormats ?? []), { range: "D1", formula: "D1=1", style: { bold: true } }];
    });
    const xml = part(after);
    expect([...xml.matchAll(/<cfRule type="(\w+)"(?: dxfId="(\d+)")? priority="(\d+)"/g)].map(([, type, look, priority]) => [type, look, priority])).toEqual([["dataBar", undefined, "3"], ["expression", "0", "2"], ["expression", "1", "1"], ["expression", "2", "4"]]);
    expect(partText(after, "xl/styles.xml")).toContain('<dxfs count="3">');
    const { extras, unshown } = await readWorkbook(after);
    expect([extras.sheets[0]?.conditionalFormats.map(({ formula, range }) => [range, formula]), unshown]).toEqual([[["C1", "C1=1"], ["A1:A9", "A1>5"], ["D1", "D1=1"]], [["conditionalFormat", 1]]]);
  });

  test("of which one range is cleared are written anew for the others, and the rest stays as it was", async () => {
    const original = await merge(before, () => undefined);
    const after = await mergeSplit(original, (sheet) => {
      sheet.validations = sheet.validations?.filter(({ range }) => range !== "D1") ?? [];
    });
    expect(part(after)).toContain('<dataValidations count="2"><dataValidation type="list" allowBlank="1" sqref="B1:B9"><formula1>"a,b"</formula1></dataValidation><dataValidation type="whole" operator="greaterThan"');
    const { extras } = await readWorkbook(after);
    expect(extras.sheets[0]?.validations.map(({ kind, range }) => [kind, range])).toEqual([["list", "B1:B9"], ["whole", "C1"]]);
  });

  /** With the state before split as the grid splits it. */
  async function mergeSplit(original: Uint8Array, change: (sheet: NewSheet) => void): Promise<Uint8Array> {
    const { mergeBook } = await import("../../src/files/merge/merge-book");
    const { asWritten } = await import("./whole-book");
    const [was, is] = [asWritten(await readWorkbook(original)), asWritten(await readWorkbook(original))];
    for (const book of [was, is]) book.sheets.forEach(split);
    is.sheets.forEach(change);
    const { file, reason } = await mergeBook({ original, before: { ids: ["sheet1"], book: was }, now: { ids: ["sheet1"], book: is }, shifted: new Set() });
    if (!file) throw new Error(reason);
    return file;
  }
});

describe("tables and charts of the file", () => {
  test("a table that grows and gets another heading keeps all else, and a new one stands beside it", async () => {
    const before = await writeBook({ ...wholeBook(), names: [] });
    const after = await merge(before, ({ sheets: [log] }) => {
      const [table] = log?.tables ?? [];
      if (!log || !table) return;
      log.cells.set("B1", { ...log.cells.get("B1"), value: "Nitrate & more" });
      log.cells.set("A4", { value: 46067 });
      for (const [address, value] of [["H1", "x"], ["I1", "y"], ["H2", 1]] as const) log.cells.set(address, { value });
      log.tables = [{ ...table, ref: "A1:C4" }, { name: "Second", ref: "H1:I2" }];
    });
    expect(partText(after, "xl/tables/table1.xml")).toContain('name="LogTable" displayName="LogTable" ref="A1:C4"');
    expect(partText(after, "xl/tables/table1.xml")).toContain('<autoFilter ref="A1:C4"/><tableColumns count="3"><tableColumn id="1" name="Date"/><tableColumn id="2" name="Nitrate &amp; more"/>');
    const { book } = await readWorkbook(after);
    expect(book.sheets[0]?.tables?.map(({ columns, name, ref }) => [name, ref, columns])).toEqual([["LogTable", "A1:C4", ["Date", "Nitrate & more", "N, g"]], ["Second", "H1:I2", ["x", "y"]]]);
    expect(part(after)).toContain('<tableParts count="2">');
  });

  test("a chart that reads more rows keeps its looks, and a new one stands beside it", async () => {
    const before = await writeBook({ ...wholeBook(), names: [] });
    const wanted = ((await readWorkbook(before)).extras.sheets[0]?.charts ?? []).map((chart, i) => (i === 0 ? { ...chart, series: chart.series.map((one) => ({ ...one, values: one.values?.replace("$3", "$30") ?? null })) } : chart));
    const added = { ...(wanted[1] as (typeof wanted)[number]), name: "Added", position: "J50:L60" };
    const after = await merge(before, ({ sheets: [log] }) => {
      if (log) log.charts = [...wanted, added];
    });
    const { extras } = await readWorkbook(after);
    expect(extras.sheets[0]?.charts.map(({ name, position, series }) => [name, position, series.map(({ values, xValues }) => [values, xValues])])).toEqual([...wanted, added].map(({ name, position, series }) => [name, position, series.map(({ values, xValues }) => [values, xValues])]));
    const [old, now] = [before, after].map((file) => partText(file, "xl/charts/chart1.xml"));
    expect(now).toBe(old?.replace("Log!$B$2:$B$3", "Log!$B$2:$B$30").replace("'Foods &amp; more'!$B$2:$B$3", "'Foods &amp; more'!$B$2:$B$30"));
  });
});

describe("rules that compare cells", () => {
  const RULES = [
    ["greaterThan", "<formula>5</formula>", "A2>(5)"],
    ["equal", "<formula>$D$1+1</formula>", "A2=($D$1+1)"],
    ["between", "<formula>9</formula><formula>3</formula>", "AND(A2>=MIN(9,3),A2<=MAX(9,3))"],
    ["notBetween", "<formula>3</formula><formula>9</formula>", "OR(A2<MIN(3,9),A2>MAX(3,9))"],
  ] as const;
  const STYLES = `<styleSheet xmlns="${MAIN}"><fonts count="1"><font/></fonts><fills count="1"><fill/></fills><borders count="1"><border/></borders><cellXfs count="1"><xf/></cellXfs><dxfs count="1"><dxf><fill><patternFill patternType="solid"><bgColor rgb="FFFFC7CE"/></patternFill></fill></dxf></dxfs></styleSheet>`;
  const written = RULES.map(([operator, formulas], i) => `<conditionalFormatting sqref="A2:A9"><cfRule type="cellIs" dxfId="0" priority="${i + 1}" operator="${operator}">${formulas}</cfRule></conditionalFormatting>`);
  const original = new Uint8Array(handMade({ rows: '<row r="1"><c r="A1"><v>1</v></c></row>', after: written.join(""), parts: { "xl/styles.xml": STYLES }, links: { styles: "styles.xml" } }));

  test("are shown as formulas that say the same", async () => {
    const { extras, unshown } = await readWorkbook(original);
    expect(extras.sheets[0]?.conditionalFormats.map(({ formula }) => formula)).toEqual(RULES.map(([, , formula]) => formula));
    expect(unshown).toEqual([]);
  });

  test("stay such rules in the file, but for one that is changed", async () => {
    const file = await merge(original, ({ sheets: [log] }) => {
      const rules = log?.conditionalFormats ?? [];
      if (log) log.conditionalFormats = [...rules.slice(0, 3), { ...(rules[3] as (typeof rules)[number]), formula: "A2=7" }];
    });
    const sheet = partText(file, "xl/worksheets/sheet1.xml");
    for (const rule of written.slice(0, 3)) expect(sheet).toContain(rule);
    expect(sheet).toContain('<cfRule type="expression" dxfId="1" priority="4"><formula>A2=7</formula></cfRule>');
    expect(sheet).not.toContain("notBetween");
  });
});

describe("a file of the strict edition", () => {
  const strict = (text: string) =>
    text
      .replaceAll("http://schemas.openxmlformats.org/spreadsheetml/2006/main", "http://purl.oclc.org/ooxml/spreadsheetml/main")
      .replaceAll("http://schemas.openxmlformats.org/officeDocument/2006/relationships", "http://purl.oclc.org/ooxml/officeDocument/relationships");
  const original = new Uint8Array(zipOf(handMadeParts({ rows: '<row r="1"><c r="A1"><v>1</v></c></row>' }).map((part) => ({ ...part, content: strict(String(part.content)) }))));

  test("holds what comes in under the names of that edition, and opens in LibreOffice", async () => {
    const file = await merge(original, (book, ids) => {
      book.sheets.push(WEEKLY);
      ids.push("new");
      book.xmlParts?.push(JOIN);
      book.sheets[0]?.cells.set("A1", { value: 2 });
    });
    const added = zipEntries(file).map(({ name }) => name).filter((name) => /\.(xml|rels)$/.test(name) && !/Content_Types|item\d+\.xml$/.test(name));
    expect(added.length).toBeGreaterThan(9);
    for (const part of added) expect([part, partText(file, part).match(/http:\/\/schemas\.openxmlformats\.org\/(?:spreadsheetml|drawingml|officeDocument)[^"]*/)]).toEqual([part, null]);
    const { book, extras } = await readWorkbook(file);
    expect([book.sheets.map(({ name }) => name), book.sheets[1]?.tables?.[0]?.name, extras.sheets[1]?.charts.length, extras.xmlParts[0]?.id]).toEqual([["Log", WEEKLY.name], "WeeklyLog", 1, JOIN.id]);
    const shown = convert({ "strict.xlsx": file }, "fods")["strict.xlsx"]?.toString("utf8") ?? "";
    expect(["<chart:series", 'table:name="WeeklyLog"', "Feed"].map((what) => shown.includes(what))).toEqual([true, true, true]);
  });
});

test("a file that says of each part by itself what it is says so of XML parts that come in", async () => {
  const parts = handMadeParts({ rows: "" }).map((part) => ({ ...part, content: String(part.content).replace('<Default Extension="xml" ContentType="application/xml"/>', "") }));
  const file = await merge(new Uint8Array(zipOf(parts)), ({ xmlParts }) => void xmlParts?.push(JOIN));
  expect(partText(file, "[Content_Types].xml")).toContain('<Override PartName="/customXml/item1.xml" ContentType="application/xml"/>');
  expect((await readWorkbook(file)).extras.xmlParts).toEqual([JOIN]);
});
