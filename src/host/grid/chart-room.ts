import { ICommandService, type Worksheet } from "@univerjs/core";
import { SetWorksheetColumnCountMutation, SetWorksheetRowCountMutation } from "@univerjs/sheets";
import type { ChartState } from "../excel/book-state";
import { readAnyRange } from "../excel/range-geometry";
import type { OpenWorkbook } from "./open-workbook";

/** Rows and columns of the grid behind the last chart. */
const SPARE = 2;

/**
 * Lets a sheet grow until its charts stand on it: the grid's sheets end soon, and a chart may stand anywhere. This is no step of
 * undo, since empty rows and columns at the end change nothing that anybody made.
 */
export function makeRoomForCharts(open: OpenWorkbook, sheet: Worksheet, charts: readonly ChartState[]): void {
  const ranges = charts.flatMap(({ position }) => readAnyRange(position) ?? []);
  const rowCount = Math.max(0, ...ranges.map(({ endRow }) => endRow + 1));
  const columnCount = Math.max(0, ...ranges.map(({ endColumn }) => endColumn + 1));
  const grow = (id: string, size: object): void => void open.injector.get(ICommandService).syncExecuteCommand(id, { unitId: open.unitId, subUnitId: sheet.getSheetId(), ...size });
  if (rowCount > sheet.getRowCount()) grow(SetWorksheetRowCountMutation.id, { rowCount: rowCount + SPARE });
  if (columnCount > sheet.getColumnCount()) grow(SetWorksheetColumnCountMutation.id, { columnCount: columnCount + SPARE });
}
