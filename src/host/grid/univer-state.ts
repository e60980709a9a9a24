import { CommandType, type ICommandInfo, ICommandService, type IMutationInfo, type IRange, IUndoRedoService } from "@univerjs/core";
import { InsertColCommand, InsertRowCommand, RemoveColCommand, RemoveRowCommand, SheetInterceptorService } from "@univerjs/sheets";
import { type BookState, EMPTY_STATE } from "../excel/book-state";
import { type SheetShift, shiftedState } from "../excel/moved-ranges";
import type { GridState } from "../grid-port";
import type { OpenWorkbook } from "./open-workbook";

interface StateParams {
  readonly unitId: string;
  readonly state: BookState;
}

const SET_STATE = "algal-ledger.mutation.set-book-state";

const SHIFTS: Readonly<Record<string, Pick<SheetShift, "along" | "way">>> = {
  [InsertRowCommand.id]: { along: "rows", way: "insert" },
  [RemoveRowCommand.id]: { along: "rows", way: "delete" },
  [InsertColCommand.id]: { along: "columns", way: "insert" },
  [RemoveColCommand.id]: { along: "columns", way: "delete" },
};

/**
 * What the open workbook holds beyond its cells. A change is a command of the grid, so that undo and redo take it back and
 * again; when rows or columns come or go the ranges in it move with the cells, in the same step of undo.
 */
export class UniverState implements GridState {
  private readonly states = new Map<string, BookState>();
  private readonly listeners = new Set<() => void>();

  constructor(private readonly open: OpenWorkbook) {
    open.injector.get(ICommandService).registerCommand({
      id: SET_STATE,
      type: CommandType.MUTATION,
      handler: (_accessor, params?: StateParams) => {
        if (!params) return false;
        this.states.set(params.unitId, params.state);
        for (const listener of [...this.listeners]) listener();
        return true;
      },
    });
  }

  /** The workbook that was just opened comes with a state of its own, which is no step of undo. */
  begin(unitId: string, state: BookState): void {
    this.states.clear();
    this.states.set(unitId, state);
    for (const listener of [...this.listeners]) listener();
  }

  /** Once the grid's own services are up: from then on the ranges follow the cells. */
  followCells(): void {
    this.open.injector.get(SheetInterceptorService).interceptCommand({ getMutations: (command) => this.mutationsWith(command) });
  }

  current(): BookState {
    return this.states.get(this.open.unitId) ?? EMPTY_STATE;
  }

  change(next: BookState): void {
    const { undos, redos } = this.step(next);
    this.open.command(SET_STATE, { state: next });
    this.open.injector.get(IUndoRedoService).pushUndoRedo({ unitID: this.open.unitId, undoMutations: undos, redoMutations: redos });
  }

  onChange(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  private mutationsWith({ id, params }: ICommandInfo): { undos: IMutationInfo[]; redos: IMutationInfo[] } {
    const shift = SHIFTS[id];
    if (!shift || !params) return { undos: [], redos: [] };
    const { range, ranges = [range], subUnitId = this.open.workbook.getActiveSheet().getSheetId() } = params as { range: IRange; ranges?: IRange[]; subUnitId?: string };
    const places = ranges.map(({ startRow, endRow, startColumn, endColumn }) => (shift.along === "rows" ? ([startRow, endRow] as const) : ([startColumn, endColumn] as const)));
    // From the last to the first, so that each stands where the command found it.
    const next = [...places].sort((a, b) => b[0] - a[0]).reduce((state, [first, last]) => shiftedState(state, { ...shift, sheetId: subUnitId, first, count: last - first + 1 }), this.current());
    return JSON.stringify(next) === JSON.stringify(this.current()) ? { undos: [], redos: [] } : this.step(next);
  }

  private step(next: BookState): { undos: IMutationInfo[]; redos: IMutationInfo[] } {
    const { unitId } = this.open;
    return { undos: [{ id: SET_STATE, params: { unitId, state: this.current() } }], redos: [{ id: SET_STATE, params: { unitId, state: next } }] };
  }
}
