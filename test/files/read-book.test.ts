import * as XLSX from "@e965/xlsx";
import type { BookCell, BookSheet } from "../../src/files/book";
import { readBook } from "../../src/files/read-book";
import { handMade, type HandMade, MAIN } from "./hand-made";
import { convert } from "./libreoffice";

async function sheetOf(made: HandMade): Promise<BookSheet> {
  const [sheet] = (await readBook(handMade(made))).sheets;
  if (!sheet) throw new Error("no sheet");
  return sheet;
}

const cells = async (made: HandMade) => Object.fromEntries((await sheetOf(made)).cells);

describe("the values of cells", () => {
  test("are numbers, texts, booleans, error codes and nothing", async () => {
    const rows = `<row r="1"><c r="A1"><v>0.1</v></c><c r="B1" t="n"><v>-1.5E-3</v></c><c r="C1" t="b"><v>1</v></c><c r="D1" t="b"><v>0</v></c><c r="E1" t="e"><v>#N/A</v></c><c r="F1" t="str"><v>text</v></c><c r="G1"/><c r="H1"><v/></c></row>`;
    expect(await cells({ rows })).toEqual({ A1: { value: 0.1 }, B1: { value: -0.0015 }, C1: { value: true }, D1: { value: false }, E1: { value: "#N/A" }, F1: { value: "text" } });
  });

  test("are found without addresses, counted from the cell and row before", async () => {
    const rows = "<row><c><v>1</v></c><c><v>2</v></c></row><row><c><v>3</v></c></row><row r='7'><c r='C7'><v>4</v></c><c><v>5</v></c></row>";
    expect(await cells({ rows })).toEqual({ A1: { value: 1 }, B1: { value: 2 }, A2: { value: 3 }, C7: { value: 4 }, D7: { value: 5 } });
  });

  test("may be texts of their own or shared ones, plain or rich, without the reading aids beside them", async () => {
    const rows = `<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v>1</v></c><c r="C1" t="inlineStr"><is><r><t>a </t></r><r><rPr><b/></rPr><t>b</t></r><rPh sb="0" eb="1"><t>no</t></rPh></is></c><c r="D1" t="inlineStr"><is><t><![CDATA[<x>]]></t></is></c></row>`;
    const sst = `<sst xmlns="${MAIN}"><si><t xml:space="preserve"> plain </t></si><si><r><t>ri</t></r><r><t>ch</t></r><rPh sb="0" eb="1"><t>no</t></rPh></si></sst>`;
    expect(await cells({ rows, links: { sharedStrings: "sharedStrings.xml" }, parts: { "xl/sharedStrings.xml": sst } })).toEqual({ A1: { value: " plain " }, B1: { value: "rich" }, C1: { value: "a b" }, D1: { value: "<x>" } });
  });

  test("are decoded where they were coded for the file", async () => {
    const rows = `<row r="1"><c r="A1" t="str"><v>a_x000D_&#10;b&amp;&lt;_x005F_x0041__x0009_</v></c></row>`;
    expect((await cells({ rows })).A1).toEqual({ value: "a\r\nb&<_x0041_\t" });
  });

  test("may be dates as ISO texts, which are their serial numbers in the workbook's own count", async () => {
    const rows = `<row r="1"><c r="A1" t="d"><v>2026-01-31</v></c><c r="B1" t="d"><v>2026-01-31T18:00:00</v></c><c r="C1" t="d"><v>1900-02-01</v></c></row>`;
    expect(await cells({ rows })).toEqual({ A1: { value: 46053 }, B1: { value: 46053.75 }, C1: { value: 32 } });
    const from1904 = await readBook(handMade({ rows, workbookPr: '<workbookPr date1904="1"/>' }));
    expect(from1904.date1904).toBe(true);
    expect(from1904.sheets[0]?.cells.get("A1")).toEqual({ value: 46053 - 1462 });
  });
});

describe("formulas", () => {
  test("are shown as the keeper sees them, with the value that was stored", async () => {
    const rows = `<row r="1"><c r="A1"><f>_xldudf_ALGAL_NP_RATIO(B1,"a&amp;b")</f><v>16</v></c><c r="B1" t="str"><f>_xlfn.CONCAT("a",1)</f><v>a1</v></c><c r="C1"><f>B1</f></c></row>`;
    expect(await cells({ rows })).toEqual({ A1: { value: 16, formula: 'ALGAL.NP_RATIO(B1,"a&b")' }, B1: { value: "a1", formula: 'CONCAT("a",1)' }, C1: { value: null, formula: "B1" } });
  });

  test("that cells share are told for each of them", async () => {
    const rows = `<row r="2"><c r="C2"><f t="shared" ref="C2:D3" si="0">_xldudf_ALGAL_X($A2,B$1)</f><v>1</v></c><c r="D2"><f t="shared" si="0"/><v>2</v></c></row><row r="3"><c r="C3"><f t="shared" si="0"/><v>3</v></c><c r="D3"><f t="shared" si="0">own+1</f><v>4</v></c></row>`;
    expect(await cells({ rows })).toEqual({
      C2: { value: 1, formula: "ALGAL.X($A2,B$1)" },
      D2: { value: 2, formula: "ALGAL.X($A2,C$1)" },
      C3: { value: 3, formula: "ALGAL.X($A3,B$1)" },
      D3: { value: 4, formula: "own+1" },
    });
  });

  test("that spill tell their range, and whether it is fixed", async () => {
    const metadata = `<metadata xmlns="${MAIN}"><metadataTypes count="2"><metadataType name="OTHER"/><metadataType name="XLDAPR" cellMeta="1"/></metadataTypes><futureMetadata name="XLDAPR" count="1"><bk><extLst><ext uri="{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}"><xda:dynamicArrayProperties xmlns:xda="http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray" fDynamic="1" fCollapsed="0"/></ext></extLst></bk></futureMetadata><cellMetadata count="2"><bk><rc t="1" v="0"/></bk><bk><rc t="2" v="0"/></bk></cellMetadata></metadata>`;
    const rows = `<row r="1"><c r="A1" cm="2"><f t="array" ref="A1:B2">_xlfn.SEQUENCE(2,2)</f><v>1</v></c><c r="B1"><v>2</v></c><c r="D1"><f t="array" ref="D1:D2">A1:A2*2</f><v>2</v></c><c r="F1" cm="1"><f t="array" ref="F1">A1</f><v>1</v></c></row><row r="2"><c r="A2"><v>3</v></c><c r="B2"><v>4</v></c><c r="D2"><v>6</v></c></row>`;
    const found = await cells({ rows, links: { sheetMetadata: "metadata.xml" }, parts: { "xl/metadata.xml": metadata } });
    expect(found.A1).toEqual({ value: 1, formula: "SEQUENCE(2,2)", spill: "A1:B2" });
    expect(found.D1).toEqual({ value: 2, formula: "A1:A2*2", spill: "D1:D2", fixedSpill: true });
    expect(found.F1).toEqual({ value: 1, formula: "A1", spill: "F1", fixedSpill: true });
    expect([found.B2, found.D2]).toEqual([{ value: 4 }, { value: 6 }]);
  });

  test("of a what-if table are values, because the table cannot be worked out from the cell", async () => {
    expect(await cells({ rows: '<row r="1"><c r="A1"><f t="dataTable" ref="A1:A3" dt2D="0" r1="B1"/><v>5</v></c></row>' })).toEqual({ A1: { value: 5 } });
  });
});

test("styles: letters, fills, colours of theme and palette with their tint, number formats, alignment", async () => {
  const theme = `<a:theme xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main"><a:themeElements><a:clrScheme name="x"><a:dk1><a:sysClr val="windowText" lastClr="000000"/></a:dk1><a:lt1><a:sysClr val="window" lastClr="FFFFFF"/></a:lt1><a:dk2><a:srgbClr val="44546A"/></a:dk2><a:lt2><a:srgbClr val="E7E6E6"/></a:lt2><a:accent1><a:srgbClr val="4472C4"/></a:accent1></a:clrScheme></a:themeElements></a:theme>`;
  const font = (inner: string) => `<font>${inner}<sz val="11"/></font>`;
  const fill = (colour: string) => `<fill><patternFill patternType="solid"><fgColor ${colour}/></patternFill></fill>`;
  const xf = (font: number, fill: number, format: number, inner = "") => `<xf fontId="${font}" fillId="${fill}" numFmtId="${format}">${inner}</xf>`;
  const styles = `<styleSheet xmlns="${MAIN}"><numFmts count="1"><numFmt numFmtId="164" formatCode="0.00&quot; g&quot;"/></numFmts>
    <fonts>${font('<color theme="1"/>')}${font("<b/>")}${font('<b val="0"/><i/><color rgb="FFC00000"/>')}${font('<color theme="4" tint="-0.249977111117893"/>')}</fonts>
    <fills><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"><fgColor rgb="FF123456"/></patternFill></fill>${fill('rgb="FFDBEAFE"')}${fill('theme="4" tint="0.79998168889431442"')}${fill('indexed="13"')}${fill('theme="0" tint="-0.14999847407452621"')}</fills>
    <cellStyleXfs><xf fontId="1"/></cellStyleXfs>
    <cellXfs>${xf(0, 0, 0)}${xf(1, 2, 164)}${xf(2, 1, 14)}${xf(3, 3, 10, '<alignment horizontal="center" wrapText="1"/>')}${xf(0, 4, 0, '<alignment horizontal="fill"/>')}${xf(0, 5, 0)}</cellXfs>
    <dxfs><dxf><font><b/></font></dxf></dxfs></styleSheet>`;
  const rows = `<row r="1">${[0, 1, 2, 3, 4, 5].map((style, i) => `<c r="${"ABCDEF"[i]}1" s="${style}"/>`).join("")}</row>`;
  const found = await cells({ rows, links: { styles: "styles.xml", theme: "theme/theme1.xml" }, parts: { "xl/styles.xml": styles, "xl/theme/theme1.xml": theme } });
  const styled = (style: BookCell["style"]): BookCell => ({ value: null, style });
  expect(found).toEqual({
    B1: styled({ bold: true, fill: "#dbeafe", numberFormat: '0.00" g"' }),
    C1: styled({ italic: true, color: "#c00000", numberFormat: "yyyy-mm-dd" }),
    // Excel's own names for these two: "Accent 1, Darker 25%" 2F5597 and "Accent 1, Lighter 80%" DAE3F3, as it rounds them.
    D1: styled({ color: "#2f5597", fill: "#dae3f3", numberFormat: "0.00%", align: "center", wrap: true }),
    E1: styled({ fill: "#ffff00" }),
    F1: styled({ fill: "#d9d9d9" }),
  });
});

test("widths, frozen panes, merged cells, hidden sheets, names and tables", async () => {
  const table = `<table xmlns="${MAIN}" id="1" name="Log1" displayName="LogTable" ref="A1:B4" totalsRowCount="1"><tableColumns count="2"><tableColumn id="1" name="Date"/><tableColumn id="2" name="NO3_x000a_mg/L"/></tableColumns></table>`;
  const rels = `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/table" Target="../tables/table1.xml"/><Relationship Id="rId2" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/hyperlink" Target="https://example.org/" TargetMode="External"/></Relationships>`;
  const book = await readBook(
    handMade({
      rows: '<row r="1"><c r="A1"><v>1</v></c><c r="D1"><v>1</v></c></row>',
      before: '<sheetViews><sheetView workbookViewId="0"><pane xSplit="1" ySplit="2" topLeftCell="B3" state="frozen"/></sheetView></sheetViews><cols><col min="1" max="1" width="12.5"/><col min="3" max="16384" width="20"/></cols>',
      after: '<mergeCells count="1"><mergeCell ref="A3:C3"/></mergeCells>',
      names: "<definedNames><definedName name=\"feed\">Log!$A$1:$A$9</definedName><definedName name=\"own\" localSheetId=\"0\">Log!$D$1</definedName><definedName name=\"twice\">1</definedName><definedName name=\"twice\" localSheetId=\"0\">2</definedName><definedName name=\"gone\">#REF!</definedName><definedName name=\"_xlnm.Print_Titles\" localSheetId=\"0\">Log!$1:$1</definedName><definedName name=\"ratio\">_xldudf_ALGAL_NP_RATIO(Log!$A$1)</definedName></definedNames>",
      parts: { "xl/worksheets/_rels/sheet1.xml.rels": rels, "xl/tables/table1.xml": table },
    }),
  );
  const [log] = book.sheets;
  expect(log).toMatchObject({ name: "Log", frozenRows: 2, frozenColumns: 1, columnWidths: [12.5, 0, 20, 20], merges: ["A3:C3"], tables: [{ name: "LogTable", ref: "A1:B4", columns: ["Date", "NO3\nmg/L"], hasHeadings: true, hasTotals: true }] });
  expect(log?.hidden).toBeUndefined();
  expect(book.names).toEqual([
    { name: "feed", ref: "Log!$A$1:$A$9" },
    { name: "own", ref: "Log!$D$1" },
    // "twice" means something else on another sheet.
    { name: "ratio", ref: "ALGAL.NP_RATIO(Log!$A$1)" },
  ]);
});

test("a workbook in the strict edition, with a prefix for every element, is read the same", async () => {
  const strict = "http://purl.oclc.org/ooxml/spreadsheetml/main";
  const office = "http://purl.oclc.org/ooxml/officeDocument/relationships";
  const book = await readBook(
    handMade({
      rows: "",
      parts: {
        "_rels/.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="a" Type="${office}/officeDocument" Target="/xl/workbook.xml"/></Relationships>`,
        "xl/workbook.xml": `<x:workbook xmlns:x="${strict}" xmlns:rel="${office}"><x:sheets><x:sheet name="A &amp; B" sheetId="1" rel:id="rId1" state="veryHidden"/></x:sheets></x:workbook>`,
        "xl/worksheets/sheet1.xml": `\uFEFF<x:worksheet xmlns:x="${strict}" xmlns:y="urn:other"><y:sheetData><y:row/></y:sheetData><x:sheetData><x:row r="1"><x:c r="A1"><x:f>B1</x:f><x:v>5</x:v><y:v>6</y:v></x:c></x:row></x:sheetData></x:worksheet>`,
      },
    }),
  );
  expect(book.sheets).toEqual([{ name: "A & B", hidden: true, cells: new Map([["A1", { value: 5, formula: "B1" }]]) }]);
});

test("what another library wrote is read as it reads it itself", async () => {
  const rows = [["Date", "Feed", "Note"], [46053, 2.5, "a&b <c>"], [46054, 0.1 + 0.2, true], [null, -3, " =x "]];
  const sheet = XLSX.utils.aoa_to_sheet(rows);
  sheet.D2 = { t: "n", f: "B2*2", v: 5 };
  sheet["!ref"] = "A1:D4";
  const book = XLSX.utils.book_new();
  XLSX.utils.book_append_sheet(book, sheet, "My tank");
  const [read] = (await readBook(XLSX.write(book, { type: "buffer", bookType: "xlsx" }))).sheets;
  expect(read?.name).toBe("My tank");
  for (const [address, cell] of Object.entries(sheet)) {
    if (!address.startsWith("!")) expect(read?.cells.get(address)).toMatchObject({ value: cell.v, ...(cell.f ? { formula: cell.f } : {}) });
  }
  expect(read?.cells.size).toBe(12);
});

test("what LibreOffice wrote is read as it was typed", async () => {
  const { "typed.csv": bytes } = convert({ "typed.csv": Buffer.from("Date,Feed,Name\n2026-01-31,2.5,N\u00f6ri\n2026-02-01,0.125,x\n") }, "xlsx", "CSV:44,34,UTF8");
  const [sheet] = (await readBook(bytes ?? new Uint8Array())).sheets;
  const values = Object.fromEntries([...(sheet?.cells ?? [])].map(([address, cell]) => [address, cell.value]));
  expect(values).toEqual({ A1: "Date", B1: "Feed", C1: "Name", A2: 46053, B2: 2.5, C2: "N\u00f6ri", A3: 46054, B3: 0.125, C3: "x" });
  expect(sheet?.cells.get("A2")?.style?.numberFormat).toMatch(/yy.*mm.*dd/i);
});

test("a formula that a program wrote with its sign is read without it", async () => {
  const { cells } = (await readBook(handMade({ rows: '<row r="1"><c r="A1"><f>=B1*2</f><v>4</v></c><c r="B1"><v>2</v></c></row>' }))).sheets[0] ?? {};
  expect(cells?.get("A1")).toEqual({ value: 4, formula: "B1*2" });
});
