import { lightSum } from "../../src/science/budget/light-sum";
import type { LightEntry, ScreenUnit } from "../../src/science/budget/log";
import { exact } from "../../src/science/uncertain";

const screen: ScreenUnit = {
  name: "", litAreaM2: 0.2, dryFraction: { drained: exact(0.08), pressed: exact(0.15) }, tissue: exact(0.035), startedDay: null,
  umolPerM2S: 250, hoursPerDay: 16, watts: 30,
};
const change = (day: number, what: Partial<LightEntry>): LightEntry => ({ day, row: 2, unit: null, umolPerM2S: null, hoursPerDay: null, level: null, ...what });
const sum = (light: LightEntry[], from: number, to: number, units = [screen]) => lightSum({ light }, { units }, 0, from, to);

it("adds up full light over the days", () => {
  // 250 umol x 3600 s x 16 h = 14.4 mol a day.
  expect(sum([], 100, 110)?.molPerM2).toBeCloseTo(144, 9);
  expect(sum([], 100, 110)?.hours).toBeCloseTo(160, 9);
});

it("counts the first days at half light by half: seven at 50 %, then ten at full light", () => {
  const phases = [change(100, { level: 0.5 }), change(107, { level: 1 })];
  expect(sum(phases, 100, 117)?.molPerM2).toBeCloseTo(7 * 7.2 + 10 * 14.4, 9);
  expect(sum(phases, 110, 112)?.molPerM2).toBeCloseTo(28.8, 9);
});

it("takes light and hours from the log when the set-up has none, and gives nothing for a time without them", () => {
  const bare = [{ ...screen, umolPerM2S: null, hoursPerDay: null }];
  const from105 = [change(105, { umolPerM2S: 200 }), change(105, { hoursPerDay: 10 })];
  expect(sum(from105, 105, 110, bare)?.molPerM2).toBeCloseTo(5 * 7.2, 9);
  expect(sum(from105, 100, 110, bare)).toBeNull();
});

it("keeps changes of another screen out", () => {
  expect(sum([change(100, { level: 0.5, unit: 1 })], 100, 110)?.molPerM2).toBeCloseTo(144, 9);
});
