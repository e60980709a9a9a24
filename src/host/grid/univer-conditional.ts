import { CommandType, ICommandService, InterceptorEffectEnum, type IStyleData, BooleanNumber } from "@univerjs/core";
import { LexerTreeBuilder, RegisterOtherFormulaService } from "@univerjs/engine-formula";
import { SheetsRenderService } from "@univerjs/preset-sheets-core";
import { INTERCEPTOR_POINT, SheetInterceptorService } from "@univerjs/sheets";
import { type CellRange, contains } from "../engine/address";
import type { ConditionalFormatState } from "../excel/book-state";
import { intersection, readAnyRange } from "../excel/range-geometry";
import type { OpenWorkbook } from "./open-workbook";
import type { UniverState } from "./univer-state";

/** A conditional format as the grid draws it. */
interface Drawn {
  readonly format: ConditionalFormatState;
  readonly range: CellRange;
  readonly watched: Watched | null;
}

/** A formula that the engine calculates for every cell that has an answer of its own: one row or column is enough where all look at the same cells. */
interface Watched {
  /** One for each column. The engine takes cells right of the first for cells of the sheet, and would calculate again what reads those. */
  readonly formulaIds: readonly string[];
  readonly rowsDiffer: boolean;
}

const REDRAW = "algal-ledger.operation.redraw-conditional-formats";

/** Draws the conditional formats of the open workbook: the engine says where a formula holds, and the cells get the look on their way to the screen. */
export class UniverConditional {
  private drawn: Drawn[] = [];
  private unitId = "";
  private told = "";
  private readonly toRedraw = new Set<string>();

  constructor(private readonly open: OpenWorkbook, private readonly state: UniverState) {
    open.injector.get(ICommandService).registerCommand({ id: REDRAW, type: CommandType.OPERATION, handler: () => true });
  }

  /** Once the grid's own services are up. */
  start(): void {
    const { injector } = this.open;
    injector.get(SheetsRenderService).registerSkeletonChangingMutations(REDRAW);
    injector.get(SheetInterceptorService).intercept(INTERCEPTOR_POINT.CELL_CONTENT, {
      effect: InterceptorEffectEnum.Style,
      handler: (cell, location, next) => {
        if (this.drawn.length === 0 || location.unitId !== this.unitId) return next(cell);
        const style = this.styleAt(location.subUnitId, location.row, location.col);
        return next(style ? { ...(cell ?? {}), interceptorStyle: { ...cell?.interceptorStyle, ...style } } : cell);
      },
    });
    injector.get(RegisterOtherFormulaService).formulaResult$.subscribe((results) => {
      const sheets = Object.keys(results[this.unitId] ?? {});
      for (const sheetId of sheets.filter((id) => this.drawn.some(({ format }) => format.sheetId === id))) this.redraw(sheetId);
    });
  }

  update(): void {
    const { conditionalFormats } = this.state.current();
    const wanted = `${this.open.unitId}${JSON.stringify(conditionalFormats)}`;
    if (wanted === this.told) return;
    this.told = wanted;
    const formulas = this.open.injector.get(RegisterOtherFormulaService);
    // What the engine calculates already for a format goes on where its cells and its formula are the same.
    const standing = this.unitId === this.open.unitId ? new Map(this.drawn.map((drawn) => [drawn.format.id, drawn])) : new Map<string, Drawn>();
    const before = this.drawn;
    const unitBefore = this.unitId;
    this.unitId = this.open.unitId;
    this.drawn = conditionalFormats.flatMap((format) => this.draw(format, standing.get(format.id)));
    const kept = new Set(this.drawn.map(({ watched }) => watched));
    for (const { format, watched } of before) if (watched && !kept.has(watched)) formulas.deleteFormula(unitBefore, format.sheetId, [...watched.formulaIds]);
    for (const sheetId of new Set([...before, ...this.drawn].map(({ format }) => format.sheetId))) this.redraw(sheetId);
  }

  private draw(format: ConditionalFormatState, before: Drawn | undefined): Drawn[] {
    const sheet = this.open.workbook.getSheetBySheetId(format.sheetId);
    const whole = readAnyRange(format.ref);
    const range = sheet && whole && intersection(whole, { startRow: 0, startColumn: 0, endRow: sheet.getRowCount() - 1, endColumn: sheet.getColumnCount() - 1 });
    if (!range) return [];
    if (format.type !== "Custom") return [{ format, range, watched: null }];
    const from = readAnyRange(format.seenFrom);
    if (format.formula === "" || !from) return [];
    const same = before?.watched && watchedText(before) === watchedText({ format, range });
    return [{ format, range, watched: same ? before.watched : this.watch(format, range, from) }];
  }

  private watch({ formula, sheetId }: ConditionalFormatState, range: CellRange, from: CellRange): Watched {
    const lexer = this.open.injector.get(LexerTreeBuilder);
    const moved = (right: number, down: number) => lexer.moveFormulaRefOffset(formula, range.startColumn - from.startColumn + right, range.startRow - from.startRow + down);
    const first = moved(0, 0);
    const rowsDiffer = moved(0, 1) !== first;
    const columns = moved(1, 0) === first ? 1 : range.endColumn - range.startColumn + 1;
    const formulas = this.open.injector.get(RegisterOtherFormulaService);
    const formulaIds = Array.from({ length: columns }, (_id, column) => {
      const at = range.startColumn + column;
      return formulas.registerFormulaWithRange(this.unitId, sheetId, moved(column, 0), [{ startRow: range.startRow, endRow: rowsDiffer ? range.endRow : range.startRow, startColumn: at, endColumn: at }]);
    });
    return { formulaIds, rowsDiffer };
  }

  /** The first format that holds settles each part of the look; one that stops hides those behind it. */
  private styleAt(sheetId: string, row: number, column: number): IStyleData | null {
    const styles: IStyleData[] = [];
    for (const drawn of this.drawn) {
      const { format } = drawn;
      if (format.sheetId !== sheetId || !contains(drawn.range, row, column) || !this.holds(drawn, row, column)) continue;
      styles.unshift(looks(format));
      if (format.stopIfTrue) break;
    }
    return styles.length > 0 ? Object.assign({}, ...styles) : null;
  }

  private holds({ format, range, watched }: Drawn, row: number, column: number): boolean {
    if (!watched) return textHolds(String(this.open.reader().value(this.open.sheetById(format.sheetId), row, column)), format);
    const formulaId = watched.formulaIds[watched.formulaIds.length === 1 ? 0 : column - range.startColumn] ?? "";
    const { result } = this.open.injector.get(RegisterOtherFormulaService).getFormulaValueSync(this.unitId, format.sheetId, formulaId) ?? {};
    const value = result?.[watched.rowsDiffer ? row - range.startRow : 0]?.[0]?.[0]?.[0]?.v;
    return value === true || value === "TRUE" || (typeof value === "number" && value !== 0);
  }

  /** Once for all that changes in one go: the grid lays out the whole sheet each time. */
  private redraw(sheetId: string): void {
    if (this.toRedraw.size === 0) {
      queueMicrotask(() => {
        const sheets = [...this.toRedraw];
        this.toRedraw.clear();
        for (const subUnitId of sheets) this.open.tryCommand(REDRAW, { subUnitId });
      });
    }
    this.toRedraw.add(sheetId);
  }
}

function looks({ bold, color, fill }: ConditionalFormatState): IStyleData {
  return {
    ...(color === "" ? {} : { cl: { rgb: color } }),
    ...(fill === "" ? {} : { bg: { rgb: fill } }),
    ...(bold === null ? {} : { bl: bold ? BooleanNumber.TRUE : BooleanNumber.FALSE }),
  };
}

/** What decides which answers of the engine a format needs. */
const watchedText = ({ format, range }: Pick<Drawn, "format" | "range">): string => JSON.stringify([format.type, format.sheetId, format.formula, format.seenFrom, range]);

/** Without regard to case, as in Excel. */
function textHolds(value: string, { operator, text }: ConditionalFormatState): boolean {
  const [shown, wanted] = [value.toLowerCase(), text.toLowerCase()];
  if (wanted === "") return false;
  if (operator === "BeginsWith") return shown.startsWith(wanted);
  if (operator === "EndsWith") return shown.endsWith(wanted);
  return shown.includes(wanted) === (operator === "Contains");
}
