import { type IDisposable, ICommandService, type Injector, IUniverInstanceService, type Nullable, UniverInstanceType, type Workbook } from "@univerjs/core";
import {
  FormulaDataModel,
  IFunctionService,
  type ISetFormulaCalculationResultMutation,
  SetFormulaCalculationNotificationMutation,
  SetFormulaCalculationResultMutation,
} from "@univerjs/engine-formula";
import { customFunctionsIn } from "../../files/formula-text";
import { joinAddress } from "../../functions/cell-address";
import type { CellProblem, ProblemBook } from "../../functions/problem-book";
import { host } from "../../words/host";
import { cellAddress, cellsOf } from "./address";
import type { CallReport } from "./executor";
import { hasFormula, SheetReader } from "./sheet-reader";

const ERROR_CODE = /^#[A-Z/0]+[!?]?$/;

interface Origin {
  unitId: string;
  sheetId: string;
  row: number;
  column: number;
}

/**
 * Keeps the problem book in step with what the grid shows. A call's errors are held until its cell has its final value, because
 * the engine works out both arms of an IF, and a formula may catch an error: only what the sheet shows is a problem.
 */
export class ProblemWatch implements IDisposable {
  private readonly pending = new Map<string, { origin: Origin; calls: CallReport[] }>();
  private readonly listening: IDisposable;
  private lastKey = "";

  /** @param ended called at the end of each calculation */
  constructor(private readonly injector: Injector, private readonly problems: ProblemBook, private readonly ended: () => void) {
    this.listening = injector.get(ICommandService).onCommandExecuted((command) => {
      if (command.id === SetFormulaCalculationResultMutation.id) this.settle(command.params as ISetFormulaCalculationResultMutation);
      if (command.id === SetFormulaCalculationNotificationMutation.id) this.finish(command.params as { functionsExecutedState?: number });
    });
  }

  dispose(): void {
    this.listening.dispose();
  }

  /** Called by each function when it has calculated. */
  readonly report = (call: CallReport): void => {
    const key = `${call.unitId}/${call.sheetId}/${call.row}/${call.column}`;
    const entry = this.pending.get(key);
    // The engine finishes one cell before the next, so a return to a cell is a new calculation of it.
    if (entry && key === this.lastKey) entry.calls.push(call);
    else this.pending.set(key, { origin: call, calls: [call] });
    this.lastKey = key;
  };

  private settle({ unitData }: ISetFormulaCalculationResultMutation): void {
    this.problems.batch(() => {
      for (const [unitId, sheets] of Object.entries(unitData)) {
        const workbook = this.injector.get(IUniverInstanceService).getUnit<Workbook>(unitId, UniverInstanceType.UNIVER_SHEET);
        if (!workbook) continue;
        const reader = new SheetReader(workbook, this.injector.get(FormulaDataModel));
        for (const [sheetId, rows] of Object.entries(sheets ?? {})) {
          for (const [row, cells] of Object.entries(rows ?? {})) {
            for (const [column, cell] of Object.entries(cells ?? {})) {
              this.settleCell(workbook, reader, { unitId, sheetId, row: Number(row), column: Number(column) }, cell as Nullable<{ v?: unknown }>);
            }
          }
        }
      }
    });
  }

  private settleCell(workbook: Workbook, reader: SheetReader, origin: Origin, cell: Nullable<{ v?: unknown }>): void {
    const sheet = workbook.getSheetBySheetId(origin.sheetId);
    if (!sheet) return;
    const place = (row: number, column: number) => joinAddress(sheet.getName(), cellAddress(row, column));
    const calls = this.pending.get(`${origin.unitId}/${origin.sheetId}/${origin.row}/${origin.column}`)?.calls ?? [];
    const address = place(origin.row, origin.column);
    if (cell?.v === "#SPILL!") {
      const [call] = calls;
      this.problems.replace(address, call ? [{ address, functionName: call.functionName, sentence: host.spillBlocked }] : []);
      return;
    }
    const spill = reader.spill(sheet, origin.row, origin.column) ?? { startRow: origin.row, startColumn: origin.column, endRow: origin.row, endColumn: origin.column };
    const showsError = (row: number, column: number) =>
      ERROR_CODE.test(String(row === origin.row && column === origin.column ? cell?.v : reader.value(sheet, row, column)));
    const shown = calls.flatMap(({ functionName, height, width, errors }): CellProblem[] => {
      const isWholeAnswer = height === spill.endRow - spill.startRow + 1 && width === spill.endColumn - spill.startColumn + 1;
      if (isWholeAnswer) {
        const visible = errors.filter(({ row, column }) => showsError(origin.row + row, origin.column + column));
        return visible.map(({ row, column, sentence }) => ({ address: place(origin.row + row, origin.column + column), functionName, sentence }));
      }
      // The answer went on into a larger formula: which element came out where cannot be told.
      const isVisible = errors.length > 0 && [...cellsOf(spill)].some(({ row, column }) => showsError(row, column));
      return isVisible ? errors.map(({ sentence }) => ({ address, functionName, sentence })) : [];
    });
    if (cell?.v === "#NAME?") shown.push(...this.unknownFunctions(address, reader.formula(sheet, origin.row, origin.column) ?? ""));
    this.problems.replace(address, distinct(shown));
  }

  /** A function that is not there never reports, so its name is looked for in the formula. */
  private unknownFunctions(address: string, formula: string): CellProblem[] {
    const service = this.injector.get(IFunctionService);
    const names = customFunctionsIn(formula.replace(/^=/, "")).map((name) => `ALGAL.${name}`);
    return names.filter((name) => !service.hasExecutor(name)).map((functionName) => ({ address, functionName, sentence: host.noFunction(functionName) }));
  }

  /** The end of a calculation: forgets what was held, and the problems of cells whose formula is gone. */
  private finish({ functionsExecutedState }: { functionsExecutedState?: number }): void {
    if (functionsExecutedState === undefined) return;
    this.pending.clear();
    this.lastKey = "";
    this.ended();
    this.forgetRemoved();
  }

  /** Drops the problems of cells that hold no formula any more. */
  private forgetRemoved(): void {
    const origins = new Set(this.problems.origins());
    if (origins.size === 0) return;
    for (const workbook of this.injector.get(IUniverInstanceService).getAllUnitsForType<Workbook>(UniverInstanceType.UNIVER_SHEET)) {
      for (const sheet of workbook.getSheets()) {
        sheet.getCellMatrix().forValue((row, column, cell) => {
          if (origins.size > 0 && hasFormula(cell)) origins.delete(joinAddress(sheet.getName(), cellAddress(row, column)));
        });
      }
    }
    this.problems.batch(() => origins.forEach((origin) => this.problems.replace(origin, [])));
  }
}

function distinct(problems: CellProblem[]): CellProblem[] {
  const seen = new Set<string>();
  return problems.filter(({ address, functionName, sentence }) => {
    const key = `${address}\n${functionName}\n${sentence}`;
    return !seen.has(key) && seen.add(key);
  });
}
