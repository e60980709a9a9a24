import { FluentProvider, webLightTheme } from "@fluentui/react-components";
import type { ReactElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { Problem } from "../../src/science/problem";
import { type AccountView, reckonAll, reckoning } from "../../src/pane/budget/account";
import { type AheadBasis, aheadBasis, lookAhead } from "../../src/pane/budget/ahead";
import { AccountScreen, BudgetScreen } from "../../src/pane/budget/budget";
import { choices, chosenPeriod } from "../../src/pane/budget/chosen";
import { dayText, daysText } from "../../src/pane/budget/day-text";
import { flowsOf } from "../../src/pane/budget/flows";
import type { BudgetSource } from "../../src/workbook/budget-source";
import { rows } from "../call";
import type { MemoryGrid } from "../workbook/memory-grid";
import { sampleSource } from "./sample-account";

const SAMPLE = "one-tank-16-weeks.xlsx";
const PART_COLUMNS = ["feedIn", "otherIn", "harvestOut", "changeOut", "otherOut", "storeChange"] as const;

let source: BudgetSource;
let grid: MemoryGrid;
let view: AccountView;
beforeAll(async () => {
  ({ source, grid } = await sampleSource(SAMPLE));
  view = reckonAll(source);
});

/** The text of a screen, tags out, one blank between words. */
function textOf(screen: ReactElement): string {
  return renderToStaticMarkup(<FluentProvider theme={webLightTheme}>{screen}</FluentProvider>)
    .replace(/<style.*?<\/style>/gs, "")
    .replace(/<[^>]+>/g, " ")
    .replace(/&#x27;/g, "'")
    .replace(/&quot;/g, '"')
    .replace(/&lt;/g, "<")
    .replace(/&gt;/g, ">")
    .replace(/&amp;/g, "&")
    .replace(/\s+/g, " ");
}
const reckoner = (reckoned: Parameters<typeof BudgetScreen>[0]["reckoner"]["reckoned"]) => ({ reckoned, stop: () => {}, again: () => {} });
const SOURCE = (): { kind: "source"; names: string[]; chosen: string; source: BudgetSource } => ({ kind: "source", names: ["Log"], chosen: "Log", source });

/** A log with all that a forecast needs, in exact readings; its last day is a harvest. */
function lit(change: readonly (readonly unknown[])[] = []): BudgetSource {
  const log = [["Date", "Food", "Feed (g)", "NO3 (mg/L)", "PO4 (mg/L)", "Harvest (g)", "Water change (L)"]];
  for (let day = 0; day <= 56; day += 1) log.push([46000 + day, "Cod", 3, day % 7 === 0 ? "9-11" : "", day % 7 === 0 ? "0.2-0.3" : "", day > 0 && day % 8 === 0 ? 140 : "", day > 0 && day % 7 === 0 ? 20 : ""] as never);
  const setUp = [["Volume (L)", 200], ["Lit area (m2)", 0.2], ["Light (umol m-2 s-1)", 250], ["Light hours", 12], ["Retained", 0], ...change];
  return { log, setUp, foods: null, period: null, logPlace: { sheet: "Log", secondRow: 2, firstColumn: 1, lastColumn: 7 }, formulaAt: "Log!J1" };
}
function basisOf(given: BudgetSource): AheadBasis {
  const basis = aheadBasis(reckonAll(given));
  if (basis.kind !== "ready") throw new Error(basis.sentence);
  return basis.basis;
}

describe("the account of the sample", () => {
  it.each([["N", "Nitrogen"], ["P", "Phosphorus"]] as const)("has the figures and verdicts of %s that stand in the sheet's cells", (nutrient, sheet) => {
    const periods = view.periods[nutrient];
    expect(periods.length).toBeGreaterThan(8);
    const cells = grid.read(sheet, `A9:K${8 + periods.length}`).values;
    periods.forEach((period, place) => {
      const [from, to, ...rest] = cells[place] ?? [];
      expect([from, to, rest.at(-1)]).toEqual([period.from, period.to, period.verdictWords]);
      const figures = [...PART_COLUMNS.map((part) => period.parts[part]), period.unexplained, period.u];
      figures.forEach((figure, column) => expect(Number(rest[column])).toBeCloseTo(figure ?? NaN, 10));
      expect(`${period.headline} ${period.rest}`.trim()).toBe(period.verdictWords);
    });
  });

  it("has the sentences of BUDGET_BOTH, the rows of BUDGET_WARNINGS and the dates of HARVEST_NEXT", () => {
    const both = rows("BUDGET_BOTH", source.log, source.setUp, source.period, source.foods, false);
    expect(view.believed.map(({ sentence }) => sentence)).toEqual(both.filter((row) => row[2] === "N").map((row) => row.at(-1)));
    const warned = rows("BUDGET_WARNINGS", source.log, source.setUp, source.foods, false);
    expect(view.warnings.map(({ row, sentence, check }) => [row, sentence, check])).toEqual(warned.map((row) => [row[0], row[3], row[4]]));
    const harvests = (source.log as unknown[][]).slice(1).filter((row) => row[5] !== "");
    const days = harvests.slice(1).map((row, place) => [Number(row[0]) - Number(harvests[place]?.[0])]);
    const dry = harvests.slice(1).map((row) => [(Number(row[5]) * 0.085) / 0.2]);
    const [next = []] = rows("HARVEST_NEXT", harvests.at(-1)?.[0], days, dry, 46168);
    expect(view.harvests).toEqual([{ screen: "", dates: { best: next[0], earliest: next[1], latest: next[2] }, sentence: next[3] }]);
  });

  it("comes in steps that can be stopped between, and the same at the end", () => {
    const steps = reckoning(source);
    let count = 0;
    for (let step = steps.next(); ; step = steps.next()) {
      count += 1;
      if (!step.done) continue;
      expect(JSON.stringify(step.value)).toBe(JSON.stringify(view));
      break;
    }
    expect(count).toBe(9);
  });

  it("begins with the period up to the last harvest, and offers the whole log and each other period", () => {
    const offered = choices(view);
    expect(offered.slice(0, 3).map(({ label }) => label)).toEqual([
      "7 to 18 May 2026, last harvest",
      "3 Feb to 26 May 2026, whole log",
      "18 to 26 May 2026, since the last harvest",
    ]);
    expect(offered[3]?.label).toBe("26 Apr to 7 May 2026");
    expect(offered).toHaveLength(view.believed.length + 1);
    expect(new Set(offered.map(({ value }) => value)).size).toBe(offered.length);
    const whole = chosenPeriod(view, "whole");
    expect([whole.from, whole.to, whole.nutrients.N?.parts]).toEqual([46056, 46168, view.whole.N.parts]);
    expect(chosenPeriod(view, "to 46149").nutrients.P?.to).toBe(46149);
    expect(chosenPeriod(view, "to 1").to).toBe(46160);
  });

  it("is refused with the sentence of the log where no account is possible", () => {
    const log = (source.log as unknown[][]).map((row, place) => (place === 3 ? ["soon", ...row.slice(1)] : row));
    expect(() => reckonAll({ ...source, log })).toThrow(Problem);
    expect(() => reckonAll({ ...source, period: "fortnight" })).toThrow(/fortnight/);
  });
});

describe("flowsOf", () => {
  const parts = { feedIn: 5, otherIn: 0, harvestOut: 2, changeOut: 1, otherOut: 0, storeChange: 1 };

  it("fills the bar of what went up to what came in, with the range where it ends", () => {
    const flows = flowsOf({ parts, unexplained: 1, range: { low: -0.5, high: 2.5 } });
    expect(flows?.cameIn).toEqual([{ name: "feed", grams: 5, from: 0, share: 1 }]);
    expect(flows?.went).toEqual([
      { name: "harvest", grams: 2, from: 0, share: 0.4 },
      { name: "change", grams: 1, from: 2, share: 0.2 },
      { name: "intoStore", grams: 1, from: 3, share: 0.2 },
      { name: "unexplainedOut", grams: 1, from: 4, share: 0.2 },
    ]);
    expect([flows?.totalG, flows?.whisker]).toEqual([5, { on: "went", from: 3.5, to: 6.5, lowG: -0.5, highG: 2.5 }]);
  });

  it("puts a source and what came out of the water on the side of what came in", () => {
    const flows = flowsOf({ parts: { ...parts, storeChange: -2, harvestOut: 9 }, unexplained: -3, range: { low: -4, high: -2 } });
    expect(flows?.cameIn.map(({ name, grams, from }) => [name, grams, from])).toEqual([["feed", 5, 0], ["fromStore", 2, 5], ["unexplainedIn", 3, 7]]);
    expect(flows?.went.map(({ name, grams }) => [name, grams])).toEqual([["harvest", 9], ["change", 1]]);
    expect([flows?.totalG, flows?.whisker]).toEqual([10, { on: "cameIn", from: 9, to: 11, lowG: 2, highG: 4 }]);
  });

  it("has two bars of the same length for every period of the sample", () => {
    for (const period of [...view.periods.N, ...view.periods.P, view.whole.N, view.whole.P]) {
      const flows = flowsOf(period);
      const length = (of: readonly { grams: number }[] = []): number => of.reduce((sum, { grams }) => sum + grams, 0);
      expect(length(flows?.cameIn)).toBeCloseTo(flows?.totalG ?? NaN, 9);
      expect(length(flows?.went)).toBeCloseTo(flows?.totalG ?? NaN, 9);
    }
  });

  it("draws nothing where a figure is not known", () => {
    expect(flowsOf({ parts: { ...parts, storeChange: null }, unexplained: null, range: null })).toBeNull();
  });
});

describe("the forecast", () => {
  it("has the figures of FORECAST_READING for the same tank", () => {
    const basis = basisOf(lit());
    expect([basis.asItIs, basis.harvestEvery, basis.sinceHarvest]).toEqual([{ foodPercent: 0, areaTimes: 1, hours: 12, changePercent: 10 }, 8, 0]);
    const [load] = [basis.outlook.loadGPerDay];
    expect(load.N).toBeCloseTo(Number(rows("FEEDLOAD_N", 3, "Cod", "g", null, 0)[0]?.[0]), 12);
    const table = rows("FORECAST_READING", "9-11", "0.2-0.3", 200, load.N, load.P, 0.2, (250 * 3600 * 12) / 1e6, 56, 4, 8, 7, 0.1);
    const { points } = lookAhead(basis, basis.asItIs, 300);
    points.forEach(({ reading: { N, P } }, place) =>
      [N.low, N.middle, N.high, P.low, P.middle, P.high].forEach((value, column) => expect(value).toBeCloseTo(Number(table[place + 1]?.[column + 1]), 9)),
    );
  });

  it("moves as each slider says: less food, more screen, longer light and more water changed bring less nitrate", () => {
    const basis = basisOf(lit());
    const no3 = (change: object): number => lookAhead(basis, { ...basis.asItIs, ...change }, 60).points.at(-1)?.reading.N.middle ?? NaN;
    const now = no3({});
    const [less, area, hours, water] = [no3({ foodPercent: -50 }), no3({ areaTimes: 2 }), no3({ hours: 18 }), no3({ changePercent: 30 })];
    for (const changed of [less, area, hours, water]) expect(changed).toBeLessThan(now - 0.1);
    expect(no3({ foodPercent: 50 })).toBeGreaterThan(now + 0.1);
  });

  it("says that nitrate rises without limit where nothing takes the load away", () => {
    const basis = basisOf(lit());
    const { settles } = lookAhead(basis, { ...basis.asItIs, hours: 0, changePercent: 0 }, 20);
    expect(settles).toEqual({ N: Infinity, P: Infinity });
  });

  it("counts an overdue harvest as made on the next day", () => {
    const given = lit();
    const log = (given.log as unknown[][]).map((row, place) => (place > 41 ? row.map((cell, column) => (column === 5 ? "" : cell)) : row));
    const basis = basisOf({ ...given, log });
    expect([basis.harvestEvery, basis.sinceHarvest]).toEqual([8, 16]);
    expect(textOf(<AccountScreen account={reckonAll({ ...given, log })} />)).toMatch(/Overdue by 3 days: the best day was 5 days ago\. Good from .*Counted from the log's last day, 3 Feb 2026/);
  });

  it("names the rows that the set-up lacks", () => {
    const noLamps = (source.setUp as unknown[][]).filter(([what]) => !String(what).startsWith("Light"));
    expect(aheadBasis(reckonAll({ ...source, setUp: noLamps }))).toEqual({ kind: "not", sentence: 'The forecast needs to know the screen and its lamps. Add to the set-up, and to the range that the formula reads: "Light (umol m-2 s-1)" and "Light hours".' });
    const { log, ...rest } = lit();
    const noPo4 = (log as unknown[][]).map((row) => row.filter((_cell, column) => column !== 4));
    expect(aheadBasis(reckonAll({ log: noPo4, ...rest }))).toEqual({ kind: "not", sentence: "The forecast needs a reading of PO4: log one in a column PO4 (mg/L)." });
  });
});

describe("the screen", () => {
  it("gives the answer first, then where it went, what to doubt, what is next, and the warnings", () => {
    const text = textOf(<BudgetScreen looked={SOURCE()} reckoner={reckoner({ kind: "ready", account: view })} onLog={() => {}} />);
    const order = ["Budget", "Period", "Nitrogen Closed to within", "Phosphorus Closed to within", "As the formula in Nitrogen!A8", "Where it went", "Came in", "The least believable figure", "The figures fit together", "The next harvest", "Counted from the log's last day, 26 May 2026", "Ahead: what if", "Warnings", "Check first: Look whether all that was fed back has its entry.", "Go to Log!A73:H73"];
    const places = order.map((words) => text.indexOf(words));
    expect(places).not.toContain(-1);
    expect(places).toEqual([...places].sort((a, b) => a - b));
  });

  it("says each part in grams and per cent, in the table and in the picture's description", () => {
    const html = renderToStaticMarkup(<FluentProvider theme={webLightTheme}>{<AccountScreen account={view} />}</FluentProvider>);
    const text = textOf(<AccountScreen account={view} />);
    expect(text).toContain("Harvest 0.467 88 %");
    expect(html).toContain("Came in: Feed 0.533 g, 100 %. Went: Harvest 0.467 g, 88 %, Stayed in the water and on the screen 0.0299 g, 6 % and Unexplained 0.0356 g, 7 %.");
    expect(text).toContain("The unexplained part lies between -0.28 and 0.21 g (about 95 %)");
    const patterns = [...html.matchAll(/<pattern [^>]*>(.*?)<\/pattern>/gs)].slice(0, 9).map(([, tile]) => tile);
    // Two sides of one thing (the water, the rest, other ways) share a pattern and never a bar.
    expect(new Set(patterns).size).toBe(6);
  });

  it("keeps headings in order of level", () => {
    const html = renderToStaticMarkup(<FluentProvider theme={webLightTheme}><BudgetScreen looked={SOURCE()} reckoner={reckoner({ kind: "ready", account: view })} onLog={() => {}} /></FluentProvider>);
    const levels = [...html.matchAll(/<h([1-6])/g)].map(([, level]) => Number(level));
    expect(levels[0]).toBe(2);
    expect(levels.every((level, place) => place === 0 || (level > 2 && level - (levels[place - 1] ?? 0) <= 1))).toBe(true);
  });

  it("names a bad cell, and gives its period no picture and no figure", () => {
    const log = (source.log as unknown[][]).map((row, place) => (place === 100 ? [...row.slice(0, 2), "a lot", ...row.slice(3)] : row));
    const text = textOf(<AccountScreen account={reckonAll({ ...source, log })} />);
    expect(text).toMatch(/Nitrogen Cannot tell\. Row 101, Feed \(g\): .*a lot/);
    expect(text).toContain("Nitrogen No picture: this period is reckoned as soon as the cells named above are put right. Phosphorus No picture");
    expect(text).toMatch(/Serious Row 101, Feed \(g\)|Caution Row 101, Feed \(g\)/);
  });

  it("shows what is known of a log without a test, and says what is not", () => {
    const log = (source.log as unknown[][]).map((row) => row.filter((_cell, column) => column !== 4));
    const text = textOf(<AccountScreen account={reckonAll({ ...source, log })} />);
    expect(text).toMatch(/Phosphorus Cannot tell\. No phosphate reading is logged\./);
    expect(text).toMatch(/No picture: what is not known here would have to be guessed\. Phosphorus: where it went What g P Feed 0\.0553 Other ways in 0 Harvest 0\.0467 Water change 0 Other ways out 0 Change in the water and on the screen not known/);
    expect(text).toContain("Only N was tested, so nothing checks it.");
  });

  it("says what to do without a budget, and shows no figure while none could be reckoned", () => {
    const screen = (looked: Parameters<typeof BudgetScreen>[0]["looked"], kind: Parameters<typeof reckoner>[0]): string => textOf(<BudgetScreen looked={looked} reckoner={reckoner(kind)} onLog={() => {}} />);
    expect(screen({ kind: "none" }, { kind: "reckoning", slow: false, before: null })).toContain("This workbook has no budget yet. Keep a log");
    expect(screen(SOURCE(), { kind: "problem", sentence: "Row 4: no date." })).toBe(" Budget No budget can be shown: Row 4: no date. Correct this in the workbook; the pane looks again by itself. ");
    expect(screen({ kind: "unreadable", names: ["Log"], chosen: "Log", sentence: "Gone." }, { kind: "ready", account: view })).not.toContain("Closed");
    expect(screen(SOURCE(), { kind: "stopped" })).toContain("Reckoning was stopped, so nothing is shown. Reckon");
    expect(screen(SOURCE(), { kind: "reckoning", slow: true, before: view })).toMatch(/Reckoning the changed log \.\.\. What stands below is from before the change\. Cancel .*Closed/);
    expect(screen({ ...SOURCE(), names: ["Log", "Pond"] }, { kind: "stopped" })).toContain("Log Log Pond");
  });
});

it("writes days of the calendar from serials, also across a leap day", () => {
  expect([46081, 46082, 45351, 45352, 46168.9].map(dayText)).toEqual(["28 Feb 2026", "1 Mar 2026", "29 Feb 2024", "1 Mar 2024", "26 May 2026"]);
  expect(daysText(45990, 46056)).toBe("29 Nov 2025 to 3 Feb 2026");
});
