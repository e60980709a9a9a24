import { formsOf, type Form, type Substance } from "../../../science/nutrient-forms";
import type { UnitSort } from "./units";
import type { Kind } from "./vocabulary";

/** Sorts of unit in which a kind can be counted. */
export const SORTS_OF: Readonly<Partial<Record<Kind, readonly UnitSort[]>>> = {
  feed: ["mass", "portions"],
  harvest: ["mass"],
  fedBack: ["mass", "share"],
  change: ["volume", "share"],
  topUp: ["volume"],
  otherIn: ["mass"],
  otherOut: ["mass"],
  light: ["photonFlux"],
  lightHours: ["hours"],
  lightLevel: ["share"],
  temperature: ["celsius", "fahrenheit"],
  salinity: ["salinity"],
  nitrate: ["concentration"],
  nitrite: ["concentration"],
  ammonia: ["concentration"],
  phosphate: ["concentration"],
  totalNitrogen: ["concentration"],
};

const WORD_OF: Readonly<Partial<Record<Kind, string>>> = { feed: "Feed", harvest: "Harvest", fedBack: "Fed back", change: "Water change", topUp: "Top-up", light: "Light", lightHours: "Light hours", lightLevel: "Light level", temperature: "Temperature" };
const UNITS_OF: Readonly<Partial<Record<Kind, readonly string[]>>> = {
  feed: ["g", "portions", "mg", "kg"],
  harvest: ["g", "kg"],
  fedBack: ["g", "%", "kg"],
  change: ["L", "%", "US gal", "m3"],
  topUp: ["L", "mL", "US gal"],
  light: ["umol m-2 s-1"],
  lightHours: ["h"],
  lightLevel: ["%"],
  temperature: ["C", "F"],
};

/** A heading of ours: "Harvest left (g)", "Feed Mysids, frozen (portions)". */
export const headingFor = (kind: Kind, unit: string, name = ""): string => `${WORD_OF[kind] ?? ""}${name ? ` ${name}` : ""} (${unit})`;
export const testHeading = (form: Form, unit: string): string => `${form} (${unit})`;

const SUBSTANCE_OF: Readonly<Partial<Record<Kind, Substance>>> = { nitrate: "nitrate", nitrite: "nitrite", ammonia: "ammonia", phosphate: "phosphate", totalNitrogen: "total nitrogen" };

/** The forms that a test of this kind may be stated in, the two usual ones first. */
export function formsOfKind(kind: Kind): readonly Form[] {
  const substance = SUBSTANCE_OF[kind];
  if (!substance) return [];
  if (substance === "ammonia") return ["NH4", "NH4-N", "NH3", "NH3-N"];
  return substance === "phosphate" ? ["PO4", "PO4-P", "P", "P2O5"] : formsOf(substance);
}

/** Every heading that a test with an open form or an open unit may mean, the form first. */
export const testChoices = (forms: readonly Form[], units: readonly string[]): string[] => units.flatMap((unit) => forms.map((form) => testHeading(form, unit)));

/** Every unit of a kind, those in which the figures would be usual first. */
export function unitChoices(kind: Kind, name: string, figures: readonly number[]): string[] {
  const units = UNITS_OF[kind] ?? [];
  const usual = units.filter((unit) => unlikelyIn(kind, unit, figures) === null);
  return [...usual, ...units.filter((unit) => !usual.includes(unit))].map((unit) => headingFor(kind, unit, name));
}

/** What a log's figures usually lie between, as least and most of the largest figure: beyond it the unit is doubted, never changed. Judgement from small tanks to ponds. */
const USUAL: Readonly<Record<string, readonly [number, number]>> = {
  "feed g": [0.02, 20_000], "feed kg": [0.001, 50], "feed mg": [20, 1e7], "feed portions": [0.2, 500],
  "harvest g": [2, 50_000], "harvest kg": [0.005, 50], "harvest mg": [1000, 1e8],
  "fedBack g": [0.5, 50_000], "fedBack %": [0, 100],
  "change L": [0.1, 1e5], "change %": [0, 100], "change mL": [100, 1e7], "change m3": [0.001, 1000],
  "topUp L": [0.05, 20_000], "topUp mL": [20, 1e7],
  "NO3 mg/L": [0.01, 500], "NO3-N mg/L": [0.005, 120], "NO2 mg/L": [0, 30], "NO2-N mg/L": [0, 10],
  "NH4 mg/L": [0, 20], "NH4-N mg/L": [0, 15], "NH3 mg/L": [0, 20], "NH3-N mg/L": [0, 15],
  "PO4 mg/L": [0, 15], "PO4-P mg/L": [0, 6], "P mg/L": [0, 6], "PO4 ug/L": [5, 15_000], "PO4-P ug/L": [2, 6000], "P ug/L": [2, 6000],
  "light umol m-2 s-1": [5, 3000], "lightHours h": [0, 24], "lightLevel %": [0, 100],
  "temperature C": [2, 40], "temperature F": [41, 105],
};

/** The largest figure, where it would be unusual in the unit; else null. */
export function unlikelyIn(kindOrForm: Kind | Form, unit: string, figures: readonly number[]): number | null {
  const usual = USUAL[`${kindOrForm} ${unit}`];
  if (!usual || figures.length === 0) return null;
  const most = Math.max(...figures);
  return most < usual[0] || most > usual[1] ? most : null;
}
