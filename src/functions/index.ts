import * as budget from "./budget-functions";
import * as compare from "./compare-functions";
import * as feed from "./feed-functions";
import * as forecast from "./forecast-functions";
import * as growth from "./growth-functions";
import * as harvest from "./harvest-functions";
import * as hydraulics from "./hydraulics-functions";
import * as join from "./join-functions";
import * as light from "./light-functions";
import * as reading from "./reading-functions";
import * as seawater from "./seawater-functions";
import * as series from "./series-functions";
import * as sizing from "./sizing-functions";
import * as steady from "./steady-functions";
import * as summary from "./summary-functions";
import * as trend from "./trend-functions";
import * as warning from "./warning-functions";
import * as water from "./water-functions";

/** Arguments come in the order of the metadata; a range is rows of cells, one cell is 1 x 1, an omitted one is null. */
export type WorksheetFunction = (...args: never[]) => unknown;

/** Every worksheet function by its id: the upper-case exports of the topic files. */
export const worksheetFunctions: ReadonlyMap<string, WorksheetFunction> = new Map(
  [feed, reading, summary, water, harvest, growth, light, sizing, hydraulics, seawater, compare, series, budget, join, warning, trend, steady, forecast].flatMap((topic) =>
    Object.entries(topic).filter(([name, value]) => /^[A-Z][A-Z0-9_]+$/.test(name) && typeof value === "function"),
  ) as [string, WorksheetFunction][],
);
