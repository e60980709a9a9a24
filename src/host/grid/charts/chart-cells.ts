import { type CellRange, rangeAddress, sheetReference } from "../../../files/address";
import type { ChartState, PlacedRange } from "../../excel/book-state";
import { columnsOf, intersection, readAnyRange } from "../../excel/range-geometry";
import type { GridPort } from "../../grid-port";
import type { ChartCells } from "./chart-data";

interface Place {
  readonly sheet: string;
  readonly range: CellRange;
}

/** The cells of charts in the open workbook. A range on a sheet that is gone, or beyond the sheet's end, has no cells. */
export function chartCells(port: GridPort): ChartCells {
  return {
    values: (range) => {
      const place = placeOf(port, range);
      return place ? port.read(place.sheet, rangeAddress(place.range)).values : [];
    },
    format: (range, index) => {
      const place = placeOf(port, range);
      if (!place) return "General";
      const row = place.range.startRow + Math.floor(index / columnsOf(place.range));
      const column = place.range.startColumn + (index % columnsOf(place.range));
      return port.formats.numberFormats(place.sheet, rangeAddress({ startRow: row, endRow: row, startColumn: column, endColumn: column }))[0]?.[0] ?? "General";
    },
  };
}

/** The cells that hold a chart's values, "Charts!B5:D400"; "" when none of them stands. Of several sheets the first is named. */
export function chartSource(port: GridPort, { series }: ChartState): string {
  const places = series.flatMap(({ values }) => (values ? (placeOf(port, values) ?? []) : []));
  const [first] = places;
  if (!first) return "";
  const range = places.filter(({ sheet }) => sheet === first.sheet).reduce((all, { range: one }) => around(all, one), first.range);
  return `${sheetReference(first.sheet)}!${rangeAddress(range)}`;
}

function placeOf(port: GridPort, { sheetId, ref }: PlacedRange): Place | null {
  const sheet = port.sheets.list().find(({ id }) => id === sheetId)?.name;
  const range = readAnyRange(ref);
  if (sheet === undefined || !range) return null;
  const { rows, columns } = port.sheets.size(sheet);
  const inside = intersection(range, { startRow: 0, startColumn: 0, endRow: rows - 1, endColumn: columns - 1 });
  return inside && { sheet, range: inside };
}

function around(a: CellRange, b: CellRange): CellRange {
  return { startRow: Math.min(a.startRow, b.startRow), startColumn: Math.min(a.startColumn, b.startColumn), endRow: Math.max(a.endRow, b.endRow), endColumn: Math.max(a.endColumn, b.endColumn) };
}
