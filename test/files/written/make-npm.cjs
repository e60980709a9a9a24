/**
 * Makes the exceljs-*, write-excel-file-*, xlsx-populate-* and sheetjs-* workbooks beside this file. All figures are invented.
 *
 * In a folder of its own: npm i exceljs@4.4.0 write-excel-file@4.1.1 xlsx-populate@1.21.0 @e965/xlsx@0.20.3, then
 * NODE_PATH=that/node_modules node make-npm.cjs
 */
const path = require("node:path");
const ExcelJS = require("exceljs");
const XLSX = require("@e965/xlsx");
const XlsxPopulate = require("xlsx-populate");

const to = (name) => path.join(__dirname, `${name}.xlsx`);
const MADE = new Date(Date.UTC(2026, 0, 1));
const DOT = Buffer.from("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNgqGD4DwACAwGAyWRxRQAAAABJRU5ErkJggg==", "base64");
const HEADINGS = ["Day", "Feed, g", "NO3, mg/L", "Twice", "Words", "Much", "Error"];
const ROWS = [2, 3, 4, 5, 6, 7, 8, 9, 10];
const words = (feed) => (feed > 0.5 ? "much & more" : "<little>");

/** A log of feed and nitrate, with a number, a text, a truth and an error worked out in each row. */
function log(book, title = "Log", options = {}) {
  book.created = book.modified = MADE;
  const sheet = book.addWorksheet(title, options);
  sheet.addRow(HEADINGS);
  for (const row of ROWS) {
    const feed = row / 8;
    sheet.addRow([
      new Date(Date.UTC(2026, 0, 30 + row)), feed, 10 + row,
      { formula: `B${row}*2`, result: feed * 2 },
      { formula: `IF(B${row}>0.5,"much & more","<little>")`, result: words(feed) },
      { formula: `B${row}>0.5`, result: feed > 0.5 },
      { formula: `1/(C${row}-C${row})`, result: { error: "#DIV/0!" } },
    ]);
  }
  return sheet;
}

async function exceljs(name, fill, options) {
  const book = new ExcelJS.Workbook();
  fill(log(book, options?.title, options?.sheet), book);
  await book.xlsx.writeFile(to(`exceljs-${name}`));
}

async function main() {
  await exceljs("shared-formulas", (sheet) => {
    sheet.getCell("I2").value = { formula: "B2*10", shareType: "shared", ref: "I2:I10", result: 2.5 };
    for (const row of ROWS.slice(1)) sheet.getCell(`I${row}`).value = { sharedFormula: "I2", result: (row / 8) * 10 };
    sheet.getCell("K2").value = { formula: "B2:B4*2", shareType: "array", ref: "K2:K4", result: 0.5 };
  });
  await exceljs("table-comments-picture", (sheet, book) => {
    sheet.addTable({ name: "Feeds", ref: "I1", totalsRow: true, columns: [{ name: "Feed", totalsRowLabel: "Sum" }, { name: "g", totalsRowFunction: "sum" }], rows: [["Nori", 1], ["Peas", 2]] });
    sheet.getCell("B2").note = "Weighed on kitchen scales";
    sheet.getCell("A12").value = { text: "a link", hyperlink: "https://example.com/?a=1&b=2" };
    sheet.getCell("A13").value = { richText: [{ text: "N" }, { font: { bold: true }, text: "2" }] };
    sheet.addImage(book.addImage({ buffer: DOT, extension: "png" }), "K8:L10");
  });
  await exceljs("rules", (sheet) => {
    sheet.dataValidations.add("B2:B10", { type: "decimal", operator: "between", formulae: [0, 9], allowBlank: true });
    sheet.getCell("E2").dataValidation = { type: "list", formulae: ['"harvest,week"'] };
    sheet.addConditionalFormatting({ ref: "B2:B10", rules: [{ type: "dataBar", cfvo: [{ type: "min" }, { type: "max" }], color: { argb: "FF0F766E" }, priority: 1 }, { type: "expression", formulae: ["$B2>1"], style: { font: { bold: true } }, priority: 2 }] });
    sheet.views = [{ state: "frozen", xSplit: 1, ySplit: 1 }];
    sheet.autoFilter = "A1:G10";
    sheet.pageSetup = { printTitlesRow: "1:1", printArea: "A1:G10", orientation: "landscape" };
  });
  await exceljs("right-to-left-1904", (sheet, book) => {
    book.properties.date1904 = true;
    book.definedNames.add("Log!$B$2:$B$10", "Feed");
    sheet.getCell("I2").value = { formula: "A3-A2", result: 1 };
  }, { sheet: { views: [{ rightToLeft: true }] } });
  const stream = new ExcelJS.stream.xlsx.WorkbookWriter({ filename: to("exceljs-streamed"), useSharedStrings: false, useStyles: true });
  log(stream).commit();
  await stream.commit();

  const { default: writeExcelFile } = await import(require.resolve("write-excel-file/node"));
  const data = [HEADINGS.map((value) => ({ value, fontWeight: "bold" })), ...ROWS.map((row) => [{ value: new Date(Date.UTC(2026, 0, 30 + row)), type: Date, format: "yyyy-mm-dd" }, { value: row / 8, type: Number }, { value: 10 + row, type: Number }, { value: `=B${row}*2`, type: "Formula" }, { value: `=IF(B${row}>0.5,"much","little")`, type: "Formula" }])];
  await writeExcelFile([{ data, sheet: "Log", stickyRowsCount: 1, columns: [{ width: 14 }] }, { data: [[{ value: "=Log!D2", type: "Formula" }]], sheet: "Read" }]).toFile(to("write-excel-file-plain"));

  const fill = (book) => {
    const sheet = book.sheet(0).name("Log");
    sheet.cell("A1").value([HEADINGS]);
    for (const row of ROWS) {
      sheet.cell(`A${row}`).value(46050 + row).style("numberFormat", "yyyy-mm-dd");
      sheet.cell(`B${row}`).value(row / 8);
      sheet.cell(`C${row}`).value(10 + row);
      sheet.cell(`E${row}`).formula(`IF(B${row}>0.5,"much","little")`);
    }
    sheet.range("D2:D10").formula("B2*2");
    return sheet;
  };
  const plain = await XlsxPopulate.fromBlankAsync();
  fill(plain);
  await plain.toFileAsync(to("xlsx-populate-plain"));
  const rich = await XlsxPopulate.fromBlankAsync();
  const sheet = fill(rich);
  sheet.range("I2:K3").merged(true);
  sheet.cell("A12").value("a link").hyperlink("https://example.com/");
  sheet.cell("B2").dataValidation({ type: "decimal", operator: "greaterThan", formula1: "0" });
  sheet.freezePanes(1, 1);
  rich.definedName("Feed", sheet.range("B2:B10"));
  rich.addSheet("Read").cell("A1").formula("SUM(Feed)");
  await rich.toFileAsync(to("xlsx-populate-merged-names"));

  const aoa = (date1904 = false) => {
    const made = XLSX.utils.aoa_to_sheet([HEADINGS, ...ROWS.map((row) => [(date1904 ? 44588 : 46050) + row, row / 8, 10 + row])]);
    for (const row of ROWS) {
      made[`A${row}`].z = "yyyy-mm-dd";
      made[`D${row}`] = { t: "n", v: row / 4, f: `B${row}*2` };
      made[`E${row}`] = { t: "s", v: words(row / 8), f: `IF(B${row}>0.5,"much & more","<little>")` };
      made[`F${row}`] = { t: "b", v: row / 8 > 0.5, f: `B${row}>0.5` };
      made[`G${row}`] = { t: "e", v: 7, f: `1/(C${row}-C${row})` };
    }
    made["!ref"] = "A1:N12";
    return made;
  };
  const sheetjs = (name, made, more = {}, options = {}) => {
    const book = XLSX.utils.book_new();
    XLSX.utils.book_append_sheet(book, made, "Log");
    Object.assign(book, more);
    XLSX.writeFile(book, to(`sheetjs-${name}`), { compression: true, ...options });
  };
  const rows = aoa();
  rows["!merges"] = [XLSX.utils.decode_range("I2:K3")];
  rows.I2 = { t: "n", v: 1, f: "SUM(D2:D10)" };
  XLSX.utils.cell_add_comment(rows.B2, "Weighed on kitchen scales", "nobody");
  rows.A12 = { t: "s", v: "a link", l: { Target: "https://example.com/?a=1&b=2" } };
  rows["!autofilter"] = { ref: "A1:G10" };
  sheetjs("comments-merged", rows, { Workbook: { Names: [{ Name: "Feed", Ref: "Log!$B$2:$B$10" }] } });
  const arrays = aoa();
  XLSX.utils.sheet_set_array_formula(arrays, "I2:I4", "B2:B4*2", false);
  XLSX.utils.sheet_set_array_formula(arrays, "K2:K4", "_xlfn._xlws.SORT(B2:B4)", true);
  sheetjs("array-formulas", arrays);
  sheetjs("calendar-1904-shared-texts", aoa(true), { Workbook: { WBProps: { date1904: true }, Views: [{ RTL: true }] } }, { bookSST: true });
  sheetjs("stored", aoa(), {}, { compression: false });
}

main().catch((error) => {
  console.error(error);
  process.exitCode = 1;
});
