import {
  ArrayValueObject,
  type BaseValueObject,
  BooleanValueObject,
  ErrorValueObject,
  type ErrorType,
  NumberValueObject,
  StringValueObject,
} from "@univerjs/engine-formula";
import { CellError, isCellError } from "../../functions/cell-error";
import { host } from "../../words/host";

/** An error inside an answer: how far it stands below and right of the formula's own cell, and its sentence. */
export interface ElementError {
  row: number;
  column: number;
  sentence: string;
}

export interface Answer {
  object: BaseValueObject;
  height: number;
  width: number;
  errors: ElementError[];
}

/** Turns what a function returned (a value, or rows of values) into the engine's objects, and collects the errors inside. */
export function writeAnswer(name: string, returned: unknown): Answer {
  const rows = rowsOf(name, returned);
  const errors: ElementError[] = [];
  const width = rows.reduce((widest, row) => Math.max(widest, row.length), 0);
  const objects = rows.map((row, r) =>
    Array.from({ length: width }, (_, c) => {
      const value = c < row.length ? row[c] : new CellError("#N/A", host.sizesDiffer);
      return writeCell(name, value, (sentence) => errors.push({ row: r, column: c, sentence }));
    }),
  );
  const first = objects[0]?.[0];
  if (objects.length === 1 && width === 1 && first) return { object: first, height: 1, width, errors };
  const object = ArrayValueObject.create({
    calculateValueList: objects,
    rowCount: objects.length,
    columnCount: width,
    unitId: "",
    sheetId: "",
    row: -1,
    column: -1,
  });
  return { object, height: objects.length, width, errors };
}

function rowsOf(name: string, returned: unknown): unknown[][] {
  if (!Array.isArray(returned)) return [[returned]];
  const rows = returned.every(Array.isArray) ? (returned as unknown[][]) : [returned as unknown[]];
  return rows.length > 0 && rows.some((row) => row.length > 0) ? rows : [[new CellError("#CALC!", host.emptyAnswer(name))]];
}

function writeCell(name: string, value: unknown, report: (sentence: string) => void): BaseValueObject {
  const error = errorIn(name, value);
  if (error) {
    report(error.message);
    return ErrorValueObject.create(error.code as ErrorType);
  }
  if (typeof value === "number") return NumberValueObject.create(value);
  if (typeof value === "boolean") return BooleanValueObject.create(value);
  // A text object, never the engine's own guess: "0.20" and "007" stay as they are.
  return StringValueObject.create(value == null ? "" : String(value));
}

function errorIn(name: string, value: unknown): CellError | undefined {
  if (isCellError(value)) return value;
  if (typeof value === "number" && !Number.isFinite(value)) return new CellError("#NUM!", host.notFinite(name));
  return undefined;
}
