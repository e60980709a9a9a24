/** A workbook between its file and whatever shows or calculates it: neither the file's XML nor a grid's own model. */
export interface Book {
  sheets: BookSheet[];
  names: BookName[];
  /** Whether date serials count from 1904-01-01 instead of 1900-01-01 (1,462 days apart). */
  date1904: boolean;
}

export interface BookName {
  name: string;
  /** What the name stands for, without a leading "=": "Log!$A$2:$A$40". */
  ref: string;
}

export interface BookSheet {
  name: string;
  /** Cells by A1 address without dollar signs. A cell that is not here is blank. */
  cells: Map<string, BookCell>;
  /** Widths in characters, by column from A. */
  columnWidths?: number[];
  frozenRows?: number;
  frozenColumns?: number;
  /** Merged ranges, "A1:C1". */
  merges?: string[];
  hidden?: boolean;
  tables?: BookTable[];
  /** Heights that were set by hand, in points, by row from 1. */
  rowHeights?: Map<number, number>;
  /** Counted from 1. */
  hiddenRows?: number[];
  hiddenColumns?: number[];
  /** "#rrggbb". */
  tabColor?: string;
  hideGridLines?: boolean;
}

export interface BookTable {
  name: string;
  /** With its heading row and its row of totals, "A3:F40". */
  ref: string;
  /** Names of the columns from the left. */
  columns: string[];
  hasHeadings: boolean;
  hasTotals: boolean;
  /** One of Excel's table styles, "TableStyleMedium2"; left out where the file names none. */
  style?: string;
}

export interface BookCell {
  /** Number, text, boolean, an error code as text ("#N/A"), or null for blank. For a formula, the value that was stored with it. */
  value: number | string | boolean | null;
  /** Without the leading "=", with ALGAL.NAME(...) whatever form the file stores. */
  formula?: string;
  /** The range that the formula at this cell spilled over, "A1:C9". */
  spill?: string;
  /** Whether the range of the spill is fixed, as in an array formula of the older kind: an answer of another size is cut or filled up. */
  fixedSpill?: boolean;
  style?: BookStyle;
}

export interface BookStyle {
  bold?: boolean;
  italic?: boolean;
  /** "#rrggbb". */
  color?: string;
  fill?: string;
  numberFormat?: string;
  align?: "left" | "center" | "right";
  wrap?: boolean;
  underline?: boolean;
  strike?: boolean;
  /** Of the letters, in points; left out for the file's usual size. */
  size?: number;
  verticalAlign?: "top" | "center" | "bottom";
  border?: Partial<Record<"left" | "right" | "top" | "bottom", BookBorder>>;
}

export interface BookBorder {
  line: BorderLine;
  /** "#rrggbb"; the colour of text where it is left out. */
  color?: string;
}

export const BORDER_LINES = ["thin", "hair", "dotted", "dashed", "dashDot", "dashDotDot", "double", "medium", "mediumDashed", "mediumDashDot", "mediumDashDotDot", "slantDashDot", "thick"] as const;
export type BorderLine = (typeof BORDER_LINES)[number];
