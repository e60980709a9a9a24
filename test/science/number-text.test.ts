import { halfLastPlace, numberFromText } from "../../src/science/number-text";
import { science as words } from "../../src/words/science";

/** How people write figures: 1 234,5 and 1,234.5 are the same, 1,234 is not clear. */
test.each([
  ["12", 12], ["-12", -12], ["+12", 12], ["12.", 12], ["12.5", 12.5], [".5", 0.5], ["-.5", -0.5], ["1e3", 1000], ["1.5E-2", 0.015], ["2e+1", 20], ["1e10", 1e10],
  [" 7 ", 7], ["0,08", 0.08], [",5", 0.5], ["-0,5", -0.5], ["+3,25", 3.25], ["12345,6", 12345.6], ["0,080", 0.08], ["1234,567", 1234.567], ["12,34", 12.34], ["1,2345", 1.2345],
  ["1.234,5", 1234.5], ["-1.234.567,8", -1234567.8], ["123.456,7", 123456.7],
  ["1,234.5", 1234.5], ["+1,234,567.8", 1234567.8], ["123,456.7", 123456.7],
  ["1 234", 1234], ["1\u00a0234\u202f567", 1234567], ["12 345,5", 12345.5], ["1 234.5", 1234.5],
])("%j is %d", (written, expected) => expect(numberFromText(written)).toBe(expected));

test.each(["", " ", "abc", "12a", "a12", "1e", "e5", ".", ",", "-", "1.2.3", "1,2,3", "1.23,4", "1234.567,8", "1,23.4", "1234,567.8", "12 34", "1 2345", "1e999", "--1", "1.234,", "1,234,567"])("%j is no number", (written) => expect(numberFromText(written)).toBeNull());

test.each(["1,234", "12,345", "123,456", "-1,234", "+9,000"])("%j could be a thousand or one and a bit, and is refused", (written) => expect(() => numberFromText(written)).toThrow(words.ambiguousComma(written)));
test("nought before the comma is clear, and so are four figures", () => {
  expect(numberFromText("0,123")).toBe(0.123);
  expect(numberFromText("1234,123")).toBe(1234.123);
});
test("what is refused is named as it was written, without the blanks around it", () => expect(() => numberFromText("  1,234 ")).toThrow(words.ambiguousComma("1,234")));

/** 0.08 is anything from 0.075 to 0.085; a whole number counts to the unit. */
test.each([
  [0.08, 0.005], ["0,08", 0.005], ["0.080", 0.0005], [12, 0.5], ["12", 0.5], ["12.", 0.5], ["1e3", 500], ["1.5e3", 50], ["1.5E-2", 0.0005], [1e-7, 5e-8], ["2e-3", 0.0005],
])("half of the last place of %p is %d", (written, expected) => expect(halfLastPlace(written)).toBeCloseTo(expected, 15));
