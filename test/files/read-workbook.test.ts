import fc from "fast-check";
import * as XLSX from "@e965/xlsx";
import { writeBook } from "../../src/files/new-book";
import { readWorkbook } from "../../src/files/read-workbook";
import { unshownSentence } from "../../src/host/page/open-file";
import { Problem } from "../../src/science/problem";
import { handMade, type HandMade, MAIN } from "./hand-made";
import { convert } from "./libreoffice";
import { asWritten, wholeBook } from "./whole-book";
import { partText, zipEntries } from "./zip-bytes";

const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const rels = (...links: [id: string, kind: string, target: string][]) =>
  `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${links.map(([id, kind, target]) => `<Relationship Id="${id}" Type="${OFFICE}/${kind}" Target="${target}"/>`).join("")}</Relationships>`;

describe("a workbook with something of each kind", () => {
  test("is read back as it was written, and again when it is written once more", async () => {
    const { font, ...given } = wholeBook();
    const first = await readWorkbook(await writeBook(wholeBook()));
    // A name of one sheet is read as one that all sheets know, where no other is spelt alike.
    expect(asWritten(first)).toEqual({ ...given, names: given.names.map(({ name, ref }) => ({ name, ref })) });
    expect(first.unshown).toEqual([]);
    const again = await readWorkbook(await writeBook({ ...asWritten(first), font }));
    expect(again).toEqual(first);
  });

  test("has no part that another does not name, and a content type for each", async () => {
    const bytes = await writeBook(wholeBook());
    const names = zipEntries(bytes).map(({ name }) => name);
    const types = partText(bytes, "[Content_Types].xml");
    const links = names.filter((name) => name.endsWith(".rels")).map((name) => partText(bytes, name)).join("");
    expect(names).toEqual(expect.arrayContaining(["xl/charts/chart7.xml", "xl/drawings/drawing1.xml", "xl/tables/table1.xml", "customXml/item1.xml", "customXml/itemProps1.xml", "xl/metadata.xml"]));
    for (const name of names.filter((one) => !one.endsWith(".rels") && one !== "[Content_Types].xml")) {
      expect(links).toContain(name.split("/").pop());
      if (!/customXml\/item\d/.test(name)) expect(types).toContain(`PartName="/${name}"`);
    }
  });

  test("opens in another library with its names, sheets and formulas", async () => {
    const book = XLSX.read(await writeBook(wholeBook()));
    expect(book.Workbook?.Sheets?.map(({ Hidden }) => Hidden)).toEqual([0, 0, 2]);
    expect(book.Workbook?.Names?.map(({ Name, Ref, Sheet }) => [Name, Ref, Sheet])).toEqual([
      ["_xlnm.Print_Area", "Log!$A$1:$F$9", 0],
      ["_xlnm.Print_Area", "'Foods & more'!$A:$C", 1],
      ["_xlnm.Print_Titles", "Log!$1:$3", 0],
      ["Feed", "Log!$B$2:$B$3", undefined],
      ["Local", "'Foods & more'!$A$2", 1],
      ["Setup", "'Foods & more'!$A$1:$B$9", undefined],
    ]);
    expect(book.Sheets.Log?.C2).toMatchObject({ v: 0.226, f: '_xldudf_ALGAL_WATER_STORE_N(B2,"NO3",100)' });
    expect(book.Sheets.Log?.F1).toMatchObject({ F: "F1" });
  });

  test("opens in LibreOffice, which writes the same charts, rules, names and tables", async () => {
    const { book, extras, unshown } = await readWorkbook(convert({ "book.xlsx": await writeBook(wholeBook()) }, "xlsx")["book.xlsx"] ?? Buffer.alloc(0));
    const [log] = extras.sheets;
    const charts = wholeBook().sheets[0]?.charts ?? [];
    expect(unshown.filter(([kind]) => kind === "otherChart" || kind === "validation" || kind === "conditionalFormat")).toEqual([]);
    expect(log?.charts.map(({ kind }) => kind)).toEqual(charts.map(({ kind }) => kind));
    expect(log?.charts[0]).toMatchObject({ title: "Nitrate & <limits>", categoryTitle: "Date", valueTitle: "mg/L", legend: true, series: [{ values: "Log!$B$2:$B$3", xValues: "Log!$A$2:$A$3" }, { values: "'Foods & more'!$B$2:$B$3" }] });
    expect(log?.validations.map(({ kind, formula1 }) => [kind, formula1.replace(/""/g, '"')]).sort()).toEqual([["custom", "ISNUMBER(G4)"], ["date", "32874"], ["decimal", "0"], ["list", '"harvest,week,"month"'], ["list", "'Foods & more'!$A$2:$A$9"]]);
    expect(log?.conditionalFormats.map(({ formula, text }) => text?.text ?? formula).sort()).toEqual(['<5 "kit" & more', 'AND($A4="",COUNTA($B4:$C4)>0)', "Cannot"]);
    expect(log?.print).toMatchObject({ orientation: "landscape", titleRows: { from: 1, to: 3 }, area: "A1:F9" });
    // Panes and grid lines belong to a window, which LibreOffice has none of here.
    expect(book.sheets[0]).toMatchObject({ merges: ["D5:F6"], tabColor: "#0f766e", tables: [{ name: "LogTable", ref: "A1:C3" }] });
    expect(book.names.map(({ name }) => name)).toEqual(expect.arrayContaining(["Feed", "Setup"]));
  });
});

describe("what the grid has not is counted", () => {
  const drawing = (inside: string) => `<xdr:wsDr xmlns:xdr="http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing" xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main" xmlns:r="${OFFICE}">${inside}</xdr:wsDr>`;
  const anchor = (inside: string, from = "<xdr:row>1</xdr:row><xdr:col>1</xdr:col>", to = "<xdr:row>9</xdr:row><xdr:rowOff>5</xdr:rowOff><xdr:col>4</xdr:col><xdr:colOff>0</xdr:colOff>") => `<xdr:twoCellAnchor><xdr:from>${from}</xdr:from><xdr:to>${to}</xdr:to>${inside}</xdr:twoCellAnchor>`;
  const frame = (id: string) => `<xdr:graphicFrame><xdr:nvGraphicFramePr><xdr:cNvPr id="2" name="One"/></xdr:nvGraphicFramePr><a:graphic><a:graphicData><c:chart xmlns:c="http://schemas.openxmlformats.org/drawingml/2006/chart" r:id="${id}"/></a:graphicData></a:graphic></xdr:graphicFrame>`;
  const chart = (plot: string) => `<c:chartSpace xmlns:c="http://schemas.openxmlformats.org/drawingml/2006/chart" xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main"><c:chart><c:plotArea>${plot}</c:plotArea></c:chart></c:chartSpace>`;
  const AXES = '<c:catAx><c:axPos val="b"/></c:catAx><c:valAx><c:axPos val="l"/></c:valAx>';
  const columns = (formula: string) => chart(`<c:barChart><c:barDir val="col"/><c:grouping val="clustered"/><c:ser><c:val><c:numRef><c:f>${formula}</c:f></c:numRef></c:val></c:ser></c:barChart>${AXES}`);
  const withDrawing = (inside: string, charts: Record<string, string> = {}): HandMade => ({
    rows: "",
    after: '<drawing r:id="rId1"/>',
    parts: {
      "xl/worksheets/_rels/sheet1.xml.rels": rels(["rId1", "drawing", "../drawings/drawing1.xml"]),
      "xl/drawings/drawing1.xml": drawing(inside),
      "xl/drawings/_rels/drawing1.xml.rels": rels(...Object.keys(charts).map((id): [string, string, string] => [id, "chart", `../charts/${id}.xml`])),
      ...Object.fromEntries(Object.entries(charts).map(([id, xml]) => [`xl/charts/${id}.xml`, xml])),
    },
  });

  test.each<[string, string]>([
    ["a pie", chart('<c:pieChart><c:ser><c:val><c:numRef><c:f>Log!$A$1</c:f></c:numRef></c:val></c:ser></c:pieChart>')],
    ["bars that lie", columns("Log!$A$1:$A$9").replace('"col"', '"bar"')],
    ["two kinds of plot in one", columns("Log!$A$1:$A$9").replace("<c:catAx>", "<c:lineChart/><c:catAx>")],
    ["a range in two pieces", columns("(Log!$A$1:$A$9,Log!$C$1:$C$9)")],
    ["a range of another workbook", columns("'[1]Log'!$A$1:$A$9")],
    ["a name", columns("Book!Feed")],
    ["nothing that a chart needs", "<c:chartSpace xmlns:c='urn:x'><c:barDir/><c:grouping/><c:axPos/><c:symbol/><c:smooth/><c:title/></c:chartSpace>"],
  ])("a chart with %s", async (_what, xml) => {
    const { extras, unshown } = await readWorkbook(handMade(withDrawing(anchor(frame("rId1")), { rId1: xml })));
    expect([extras.sheets[0]?.charts, unshown]).toEqual([[], [["otherChart", 1]]]);
  });

  test("a chart that it has is placed on the cells under it, wherever a damaged file puts it", async () => {
    const at = async (from?: string, to?: string) => (await readWorkbook(handMade(withDrawing(anchor(frame("rId1"), from, to), { rId1: columns("Log!$A$1:$A$9") })))).extras.sheets[0]?.charts[0];
    expect(await at()).toEqual({ name: "One", kind: "ColumnClustered", title: null, categoryTitle: null, valueTitle: null, legend: false, series: [{ name: "", values: "Log!$A$1:$A$9", xValues: null }], position: "B2:D10" });
    expect((await at("<xdr:row>x</xdr:row><xdr:col>-3</xdr:col>"))?.position).toBe("A1:D10");
    expect((await at("<xdr:row>99999999</xdr:row><xdr:col>99999999</xdr:col>", ""))?.position).toBe("XFD1048576");
  });

  test("pictures, shapes, comments, links and what else stands beside cells", async () => {
    const made = withDrawing(anchor("<xdr:pic/>") + anchor("<xdr:sp/>") + anchor("<xdr:pic/>"));
    const { unshown } = await readWorkbook(
      handMade({
        ...made,
        after: `<sheetProtection sheet="1"/><conditionalFormatting sqref="A1:A9"><cfRule type="colorScale" priority="1"/></conditionalFormatting><dataValidations><dataValidation type="none" sqref="A1"/><dataValidation type="whole" operator="near" sqref="A1"><formula1>1</formula1></dataValidation></dataValidations><hyperlinks><hyperlink ref="A1"/></hyperlinks><headerFooter><oddHeader>&amp;L</oddHeader></headerFooter>${made.after}`,
        links: { externalLink: "externalLinks/externalLink1.xml", vbaProject: "vbaProject.bin" },
        parts: { ...made.parts, "xl/worksheets/_rels/sheet1.xml.rels": rels(["rId1", "drawing", "../drawings/drawing1.xml"], ["rId2", "comments", "../comments1.xml"], ["rId3", "pivotTable", "../pivot.xml"]), "xl/comments1.xml": `<comments xmlns="${MAIN}"><commentList><comment ref="A1"/><comment ref="A2"/></commentList></comments>` },
      }),
    );
    expect(Object.fromEntries(unshown)).toEqual({ externalLink: 1, macro: 1, protection: 1, conditionalFormat: 1, validation: 1, hyperlink: 1, headerFooter: 1, picture: 2, shape: 1, comment: 2, pivotTable: 1 });
  });
});

describe("a damaged part beyond the cells is refused with a sentence, never anything else", () => {
  test("a styles part, a drawing or a chart that is cut off", async () => {
    const whole = await writeBook(wholeBook());
    for (const name of ["xl/styles.xml", "xl/drawings/drawing1.xml", "xl/charts/chart1.xml", "xl/tables/table1.xml"]) {
      const { openArchive } = await import("../../src/files/archive");
      const cut = partText(whole, name).slice(0, -20);
      const damaged = await (await openArchive(whole)).withParts(new Map([[name, new TextEncoder().encode(cut)]]));
      await expect(readWorkbook(damaged)).rejects.toThrow(new Problem("value", `The workbook is damaged: its part ${name} cannot be read.`));
    }
  });

  test("whatever bits are flipped", async () => {
    const whole = Buffer.from(await writeBook(wholeBook()));
    await fc.assert(
      fc.asyncProperty(fc.nat(whole.length - 1), fc.nat(7), async (place, bit) => {
        const bytes = Buffer.from(whole);
        bytes[place] = (bytes[place] ?? 0) ^ (1 << bit);
        await readWorkbook(bytes).catch((error: unknown) => expect(error).toBeInstanceOf(Problem));
      }),
      { numRuns: 150 },
    );
  });

  test("whatever word of a part is another one", async () => {
    const { openArchive } = await import("../../src/files/archive");
    const whole = await writeBook(wholeBook());
    const archive = await openArchive(whole);
    const names = ["xl/worksheets/sheet1.xml", "xl/drawings/drawing1.xml", "xl/charts/chart1.xml", "xl/styles.xml", "xl/workbook.xml", "xl/tables/table1.xml", "customXml/itemProps1.xml"];
    await fc.assert(
      fc.asyncProperty(fc.constantFrom(...names), fc.nat(400), fc.constantFrom("", "-1", "1e9", "NaN", "A1:ZZZ9", "#REF!", "none"), async (name, nth, word) => {
        let at = -1;
        const changed = partText(whole, name).replace(/"[^"]*"|>[^<>]+</g, (found) => ((at += 1) === nth ? `${found[0]}${word}${found[found.length - 1]}` : found));
        const bytes = await archive.withParts(new Map([[name, new TextEncoder().encode(changed)]]));
        const read = await readWorkbook(bytes).catch((error: unknown) => {
          expect(error).toBeInstanceOf(Problem);
          return undefined;
        });
        // What was read can be written, or is refused with a sentence.
        if (read) await writeBook(asWritten(read)).catch((error: unknown) => expect(error).toBeInstanceOf(Problem));
      }),
      { numRuns: 100 },
    );
  });
});

test("names, texts with several looks, what-if tables and groups that the grid does not show are counted, each kind", async () => {
  const made = handMade({
    rows: '<row r="1" outlineLevel="1"><c r="A1" t="s"><v>0</v></c><c r="B1"><f t="dataTable" ref="B1:B2" r1="A1"/><v>1</v></c><c r="C1" t="inlineStr"><is><r><t>a</t></r><r><t>b</t></r></is></c></row>',
    names: '<definedNames><definedName name="Feed">Log!$A$1</definedName><definedName name="Left">Log!A1</definedName><definedName name="Gone">#REF!</definedName><definedName name="_xlnm.Print_Area" localSheetId="0">Log!$A$1</definedName></definedNames>',
    parts: { "xl/sharedStrings.xml": `<sst xmlns="${MAIN}"><si><r><t>one </t></r><r><rPr><b/></rPr><t>two</t></r></si><si><t>plain</t></si></sst>` },
    links: { sharedStrings: "sharedStrings.xml" },
  });
  const { book, unshown } = await readWorkbook(made);
  expect(book.names.map(({ name }) => name)).toEqual(["Feed"]);
  expect(Object.fromEntries(unshown)).toEqual({ name: 2, richText: 2, whatIf: 1, group: 1 });
  expect(unshownSentence(unshown)).toBe("Not shown here, and kept in the file when you download it: 2 names that the grid does not know, 2 texts with several looks, 1 what-if table, 1 sheet with groups of rows or columns.");
});
