import { AMMONIA_SPREAD, AMMONIUM_PKA } from "../../science/gases";
import { native } from "../../words/native";
import { nativeCoefficients } from "../../words/native-coefficients";
import type { CellWriter } from "../cell-writer";
import { isNothing } from "../given";
import type { Rule } from "../rule";

const { step: steps } = native;
const { ammonia: words, term } = nativeCoefficients;

/** Un-ionised ammonia and its limits, to two digits. Fresh water has its own equation, and salinity 0 is fresh water. */
function unionised(writer: CellWriter): string[] {
  const total = writer.number(0);
  const pH = writer.number(1, { least: 5, most: 10 });
  const temperature = writer.number(2, { most: 30 });
  const salinity = writer.number(3, { most: 42 }, "0");
  const water = writer.given(3);
  const either = (fresh: () => string, salt: () => string): string => {
    if (!water) return fresh();
    if (water.literal) return Number(salinity) === 0 ? fresh() : salt();
    return `IF(OR(${isNothing(water.text)},${water.text}=0),${fresh()},${salt()})`;
  };
  const pKa = writer.stepOf(steps.pKa, either(() => pKaFresh(writer, temperature), () => pKaSalt(writer, temperature, salinity)));
  const spreadOf = (kind: "fresh" | "salt") => (): string => writer.coefficient({ name: words.spread[kind], value: AMMONIA_SPREAD[kind], unit: "1", from: words.spreadFrom });
  const spread = writer.brief(steps.spread, either(spreadOf("fresh"), spreadOf("salt")));
  const value = writer.stepOf(steps.unionised, `${total}*(1/(1+10^(${pKa}-${pH})))`);
  return [value, writer.stepOf(steps.unionisedLow, `${value}*(1-${spread})`), writer.stepOf(steps.unionisedHigh, `${value}*(1+${spread})`)].map(toTwoDigits);
}

const toTwoDigits = (cell: string): string => `IF(${cell}=0,0,ROUND(${cell},1-INT(LOG10(${cell}))))`;

function pKaFresh(writer: CellWriter, temperature: string): string {
  const [constant, perKelvin] = AMMONIUM_PKA.fresh.map((value, power) => writer.coefficient({ name: term(words.fresh, "1/T", power), value, unit: power === 0 ? "1" : "K", from: words.freshFrom }));
  return `${constant}+${perKelvin}/(${temperature}+273.15)`;
}

function pKaSalt(writer: CellWriter, temperature: string, salinity: string): string {
  const [salt, water, saltInWater] = AMMONIUM_PKA.ionicStrength.map((value, place) => writer.coefficient({ name: words.ionicStrength[place] ?? "", value, unit: "1", from: words.saltFrom }));
  const strength = writer.stepOf(steps.ionicStrength, `${salt}*${salinity}/(${water}-${saltInWater}*${salinity})`);
  const of = (which: keyof typeof AMMONIUM_PKA.salt, unit: string): string => writer.coefficient({ name: words.salt[which], value: AMMONIUM_PKA.salt[which], unit, from: words.saltFrom });
  return `${of("at298K", "1")}+${of("perIonicStrength", "kg/mol")}*${strength}+${of("perKelvin", "1/K")}*(${of("reference", "K")}-(${temperature}+273.15))+${of("perPressure", "K")}/(${temperature}+273.15)`;
}

export const ammoniaRules: Readonly<Record<string, Rule>> = { AMMONIA_UNIONISED: { kind: "cells", write: unionised } };
