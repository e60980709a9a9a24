import type { Book } from "../../files/book";
import type { BookChart, BookConditionalFormat, BookExtras, PrintSetup, TextOperator } from "../../files/book-extras";
import { type BookState, type ChartState, type ConditionalFormatState, type PageState, type PlacedRange, stateOfBook, type ValidationState } from "./book-state";
import { anyRangeAddress, readAnyRange } from "./range-geometry";
import { ruleOfFile } from "./rule-of-file";

/** Names of the ways to look at texts in Excel's API, by their names in files. */
export const TEXT_OPERATORS: Readonly<Record<TextOperator, string>> = { beginsWith: "BeginsWith", contains: "Contains", endsWith: "EndsWith", notContains: "NotContains" };

/** What a file's workbook brings with it beyond its cells. @param sheetId gives the id of the sheet at a place in tab order */
export function stateOfFile(book: Book, extras: BookExtras, sheetId: (index: number) => string): BookState {
  const idOfName = new Map(book.sheets.map(({ name }, i) => [name.toLowerCase(), sheetId(i)]));
  const on = <From, To>(list: (sheet: BookExtras["sheets"][number]) => readonly From[], make: (item: From, id: string) => readonly To[]): To[] =>
    extras.sheets.flatMap((sheet, i) => list(sheet).flatMap((item) => make(item, sheetId(i))));
  return {
    ...stateOfBook(book, sheetId),
    charts: on(({ charts }) => charts, (chart, id) => [chartState(chart, id, idOfName)]).map((chart, i) => ({ ...chart, id: String(i + 1) })),
    validations: on(({ validations }) => validations, (rule, id): ValidationState[] => rule.range.split(" ").map((ref) => ({ sheetId: id, ref, ...ruleOfFile(rule) }))),
    conditionalFormats: on(({ conditionalFormats }) => conditionalFormats, formatStates).map((format, i) => ({ ...format, id: String(i + 1) })),
    xmlParts: extras.xmlParts,
    pages: Object.fromEntries(extras.sheets.flatMap(({ print }, i) => (print ? [[sheetId(i), pageState(print)]] : []))),
    veryHidden: extras.sheets.flatMap(({ veryHidden }, i) => (veryHidden ? [sheetId(i)] : [])),
  };
}

function chartState({ categoryTitle, kind, legend, name, position, series, title, valueTitle }: BookChart, sheetId: string, idOfName: ReadonlyMap<string, string>): ChartState {
  const placed = (reference: string | null) => (reference === null ? null : placeOf(reference, idOfName));
  return {
    id: "",
    sheetId,
    name,
    type: kind,
    title,
    categoryTitle,
    valueTitle,
    legend,
    series: series.map((one, i) => ({ id: String(i + 1), name: one.name, values: placed(one.values), xValues: placed(one.xValues) })),
    position,
  };
}

/** null for a sheet that is not there. */
function placeOf(reference: string, idOfName: ReadonlyMap<string, string>): PlacedRange | null {
  const cut = reference.lastIndexOf("!");
  const name = reference.slice(0, cut).replace(/^'|'$/g, "").replace(/''/g, "'");
  const sheetId = idOfName.get(name.toLowerCase());
  const range = readAnyRange(reference.slice(cut + 1));
  return sheetId !== undefined && range ? { sheetId, ref: anyRangeAddress(range) } : null;
}

/** One for each range; all of them are seen from the first cell of the first. */
function formatStates({ formula, range, stopIfTrue, style, text }: BookConditionalFormat, sheetId: string): ConditionalFormatState[] {
  const refs = range.split(" ");
  const first = readAnyRange(refs[0] ?? "");
  const seenFrom = first ? anyRangeAddress({ ...first, endRow: first.startRow, endColumn: first.startColumn }) : "A1";
  return refs.map((ref) => ({
    id: "",
    sheetId,
    ref,
    type: text ? "ContainsText" : "Custom",
    formula: formula === "" ? "" : `=${formula}`,
    seenFrom,
    text: text?.text ?? "",
    operator: TEXT_OPERATORS[text?.operator ?? "contains"],
    color: style.color?.toUpperCase() ?? "",
    fill: style.fill?.toUpperCase() ?? "",
    bold: style.bold ?? null,
    stopIfTrue: stopIfTrue ?? false,
  }));
}

function pageState({ area, fit, orientation, scale, titleRows }: PrintSetup): PageState {
  return {
    ...(orientation ? { orientation: orientation === "landscape" ? "Landscape" : "Portrait" } : {}),
    ...(fit
      ? { zoom: { ...(fit.wide === undefined ? {} : { horizontalFitToPages: fit.wide }), ...(fit.tall === undefined ? {} : { verticalFitToPages: fit.tall }) } }
      : scale === undefined
        ? {}
        : { zoom: { scale } }),
    ...(titleRows ? { titleRows: `${titleRows.from}:${titleRows.to}` } : {}),
    ...(area === undefined ? {} : { printArea: area }),
  };
}
