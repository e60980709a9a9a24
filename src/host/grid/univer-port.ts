import { CellValueType, type ICellData, type Injector, IUndoRedoService } from "@univerjs/core";
import { ScrollToCellCommand } from "@univerjs/preset-sheets-core";
import { SelectRangeCommand, SetRangeValuesCommand, SetWorksheetActiveOperation, SheetsSelectionsService } from "@univerjs/sheets";
import { rangeAddress, readRange } from "../engine/address";
import type { BookState } from "../excel/book-state";
import type { GridChange, GridContent, GridFormats, GridNames, GridPort, GridSelection } from "../grid-port";
import type { GridNews } from "./grid-news";
import { OpenWorkbook } from "./open-workbook";
import type { StepwiseUndo } from "./stepwise-undo";
import { UniverConditional } from "./univer-conditional";
import { UniverFormats } from "./univer-formats";
import { UniverNames } from "./univer-names";
import { UniverSheets } from "./univer-sheets";
import { UniverState } from "./univer-state";
import { UniverTables } from "./univer-tables";

/** The open workbook of a visible Univer grid behind the small interface that the rest of the product uses. */
export class UniverPort implements GridPort {
  readonly sheets: UniverSheets;
  readonly formats: GridFormats;
  readonly names: GridNames;
  readonly state: UniverState;
  private readonly open: OpenWorkbook;
  private readonly tables: UniverTables;
  private readonly conditional: UniverConditional;
  private following = false;

  constructor(private readonly injector: Injector, private readonly news: GridNews) {
    this.open = new OpenWorkbook(injector);
    this.sheets = new UniverSheets(this.open);
    this.formats = new UniverFormats(this.open);
    this.names = new UniverNames(this.open);
    this.state = new UniverState(this.open);
    this.tables = new UniverTables(this.open, this.state);
    this.conditional = new UniverConditional(this.open, this.state);
  }

  /** A workbook was opened, its tables are registered, and this is what it holds beyond its cells. */
  begin(unitId: string, state: BookState): void {
    this.state.begin(unitId, state);
    this.tables.begin();
    if (this.following) return;
    this.following = true;
    this.state.followCells();
    this.conditional.start();
    this.state.onChange(() => this.conditional.update());
    this.state.onChange(() => this.tables.stateChanged());
    // A heading may be typed over, and a sheet taken out: formulas learn the new name, or that the table is gone.
    this.news.onChange(() => this.tables.update());
  }

  sheetNames(): string[] {
    return this.sheets.list().map(({ name }) => name);
  }

  activeSheet(): string {
    return this.open.workbook.getActiveSheet().getName();
  }

  read(sheetName: string, address: string): GridContent {
    const reader = this.open.reader();
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
    const range = readRange(address);
    const height = range.endRow - range.startRow + 1;
    const width = range.endColumn - range.startColumn + 1;
    if (content.length !== height || content.some((row) => row.length !== width)) {
      throw new RangeError(`${address} has ${height} rows and ${width} columns, and the content has another shape.`);
    }
    this.sheets.makeRoom(sheetName, range);
    const value: Record<number, Record<number, ICellData>> = {};
    content.forEach((cells, r) =>
      cells.forEach((cell, c) => {
        if (cell !== null && cell !== undefined) (value[range.startRow + r] ??= {})[range.startColumn + c] = cellFor(cell);
      }),
    );
    // The range is said, too: without it the grid refuses while no cell is selected.
    if (Object.keys(value).length > 0) this.open.commandOn(this.open.sheet(sheetName), SetRangeValuesCommand.id, { value, range });
  }

  select(sheetName: string, address: string): void {
    const sheet = this.open.sheet(sheetName);
    const range = readRange(address);
    if (this.activeSheet() !== sheetName) this.open.tryCommand(SetWorksheetActiveOperation.id, { subUnitId: sheet.getSheetId() });
    this.open.tryCommand(SelectRangeCommand.id, { subUnit: sheet.getSheetId(), range });
    this.open.tryCommand(ScrollToCellCommand.id, { range });
  }

  selection(): GridSelection {
    const last = this.injector.get(SheetsSelectionsService).getCurrentLastSelection()?.range;
    const known = last && [last.startRow, last.startColumn, last.endRow, last.endColumn].every(Number.isFinite);
    return { sheet: this.activeSheet(), address: known ? rangeAddress(last) : "A1" };
  }

  onChange(listener: (changes: readonly GridChange[]) => void): () => void {
    return this.news.onChange(listener);
  }

  onSelection(listener: () => void): () => void {
    return this.news.onSelection(listener);
  }

  asOneStep(act: () => void): void {
    (this.injector.get(IUndoRedoService) as StepwiseUndo).asOneStep(act);
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
