import { ICommandService, type ICellData, type Injector, type IRange, type Nullable } from "@univerjs/core";
import { SetFormulaCalculationNotificationMutation } from "@univerjs/engine-formula";
import {
  InsertColMutation,
  InsertRowMutation,
  InsertSheetMutation,
  MoveColsMutation,
  MoveRangeMutation,
  MoveRowsMutation,
  RemoveColMutation,
  RemoveRowMutation,
  RemoveSheetMutation,
  SetRangeValuesMutation,
  SetSelectionsOperation,
  SetWorksheetActiveOperation,
  SetWorksheetNameMutation,
} from "@univerjs/sheets";
import { anyRangeAddress, entireColumns, entireRows } from "../excel/range-geometry";
import type { GridChange } from "../grid-port";

type Listener = () => void;
type ChangeListener = (changes: readonly GridChange[]) => void;

interface CellsParams {
  readonly subUnitId: string;
  readonly cellValue?: Record<number, Record<number, Nullable<ICellData>>>;
}

/** After these the cells of a sheet stand at other addresses. */
const MOVING_CELLS = [InsertColMutation, InsertRowMutation, InsertSheetMutation, MoveColsMutation, MoveRangeMutation, MoveRowsMutation, RemoveColMutation, RemoveRowMutation, RemoveSheetMutation, SetWorksheetNameMutation].map(
  ({ id }) => id,
);
const LINES: Readonly<Record<string, GridChange["kind"]>> = {
  [InsertRowMutation.id]: "RowInserted",
  [RemoveRowMutation.id]: "RowDeleted",
  [InsertColMutation.id]: "ColumnInserted",
  [RemoveColMutation.id]: "ColumnDeleted",
};
const CHANGING = new Set([SetRangeValuesMutation.id, ...MOVING_CELLS]);
const SELECTING = new Set([SetSelectionsOperation.id, SetWorksheetActiveOperation.id]);

/** Tells listeners what happens in the grid, once per turn however many commands it took. */
export class GridNews {
  private readonly changeListeners = new Set<ChangeListener>();
  private readonly moveListeners = new Set<Listener>();
  private readonly selectionListeners = new Set<Listener>();
  private readonly waiting = new Set<unknown>();
  private changes: GridChange[] = [];

  constructor(injector: Injector) {
    injector.get(ICommandService).onCommandExecuted((command, options) => {
      if (CHANGING.has(command.id)) {
        // The answers of formulas are put into cells like anything else, and are told apart by this mark.
        if (!options?.fromFormula) this.changes.push(...placesOf(command.id, command.params));
        this.tellChanges();
      }
      if (MOVING_CELLS.includes(command.id)) this.tell(this.moveListeners);
      if (SELECTING.has(command.id)) this.tell(this.selectionListeners);
      if (command.id === SetFormulaCalculationNotificationMutation.id) {
        const { functionsExecutedState } = command.params as { functionsExecutedState?: number };
        if (functionsExecutedState !== undefined) this.tellChanges();
      }
    });
  }

  onChange(listener: ChangeListener): () => void {
    return subscribe(this.changeListeners, listener);
  }

  /** Rows, columns or sheets were put in, taken out, moved or renamed. */
  onMove(listener: Listener): () => void {
    return subscribe(this.moveListeners, listener);
  }

  onSelection(listener: Listener): () => void {
    return subscribe(this.selectionListeners, listener);
  }

  private tellChanges(): void {
    this.later(this.changeListeners, () => {
      const changes = this.changes;
      this.changes = [];
      for (const listener of [...this.changeListeners]) listener(changes);
    });
  }

  private tell(listeners: Set<Listener>): void {
    this.later(listeners, () => {
      for (const listener of [...listeners]) listener();
    });
  }

  private later(subject: unknown, act: () => void): void {
    if (this.waiting.has(subject)) return;
    this.waiting.add(subject);
    setTimeout(() => {
      this.waiting.delete(subject);
      act();
    });
  }
}

/** Where contents changed; a change of the format alone is none, as in Excel. */
function placesOf(id: string, params: unknown): GridChange[] {
  if (id === SetRangeValuesMutation.id) return cellPlaces(params as CellsParams);
  const kind = LINES[id];
  if (!kind) return [];
  const { range, subUnitId } = params as { range: IRange; subUnitId: string };
  const { startRow, endRow, startColumn, endColumn } = range;
  const lines = id === InsertRowMutation.id || id === RemoveRowMutation.id ? entireRows : entireColumns;
  return [{ sheetId: subUnitId, address: anyRangeAddress(lines({ startRow, endRow, startColumn, endColumn })), kind }];
}

function cellPlaces({ cellValue = {}, subUnitId }: CellsParams): GridChange[] {
  let range: { startRow: number; endRow: number; startColumn: number; endColumn: number } | null = null;
  for (const [r, cells] of Object.entries(cellValue)) {
    for (const [c, cell] of Object.entries(cells ?? {})) {
      if (cell && Object.keys(cell).every((name) => name === "s" || name === "t")) continue;
      const [row, column] = [Number(r), Number(c)];
      range ??= { startRow: row, endRow: row, startColumn: column, endColumn: column };
      range.startRow = Math.min(range.startRow, row);
      range.endRow = Math.max(range.endRow, row);
      range.startColumn = Math.min(range.startColumn, column);
      range.endColumn = Math.max(range.endColumn, column);
    }
  }
  return range ? [{ sheetId: subUnitId, address: anyRangeAddress(range), kind: "RangeEdited" }] : [];
}

function subscribe<T>(listeners: Set<T>, listener: T): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
