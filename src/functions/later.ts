import * as compare from "./compare-functions";
import * as forecast from "./forecast-functions";
import * as growth from "./growth-functions";
import * as join from "./join-functions";
import * as row from "./row-functions";
import * as series from "./series-functions";
import * as steady from "./steady-functions";
import * as summary from "./summary-functions";
import { functionsOf } from "./topic-map";
import * as trend from "./trend-functions";
import * as warning from "./warning-functions";

/** What a workbook may or may not use: loaded at its first call. */
export const laterFunctions = functionsOf([summary, growth, compare, series, warning, trend, steady, forecast, join, row]);
