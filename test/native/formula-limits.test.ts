import { isBeyondLimits } from "../../src/native/formula-limits";
import { quoted } from "../../src/native/given";

const nested = (levels: number): string => `${"ABS(".repeat(levels)}A1${")".repeat(levels)}`;

test.each([
  ["8,000 characters", `${"A1+".repeat(2666)}A1`, false],
  ["more than 8,000 characters", `${"A1+".repeat(2667)}A1`, true],
  ["64 levels", nested(64), false],
  ["65 levels", nested(65), true],
  ["parentheses that are no calls", `${"(".repeat(150)}A1${")".repeat(150)}`, false],
  ["255 arguments", `SUM(${Array(255).fill("A1").join(",")})`, false],
  ["256 arguments", `SUM(${Array(256).fill("A1").join(",")})`, true],
  ["a text of 255 characters", `A1&"${"a".repeat(255)}"`, false],
  ["a text of 256 characters", `A1&"${"a".repeat(256)}"`, true],
])("%s", (_what, formula, beyond) => {
  expect(isBeyondLimits(formula)).toBe(beyond);
});

test("a long text stands in pieces that a spreadsheet program takes, its quotes doubled", () => {
  const text = `${'"'.repeat(300)}${"b".repeat(100)}`;
  expect(isBeyondLimits(`A1=${quoted(text)}`)).toBe(false);
  expect(quoted(text)).toBe(`"${'""'.repeat(255)}"&"${'""'.repeat(45)}${"b".repeat(100)}"`);
  expect(quoted('5" pipe')).toBe('"5"" pipe"');
});
