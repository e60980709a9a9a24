/**
 * The small interface through which everything else touches the visible grid.
 * Addresses are A1 style without a sheet name and without dollar signs: "B2" or "A1:D9".
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
   * null leaves it as it was, as in the Excel API.
   */
  write(sheet: string, address: string, content: unknown[][]): void;
  /** Brings a range into view and selects it. */
  select(sheet: string, address: string): void;
  selection(): GridSelection;
  /** Called after cells changed (typed, written or calculated). Returns the function that ends the subscription. */
  onChange(listener: () => void): () => void;
  onSelection(listener: () => void): () => void;
}

export interface GridContent {
  values: unknown[][];
  formulas: unknown[][];
}

export interface GridSelection {
  sheet: string;
  address: string;
}
