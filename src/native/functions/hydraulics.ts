import { HYDRAULICS } from "../../science/constants/hydraulics";
import type { CellWriter } from "../cell-writer";
import { usualDensity } from "../equations";
import type { Rule } from "../rule";

/** Low, usual and high flow over so many sheets. */
function flow(writer: CellWriter): string[] {
  const width = writer.number(0, { most: 2000 });
  const all = writer.has(1) ? `(${width}*${writer.number(1, { least: 1, most: 1000, whole: true }, "1")})` : width;
  return (["low", "value", "high"] as const).map((which) => `${writer.constant(HYDRAULICS.flowPerWidth, which)}*${all}`);
}

const draft = (writer: CellWriter): string =>
  `${writer.number(0)}/(${writer.number(2, { least: 0.9, most: 1.3 }, usualDensity(writer))}*${writer.number(1, { open: true })})`;

/** Water over a screen, and a screen that floats. */
export const hydraulicsRules: Readonly<Record<string, Rule>> = {
  FLOW_NEEDED: { kind: "cells", write: flow },
  FLOAT_DRAFT: { kind: "cells", write: draft },
};
