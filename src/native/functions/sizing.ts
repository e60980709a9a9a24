import { ALGAE, GROWTH_BAND, type Setting } from "../../science/constants/algae";
import { PRACTICE } from "../../science/constants/practice";
import { mostTissue, usualTissue } from "../../science/harvest";
import type { Nutrient } from "../../science/nutrient-forms";
import { native } from "../../words/native";
import { sizing as words } from "../../words/sizing";
import type { CellWriter } from "../cell-writer";
import { NotWritable } from "../not-writable";
import { toElement } from "../concentration";
import { isBlankValue } from "../given";
import type { Rule } from "../rule";

const { step: steps } = native;

const capacity = (nutrient: Nutrient): Rule => ({
  kind: "cells",
  write: (writer) => {
    // What growth depends on, before the area.
    writer.readFirst([1, 2, 3, 4, 5]);
    const [area, light] = [writer.number(0), writer.number(1, { most: 80 })];
    const yieldOfLight = writer.number(7, { most: 1.8 }, writer.constant(ALGAE.lightYield));
    const setting = Object.keys(GROWTH_BAND).find((name) => name === writer.word(5, "ordinary").toLowerCase()) as Setting | undefined;
    if (!setting) throw new NotWritable();
    const allowed = [allowedBy(writer, "N", 2), allowedBy(writer, "P", 3)].filter((one) => one !== null);
    const byWater = allowed.length === 2 ? `*MIN(${allowed.join(",")})` : allowed.map((one) => `*${one}`).join("");
    const growth = `MIN(${yieldOfLight}*${light},${writer.constant(GROWTH_BAND[setting], "high")})${byWater}${warmth(writer, 4)}`;
    const tissue = writer.share(6, mostTissue(nutrient), writer.constant(usualTissue(nutrient)));
    return `${area}*${allowed.length + (writer.has(4) ? 1 : 0) > 0 ? writer.stepOf(steps.growth, growth) : growth}*${tissue}`;
  },
});

/** Share of the growth that a reading allows; null where none is given. */
function allowedBy(writer: CellWriter, nutrient: Nutrient, place: number): string | null {
  if (!writer.has(place)) return null;
  const half = writer.constant(nutrient === "N" ? ALGAE.halfSaturationN : ALGAE.halfSaturationP);
  const factor = toElement(writer, { unit: "mg/L", form: nutrient === "N" ? "NO3" : "PO4" });
  const share = writer.whenGiven(place, { most: nutrient === "N" ? 1000 : 100 }, (target) => `${target}${factor}/(${half}+${target}${factor})`, "1");
  return writer.stepOf(nutrient === "N" ? steps.byN : steps.byP, share);
}

/** Growth at that temperature over growth at 25 degrees C. */
const warmth = (writer: CellWriter, place: number): string => (writer.has(place) ? `*${writer.constant(ALGAE.q10)}^((${writer.number(place, { least: 5, most: 35 }, "25")}-25)/10)` : "");

/** The area of common practice. What it carries of a load is found by random draws. */
function habit(writer: CellWriter): string[] {
  const food = writer.number(0);
  const { habitAreaPerPortion: perPortion, habitPortion } = PRACTICE;
  const areas = (["low", "high"] as const).map((which) => `2*${writer.constant(perPortion, which)}*(${food}/${writer.constant(habitPortion)})`);
  const [withN, withP] = [isStated(writer, 1), isStated(writer, 2)];
  if (!withN && !withP) return areas;
  if (isStated(writer, 3)) throw new NotWritable("draws");
  return [...areas, '""', '""', `"${words.habitNeedsLight}"`];
}

/** Whether an argument says more than nothing; the formula refuses once one that says nothing now does. */
function isStated(writer: CellWriter, place: number): boolean {
  const range = writer.range(place);
  if (!range) return false;
  const stated = range.rows.some((row) => row.some(({ value }) => !isBlankValue(value) && value !== 0));
  if (!stated && range.rows.some((row) => row.some(({ literal }) => !literal))) writer.refuseIf(`SUM(${range.text})<>0`);
  return stated;
}

/** What a screen carries, and how large one is by habit. */
export const sizingRules: Readonly<Record<string, Rule>> = {
  SCRUB_CAPACITY_N: capacity("N"),
  SCRUB_CAPACITY_P: capacity("P"),
  SCRUBAREA_HABIT: { kind: "cells", whole: [1, 2, 3, 4, 5, 6, 7], write: habit },
};
