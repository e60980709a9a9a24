import { parseKit, parseReading } from "../../src/science/reading";

const NITRATE = parseKit(["0 5 10 20 40 80"]);
const limits = (written: number | string, kit: ReturnType<typeof parseKit> | null = NITRATE): unknown => {
  const { low, high, censored } = parseReading(written, kit ?? undefined);
  return [low, high, censored];
};

describe("on a colour chart", () => {
  test.each([
    [20, [15, 30, "no"]],
    ["20", [15, 30, "no"]],
    ["20,0", [15, 30, "no"]],
    [0, [0, 2.5, "below"]],
    ["nd", [0, 2.5, "below"]],
    ["ND", [0, 2.5, "below"]],
    [80, [60, 100, "no"]],
    [15, [12.5, 17.5, "no"]],
    ["5-10", [5, 10, "no"]],
    ["5 – 10", [5, 10, "no"]],
    ["5 to 10", [5, 10, "no"]],
    ["<5", [0, 5, "below"]],
    ["< 5", [0, 5, "below"]],
    [">80", [80, Infinity, "above"]],
    ["~20", [7.5, 37.5, "no"]],
  ])("%p means %p", (written, expected) => expect(limits(written)).toEqual(expected));

  test("a chart that starts above zero: paler than its first patch is anything below that patch", () => {
    const kit = parseKit(["0.25", "0.5", "1"]);
    expect(limits(0, kit)).toEqual([0, 0.25, "below"]);
    expect(limits(0.25, kit)).toEqual([0, 0.375, "below"]);
    expect(limits(0.5, kit)).toEqual([0.375, 0.75, "no"]);
  });

  test("a figure beyond the chart is refused", () => expect(() => parseReading(100, NITRATE)).toThrow("more than the chart's last patch, 80"));
});

describe("on a meter", () => {
  const meter = parseKit([0.01]);
  test("a figure is good to half a step", () => expect(parseReading(0.08, meter)).toMatchObject({ low: 0.075, high: 0.085, censored: "no" }));
  test("0 is below half a step, not zero", () => expect(limits(0, meter)).toEqual([0, 0.005, "below"]));
});

describe("without a kit", () => {
  test("the last written place or 10 per cent, whichever is wider", () => {
    expect(limits("0.1", null)).toEqual([0.05, expect.closeTo(0.15, 12), "no"]);
    expect(limits(20, null)).toEqual([18, 22, "no"]);
  });
  test("0 has no meaning until the kit is known", () => expect(() => parseReading(0)).toThrow("Give the kit's steps"));
  test("<0.2 carries its own limit", () => expect(limits("<0.2", null)).toEqual([0, 0.2, "below"]));
});

describe("what is refused", () => {
  test.each([
    ["a few", "is not understood as a reading"],
    ["", "is not understood as a reading"],
    ["5 ppm", 'carries the unit "ppm"'],
    ["80 ug/L", 'carries the unit "ug/l"'],
    ["10-5", "runs from high to low"],
    ["1,234", "can mean two numbers"],
    [-1, "cannot be below zero"],
    ["-1", "cannot be below zero"],
    ["<-1", "cannot be below zero"],
    ["<0", "is not understood"],
    [NaN, "is not understood"],
    [1e13, "too large"],
  ])("%p", (written, sentence) => expect(() => parseReading(written, NITRATE)).toThrow(sentence));

  test.each([[["0 5 3"], "rise"], [["0 5 5"], "rise"], [["many"], "neither"], [[0], "neither"], [[-1, 2], "neither"], [[NaN], "neither"], [[0, Infinity], "neither"], [[1e300], "neither"]])("steps %p", (cells, sentence) =>
    expect(() => parseKit(cells as (string | number)[])).toThrow(sentence),
  );
});

test("steps may stand in one text, several cells, with any usual sign between", () => {
  for (const cells of [["0 5 10"], ["0;5;10"], ["0, 5, 10"], ["0/5/10"], [0, 5, 10], ["0", "5", 10]]) {
    expect(parseKit(cells)).toEqual({ patches: [0, 5, 10] });
  }
  expect(parseKit(["0 0,02 0,04"])).toEqual({ patches: [0, 0.02, 0.04] });
});
