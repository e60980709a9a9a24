import { errorOf, rows } from "../call";

/** USEPA 2009, Unified Guidance, example 15.1 (manganese): robust regression on order statistics with a = 0.375, mean and standard deviation of the logarithms 2.298656 and 1.238104. */
const MANGANESE = ["<5", 12.1, 16.9, 21.6, "<2", "<5", 7.7, 53.6, 9.5, 45.9, "<5", 5.3, 12.6, 106.3, 34.5, 6.3, 11.9, 10, "<2", 77.2, 17.9, 22.7, 3.3, 8.4, "<2"].map((one) => [one]);

test("counts the readings below detection and takes them from the line of the others", () => {
  const [[mean, sd, all, below, sentence] = []] = rows("READING_SUMMARY", MANGANESE, null, false) as [number, number, number, number, string][];
  expect([all, below]).toEqual([25, 6]);
  // Between the mean with zeros in their place and that with the limits.
  const shown = MANGANESE.flat().filter((one): one is number => typeof one === "number");
  const sum = shown.reduce((total, one) => total + one, 0);
  expect(mean).toBeGreaterThan(sum / 25);
  expect(mean).toBeLessThan((sum + 3 * 5 + 3 * 2) / 25);
  expect(sd).toBeGreaterThan(20);
  expect(sentence).toContain("6 of 25 readings are below detection");
});

test("without readings below detection it is the plain mean and standard deviation", () => {
  const [, row] = rows("READING_SUMMARY", [[2], [4], [6], [""], [8]]);
  expect(row?.slice(0, 4)).toEqual([expect.closeTo(5, 9), expect.closeTo(Math.sqrt(20 / 3), 9), 4, 0]);
});

test("a zero of a kit with known steps counts as below its first step", () => {
  const [[, , , below] = []] = rows("READING_SUMMARY", [[0], [5], [10], [20], [40]], "0 5 10 20 40 80", false);
  expect(below).toBe(1);
});

test.each([
  [[["<5"], ["<5"], ["<5"], ["<5"], ["<5"], [7]], "6 readings are below detection"],
  [[[5], [">50"], [7]], "above the kit's scale"],
  [[[0], [5], [7]], "below what the kit can show"],
  [[["green"], [5]], "is not understood as a reading"],
])("refuses %j with a sentence", (readings, sentence) => expect(errorOf("READING_SUMMARY", readings).message).toContain(sentence));
