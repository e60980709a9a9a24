import type { Book, BookCell, BookSheet, BookStyle } from "./book";
import type { ErrorValue } from "./cell-result";

/** A workbook to be written anew. A Book that was read fits, too. */
export interface NewBook extends Omit<Book, "sheets"> {
  sheets: NewSheet[];
  properties?: {
    title?: string;
    subject?: string;
    description?: string;
    /** When it was made, "2026-01-31T00:00:00Z". A fixed date where none is given, so that the same book gives the same bytes. */
    created?: string;
  };
}

export interface NewSheet extends Omit<BookSheet, "cells" | "tables"> {
  cells: Map<string, NewCell>;
  /** Heights in points, by row from 1. */
  rowHeights?: Map<number, number>;
  tables?: NewTable[];
  lists?: NewList[];
  conditionalFormats?: NewConditionalFormat[];
  print?: PrintSetup;
  /** "#rrggbb". */
  tabColor?: string;
  hideGridLines?: boolean;
}

export interface NewCell extends Omit<BookCell, "value" | "style"> {
  /** For a formula, the value to show until it is calculated again. An error is its code as text or an object with its code. */
  value: BookCell["value"] | ErrorValue;
  /**
   * How the file holds a formula with a spill range. "array" (what Excel writes): one formula that spills as far as it needs.
   * "index": in each cell of the range a formula of its own, INDEX(formula, row, column), which also older Excel calculates and
   * which LibreOffice shows without calculating. LibreOffice 7.4 calculates every array formula when it opens a file, so it
   * shows #NAME? for an ALGAL function in one. Default "array".
   */
  spillAs?: "array" | "index";
  style?: NewStyle;
}

export interface NewStyle extends BookStyle {
  /** Of the letters, in points. */
  size?: number;
  underline?: boolean;
  border?: Partial<Record<"left" | "right" | "top" | "bottom", NewBorder>>;
  verticalAlign?: "top" | "center" | "bottom";
}

export interface NewBorder {
  line: "thin" | "medium" | "thick" | "dotted" | "dashed" | "double" | "hair";
  /** "#rrggbb"; the colour of text where it is left out. */
  color?: string;
}

/** A table; its first row are the headings, which the cells there must hold as different texts. */
export interface NewTable {
  name: string;
  ref: string;
  /** One of Excel's table styles; "TableStyleLight1" where it is left out. */
  style?: string;
  bandedRows?: boolean;
}

/** A rule that lets the cells of a range take one of several values. */
export interface NewList {
  /** One or more ranges, separated by spaces. */
  range: string;
  /** The choices, or a formula that gives a range of them. */
  choices: readonly string[] | { formula: string };
  /** Shown when the cell is selected. */
  hint?: { title: string; text: string };
  /** Shown when another value is entered; the value is then refused unless warnOnly. */
  error?: { title: string; text: string };
  warnOnly?: boolean;
}

/** Cells in the range look so while the formula, written for the range's first cell, is true. It may not call ALGAL functions. */
export interface NewConditionalFormat {
  range: string;
  formula: string;
  style: Pick<NewStyle, "bold" | "italic" | "color" | "fill">;
}

export interface PrintSetup {
  orientation?: "portrait" | "landscape";
  /** Rows that every page repeats, counted from 1. */
  titleRows?: { from: number; to: number };
  /** Whether the columns are fitted to one page's width. */
  fitToWidth?: boolean;
  area?: string;
  /** In Excel's codes: "&L&F&RPage &P of &N". */
  footer?: string;
}
