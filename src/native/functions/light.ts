import { LIGHT_CEILING } from "../../science/constants/light-ceiling";
import { PRACTICE } from "../../science/constants/practice";
import type { CellWriter } from "../cell-writer";
import type { Rule } from "../rule";

function daily(writer: CellWriter): string {
  const light = writer.number(0, { most: 5000 });
  const level = writer.has(2) ? `*${writer.share(2, 1, "1")}` : "";
  return `${light}${level}*3600*${writer.number(1, { most: 24 })}/1000000`;
}

const fromWatts = (writer: CellWriter): string =>
  `${writer.number(0)}*${writer.number(2, { most: 5 }, writer.constant(PRACTICE.lampEfficacy))}*${writer.share(3, 1, writer.constant(PRACTICE.lightReaching))}/${writer.number(1, { open: true })}`;

/** Refused above what any alga can do. */
function lightYield(writer: CellWriter): string {
  const [dry, area, light] = [writer.number(0), writer.number(1, { open: true }), writer.number(2, { open: true })];
  writer.refuseIf(`${dry}>${writer.constant(LIGHT_CEILING.lightYieldMost)}*${area}*${light}`);
  return `${dry}/(${area}*${light})`;
}

/** kWh, what they cost, and kWh for a gram of dry algae where a harvest is given. */
function cost(writer: CellWriter): string[] {
  const kWh = `${writer.number(0)}*${writer.number(1, { most: 24 })}*${writer.number(2, { open: true })}/1000`;
  return [kWh, `${kWh}*${writer.number(3)}`, writer.whenGiven(4, { open: true }, (dry) => `${kWh}/${dry}`, '""')];
}

/** Light on a screen, what it yields and what it costs. */
export const lightRules: Readonly<Record<string, Rule>> = {
  LIGHT_DAILY: { kind: "cells", write: daily },
  LIGHT_FROM_WATTS: { kind: "cells", write: fromWatts },
  LIGHT_YIELD: { kind: "cells", write: lightYield },
  LIGHT_COST: { kind: "cells", write: cost },
};
