import { ALKALINITY_PER_N, ALKALINITY_UNITS, type AlkalinityUnit, type NitrogenProcess } from "../../science/alkalinity";
import { ATOMIC_WEIGHT } from "../../science/constants/atomic-weights";
import { native } from "../../words/native";
import { nativeCoefficients as words } from "../../words/native-coefficients";
import type { CellWriter } from "../cell-writer";
import { NotWritable } from "../not-writable";
import { densityOf, equationOf, practicalSalinity } from "../equations";
import type { Rule } from "../rule";
import { ammoniaRules } from "./ammonia";

const { step: steps } = native;

/** Oxygen of Benson & Krause: at one atmosphere, then with the vapour and pressure terms. */
function oxygen(writer: CellWriter): string {
  const temperature = writer.number(0, { most: 40 });
  const salinity = writer.number(1, { most: 42 }, "0");
  const pressure = writer.brief(steps.airPressure, writer.number(2, { least: 0.5, most: 1.1 }, "1"));
  const inverse = writer.stepOf(steps.perKelvin, `1/(${temperature}+273.15)`);
  const salt = writer.has(1) ? `-${salinity}*(${equationOf(writer, "oxygenSalt", inverse)})` : "";
  const atOne = writer.stepOf(steps.oxygen, `EXP(${equationOf(writer, "oxygen", inverse)}${salt})`);
  const vapour = writer.stepOf(steps.vapour, `EXP(${equationOf(writer, "vapour", inverse)})`);
  const term = writer.stepOf(steps.pressure, equationOf(writer, "pressure", temperature));
  if (!writer.has(2)) return `${atOne}*(1-${vapour})*(1-${term})/((1-${vapour})*(1-${term}))`;
  return `${atOne}*${pressure}*(1-${vapour}/${pressure})*(1-${term}*${pressure})/((1-${vapour})*(1-${term}))`;
}

function alkalinity(writer: CellWriter): string {
  const nitrogen = writer.number(0);
  const process = named(writer.word(1), Object.keys(ALKALINITY_PER_N) as NitrogenProcess[]);
  const unit = named(writer.word(2, "meq/L"), Object.keys(ALKALINITY_UNITS) as AlkalinityUnit[]);
  const perN = writer.coefficient({ name: words.alkalinity.process(process), value: ALKALINITY_PER_N[process], unit: "mol/mol N", from: words.alkalinity.from(process) });
  const weight = (element: "Ca" | "C" | "O" | "N"): string => writer.constant(ATOMIC_WEIGHT[element]);
  const inUnit = (): string => (unit === "dKH" ? `*(${weight("Ca")}+${weight("O")})/2/10` : unit === "meq/L" ? "" : `*(${weight("Ca")}+${weight("C")}+3*${weight("O")})/2`);
  return `${nitrogen}/${weight("N")}*${perN}${inUnit()}`;
}

function named<T extends string>(written: string, options: readonly T[]): T {
  const found = options.find((option) => option.toLowerCase() === written.toLowerCase());
  if (!found) throw new NotWritable();
  return found;
}

function fromConductivity(writer: CellWriter): string {
  const salinity = practicalSalinity(writer, writer.number(0, { most: 150 }), writer.number(1, { most: 35 }));
  writer.refuseIf(`${salinity}<2`);
  writer.refuseIf(`${salinity}>42`);
  return salinity;
}

/** What stands in the equations of sea water and its gases. */
export const seawaterRules: Readonly<Record<string, Rule>> = {
  SEAWATER_DENSITY: { kind: "cells", write: (writer) => densityOf(writer, writer.number(0, { most: 42 }), writer.number(1, { most: 40 })) },
  SALINITY_FROM_CONDUCTIVITY: { kind: "cells", write: fromConductivity },
  OXYGEN_SATURATION: { kind: "cells", write: oxygen },
  ALKALINITY_SHIFT: { kind: "cells", write: alkalinity },
  ...ammoniaRules,
};
