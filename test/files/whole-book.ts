import type { BookExtras } from "../../src/files/book-extras";
import type { NewBook, NewCell, NewSheet } from "../../src/files/new-book-model";
import type { ReadWorkbook } from "../../src/files/read-workbook";

const cells = (given: Record<string, NewCell>) => new Map(Object.entries(given));

/** A workbook with something of each kind that a file can hold. Its figures are invented. */
export function wholeBook(): NewBook {
  return {
    sheets: [
      {
        name: "Log",
        cells: cells({
          A1: { value: "Date", style: { bold: true, underline: true, border: { bottom: { line: "medium", color: "#1e3a8a" }, left: { line: "dashDot" } } } },
          B1: { value: "NO3 (mg/L)", style: { strike: true, size: 14, verticalAlign: "top" } },
          C1: { value: "N, g" },
          A2: { value: 46053, style: { numberFormat: "yyyy-mm-dd" } },
          B2: { value: 10, style: { numberFormat: '0.0" mg/L"' } },
          C2: { value: 0.226, formula: 'ALGAL.WATER_STORE_N(B2,"NO3",100)', style: { italic: true, fill: "#fef9c3", color: "#7f1d1d" } },
          A3: { value: 46060, style: { numberFormat: "yyyy-mm-dd" } },
          B3: { value: "<5 & falling\n\"kit\"", style: { wrap: true, align: "center" } },
          C3: { value: "#N/A", formula: "NA()" },
          E1: { value: 46053, formula: "SORT(A2:A3)", spill: "E1:E2" },
          E2: { value: 46060 },
          F1: { value: "", formula: "ALGAL.BUDGET_N(A1:C3,Setup)", spill: "F1" },
          G1: { value: true },
          G2: { value: " _x0041_ stays " },
        }),
        columnWidths: [12, 8.5, 0, 20, 0, 0, 0, 9],
        rowHeights: new Map([[2, 30]]),
        hiddenRows: [9],
        hiddenColumns: [8],
        frozenRows: 1,
        frozenColumns: 1,
        merges: ["D5:F6"],
        tabColor: "#0f766e",
        hideGridLines: true,
        tables: [{ name: "LogTable", ref: "A1:C3", columns: ["Date", "NO3 (mg/L)", "N, g"], hasHeadings: true, hasTotals: false, style: "TableStyleMedium4" }],
        validations: [
          { range: "A4:A2000", kind: "date", operator: "greaterThan", formula1: "32874", allowsBlank: true, prompt: { title: "Day", text: "One row a day", shown: true }, error: { title: "Day", text: "Not a date.", style: "stop", shown: true } },
          { range: "B4:B9 D4:D9", kind: "decimal", operator: "between", formula1: "0", formula2: "$A$1*2", allowsBlank: false },
          { range: "E:E", kind: "list", formula1: '"harvest,week,""month"""', hidesArrow: true, allowsBlank: true },
          { range: "F4", kind: "list", formula1: "'Foods & more'!$A$2:$A$9", allowsBlank: true, error: { title: "", text: "", style: "warning", shown: true } },
          { range: "G4:G8", kind: "custom", formula1: "ISNUMBER(G4)", allowsBlank: true, error: { title: "", text: "Only a number.", style: "information", shown: false } },
        ],
        conditionalFormats: [
          { range: "A4:C20 E4:E20", formula: 'AND($A4="",COUNTA($B4:$C4)>0)', style: { color: "#8a1c0f", fill: "#fce4de", bold: true }, stopIfTrue: true },
          { range: "B2:B3", formula: "", text: { operator: "contains", text: '<5 "kit" & more' }, style: { fill: "#dbeafe" } },
          { range: "2:3", formula: "", text: { operator: "beginsWith", text: "Cannot" }, style: { color: "#5c5c5c" } },
        ],
        charts: [
          { name: "Nitrate", kind: "XYScatterLines", title: "Nitrate & <limits>", categoryTitle: "Date", valueTitle: "mg/L", legend: true, series: [{ name: "value", values: "Log!$B$2:$B$3", xValues: "Log!$A$2:$A$3" }, { name: "", values: "'Foods & more'!$B$2:$B$3", xValues: null }], position: "J2:Q18" },
          { name: "Lines", kind: "Line", title: null, categoryTitle: null, valueTitle: null, legend: false, series: [{ name: "a", values: "Log!$B$2:$B$3", xValues: null }], position: "J20" },
          { name: "Marks", kind: "LineMarkers", title: "", categoryTitle: null, valueTitle: "g", legend: false, series: [{ name: "a", values: "Log!$B$2:$B$3", xValues: "Log!$A$2:$A$3" }], position: "J21:L30" },
          ...(["XYScatter", "XYScatterLinesNoMarkers", "ColumnClustered", "ColumnStacked"] as const).map((kind, i) => ({ name: kind, kind, title: kind, categoryTitle: null, valueTitle: null, legend: true, series: [{ name: "a", values: "Log!$B$2", xValues: null }], position: `S${i * 20 + 1}:Z${i * 20 + 15}` })),
        ],
        print: { orientation: "landscape", fit: { wide: 1 }, titleRows: { from: 1, to: 3 }, area: "A1:F9" },
      },
      { name: "Foods & more", cells: cells({ A1: { value: "Food" }, A2: { value: "Nori" }, B2: { value: 1 }, B3: { value: 2 } }), validations: [], conditionalFormats: [], charts: [], print: { scale: 80, area: "A:C" } },
      { name: "Put away", cells: cells({ A1: { value: 1 } }), hidden: true, validations: [], conditionalFormats: [], charts: [], veryHidden: true },
    ],
    names: [{ name: "Feed", ref: "Log!$B$2:$B$3" }, { name: "Local", ref: "'Foods & more'!$A$2", sheet: 1 }, { name: "Setup", ref: "'Foods & more'!$A$1:$B$9" }],
    date1904: false,
    active: 1,
    font: { name: "Arial", size: 10 },
    xmlParts: [{ id: "{0B1C2D3E-0000-4000-8000-00000000ABCD}", namespaceUri: "urn:algal-ledger:join", xml: '<join xmlns="urn:algal-ledger:join"><log sheet="Log">é &amp; more</log></join>' }],
  };
}

/** The same workbook as it is read back. */
export function asWritten({ book, extras }: ReadWorkbook): NewBook {
  const { active, sheets, xmlParts } = extras;
  return { ...book, sheets: book.sheets.map((sheet, i): NewSheet => ({ ...sheet, ...(sheets[i] as BookExtras["sheets"][number]) })), xmlParts, active };
}
