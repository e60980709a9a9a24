import { ALGAE } from "../../science/constants/algae";
import { nutrientOf } from "../../science/nutrient-forms";
import { forecast } from "../../words/forecast";
import { native } from "../../words/native";
import type { CellWriter } from "../cell-writer";
import { NotWritable } from "../not-writable";
import { fromElement, toElement } from "../concentration";
import { isNothing } from "../given";
import type { Rule } from "../rule";

const { step: steps } = native;
const FORMS = ["NO3", "NO3-N", "PO4", "PO4-P"] as const;

/** Where a reading settles: without water changes where uptake meets the load, with them at the positive root of the balance. */
function steady(writer: CellWriter): string {
  const load = writer.stepOf(steps.load, `1000*${writer.number(0)}`);
  const uptake = writer.stepOf(steps.uptake, `1000*${writer.number(1)}`);
  const volume = writer.number(2, { open: true });
  const written = writer.word(3, "NO3");
  const form = FORMS.find((name) => name.toLowerCase() === written.toLowerCase());
  if (!form) throw new NotWritable();
  const half = writer.constant(nutrientOf(form) === "N" ? ALGAE.halfSaturationN : ALGAE.halfSaturationP);
  const inForm = fromElement(writer, { unit: "mg/L", form });
  const change = writer.share(4, 1, "0");
  const incoming = writer.number(5, { most: 1000 }, "0");
  const unchanged = `IF(${load}=0,IF(${uptake}>0,0,"${forecast.staysAsItIs}"),IF(${uptake}>${load},${half}*${load}/(${uptake}-${load})${inForm},"${forecast.withoutLimit}"))`;
  const given = writer.given(4);
  if (!given || (given.literal && Number(given.value) === 0)) return unchanged;
  const changed = `${balance(writer, { load, uptake, volume, half, change, incoming: writer.has(5) ? writer.stepOf(steps.incomingElement, `${incoming}${toElement(writer, { unit: "mg/L", form })}`) : "0" })}${inForm}`;
  return given.literal ? changed : `IF(OR(${isNothing(given.text)},${given.text}=0),${unchanged},${changed})`;
}

/** The positive root of the balance, in the form without a difference of nearly equal numbers. */
function balance(writer: CellWriter, { load, uptake, volume, half, change, incoming }: Readonly<Record<"load" | "uptake" | "volume" | "half" | "change" | "incoming", string>>): string {
  const share = writer.brief(steps.changeShare, change);
  const a = writer.stepOf(steps.exchange, `${share}/(7*(1-${share}/2))*${volume}`);
  const b = writer.stepOf(steps.linear, `${uptake}+${a}*(${half}-${incoming})-${load}`);
  const c = writer.stepOf(steps.constant, `-1*${half}*(${load}+${a}*${incoming})`);
  const root = writer.stepOf(steps.root, `SQRT(${b}*${b}-4*${a}*${c})`);
  return `IF(${b}>0,-2*${c}/(${b}+${root}),(${root}-${b})/(2*${a}))`;
}

export const steadyRules: Readonly<Record<string, Rule>> = { STEADY_READING: { kind: "cells", write: steady } };
