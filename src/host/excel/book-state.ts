import type { Book } from "../../files/book";

/**
 * What a workbook holds beyond its cells: tables, charts, page set-up, rules for cells, XML parts. One plain record, so that it
 * can be kept, undone and written into a file as it is. Sheets are named by id, ranges by A1 address without dollar signs; whole
 * rows and columns are "1:3" and "A:C".
 */
export interface BookState {
  readonly tables: readonly TableState[];
  readonly charts: readonly ChartState[];
  readonly validations: readonly ValidationState[];
  /** The first of them wins. */
  readonly conditionalFormats: readonly ConditionalFormatState[];
  readonly xmlParts: readonly XmlPartState[];
  /** By sheet id; a sheet without an entry prints as usual. */
  readonly pages: Readonly<Record<string, PageState>>;
  /** Ids of the sheets that no menu may bring back. The grid shows them as hidden. */
  readonly veryHidden: readonly string[];
}

export interface PlacedRange {
  readonly sheetId: string;
  readonly ref: string;
}

export interface TableState extends PlacedRange {
  readonly id: string;
  readonly name: string;
  /** Names of the columns where the table has no heading row; with one, the heading cells are the names. */
  readonly columns: readonly string[];
  readonly hasHeadings: boolean;
  readonly hasTotals: boolean;
  /** "TableStyleMedium2" */
  readonly style: string;
}

export interface ChartState {
  readonly id: string;
  readonly sheetId: string;
  readonly name: string;
  /** As Excel.ChartType: "Line", "XYScatterLines", "ColumnClustered". */
  readonly type: string;
  /** null without a title. */
  readonly title: string | null;
  readonly categoryTitle: string | null;
  readonly valueTitle: string | null;
  /** Whether a legend stands beside it. */
  readonly legend: boolean;
  readonly series: readonly SeriesState[];
  /** The cells that it covers, "J2:Q18". */
  readonly position: string;
}

export interface SeriesState {
  readonly id: string;
  readonly name: string;
  readonly values: PlacedRange | null;
  readonly xValues: PlacedRange | null;
}

export interface ValidationState extends PlacedRange {
  /** As Excel.DataValidationRule, with every range as a formula. */
  readonly rule: Readonly<Record<string, unknown>>;
  readonly errorAlert: Readonly<Record<string, unknown>> | null;
  readonly prompt: Readonly<Record<string, unknown>> | null;
  readonly ignoreBlanks: boolean;
}

export interface ConditionalFormatState extends PlacedRange {
  readonly id: string;
  readonly type: "Custom" | "ContainsText";
  /** Of a custom rule, as seen from the cell `seenFrom`: "=$B2>0.1". */
  readonly formula: string;
  /**
   * The range's first cell when the rule was made. With the formula it says how far a cell looks, so it stays as it is when a
   * part of the range is cleared, or the range moves.
   */
  readonly seenFrom: string;
  readonly text: string;
  /** As Excel.ConditionalTextOperator. */
  readonly operator: string;
  readonly color: string;
  readonly fill: string;
  readonly bold: boolean | null;
  readonly stopIfTrue: boolean;
}

export interface XmlPartState {
  readonly id: string;
  readonly namespaceUri: string;
  readonly xml: string;
}

export interface PageState {
  readonly orientation?: "Portrait" | "Landscape";
  readonly zoom?: { readonly horizontalFitToPages?: number; readonly verticalFitToPages?: number; readonly scale?: number };
  /** "1:3" */
  readonly titleRows?: string;
  readonly printArea?: string;
}

export const EMPTY_STATE: BookState = { tables: [], charts: [], validations: [], conditionalFormats: [], xmlParts: [], pages: {}, veryHidden: [] };

export const DEFAULT_TABLE_STYLE = "TableStyleMedium2";

/** What a file's workbook brings with it: its tables. @param sheetId gives the id of the sheet at a place in tab order */
export function stateOfBook(book: Book, sheetId: (index: number) => string): BookState {
  const tables = book.sheets.flatMap((sheet, i) => (sheet.tables ?? []).map((table) => ({ ...table, sheetId: sheetId(i) })));
  return {
    ...EMPTY_STATE,
    tables: tables.map(({ name, ref, columns, hasHeadings, hasTotals, style, sheetId: on }, i) => ({
      id: String(i + 1),
      name,
      sheetId: on,
      ref,
      columns,
      hasHeadings,
      hasTotals,
      style: style ?? DEFAULT_TABLE_STYLE,
    })),
  };
}

/**
 * Without what stands on sheets that are gone. The record itself keeps it, so that it is there again when the sheet's removal is
 * undone.
 */
export function stateOnSheets(state: BookState, ids: ReadonlySet<string>): BookState {
  const stands = ({ sheetId }: { sheetId: string }) => ids.has(sheetId);
  return {
    tables: state.tables.filter(stands),
    charts: state.charts.filter(stands),
    validations: state.validations.filter(stands),
    conditionalFormats: state.conditionalFormats.filter(stands),
    xmlParts: state.xmlParts,
    pages: Object.fromEntries(Object.entries(state.pages).filter(([sheetId]) => ids.has(sheetId))),
    veryHidden: state.veryHidden.filter((id) => ids.has(id)),
  };
}

/** The next id that nothing of the list has. */
export function nextId(items: readonly { readonly id: string }[]): string {
  return String(Math.max(0, ...items.map(({ id }) => Number(id)).filter(Number.isFinite)) + 1);
}

/** "Table1", "Table2": the first that is not taken, without regard to case. */
export function freeName(stem: string, taken: Iterable<string>): string {
  const names = new Set([...taken].map((name) => name.toLowerCase()));
  for (let number = 1; ; number += 1) {
    if (!names.has(`${stem}${number}`.toLowerCase())) return `${stem}${number}`;
  }
}
