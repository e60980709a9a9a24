import { CellValueType, type ICellData, type Nullable, type Workbook, type Worksheet } from "@univerjs/core";
import type { FormulaDataModel } from "@univerjs/engine-formula";
import type { CellRange } from "./address";

/** A raw value as the Excel API gives it: error values as their code in text, a blank cell as "". */
export type RawValue = number | string | boolean;

/** Raw contents of a workbook in the engine: what was typed, what formulas gave, and what their answers spilled. */
export class SheetReader {
  constructor(private readonly workbook: Workbook, private readonly formulaData: FormulaDataModel) {}

  sheet(name: string): Worksheet {
    const sheet = this.workbook.getSheetBySheetName(name);
    if (!sheet) throw new RangeError(`There is no sheet "${name}".`);
    return sheet;
  }

  value(sheet: Worksheet, row: number, column: number): RawValue {
    const cell = sheet.getCellRaw(row, column);
    // The formula's own cell is in the sheet; the rest of a spilled answer is kept apart from it.
    if (cell && (hasFormula(cell) || hasValue(cell))) return rawValue(cell);
    return rawValue(this.spilledCell(sheet, row, column));
  }

  /** With the leading "=", or undefined where there is none. */
  formula(sheet: Worksheet, row: number, column: number): string | undefined {
    const cell = sheet.getCellRaw(row, column);
    if (!cell || !hasFormula(cell)) return undefined;
    return cell.f ?? this.formulaData.getFormulaStringByCell(row, column, sheet.getSheetId(), this.workbook.getUnitId()) ?? undefined;
  }

  /** The range over which the formula at this cell spilled; undefined for a single answer. */
  spill(sheet: Worksheet, row: number, column: number): CellRange | undefined {
    const cell = sheet.getCellRaw(row, column);
    if (!cell || !hasFormula(cell) || cell.v === "#SPILL!") return undefined;
    return this.formulaData.getArrayFormulaRange()[this.workbook.getUnitId()]?.[sheet.getSheetId()]?.[row]?.[column] ?? undefined;
  }

  /** Every cell that shows something, or those alone that show the answer of a formula, row by row. */
  forEachValue(sheet: Worksheet, visit: (row: number, column: number, value: RawValue) => void, shown: "all" | "formulas" = "all"): void {
    const seen = new Set<number>();
    const width = sheet.getColumnCount() + 1;
    sheet.getCellMatrix().forValue((row, column, cell) => {
      if (!cell || !(hasFormula(cell) || (shown === "all" && hasValue(cell)))) return;
      seen.add(row * width + column);
      visit(row, column, rawValue(cell));
    });
    for (const [row, cells] of Object.entries(this.spilledCells(sheet) ?? {})) {
      for (const [column, cell] of Object.entries(cells)) {
        if (hasValue(cell) && !seen.has(Number(row) * width + Number(column))) visit(Number(row), Number(column), rawValue(cell));
      }
    }
  }

  private spilledCells(sheet: Worksheet): Record<number, Record<number, Nullable<ICellData>>> | undefined {
    return this.formulaData.getArrayFormulaCellData()[this.workbook.getUnitId()]?.[sheet.getSheetId()] ?? undefined;
  }

  private spilledCell(sheet: Worksheet, row: number, column: number): Nullable<ICellData> {
    return this.spilledCells(sheet)?.[row]?.[column];
  }
}

export function hasFormula(cell: Nullable<ICellData>): boolean {
  return Boolean(cell?.f ?? cell?.si);
}

function hasValue(cell: Nullable<ICellData>): boolean {
  return (cell?.v !== undefined && cell.v !== null && cell.v !== "") || Boolean(cell?.p);
}

function rawValue(cell: Nullable<ICellData>): RawValue {
  const value = cell?.v;
  if (value === undefined || value === null) return (cell?.p?.body?.dataStream ?? "").replace(/\r?\n$/, "");
  if (cell?.t === CellValueType.BOOLEAN) return value === 1 || value === true || value === "TRUE";
  return value;
}
