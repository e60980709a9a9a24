type Cell = string | number;

/** A sheet before it stands in a workbook. Addresses are A1 style; formulas are in English notation. */
export interface PlannedSheet {
  readonly name: string;
  /** Rows of equal length, from A1. */
  readonly cells: readonly (readonly Cell[])[];
  /** Points, by columns. */
  readonly widths: readonly { readonly columns: string; readonly points: number }[];
  /** Points, by rows: a row does not grow by itself with what is calculated in it. */
  readonly heights: readonly { readonly rows: string; readonly points: number }[];
  readonly titles: readonly string[];
  readonly headings: readonly string[];
  /** Cells to type in. */
  readonly inputs: readonly string[];
  readonly quiet: readonly string[];
  readonly wrapped: readonly string[];
  readonly numberFormats: readonly { readonly address: string; readonly format: string }[];
  readonly table: { readonly name: string; readonly address: string } | null;
  readonly names: readonly { readonly name: string; readonly address: string }[];
  readonly rules: readonly PlannedRule[];
  readonly marks: readonly ({ readonly address: string } & Mark)[];
  /** Rows that stay in view and are printed on every page: all down to the heading row. */
  readonly frozenRows: number;
  readonly landscape: boolean;
  readonly charts: readonly PlannedChart[];
}

/** Colours for the cells for which a formula, as seen from the range's first cell, is true, or whose text begins so. */
export type Mark = { readonly color: string; readonly fill: string } & ({ readonly formula: string } | { readonly beginsWith: string });

export interface PlannedRule {
  readonly address: string;
  readonly rule: Excel.DataValidationRule;
  readonly prompt: { readonly title: string; readonly message: string } | null;
}

export interface PlannedChart {
  readonly title: string;
  readonly type: "XYScatterLines" | "ColumnStacked" | "ColumnClustered";
  readonly xTitle: string;
  readonly yTitle: string;
  /** Addresses on `sheet`. */
  readonly sheet: string;
  readonly x: string;
  readonly series: readonly { readonly name: string; readonly values: string }[];
  readonly from: string;
  readonly to: string;
}

export const DATE = "yyyy-mm-dd";

export const EMPTY: Omit<PlannedSheet, "name" | "cells"> = {
  widths: [], heights: [], titles: ["A1"], headings: [], inputs: [], quiet: ["A2"], wrapped: [], numberFormats: [], table: null, names: [], rules: [], marks: [], frozenRows: 0, landscape: false, charts: [],
};

/** Rows made equally long. */
export function even(rows: readonly (readonly Cell[])[]): Cell[][] {
  const width = Math.max(...rows.map((row) => row.length));
  return rows.map((row) => [...row, ...new Array<string>(width - row.length).fill("")]);
}

/** A reference to a range of a sheet, with quotes where the name needs them. */
export function on(sheet: string, address: string): string {
  const absolute = address.replace(/([A-Z]+)(\d+)/g, "$$$1$$$2");
  return /^[A-Za-z_][A-Za-z0-9_]*$/.test(sheet) ? `${sheet}!${absolute}` : `'${sheet.replace(/'/g, "''")}'!${absolute}`;
}
