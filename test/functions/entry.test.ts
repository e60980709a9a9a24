import { LATER_IDS } from "../../src/functions/later-ids";
import { laterFunctions } from "../../src/functions/later";
import metadata from "../../src/functions/generated/functions.json";

class ExcelError {
  constructor(readonly code: string, readonly message?: string) {}
}
const associated = new Map<string, (...args: unknown[]) => unknown>();

beforeAll(async () => {
  (globalThis as Record<string, unknown>).CustomFunctions = {
    associate: (id: string, act: (...args: unknown[]) => unknown) => associated.set(id, act),
    Error: ExcelError,
    ErrorCode: { invalidValue: "#VALUE!", notAvailable: "#N/A", invalidNumber: "#NUM!", divisionByZero: "#DIV/0!" },
  };
  await import("../../src/functions/entry");
});

test("the ids that are registered without their code are those of the code", () => expect([...LATER_IDS].sort()).toEqual([...laterFunctions.keys()].sort()));

test("every function of the metadata is registered with Excel", () => expect([...associated.keys()].sort()).toEqual(metadata.functions.map(({ id }) => id).sort()));

test("a function of the first load answers at once, one of the later load by a promise", async () => {
  const call = { address: "Sheet1!A1" };
  expect(associated.get("LIGHT_DAILY")?.([[250]], [[16]], null, call)).toEqual([[14.4]]);
  const later = associated.get("STEADY_READING")?.([[0.05]], [[0.06]], [[265]], [["NO3-N"]], null, null, call);
  expect(later).toBeInstanceOf(Promise);
  const [[value]] = (await later) as [[number]];
  expect(value).toBeCloseTo(0.98, 9);
});

test("an error of a later function reaches Excel with its sentence", async () => {
  await expect(associated.get("STEADY_READING")?.([["much"]], [[0.06]], [[265]], null, null, null, { address: "Sheet1!A2" }) as Promise<unknown>).rejects.toMatchObject({ code: "#VALUE!", message: expect.stringContaining("load_g_day") as string });
});
