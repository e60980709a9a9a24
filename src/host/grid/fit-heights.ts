import { ICommandService, type IMutationInfo, sequenceExecute, type Worksheet } from "@univerjs/core";
import { SheetInterceptorService } from "@univerjs/sheets";
import { type CellRange, cellsOf } from "../engine/address";
import type { OpenWorkbook } from "./open-workbook";

/** What was done to the heights of rows, and what takes it back. */
export interface Heights {
  readonly redos: IMutationInfo[];
  readonly undos: IMutationInfo[];
}

/**
 * Fits the rows in which a cell of the ranges shows something and may be taller or lower than before; the others keep their height.
 * The grid's own way measures every cell of every row in the ranges, and most are blank.
 */
export function fitHeights(open: OpenWorkbook, sheet: Worksheet, within: readonly CellRange[], isChanged: (row: number, column: number) => boolean = () => true): Heights {
  const reader = open.reader();
  const rows = new Set<number>();
  for (const range of within) {
    for (const { row, column } of cellsOf(range)) {
      if (!rows.has(row) && reader.value(sheet, row, column) !== "" && isChanged(row, column)) rows.add(row);
    }
  }
  if (rows.size === 0) return { redos: [], undos: [] };
  const ranges = [...rows].map((row): CellRange => ({ startRow: row, endRow: row, startColumn: 0, endColumn: sheet.getColumnCount() - 1 }));
  const heights = open.injector.get(SheetInterceptorService).generateMutationsOfAutoHeight({ unitId: open.unitId, subUnitId: sheet.getSheetId(), ranges });
  sequenceExecute(heights.redos, open.injector.get(ICommandService));
  return heights;
}
