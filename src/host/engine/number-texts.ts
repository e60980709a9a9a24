import { BaseValueObject, StringValueObject } from "@univerjs/engine-formula";

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

let kept = false;

/** Joins numbers to texts with that many digits. */
export function joinNumbersAsTexts(): void {
  if (kept) return;
  kept = true;
  const join = BaseValueObject.prototype.concatenate;
  BaseValueObject.prototype.concatenate = function (value, ...rest) {
    return join.call(this.isNumber() ? StringValueObject.create(numberText(Number(this.getValue()))) : this, typeof value === "number" ? numberText(value) : value, ...rest);
  };
}
