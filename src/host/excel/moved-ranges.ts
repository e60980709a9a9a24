import type { CellRange } from "../../files/address";
import type { BookState, PageState, PlacedRange, SeriesState } from "./book-state";
import { anyRangeAddress, readAnyRange, WHOLE_SHEET } from "./range-geometry";

/** Whole rows or columns that were put in before a place, or taken out from it. */
export interface SheetShift {
  readonly sheetId: string;
  readonly along: "rows" | "columns";
  readonly way: "insert" | "delete";
  /** Counted from 0. */
  readonly first: number;
  readonly count: number;
}

/** Everything beyond the cells, at the addresses that it has after the shift. What stood in deleted cells only is gone. */
export function shiftedState(state: BookState, shift: SheetShift): BookState {
  const place = <Placed extends PlacedRange>(items: readonly Placed[]): Placed[] =>
    items.flatMap((item) => {
      const ref = shiftedRef(item, shift);
      return ref === null ? [] : [{ ...item, ref }];
    });
  return {
    ...state,
    tables: place(state.tables),
    validations: place(state.validations),
    conditionalFormats: place(state.conditionalFormats),
    charts: state.charts.map((chart) => ({
      ...chart,
      position: shiftedRef({ sheetId: chart.sheetId, ref: chart.position }, shift) ?? chart.position,
      series: chart.series.map((series) => shiftedSeries(series, shift)),
    })),
    pages: Object.fromEntries(Object.entries(state.pages).map(([sheetId, page]) => [sheetId, shiftedPage(sheetId, page, shift)])),
  };
}

function shiftedSeries(series: SeriesState, shift: SheetShift): SeriesState {
  const move = (range: PlacedRange | null): PlacedRange | null => {
    const ref = range && shiftedRef(range, shift);
    return range && ref ? { ...range, ref } : null;
  };
  return { ...series, values: move(series.values), xValues: move(series.xValues) };
}

function shiftedPage(sheetId: string, { titleRows, printArea, ...page }: PageState, shift: SheetShift): PageState {
  const rows = titleRows && shiftedRef({ sheetId, ref: titleRows }, shift);
  const area = printArea && shiftedRef({ sheetId, ref: printArea }, shift);
  return { ...page, ...(rows ? { titleRows: rows } : {}), ...(area ? { printArea: area } : {}) };
}

/** null when nothing of the range is left. */
function shiftedRef({ sheetId, ref }: PlacedRange, shift: SheetShift): string | null {
  const range = readAnyRange(ref);
  if (sheetId !== shift.sheetId || !range) return ref;
  const [start, end] = shift.along === "rows" ? (["startRow", "endRow"] as const) : (["startColumn", "endColumn"] as const);
  // Whole columns stay whole, however many rows come or go.
  if (range[start] === 0 && range[end] === WHOLE_SHEET[end]) return ref;
  const span = shift.way === "insert" ? afterInsert(range[start], range[end], shift) : afterDelete(range[start], range[end], shift);
  const next: CellRange = { ...range, [start]: span[0], [end]: span[1] };
  return span[0] > span[1] ? null : anyRangeAddress(next);
}

function afterInsert(start: number, end: number, { first, count }: SheetShift): [number, number] {
  return [start >= first ? start + count : start, end >= first ? end + count : end];
}

function afterDelete(start: number, end: number, { first, count }: SheetShift): [number, number] {
  const behind = first + count;
  const newStart = start < first ? start : Math.max(first, start - count);
  const newEnd = end >= behind ? end - count : Math.min(end, first - 1);
  return [newStart, newEnd];
}
