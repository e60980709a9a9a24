import * as budget from "./budget-functions";
import * as feed from "./feed-functions";
import * as harvest from "./harvest-functions";
import * as hydraulics from "./hydraulics-functions";
import * as light from "./light-functions";
import * as reading from "./reading-functions";
import * as seawater from "./seawater-functions";
import * as sizing from "./sizing-functions";
import { functionsOf } from "./topic-map";
import * as water from "./water-functions";

/** What stands in nearly every workbook: loaded before Excel calculates its first cell. */
export const firstFunctions = functionsOf([feed, reading, water, harvest, light, sizing, hydraulics, seawater, budget]);
