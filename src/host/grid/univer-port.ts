import { CellValueType, ICommandService, type ICellData, type Injector, IUniverInstanceService, UniverInstanceType, type Workbook } from "@univerjs/core";
import { FormulaDataModel } from "@univerjs/engine-formula";
import { ScrollToCellCommand } from "@univerjs/preset-sheets-core";
import { SelectRangeCommand, SetRangeValuesCommand, SetWorksheetActiveOperation, SheetsSelectionsService } from "@univerjs/sheets";
import { rangeAddress, readRange } from "../engine/address";
import { SheetReader } from "../engine/sheet-reader";
import type { GridContent, GridPort, GridSelection } from "../grid-port";
import type { GridNews } from "./grid-news";

/** The open workbook of a visible Univer grid behind the small interface that the rest of the product uses. */
export class UniverPort implements GridPort {
  constructor(private readonly injector: Injector, private readonly news: GridNews) {}

  sheetNames(): string[] {
    return this.workbook().getSheets().map((sheet) => sheet.getName());
  }

  activeSheet(): string {
    return this.workbook().getActiveSheet().getName();
  }

  read(sheetName: string, address: string): GridContent {
    const reader = this.reader();
    const sheet = reader.sheet(sheetName);
    const range = readRange(address);
    const values: unknown[][] = [];
    const formulas: unknown[][] = [];
    for (let row = range.startRow; row <= range.endRow; row += 1) {
      const valueRow: unknown[] = [];
      const formulaRow: unknown[] = [];
      for (let column = range.startColumn; column <= range.endColumn; column += 1) {
        const value = reader.value(sheet, row, column);
        valueRow.push(value);
        formulaRow.push(reader.formula(sheet, row, column) ?? value);
      }
      values.push(valueRow);
      formulas.push(formulaRow);
    }
    return { values, formulas };
  }

  write(sheetName: string, address: string, content: unknown[][]): void {
    const sheet = this.reader().sheet(sheetName);
    const range = readRange(address);
    const height = range.endRow - range.startRow + 1;
    const width = range.endColumn - range.startColumn + 1;
    if (content.length !== height || content.some((row) => row.length !== width)) {
      throw new RangeError(`${address} has ${height} rows and ${width} columns, and the content has another shape.`);
    }
    const value: Record<number, Record<number, ICellData>> = {};
    content.forEach((cells, r) =>
      cells.forEach((cell, c) => {
        if (cell !== null && cell !== undefined) (value[range.startRow + r] ??= {})[range.startColumn + c] = cellFor(cell);
      }),
    );
    if (Object.keys(value).length === 0) return;
    this.command(SetRangeValuesCommand.id, { unitId: this.workbook().getUnitId(), subUnitId: sheet.getSheetId(), value });
  }

  select(sheetName: string, address: string): void {
    const sheet = this.reader().sheet(sheetName);
    const range = readRange(address);
    const unitId = this.workbook().getUnitId();
    if (this.activeSheet() !== sheetName) this.command(SetWorksheetActiveOperation.id, { unitId, subUnitId: sheet.getSheetId() });
    this.command(SelectRangeCommand.id, { unitId, subUnit: sheet.getSheetId(), range });
    this.command(ScrollToCellCommand.id, { range });
  }

  selection(): GridSelection {
    const last = this.injector.get(SheetsSelectionsService).getCurrentLastSelection()?.range;
    const known = last && [last.startRow, last.startColumn, last.endRow, last.endColumn].every(Number.isFinite);
    return { sheet: this.activeSheet(), address: known ? rangeAddress(last) : "A1" };
  }

  onChange(listener: () => void): () => void {
    return this.news.onChange(listener);
  }

  onSelection(listener: () => void): () => void {
    return this.news.onSelection(listener);
  }

  private workbook(): Workbook {
    const workbook = this.injector.get(IUniverInstanceService).getCurrentUnitOfType<Workbook>(UniverInstanceType.UNIVER_SHEET);
    if (!workbook) throw new Error("No workbook is open.");
    return workbook;
  }

  private reader(): SheetReader {
    return new SheetReader(this.workbook(), this.injector.get(FormulaDataModel));
  }

  private command(id: string, params: object): void {
    this.injector.get(ICommandService).syncExecuteCommand(id, params);
  }
}

/** Replaces what the cell held, formula included, and leaves its style. */
function cellFor(content: unknown): ICellData {
  const emptied: ICellData = { v: null, f: null, si: null, p: null, t: null };
  if (content === "") return emptied;
  if (typeof content === "number") return { ...emptied, v: content, t: CellValueType.NUMBER };
  if (typeof content === "boolean") return { ...emptied, v: content ? 1 : 0, t: CellValueType.BOOLEAN };
  const text = String(content);
  return text.startsWith("=") ? { ...emptied, f: text } : { ...emptied, v: text, t: CellValueType.STRING };
}
