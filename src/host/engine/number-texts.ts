import { type BaseValueObject, StringValueObject } from "@univerjs/engine-formula";

/** Significant digits of a number in a text. */
const DIGITS = 15;

/** A number as it stands in a text: the engine writes all that JavaScript keeps, so that ="Mean: "&5/6 would end in a digit that no spreadsheet program shows. */
export function numberText(value: number): string {
  if (!Number.isFinite(value)) return String(value);
  return String(Number(value.toPrecision(DIGITS))).replace(/e([+-])(\d+)$/, (_, sign: string, exponent: string) => `E${sign}${exponent.padStart(2, "0")}`);
}

/** The same value as a text where it is a number; of an array each. */
export function numbersAsTexts(given: BaseValueObject): BaseValueObject {
  const one = (value: BaseValueObject): BaseValueObject => (value.isNumber() ? StringValueObject.create(numberText(Number(value.getValue()))) : value);
  return given.isArray() ? given.mapValue(one) : one(given);
}

/** What makes a condition of a number, as in COUNTIF(A1:A9,"<="&A2). */
const COMPARISON = /^(?:[<>]=?|<>|=)$/;

/** Whether a join begins a condition: its number keeps all its digits, or a time of day would not be found to equal itself. */
export function isCondition(first: BaseValueObject | undefined): boolean {
  return first?.isString() === true && COMPARISON.test(String(first.getValue()));
}
