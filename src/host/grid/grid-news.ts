import { ICommandService, type Injector } from "@univerjs/core";
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

type Listener = () => void;

/** After these the cells of a sheet stand at other addresses. */
const MOVING_CELLS = [InsertColMutation, InsertRowMutation, InsertSheetMutation, MoveColsMutation, MoveRangeMutation, MoveRowsMutation, RemoveColMutation, RemoveRowMutation, RemoveSheetMutation, SetWorksheetNameMutation].map(
  ({ id }) => id,
);
const CHANGING = new Set([SetRangeValuesMutation.id, ...MOVING_CELLS]);
const SELECTING = new Set([SetSelectionsOperation.id, SetWorksheetActiveOperation.id]);

/** Tells listeners what happens in the grid, once per turn however many commands it took. */
export class GridNews {
  private readonly changeListeners = new Set<Listener>();
  private readonly moveListeners = new Set<Listener>();
  private readonly selectionListeners = new Set<Listener>();
  private readonly waiting = new Set<Set<Listener>>();

  constructor(injector: Injector) {
    injector.get(ICommandService).onCommandExecuted((command) => {
      if (CHANGING.has(command.id)) this.tell(this.changeListeners);
      if (MOVING_CELLS.includes(command.id)) this.tell(this.moveListeners);
      if (SELECTING.has(command.id)) this.tell(this.selectionListeners);
      if (command.id === SetFormulaCalculationNotificationMutation.id) {
        const { functionsExecutedState } = command.params as { functionsExecutedState?: number };
        if (functionsExecutedState !== undefined) this.tell(this.changeListeners);
      }
    });
  }

  onChange(listener: Listener): () => void {
    return subscribe(this.changeListeners, listener);
  }

  /** Rows, columns or sheets were put in, taken out, moved or renamed. */
  onMove(listener: Listener): () => void {
    return subscribe(this.moveListeners, listener);
  }

  onSelection(listener: Listener): () => void {
    return subscribe(this.selectionListeners, listener);
  }

  private tell(listeners: Set<Listener>): void {
    if (this.waiting.has(listeners)) return;
    this.waiting.add(listeners);
    setTimeout(() => {
      this.waiting.delete(listeners);
      for (const listener of [...listeners]) listener();
    });
  }
}

function subscribe(listeners: Set<Listener>, listener: Listener): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
