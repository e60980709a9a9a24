import type { Book, BookCell, BookName, BookSheet } from "./book";
import type { BookChart, BookConditionalFormat, BookValidation, BookXmlPart, PrintSetup } from "./book-extras";
import type { ErrorValue } from "./cell-result";

/** A workbook to be written anew. A Book that was read fits, too. */
export interface NewBook extends Omit<Book, "names" | "sheets"> {
  sheets: NewSheet[];
  names: NewName[];
  xmlParts?: BookXmlPart[];
  /** The place of the sheet in front, in tab order; the first that is not hidden where it is left out. */
  active?: number;
  /** The letters of cells that say nothing else; Calibri of 11 points where it is left out. */
  font?: { name: string; size: number };
  properties?: {
    title?: string;
    subject?: string;
    description?: string;
    /** When it was made, "2026-01-31T00:00:00Z". A fixed date where none is given, so that the same book gives the same bytes. */
    created?: string;
  };
}

export interface NewName extends BookName {
  /** The place of the only sheet where the name is known; left out for the whole workbook. */
  sheet?: number;
}

export interface NewSheet extends Omit<BookSheet, "cells" | "tables"> {
  cells: Map<string, NewCell>;
  tables?: NewTable[];
  lists?: NewList[];
  validations?: BookValidation[];
  /** The first of them wins. */
  conditionalFormats?: BookConditionalFormat[];
  charts?: BookChart[];
  print?: PrintSetup;
  /** Whether no menu may bring the sheet back. */
  veryHidden?: boolean;
  /** Width of the columns that have none of their own, in characters. */
  usualWidth?: number;
}

export interface NewCell extends Omit<BookCell, "value"> {
  /** For a formula, the value to show until it is calculated again. An error is its code as text or an object with its code. */
  value: BookCell["value"] | ErrorValue;
  /**
   * How the file holds a formula with a spill range. "array" (what Excel writes): one formula that spills as far as it needs.
   * "index": in each cell of the range a formula of its own, INDEX(formula, row, column), which also older Excel calculates and
   * which LibreOffice shows without calculating. LibreOffice 7.4 calculates every array formula when it opens a file, so it
   * shows #NAME? for an ALGAL function in one. Default "array".
   */
  spillAs?: "array" | "index";
}

/** A table. Its headings, if it has any, are texts that differ from each other, and the cells of its first row hold them. */
export interface NewTable {
  name: string;
  ref: string;
  /** true where it is left out. */
  hasHeadings?: boolean;
  hasTotals?: boolean;
  /** Names of the columns of a table without headings. */
  columns?: string[];
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
