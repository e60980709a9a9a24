import { log as words } from "../words/log";
import { science } from "../words/science";
import { concentrationUnitNamed, formNamed, nutrientOf, type Basis, type Form } from "../science/nutrient-forms";
import type { Draining } from "../science/harvest";
import { Problem } from "../science/problem";
import { isBlank, type Cell } from "./arguments";

/** What a column of a log holds. Factors turn its figures into grams or litres; `screen` is the name behind the word, "" for a single screen. */
export type Column =
  | { readonly kind: "date" }
  | { readonly kind: "food" }
  | { readonly kind: "feed"; readonly unit: "g" | "portions"; readonly factor: number; readonly food: string }
  | { readonly kind: "reading"; readonly basis: Basis }
  | { readonly kind: "harvest"; readonly screen: string; readonly draining: Draining; readonly factor: number }
  | { readonly kind: "fedBack"; readonly screen: string; readonly factor: number | "share" }
  | { readonly kind: "change"; readonly factor: number | "share" }
  | { readonly kind: "topUp"; readonly factor: number }
  | { readonly kind: "otherIn" | "otherOut"; readonly form: Form; readonly factor: number }
  | { readonly kind: "light"; readonly screen: string; readonly of: "umolPerM2S" | "hoursPerDay" | "level" }
  | { readonly kind: "condition"; readonly of: "ph" | "temperatureC" | "temperatureF" | "salinity" }
  | { readonly kind: "ignored" };

const MASS: Record<string, number> = { g: 1, kg: 1000, mg: 0.001 };
/** 1 US gallon = 3.785411784 L (exact by definition of the inch). */
const VOLUME: Record<string, number> = { l: 1, litre: 1, litres: 1, liters: 1, ml: 0.001, m3: 1000, "us gal": 3.785411784 };
const SHARE = new Set(["%", "share", "per cent", "percent"]);
const KNOWN_WORDS = ["nitrate", "nitrite", "phosphate", "phosphorus", "harvest", "water change", "fed back", "top-up", "dosed", "removed"];

/** A heading taken apart: its words, and the unit in the last brackets. */
export function splitHeading(heading: string): { name: string; unit: string } {
  const match = /^(.*?)\s*[([]([^()[\]]*)[)\]]\s*$/.exec(heading.trim());
  const [name, unit] = match ? [match[1] ?? "", match[2] ?? ""] : [heading, ""];
  return { name: name.trim().replace(/\s+/g, " "), unit: unit.trim().replace(/[µμ]/g, "u").replace("³", "3").replace("²", "2") };
}

/**
 * What a heading means. Headings that mean nothing here (Notes, Temperature) are "ignored"; one that looks like a
 * mistyped word of ours is refused, so that a column is never dropped by a slip.
 * @throws Problem for a missing or unknown unit, a basis left open, or a likely slip
 */
export function columnOf(heading: Cell): Column {
  if (isBlank(heading) || typeof heading !== "string") return { kind: "ignored" };
  const { name, unit } = splitHeading(heading);
  const lower = name.toLowerCase();
  if (lower === "date" || lower === "day") return { kind: "date" };
  if (lower === "food" || lower === "food name") return { kind: "food" };
  const after = (words: RegExp): string | null => {
    const match = words.exec(name);
    return match ? (match[1] ?? "").trim() : null;
  };
  const fedBack = after(/^fed back\b(.*)$/i);
  if (fedBack !== null) return { kind: "fedBack", screen: fedBack, factor: massOrShare(heading, unit, "Fed back (g)") };
  const feed = after(/^(?:feed|fed)\b(.*)$/i);
  if (feed !== null) return feedColumn(heading, unit, feed);
  const harvest = after(/^harvest\b(.*)$/i);
  if (harvest !== null) return harvestColumn(heading, unit, harvest);
  if (/^water changed?s?$/i.test(name)) return { kind: "change", factor: SHARE.has(unit.toLowerCase()) ? "share" : volume(heading, unit, "Water change (L)") };
  if (/^top[- ]?up$/i.test(name)) return { kind: "topUp", factor: volume(heading, unit, "Top-up (L)") };
  const brought = after(/^(?:dosed|other in)\b(.*)$/i);
  if (brought !== null) return otherColumn("otherIn", heading, unit, brought, "Dosed N (g)");
  const taken = after(/^(?:removed|media|skimmed|other out)\b(.*)$/i);
  if (taken !== null) return otherColumn("otherOut", heading, unit, taken, "Removed N (g)");
  return lightColumn(heading, name, unit) ?? conditionColumn(lower, unit) ?? readingColumn(heading, name, unit) ?? ignoredUnlessSlip(heading, lower);
}

/** Lamps by what is said of them; "dimmed by" and "dimmed to" are opposite things, so a heading that says only "dimming" is refused. */
function lightColumn(heading: string, name: string, unit: string): Column | null {
  if (/^dimm/i.test(name)) throw new Problem("value", words.perhapsMeant(heading, "Light level (%)"));
  const hours = /^(?:light hours|hours lit)\b(.*)$/i.exec(name);
  if (hours) {
    if (!/^(h|hours?)$/i.test(unit)) throw new Problem("value", unit === "" ? words.unitMissing(heading, "Light hours (h)") : words.unitUnknown(heading, unit, "h"));
    return { kind: "light", screen: (hours[1] ?? "").trim(), of: "hoursPerDay" };
  }
  const level = /^light level\b(.*)$/i.exec(name);
  if (level) {
    if (!SHARE.has(unit.toLowerCase())) throw new Problem("value", unit === "" ? words.unitMissing(heading, "Light level (%)") : words.unitUnknown(heading, unit, "%"));
    return { kind: "light", screen: (level[1] ?? "").trim(), of: "level" };
  }
  const light = /^light\b(.*)$/i.exec(name);
  return light && isPhotonFlux(unit) ? { kind: "light", screen: (light[1] ?? "").trim(), of: "umolPerM2S" } : null;
}

/** umol m-2 s-1 in the ways in which it is written. */
export const isPhotonFlux = (unit: string): boolean =>
  /^umol\s*(?:m-2\s*s-1|\/\s*(?:m2\s*\/\s*s|\(?m2\s*s\)?))$/i.test(unit.replace(/⁻/g, "-").replace(/¹/g, "1").replace(/[·*.]/g, " "));

/** pH, temperature and salinity serve the warnings only; a temperature without a unit says nothing. */
function conditionColumn(lower: string, unit: string): Column | null {
  if (lower === "ph") return { kind: "condition", of: "ph" };
  if (lower === "salinity") return { kind: "condition", of: "salinity" };
  if (!/^(?:water )?temp(?:erature)?$/.test(lower)) return null;
  if (/^(?:°\s?|degrees? )?c(?:elsius)?$/i.test(unit)) return { kind: "condition", of: "temperatureC" };
  return /^(?:°\s?|degrees? )?f(?:ahrenheit)?$/i.test(unit) ? { kind: "condition", of: "temperatureF" } : null;
}

function feedColumn(heading: string, unit: string, food: string): Column {
  if (/^portions?$/i.test(unit)) return { kind: "feed", unit: "portions", factor: 1, food };
  return { kind: "feed", unit: "g", factor: mass(heading, unit, "Feed (g)"), food };
}

function harvestColumn(heading: string, unit: string, rest: string): Column {
  const draining: Draining = /\bpressed\b/i.test(rest) ? "pressed" : "drained";
  const screen = rest.replace(/\b(pressed|drained)\b/i, "").replace(/\s+/g, " ").trim();
  return { kind: "harvest", screen, draining, factor: mass(heading, unit, "Harvest (g)") };
}

function otherColumn(kind: "otherIn" | "otherOut", heading: string, unit: string, rest: string, example: string): Column {
  const form = formNamed(rest);
  if (!form) throw new Problem("value", rest === "" ? words.perhapsMeant(heading, example) : science.unknownForm(rest));
  return { kind, form, factor: mass(heading, unit, example) };
}

/** A test: the form stands in the name (NO3, Nitrate NO3-N) or in the unit (mg/L as N); without a form the basis is open. */
function readingColumn(heading: string, name: string, unit: string): Column | null {
  const isTest = /\b(nitrate|nitrite|ammoni\w*|phosphate|phosphorus)\b/i.test(name);
  const words_ = `${name} ${unit}`.split(/\s+/).filter((part) => !/^(as|nitrate|nitrite|ammonia|ammonium|phosphate)$/i.test(part));
  const forms = words_.map((part) => (/^phosphorus$/i.test(part) ? "P" : formNamed(part))).filter((form): form is Form => form !== null);
  const form = bestForm(forms, name);
  if (!form && !isTest) return null;
  if (!form) throw new Problem("value", science.basisOpen(heading));
  const units = unit.split(/\s+/).filter((part) => part !== "" && !/^as$/i.test(part) && formNamed(part) === null);
  if (units.length === 0) throw new Problem("value", words.unitMissing(heading, `${form} (mg/L)`));
  const found = concentrationUnitNamed(units.join(" "));
  if (!found) throw new Problem("value", words.unitUnknown(heading, units.join(" "), "mg/L, ug/L, umol/L, mg/kg"));
  return { kind: "reading", basis: { unit: found, form } };
}

/** "Nitrate NO3 (mg/L as N)" is nitrate counted as N: a form in the unit decides, if it is of the same nutrient. */
function bestForm(forms: readonly Form[], name: string): Form | null {
  const last = forms[forms.length - 1] ?? null;
  if (last === "N" && /nitrate|no3/i.test(name)) return "NO3-N";
  if (last === "N" && /nitrite|no2/i.test(name)) return "NO2-N";
  if (last === "N" && /ammoni|nh[34]/i.test(name)) return "NH4-N";
  if (last && forms[0] && nutrientOf(forms[0]) !== nutrientOf(last)) return null;
  return last;
}

function ignoredUnlessSlip(heading: string, lower: string): Column {
  const near = KNOWN_WORDS.find((known) => distance(lower.slice(0, known.length + 1).trim(), known) <= 2 && lower[0] === known[0] && known.length > 4);
  if (near) throw new Problem("value", words.perhapsMeant(heading, near));
  return { kind: "ignored" };
}

/** Edit distance (Levenshtein 1966), for telling a slip from another word. */
export function distance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, place) => place);
  for (let i = 1; i <= a.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= b.length; j += 1) {
      next[j] = Math.min((next[j - 1] ?? 0) + 1, (row[j] ?? 0) + 1, (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1));
    }
    row = next;
  }
  return row[b.length] ?? 0;
}

function unitFactor(table: Record<string, number>, heading: string, unit: string, example: string): number {
  if (unit === "") throw new Problem("value", words.unitMissing(heading, example));
  const factor = table[unit.toLowerCase()];
  if (factor === undefined) throw new Problem("value", words.unitUnknown(heading, unit, Object.keys(table).join(", ")));
  return factor;
}
const mass = (heading: string, unit: string, example: string): number => unitFactor(MASS, heading, unit, example);
export const volume = (heading: string, unit: string, example: string): number => unitFactor(VOLUME, heading, unit, example);
const massOrShare = (heading: string, unit: string, example: string): number | "share" =>
  SHARE.has(unit.toLowerCase()) ? "share" : mass(heading, unit, example);
