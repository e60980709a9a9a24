import { numfmt } from "@univerjs/core";
import { parseDate, readDatesAsIn } from "../../src/host/engine/typed-dates";
import { excelTests } from "../workbook/excel-tests";

const { engine } = excelTests();

/** Dates as people type them. By hand: 1 January 2026 is day 46023. */
const MARCH_4 = 46085;
const APRIL_3 = 46115;
afterEach(() => readDatesAsIn("en-US"));

test.each(["en-US", "de-DE", "en-GB"])("with points the day comes first, in a browser that speaks %s, too", (language) => {
  readDatesAsIn(language);
  expect(parseDate("4.3.2026")).toEqual({ v: MARCH_4, z: "d.m.yyyy" });
  expect(parseDate("04.03.26")).toMatchObject({ v: MARCH_4 });
  expect(parseDate("4.3.2026 10:30")).toMatchObject({ v: MARCH_4 + 10.5 / 24 });
  expect(["3.13.2026", "4.3", "1.5"].map((text) => parseDate(text))).toEqual([null, null, null]);
});

test.each([
  ["en-US", "4/3/2026", APRIL_3],
  ["en-US", "4-3-26", APRIL_3],
  ["en-US", "13/3/2026", undefined],
  ["en-GB", "4/3/2026", MARCH_4],
  ["de-AT", "4-3-26", MARCH_4],
  ["fr", "3/13/2026", undefined],
  ["ja", "4/3/2026", APRIL_3],
  ["fr", "2026-03-04", MARCH_4],
  ["en-GB", "4 Mar 2026", MARCH_4],
])("with strokes a page in %s reads %s as people there write it", (language, text, day) => {
  readDatesAsIn(language);
  expect(parseDate(text)?.v).toBe(day);
});

test("the grid and its engine read dates so", async () => {
  expect(numfmt.parseDate("4.3.2026")?.v).toBe(MARCH_4);
  expect(await engine().formula('"4.3.2026"+0')).toEqual([[MARCH_4]]);
});
