import { confusionTable, foundIn, judge, wrongOnes } from "./confusion";
import { LOGS } from "./logs/all";
import { proposeColumns } from "../../../src/workbook/join/recognise/propose";

const judged = LOGS.flatMap(judge);

describe("the invented logs", () => {
  test("are at least 25, of which 10 are awkward and 6 in other languages", () => {
    expect(LOGS.length).toBeGreaterThanOrEqual(25);
    expect(LOGS.filter(({ awkward }) => awkward).length).toBeGreaterThanOrEqual(10);
    expect(LOGS.filter(({ language }) => language !== "English").length).toBeGreaterThanOrEqual(6);
    expect(new Set(LOGS.map(({ name }) => name)).size).toBe(LOGS.length);
  });
  test.each(LOGS.map((log) => [log.name, log] as const))("%s: the log is found where it lies", (_, log) => {
    const found = foundIn(log);
    expect({ top: found.top, left: found.left, bottom: found.bottom, right: found.right, first: found.firstDataRow, units: found.unitsRow }).toEqual(log.at);
    expect(log.columns.length).toBe(found.right - found.left + 1);
  });
});

describe("the columns", () => {
  test("are right first time in at least 90 % of the cases, over all logs and over the awkward ones", () => {
    const awkward = new Set(LOGS.filter((log) => log.awkward).map(({ name }) => name));
    for (const some of [judged, judged.filter(({ log }) => awkward.has(log))]) {
      const share = some.filter(({ isRight }) => isRight).length / some.length;
      if (share < 0.9) throw new Error(`${(100 * share).toFixed(1)} % of ${some.length} columns are right.\n${confusionTable(some)}\n${wrongOnes(some)}`);
    }
  });
  test("are never silently given a wrong unit, form or kind", () => {
    expect(wrongOnes(judged.filter(({ isSilentlyWrong }) => isSilentlyWrong))).toBe("");
  });
  test("carry a reason in a sentence, and a question carries choices", () => {
    for (const { proposed } of judged) {
      expect(proposed.why).toMatch(/[.?]$/);
      if (proposed.sureness === "ask") expect(proposed.choices.length).toBeGreaterThan(0);
      if (proposed.sureness === "ask") expect(proposed.meaning).toBeNull();
    }
  });
  test.each(LOGS.filter(({ dateOrder }) => dateOrder).map((log) => [log.name, log] as const))("%s: the order of its dates is known", (_, log) => {
    expect(proposeColumns(log.grid, foundIn(log)).find(({ kind }) => kind === "date")?.dateOrder).toBe(log.dateOrder);
  });
});
