import { standingCrop } from "../../src/science/budget/crop";
import type { HarvestEntry, ScreenUnit } from "../../src/science/budget/log";
import { logistic, usualRegrowthGPerM2 } from "../../src/science/growth";
import { exact } from "../../src/science/uncertain";

/** What stands on a screen beyond its stubble, by the usual curve: K 200, stubble 20 g dry m-2, 0.3 a day. */
const screen: ScreenUnit = { name: "", litAreaM2: 0.5, dryFraction: { drained: exact(0.08), pressed: exact(0.15) }, tissue: exact(0.035), startedDay: null, umolPerM2S: null, hoursPerDay: null, watts: null };
const harvest = (day: number, draining: HarvestEntry["draining"] = "drained"): HarvestEntry => ({ day, row: day, unit: 0, drainedG: 100, draining, fedBackShare: 0 });
const grown = (days: number): number => 200 / (1 + 9 * Math.exp(-0.3 * days)) - 20;

test("the usual curve: nothing beyond the stubble at once, half of all it holds after ln 9 / 0.3 days", () => {
  expect(usualRegrowthGPerM2(0)).toBeCloseTo(0, 12);
  expect(usualRegrowthGPerM2(Math.log(9) / 0.3)).toBeCloseTo(80, 9);
  expect(usualRegrowthGPerM2(1e3)).toBeCloseTo(180, 9);
  expect(logistic(10, 200, 20, 0.3)).toBeCloseTo(200 / (1 + 9 * Math.exp(-3)), 12);
});

test("all of a harvest stands there just before it, with every weighing of that moment", () => {
  const weighings = [harvest(10), harvest(20), harvest(20, "pressed"), harvest(30)];
  expect(standingCrop(screen, weighings, 0, 20, "before")).toEqual({ kind: "share", of: [weighings[1], weighings[2]], share: 1, u: 0 });
});

test("between harvests it is the share of the next one that the curve had grown, least sure mid-way", () => {
  const weighings = [harvest(10), harvest(24), harvest(24, "pressed")];
  const share = grown(6) / grown(14);
  const crop = standingCrop(screen, weighings, 0, 16, "before");
  expect(crop).toEqual({ kind: "share", of: weighings.slice(1), share: expect.closeTo(share, 12), u: expect.closeTo((share * (1 - share)) / Math.sqrt(3), 12) });
  expect(standingCrop(screen, weighings, 0, 16, "after")).toEqual(crop);
});

test("before the first harvest it grows from the day on which the screen began", () => {
  expect(standingCrop(screen, [harvest(10)], 0, 4, "after")).toMatchObject({ kind: "share", share: expect.closeTo(grown(4) / grown(10), 12) });
  expect(standingCrop(screen, [harvest(10)], -6, 4, "after")).toMatchObject({ kind: "share", share: expect.closeTo(grown(10) / grown(16), 12) });
});

test("after the last harvest it is scaled from what that one grew in its time", () => {
  const weighings = [harvest(10), harvest(24), harvest(24, "pressed")];
  expect(standingCrop(screen, weighings, 0, 30, "before")).toEqual({ kind: "scaled", of: weighings.slice(1), share: expect.closeTo(grown(6) / grown(14), 12) });
  expect(standingCrop(screen, [harvest(10)], 2, 15, "before")).toMatchObject({ kind: "scaled", share: expect.closeTo(grown(5) / grown(8), 12) });
});

test("nothing stands there just after a harvest, before the screen began, nor after a first harvest of unknown time", () => {
  expect(standingCrop(screen, [harvest(10)], 0, 10, "after")).toEqual({ kind: "none" });
  expect(standingCrop(screen, [harvest(10)], 5, 3, "before")).toEqual({ kind: "none" });
  expect(standingCrop(screen, [harvest(10)], 10, 15, "before")).toEqual({ kind: "none" });
});

test("a screen that was never weighed has the usual curve over its lit area, and nothing without one", () => {
  expect(standingCrop(screen, [], 0, 12, "before")).toEqual({ kind: "usual", dryG: expect.closeTo(0.5 * grown(12), 12) });
  expect(standingCrop({ ...screen, litAreaM2: null }, [], 0, 12, "before")).toEqual({ kind: "none" });
});
