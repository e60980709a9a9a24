import fs from "node:fs";
import path from "node:path";
import { fitCurve, type Curve } from "../../src/science/fit";

/** NIST Statistical Reference Datasets, nonlinear regression: data, starts and certified values as in the files (public domain). */
interface Certified {
  x: number[];
  y: number[];
  starts: number[][];
  parameters: number[];
  errors: number[];
  residualSum: number;
}

function nist(name: string): Certified {
  const lines = fs.readFileSync(path.join(__dirname, "data/nist", `${name}.dat`), "utf8").split(/\r?\n/);
  const table = lines.flatMap((line) => {
    const match = /^\s*b\d+\s*=\s*(.+)$/.exec(line);
    return match ? [(match[1] ?? "").trim().split(/\s+/).map(Number)] : [];
  });
  const first = lines.findIndex((line) => /^Data:\s+y\s+x/.test(line)) + 1;
  const data = lines.slice(first).flatMap((line) => {
    const [y, x] = line.trim().split(/\s+/).map(Number);
    return line.trim() !== "" && Number.isFinite(y) && Number.isFinite(x) ? [[x as number, y as number]] : [];
  });
  const sum = lines.map((line) => /^Residual Sum of Squares:\s+([\d.E+-]+)/.exec(line)?.[1]).find(Boolean);
  return {
    x: data.map(([x]) => x ?? NaN),
    y: data.map(([, y]) => y ?? NaN),
    starts: [0, 1].map((column) => table.map((row) => row[column] ?? NaN)),
    parameters: table.map((row) => row[2] ?? NaN),
    errors: table.map((row) => row[3] ?? NaN),
    residualSum: Number(sum),
  };
}

const { exp, log } = Math;
const CURVES: Record<string, Curve> = {
  // y = b1 / (1 + exp(b2 - b3 x))
  Rat42: {
    value: (x, [a = 0, b = 0, c = 0]) => a / (1 + exp(b - c * x)),
    slopes: (x, [a = 0, b = 0, c = 0]) => {
      const e = exp(b - c * x);
      return [1 / (1 + e), (-a * e) / (1 + e) ** 2, (a * x * e) / (1 + e) ** 2];
    },
  },
  // y = b1 / (1 + exp(b2 - b3 x))^(1/b4)
  Rat43: {
    value: (x, [a = 0, b = 0, c = 0, d = 1]) => a / (1 + exp(b - c * x)) ** (1 / d),
    slopes: (x, [a = 0, b = 0, c = 0, d = 1]) => {
      const e = exp(b - c * x);
      const p = (1 + e) ** (-1 / d);
      return [p, ((-a / d) * p * e) / (1 + e), ((a / d) * x * p * e) / (1 + e), ((a * p) / d ** 2) * log(1 + e)];
    },
  },
  // y = b1 (1 - exp(-b2 x))
  Misra1a: { value: (x, [a = 0, b = 0]) => a * (1 - exp(-b * x)), slopes: (x, [a = 0, b = 0]) => [1 - exp(-b * x), a * x * exp(-b * x)] },
  BoxBOD: { value: (x, [a = 0, b = 0]) => a * (1 - exp(-b * x)), slopes: (x, [a = 0, b = 0]) => [1 - exp(-b * x), a * x * exp(-b * x)] },
  // y = exp(-b1 x) / (b2 + b3 x)
  Chwirut2: {
    value: (x, [a = 0, b = 0, c = 0]) => exp(-a * x) / (b + c * x),
    slopes: (x, [a = 0, b = 0, c = 0]) => {
      const e = exp(-a * x);
      const below = b + c * x;
      return [(-x * e) / below, -e / below ** 2, (-x * e) / below ** 2];
    },
  },
};

/** Relative tolerance 1e-5, as the growth fits need; Rat43 and BoxBOD from the first start are known to be hard. */
const CASES = [["Rat42", 0], ["Rat42", 1], ["Rat43", 0], ["Rat43", 1], ["Misra1a", 0], ["Misra1a", 1], ["BoxBOD", 1], ["Chwirut2", 0], ["Chwirut2", 1]] as const;

test.each(CASES)("NIST %s from start %d: certified parameters, standard errors and residual sum", (name, start) => {
  const data = nist(name);
  const fit = fitCurve(CURVES[name] as Curve, data.x, data.y, data.starts[start] ?? []);
  expect(data.parameters.length).toBeGreaterThanOrEqual(2);
  data.parameters.forEach((certified, place) => {
    expect(Math.abs((fit?.parameters[place] ?? NaN) / certified - 1)).toBeLessThanOrEqual(1e-5);
    expect(Math.abs((fit?.errors[place] ?? NaN) / (data.errors[place] ?? NaN) - 1)).toBeLessThanOrEqual(1e-4);
  });
  expect(Math.abs((fit?.residualSumOfSquares ?? NaN) / data.residualSum - 1)).toBeLessThanOrEqual(1e-8);
});

describe("what cannot be fitted has no answer", () => {
  const logistic = CURVES["Rat42"] as Curve;
  test("two points", () => expect(fitCurve(logistic, [1, 2], [1, 2], [10, 1, 0.1])).toBeNull());
  test("three points for three parameters", () => expect(fitCurve(logistic, [1, 2, 3], [1, 2, 3], [10, 1, 0.1])).toBeNull());
  test("a curve that runs off the scale", () => expect(fitCurve(logistic, [1, 2, 3, 4], [1, 2, 3, 4], [Infinity, 1, 0.1])).toBeNull());
});
