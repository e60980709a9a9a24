import type { BookState } from "./excel/book-state";

/**
 * The small interface through which everything else touches the visible grid. Sheets are named by their names, unless an
 * argument says id: ids stay when a sheet is renamed. Addresses are A1 style without a sheet name and without dollar signs,
 * "B2" or "A1:D9", and lie within the sheet's size.
 */
export interface GridPort {
  /** Names of the visible and hidden sheets, in tab order. */
  sheetNames(): string[];
  activeSheet(): string;
  /**
   * Raw contents of a range, row by row. Values are numbers, texts, booleans, error codes as text ("#VALUE!"), "" for
   * blank. Formulas are "=..." text, or the value where there is no formula, as in the Excel API.
   */
  read(sheet: string, address: string): GridContent;
  /**
   * Writes rows of cells; text that starts with "=" becomes a formula, every other text stays text, "" empties the cell and
   * null leaves it as it was, as in the Excel API. A sheet that is too small grows first.
   */
  write(sheet: string, address: string, content: unknown[][]): void;
  /** Brings a range into view and selects it. */
  select(sheet: string, address: string): void;
  selection(): GridSelection;
  /**
   * Called after cells changed (typed, written or calculated), with the places where something was typed or written; none when
   * formulas gave new answers only. Returns the function that ends the subscription.
   */
  onChange(listener: (changes: readonly GridChange[]) => void): () => void;
  onSelection(listener: () => void): () => void;
  /** What is done in it is taken back by one step of undo, even when it ends by throwing. */
  asOneStep(act: () => void): void;
  readonly sheets: GridSheets;
  readonly formats: GridFormats;
  readonly names: GridNames;
  readonly state: GridState;
}

export interface GridContent {
  values: unknown[][];
  formulas: unknown[][];
}

export interface GridSelection {
  sheet: string;
  address: string;
}

export interface GridChange {
  readonly sheetId: string;
  readonly address: string;
  readonly kind: "RangeEdited" | "RowInserted" | "RowDeleted" | "ColumnInserted" | "ColumnDeleted";
}

export interface GridSheet {
  readonly id: string;
  readonly name: string;
  readonly visible: boolean;
}

/** The sheets themselves. What the grid refuses (the last sheet's removal) throws. */
export interface GridSheets {
  /** In tab order. */
  list(): readonly GridSheet[];
  /** Adds an empty sheet behind the last and leaves the sheet in front where it is. @returns its id */
  add(name: string): string;
  rename(id: string, name: string): void;
  remove(id: string): void;
  /** @param position counted from 0, in tab order */
  move(id: string, position: number): void;
  setVisible(id: string, visible: boolean): void;
  size(sheet: string): { readonly rows: number; readonly columns: number };
  /** The smallest range with all cells that hold something (or, unless valuesOnly, are formatted); null on an empty sheet. */
  used(sheet: string, valuesOnly: boolean): string | null;
  frozenRows(sheet: string): number;
  /** Keeps the first rows in view; 0 lets all scroll, columns too. */
  freezeRows(sheet: string, rows: number): void;
}

export interface GridStyle {
  readonly bold: boolean;
  readonly italic: boolean;
  /** "#rrggbb" */
  readonly color: string;
  /** "#rrggbb", or "" without a fill */
  readonly fill: string;
  readonly wrap: boolean;
  readonly align: "General" | "Left" | "Center" | "Right";
}

export type ClearWhat = "contents" | "formats" | "all";

/** How cells look. Widths are in pixels of the screen at 100 %. */
export interface GridFormats {
  /** What each cell shows, number format applied. */
  text(sheet: string, address: string): string[][];
  /** "General" where none was set. */
  numberFormats(sheet: string, address: string): string[][];
  setNumberFormats(sheet: string, address: string, formats: readonly (readonly (string | null)[])[]): void;
  /** The style that all cells share; null for what differs between them. */
  style(sheet: string, address: string): { readonly [Name in keyof GridStyle]: GridStyle[Name] | null };
  setStyle(sheet: string, address: string, style: Partial<GridStyle>): void;
  clear(sheet: string, address: string, what: ClearWhat): void;
  /** Of each column of the range. */
  columnWidths(sheet: string, address: string): number[];
  setColumnWidth(sheet: string, address: string, pixels: number): void;
  /** Pixels, for each row of the range. */
  rowHeights(sheet: string, address: string): number[];
  setRowHeight(sheet: string, address: string, pixels: number): void;
  /** Makes the columns as wide as what they show. */
  fitColumns(sheet: string, address: string): void;
}

export interface GridName {
  readonly id: string;
  readonly name: string;
  /** Without "=": "Log!$A$1:$B$9" or "0.7". */
  readonly formula: string;
  readonly comment: string;
  /** Of the only sheet where the name is known; null for the whole workbook. */
  readonly sheetId: string | null;
}

export interface GridNames {
  list(): readonly GridName[];
  /** @returns the id of the name */
  add(name: Omit<GridName, "id">): string;
  remove(id: string): void;
}

/** What a workbook holds beyond its cells. A change can be undone like any other. */
export interface GridState {
  current(): BookState;
  change(next: BookState): void;
  /** Called after every change, undo and redo included. Returns the function that ends the subscription. */
  onChange(listener: () => void): () => void;
}
