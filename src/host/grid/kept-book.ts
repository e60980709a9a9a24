import { type ICellData, type IObjectMatrixPrimitiveType, IResourceLoaderService, type IWorkbookData, type Nullable, ObjectMatrix } from "@univerjs/core";
import { cellAddress } from "../../files/address";
import type { Book, BookSheet } from "../../files/book";
import { readRange } from "../engine/address";
import { type BookState, stateOnSheets, type TableState } from "../excel/book-state";
import { headingTexts } from "../excel/heading-texts";
import type { OpenWorkbook } from "./open-workbook";
import type { Shifts } from "./shifted-sheets";

type CellData = IObjectMatrixPrimitiveType<Nullable<ICellData>>;

/** A workbook of the grid as it can be laid by and taken up again: plain records, nothing of undo. */
export interface KeptBook {
  readonly snapshot: IWorkbookData;
  readonly state: BookState;
  /** The id of the sheet in front. */
  readonly front: string;
  /** Rows and columns that were put in or taken out since the workbook was opened; an earlier make of the page did not say. */
  readonly moves?: Shifts["moves"];
  /** Ids of the sheets in which some went to another place. */
  readonly shifted?: Shifts["shifted"];
}

export function keptBook(open: OpenWorkbook, state: BookState, shifts: Shifts): KeptBook {
  const { workbook } = open;
  const snapshot = open.injector.get(IResourceLoaderService).saveUnit<IWorkbookData>(workbook.getUnitId()) ?? workbook.getSnapshot();
  return { snapshot, state: stateOnSheets(state, new Set(workbook.getSheets().map((sheet) => sheet.getSheetId()))), front: workbook.getActiveSheet().getSheetId(), ...shifts };
}

/** As much of a kept workbook as formulas have to be told of its tables. */
export function tablesOfKept({ snapshot, state }: KeptBook): { book: Book; sheetId(index: number): string } {
  const { sheetOrder, sheets } = snapshot;
  const book: Book = {
    sheets: sheetOrder.map((id) => ({
      name: sheets[id]?.name ?? "",
      cells: formulasOf(sheets[id]?.cellData ?? {}),
      tables: state.tables.filter((table) => table.sheetId === id).map((table) => ({ ...table, columns: columnsOf(table, sheets[id]?.cellData ?? {}) })),
    })),
    names: [],
    date1904: false,
  };
  return { book, sheetId: (index) => sheetOrder[index] ?? "" };
}

/** Headings may have been typed over since the table was made. */
function columnsOf({ columns, hasHeadings, ref }: TableState, cellData: CellData): string[] {
  if (!hasHeadings) return [...columns];
  const { endColumn, startColumn, startRow } = readRange(ref);
  const matrix = new ObjectMatrix(cellData);
  return headingTexts(Array.from({ length: endColumn - startColumn + 1 }, (_heading, i) => matrix.getValue(startRow, startColumn + i)?.v ?? ""));
}

/** Only the formulas: they say which parts of tables are asked for. */
function formulasOf(cellData: CellData): BookSheet["cells"] {
  const cells: BookSheet["cells"] = new Map();
  new ObjectMatrix(cellData).forValue((row, column, cell) => {
    if (cell?.f) cells.set(cellAddress(row, column), { value: null, formula: cell.f });
  });
  return cells;
}
