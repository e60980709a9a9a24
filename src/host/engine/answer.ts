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
  // A text that stands in many cells is one object: most of a long answer is blank.
  const texts = new Map<string, BaseValueObject>();
  const objects = rows.map((row, r) =>
    Array.from({ length: width }, (_, c) => {
      const value = c < row.length ? row[c] : new CellError("#N/A", host.sizesDiffer);
      return writeCell(name, value, texts, (sentence) => errors.push({ row: r, column: c, sentence }));
    }),
  );
  const first = objects[0]?.[0];
  if (objects.length === 1 && width === 1 && first) return { object: first, height: 1, width, errors };
  const object = arrayOf(objects, width);
  if (errors.length === 0) MADE_OF.set(object, { objects, rows: rows.map((row) => row.map((value) => value ?? "")) });
  return { object, height: objects.length, width, errors };
}

const arrayOf = (objects: BaseValueObject[][], width: number): ArrayValueObject =>
  ArrayValueObject.create({ calculateValueList: objects, rowCount: objects.length, columnCount: width, unitId: "", sheetId: "", row: -1, column: -1 });

/** The same answer once more. The engine empties an array when it is done with the formula, so that each call needs one of its own. */
export function answeredAgain(answer: Answer): Answer {
  const made = MADE_OF.get(answer.object);
  if (!made) return answer;
  const object = arrayOf(made.objects, answer.width);
  MADE_OF.set(object, made);
  return { ...answer, object };
}

/** What an array was made of, so that the next function need not take it apart again. */
const MADE_OF = new WeakMap<BaseValueObject, { readonly objects: BaseValueObject[][]; readonly rows: unknown[][] }>();

/** The rows that an answer without errors was made of, the same for each time that it was given; undefined for any other array. They are not to be changed. */
export const rowsOfAnswer = (object: BaseValueObject): unknown[][] | undefined => MADE_OF.get(object)?.rows;

function rowsOf(name: string, returned: unknown): unknown[][] {
  if (!Array.isArray(returned)) return [[returned]];
  const rows = returned.every(Array.isArray) ? (returned as unknown[][]) : [returned as unknown[]];
  return rows.length > 0 && rows.some((row) => row.length > 0) ? rows : [[new CellError("#CALC!", host.emptyAnswer(name))]];
}

function writeCell(name: string, value: unknown, texts: Map<string, BaseValueObject>, report: (sentence: string) => void): BaseValueObject {
  const error = errorIn(name, value);
  if (error) {
    report(error.message);
    return ErrorValueObject.create(error.code as ErrorType);
  }
  if (typeof value === "number") return NumberValueObject.create(value);
  if (typeof value === "boolean") return BooleanValueObject.create(value);
  // A text object, never the engine's own guess: "0.20" and "007" stay as they are.
  const text = value == null ? "" : String(value);
  const known = texts.get(text) ?? StringValueObject.create(text);
  texts.set(text, known);
  return known;
}

function errorIn(name: string, value: unknown): CellError | undefined {
  if (isCellError(value)) return value;
  if (typeof value === "number" && !Number.isFinite(value)) return new CellError("#NUM!", host.notFinite(name));
  return undefined;
}
