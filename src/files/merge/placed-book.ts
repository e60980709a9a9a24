import type { NewBook, NewSheet } from "../new-book-model";

/** A workbook of the grid, with the ids of its sheets in tab order: an id stays when a sheet is renamed or moved. */
export interface PlacedBook {
  readonly ids: readonly string[];
  readonly book: NewBook;
  /** Where formulas that no file can hold stand as texts: "Log!B7". */
  readonly asTexts?: readonly string[];
  /** Whether formulas may show answers of before the last edits. */
  readonly isStale?: boolean;
}

export function sheetOf({ book, ids }: PlacedBook, id: string): NewSheet | undefined {
  return book.sheets[ids.indexOf(id)];
}

/** What a sheet has beside its name and its cells. */
export type Aspect = Exclude<keyof NewSheet, "cells" | "lists" | "name">;

const ASPECTS: readonly Aspect[] = ["charts", "columnWidths", "conditionalFormats", "frozenColumns", "frozenRows", "hidden", "hiddenColumns", "hiddenRows", "hideGridLines", "merges", "print", "rowHeights", "tabColor", "tables", "usualWidth", "validations", "veryHidden"];

/** In which of them two states of a sheet differ. */
export function changedAspects(before: NewSheet, now: NewSheet): Set<Aspect> {
  const text = (sheet: NewSheet, aspect: Aspect) => JSON.stringify(sheet[aspect], (_name, value: unknown) => (value instanceof Map ? [...(value as Map<unknown, unknown>)] : value));
  return new Set(ASPECTS.filter((aspect) => text(before, aspect) !== text(now, aspect)));
}
