import { basisFor } from "../../functions/reading-functions";
import { PRACTICE } from "../../science/constants/practice";
import type { Nutrient } from "../../science/nutrient-forms";
import { native } from "../../words/native";
import type { CellWriter } from "../cell-writer";
import { toElement } from "../concentration";
import { readingOf } from "../readings";
import type { Rule } from "../rule";

const { step: steps } = native;

const store = (nutrient: Nutrient): Rule => ({
  kind: "cells",
  whole: [3],
  write: (writer) => {
    const [reading, volume] = [readingOf(writer, 0, 3, "value"), writer.number(2)];
    return `${reading}${toElement(writer, basisFor(nutrient, writer.word(1)))}*${volume}/1000`;
  },
});

const exported = (nutrient: Nutrient): Rule => ({
  kind: "cells",
  whole: [4],
  write: (writer) => {
    const [reading, changed] = [readingOf(writer, 0, 4, "value"), writer.number(2)];
    const basis = basisFor(nutrient, writer.word(1));
    const difference = writer.has(3) ? `(${reading}-${readingOf(writer, 3, 4, "value", true)})` : reading;
    return `${difference}${toElement(writer, basis)}*${changed}/1000`;
  },
});

function netVolume(writer: CellWriter): string {
  const displaced = [
    { place: 1, density: PRACTICE.rockDensity },
    { place: 2, density: PRACTICE.sandDensity },
    { place: 3, density: null },
  ].filter(({ place }) => writer.has(place));
  const terms = displaced.map(({ place, density }) => `-${writer.number(place, {}, "0")}${density ? `/${writer.constant(density)}` : ""}`);
  const gross = writer.number(0, { open: true });
  if (terms.length === 0) return gross;
  const net = writer.stepOf(steps.netVolume, gross + terms.join(""));
  writer.refuseIf(`${net}<=0`);
  return net;
}

function changeResult(writer: CellWriter): string {
  const [reading, share] = [writer.number(0), writer.share(1, 1)];
  const left = leftAfter(writer, share);
  if (!writer.has(2)) return `${reading}*${left}`;
  const incoming = writer.number(2, {}, "0");
  return `${incoming}+(${reading}-${incoming})*${left}`;
}

/** Share of the old water that is left after some changes. A spreadsheet program has no answer for 0 to the power of 0, which is 1 here. */
function leftAfter(writer: CellWriter, share: string): string {
  const power = (times: string): string => (Number(times) === 0 ? "1" : `(1-${share})^${times}`);
  const isLiteral = writer.given(3)?.literal === true;
  return writer.whenGiven(3, { most: 10000, whole: true }, (times) => (isLiteral ? power(times) : `IF(${times}=0,1,${power(times)})`), `(1-${share})`);
}

/** The smallest whole number of changes; rounding up leaves a billionth, for a whole number may come out a hair above itself. */
function changeCount(writer: CellWriter): string {
  const [reading, target, share] = [writer.number(0), writer.number(1), writer.number(2, { open: true, most: 1 })];
  const incoming = writer.has(3) ? writer.brief(steps.incoming, writer.number(3, {}, "0")) : "0";
  const less = (text: string): string => (writer.has(3) ? `(${text}-${incoming})` : text);
  return `IF(${reading}<=${target},0,IF(AND(${share}>=1,${target}>=${incoming}),1,IF(${target}<=${incoming},NA(),-INT(10^(-9)-LN(${less(target)}/${less(reading)})/LN(1-${share})))))`;
}

/** What is in the water, and what changing it does. */
export const waterRules: Readonly<Record<string, Rule>> = {
  WATER_STORE_N: store("N"),
  WATER_STORE_P: store("P"),
  NET_VOLUME: { kind: "cells", write: netVolume },
  CHANGE_RESULT: { kind: "cells", write: changeResult },
  CHANGE_COUNT: { kind: "cells", write: changeCount },
  CHANGE_N_EXPORT: exported("N"),
  CHANGE_P_EXPORT: exported("P"),
};
