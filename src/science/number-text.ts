import { science as words } from "../words/science";
import { Problem } from "./problem";

const PLAIN = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;
const DECIMAL_COMMA = /^[+-]?\d*,\d+$/;
const POINT_THOUSANDS = /^[+-]?\d{1,3}(\.\d{3})+,\d+$/;
const COMMA_THOUSANDS = /^[+-]?\d{1,3}(,\d{3})+\.\d+$/;
/** One to three figures, one comma, three figures: 1,234 is a thousand to some and one and a bit to others. */
const TWO_WAYS = /^[+-]?[1-9]\d{0,2},\d{3}$/;

/**
 * A number as people write it, with a decimal point or a decimal comma; null when the text is not a number.
 * Throws a Problem where a comma leaves two meanings, because guessing would be wrong by a thousand.
 */
export function numberFromText(written: string): number | null {
  const text = written.trim().replace(/[\u00a0\u202f ](?=\d{3}(\D|$))/g, "");
  if (TWO_WAYS.test(text)) throw new Problem("value", words.ambiguousComma(written.trim()));
  const pointed = DECIMAL_COMMA.test(text)
    ? text.replace(",", ".")
    : POINT_THOUSANDS.test(text)
      ? text.replace(/\./g, "").replace(",", ".")
      : COMMA_THOUSANDS.test(text)
        ? text.replace(/,/g, "")
        : text;
  if (!PLAIN.test(pointed)) return null;
  const value = Number(pointed);
  return Number.isFinite(value) ? value : null;
}

/** Half of the last written decimal place: 0.08 is anything from 0.075 to 0.085. Whole numbers count to the unit. */
export function halfLastPlace(written: string | number): number {
  const text = String(written).replace(",", ".").toLowerCase();
  const [mantissa = "", exponent = "0"] = text.split("e");
  const decimals = (mantissa.split(".")[1] ?? "").length;
  return 0.5 * 10 ** (Number(exponent) - decimals);
}
