import { type BaseValueObject, ErrorValueObject, type FunctionVariantType } from "@univerjs/engine-formula";
import { CellError } from "../../functions/cell-error";
import { host } from "../../words/host";
import { rowsOfAnswer } from "./answer";

/** One argument as it arrived: absent, a single value, or rows of cells. */
export type Argument = { kind: "omitted" } | { kind: "rows"; rows: unknown[][] } | { kind: "unusable" };

/** Takes an argument out of the engine: numbers, texts, booleans, CellError for an error value, "" for a blank cell. */
export function readArgument(given: FunctionVariantType | undefined): Argument {
  if (given === undefined) return { kind: "omitted" };
  const object = given.isReferenceObject() ? (given as { toArrayValueObject(): BaseValueObject }).toArrayValueObject() : (given as BaseValueObject);
  if (object.isArray()) return { kind: "rows", rows: rowsOfAnswer(object) ?? readRows(object) };
  if (object.isError()) return { kind: "rows", rows: [[readCell(object)]] };
  // Only F(1,,2) leaves a null outside a range; a blank cell comes as a range of one.
  if (object.isNull()) return { kind: "omitted" };
  if (object.isLambda() || !object.isValueObject()) return { kind: "unusable" };
  return { kind: "rows", rows: [[readCell(object)]] };
}

interface ArrayLike {
  getArrayValue(): (BaseValueObject | null | undefined)[][];
  getRowCount(): number;
  getColumnCount(): number;
}

function readRows(object: BaseValueObject): unknown[][] {
  const array = object as unknown as ArrayLike;
  const cells = array.getArrayValue();
  const columns = array.getColumnCount();
  const rows: unknown[][] = [];
  for (let r = 0; r < array.getRowCount(); r += 1) {
    const row: unknown[] = new Array(columns);
    for (let c = 0; c < columns; c += 1) row[c] = readCell(cells[r]?.[c]);
    rows.push(row);
  }
  return rows;
}

function readCell(cell: BaseValueObject | null | undefined): unknown {
  if (cell == null || cell.isNull()) return "";
  if (cell.isError()) {
    const code = (cell as unknown as ErrorValueObject).getErrorType();
    return new CellError(code, host.cellHoldsError(code));
  }
  return cell.getValue();
}
