import type { BookStyle } from "./book";

/** What a workbook file holds beyond its cells, tables and names, as far as the grid can hold it. */
export interface BookExtras {
  /** In the order of the book's sheets. */
  sheets: SheetExtras[];
  xmlParts: BookXmlPart[];
  /** The place of the sheet in front, in tab order. */
  active: number;
}

export interface SheetExtras {
  validations: BookValidation[];
  /** The first of them wins. */
  conditionalFormats: BookConditionalFormat[];
  charts: BookChart[];
  print?: PrintSetup;
  /** Whether no menu may bring the sheet back. */
  veryHidden?: boolean;
}

export type ValidationKind = "custom" | "date" | "decimal" | "list" | "textLength" | "time" | "whole";
export type ValidationOperator = "between" | "equal" | "greaterThan" | "greaterThanOrEqual" | "lessThan" | "lessThanOrEqual" | "notBetween" | "notEqual";

/** A rule for what may be typed into cells. */
export interface BookValidation {
  /** One or more ranges, separated by blanks. */
  range: string;
  kind: ValidationKind;
  /** Of every kind but list and custom. */
  operator?: ValidationOperator;
  /** Without "=", as the keeper sees it: "0", "Foods!$A$2:$A$9", or the choices in quotes, "\"a,b\"". */
  formula1: string;
  formula2?: string;
  /** Whether a list hides its arrow. */
  hidesArrow?: boolean;
  allowsBlank: boolean;
  /** What stands beside a cell that is selected. */
  prompt?: { title: string; text: string; shown: boolean };
  /** What is said when the rule is broken; left out for the program's own words. */
  error?: { title: string; text: string; style: "information" | "stop" | "warning"; shown: boolean };
}

export type TextOperator = "beginsWith" | "contains" | "endsWith" | "notContains";

/** Cells of the ranges look so while the formula is true, or while they hold the text. */
export interface BookConditionalFormat {
  /** One or more ranges, separated by blanks. */
  range: string;
  /** As seen from the first cell of the first range, without "="; "" for a rule of text. It may not call ALGAL functions. */
  formula: string;
  text?: { operator: TextOperator; text: string };
  style: Pick<BookStyle, "bold" | "color" | "fill" | "italic">;
  stopIfTrue?: boolean;
}

/** The kinds of chart that are written and read. */
export type ChartKind = "ColumnClustered" | "ColumnStacked" | "Line" | "LineMarkers" | "XYScatter" | "XYScatterLines" | "XYScatterLinesNoMarkers";

export interface BookChart {
  name: string;
  kind: ChartKind;
  /** null without a title, "" for the program's own. */
  title: string | null;
  categoryTitle: string | null;
  valueTitle: string | null;
  legend: boolean;
  series: BookSeries[];
  /** The cells that it covers, "J2:Q18". */
  position: string;
}

export interface BookSeries {
  name: string;
  /** "Log!$B$2:$B$40"; null for none. */
  values: string | null;
  xValues: string | null;
  /** Whether the X values are texts, which a file says with the reference. */
  xAreTexts?: boolean;
}

export interface PrintSetup {
  orientation?: "portrait" | "landscape";
  /** Rows that every page repeats, counted from 1. */
  titleRows?: { from: number; to: number };
  /** Whether the columns are fitted to one page's width. */
  fitToWidth?: boolean;
  /** To how many pages it is fitted; a number that is left out is free. */
  fit?: { wide?: number; tall?: number };
  /** Per cent, where it is not fitted. */
  scale?: number;
  /** "A1:F9" or "A:C". */
  area?: string;
  /** In Excel's codes: "&L&F&RPage &P of &N". */
  footer?: string;
}

/** A text of another program that the workbook carries. */
export interface BookXmlPart {
  /** "{00000000-0000-4000-8000-000000000001}" */
  id: string;
  /** Of its root element. */
  namespaceUri: string;
  xml: string;
}
