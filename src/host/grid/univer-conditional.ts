import { CommandType, type ICellData, ICommandService, InterceptorEffectEnum, type IStyleData, BooleanNumber, type Nullable } from "@univerjs/core";
import { LexerTreeBuilder, RegisterOtherFormulaService } from "@univerjs/engine-formula";
import { SheetsRenderService } from "@univerjs/preset-sheets-core";
import { INTERCEPTOR_POINT, SheetInterceptorService } from "@univerjs/sheets";
import { type CellRange, contains } from "../engine/address";
import type { ConditionalFormatState } from "../excel/book-state";
import { intersection, readAnyRange } from "../excel/range-geometry";
import type { OpenWorkbook } from "./open-workbook";
import type { UniverState } from "./univer-state";

/** A conditional format as the grid draws it: its formula is calculated by the engine for every cell of the range. */
interface Drawn {
  readonly format: ConditionalFormatState;
  readonly range: CellRange;
  readonly formulaId: string | null;
}

const REDRAW = "algal-ledger.operation.redraw-conditional-formats";

/** Draws the conditional formats of the open workbook: the engine says where a formula holds, and the cells get the look on their way to the screen. */
export class UniverConditional {
  private drawn: Drawn[] = [];
  private unitId = "";
  private told = "";

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
        const style = this.styleAt(location.subUnitId, location.row, location.col, location.rawData);
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
    const before = this.drawn;
    for (const { format, formulaId } of before) if (formulaId !== null) formulas.deleteFormula(this.unitId, format.sheetId, [formulaId]);
    this.unitId = this.open.unitId;
    this.drawn = conditionalFormats.flatMap((format) => this.draw(format));
    for (const sheetId of new Set([...before, ...this.drawn].map(({ format }) => format.sheetId))) this.redraw(sheetId);
  }

  private draw(format: ConditionalFormatState): Drawn[] {
    const sheet = this.open.workbook.getSheetBySheetId(format.sheetId);
    const whole = readAnyRange(format.ref);
    const range = sheet && whole && intersection(whole, { startRow: 0, startColumn: 0, endRow: sheet.getRowCount() - 1, endColumn: sheet.getColumnCount() - 1 });
    if (!range) return [];
    if (format.type !== "Custom") return [{ format, range, formulaId: null }];
    const from = readAnyRange(format.seenFrom);
    if (format.formula === "" || !from) return [];
    const formula = this.open.injector.get(LexerTreeBuilder).moveFormulaRefOffset(format.formula, range.startColumn - from.startColumn, range.startRow - from.startRow);
    return [{ format, range, formulaId: this.open.injector.get(RegisterOtherFormulaService).registerFormulaWithRange(this.unitId, format.sheetId, formula, [range]) }];
  }

  /** The first format that holds settles each part of the look; one that stops hides those behind it. */
  private styleAt(sheetId: string, row: number, column: number, cell: Nullable<ICellData>): IStyleData | null {
    const styles: IStyleData[] = [];
    for (const drawn of this.drawn) {
      const { format } = drawn;
      if (format.sheetId !== sheetId || !contains(drawn.range, row, column) || !this.holds(drawn, row, column, cell)) continue;
      styles.unshift(looks(format));
      if (format.stopIfTrue) break;
    }
    return styles.length > 0 ? Object.assign({}, ...styles) : null;
  }

  private holds({ format, formulaId, range }: Drawn, row: number, column: number, cell: Nullable<ICellData>): boolean {
    if (formulaId === null) return textHolds(String(cell?.v ?? ""), format);
    const { result } = this.open.injector.get(RegisterOtherFormulaService).getFormulaValueSync(this.unitId, format.sheetId, formulaId) ?? {};
    const value = result?.[row - range.startRow]?.[column - range.startColumn]?.[0]?.[0]?.v;
    return value === true || value === "TRUE" || (typeof value === "number" && value !== 0);
  }

  private redraw(sheetId: string): void {
    this.open.tryCommand(REDRAW, { subUnitId: sheetId });
  }
}

function looks({ bold, color, fill }: ConditionalFormatState): IStyleData {
  return {
    ...(color === "" ? {} : { cl: { rgb: color } }),
    ...(fill === "" ? {} : { bg: { rgb: fill } }),
    ...(bold === null ? {} : { bl: bold ? BooleanNumber.TRUE : BooleanNumber.FALSE }),
  };
}

/** Without regard to case, as in Excel. */
function textHolds(value: string, { operator, text }: ConditionalFormatState): boolean {
  const [shown, wanted] = [value.toLowerCase(), text.toLowerCase()];
  if (wanted === "") return false;
  if (operator === "BeginsWith") return shown.startsWith(wanted);
  if (operator === "EndsWith") return shown.endsWith(wanted);
  return shown.includes(wanted) === (operator === "Contains");
}
