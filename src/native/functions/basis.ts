import { basisFor } from "../../functions/reading-functions";
import { type Basis, nutrientOf, parseBasis } from "../../science/nutrient-forms";
import { native } from "../../words/native";
import type { CellWriter } from "../cell-writer";
import { NotWritable } from "../not-writable";
import { conversion, toElement } from "../concentration";
import { densityOf } from "../equations";
import type { Rule } from "../rule";

function converted(writer: CellWriter): string {
  const value = writer.number(0);
  const [from, to] = [parseBasis(writer.word(1)), parseBasis(writer.word(2))];
  // Needed between litres and kilograms only: there a blank one is no answer.
  const water = (): string => writer.stepOf(native.step.density, `(${densityOf(writer, writer.number(3, { most: 42 }, "NA()"), writer.number(4, { least: -2, most: 40 }, "NA()"))})/1000`);
  return `${value}${conversion(writer, from, to, water)}`;
}

function ratio(writer: CellWriter): string {
  const [nitrogen, phosphorus] = [writer.number(0), writer.number(2, { open: true })];
  const [n, p] = [basisFor("N", writer.word(1)), basisFor("P", writer.word(3))];
  const by = writer.word(4, "mass").toLowerCase();
  if (by !== "mass" && by !== "moles") throw new NotWritable();
  const factor = (basis: Basis): string => (by === "mass" ? toElement(writer, basis) : conversion(writer, basis, { unit: "umol/L", form: nutrientOf(basis.form) }));
  return `${nitrogen}${factor(n)}/(${phosphorus}${factor(p)})`;
}

/** Concentrations on another basis, and their ratio. */
export const basisRules: Readonly<Record<string, Rule>> = {
  ION_CONVERT: { kind: "cells", write: converted },
  NP_RATIO: { kind: "cells", write: ratio },
};
