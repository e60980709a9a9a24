import { concentrationUnitNamed, formNamed, type ConcentrationUnit, type Form } from "../../../science/nutrient-forms";
import { isPhotonFlux } from "../../../functions/log-headings";
import { folded } from "./cells";

/** What sort of quantity a unit belongs to. "open": the word can be two units (ppm, gallon), or none that can be counted (cup, pinch). */
export type UnitSort = "concentration" | "mass" | "volume" | "share" | "portions" | "celsius" | "fahrenheit" | "photonFlux" | "hours" | "salinity" | "open";

export interface WrittenUnit {
  readonly sort: UnitSort;
  /** As our own headings write it: "g", "mg/L", "%"; for open ones the keeper's word. */
  readonly unit: string;
  /** The form that stands with it: N in "mg/L as N" or "mg N/L". */
  readonly form: Form | null;
  /** Where it stands in the folded text. */
  readonly from: number;
  readonly to: number;
}

const LITRE = "(?:l|lt|lit(?:er|re|ro)s?)";
const FORM = "(no3-?n|n-?no3|no2-?n|n-?no2|nh[34]-?n|n-?nh[34]|po4-?p|p-?po4|no3|no2|nh[34]|po4|p2o5|n|p)";
const AS = "(?:\\s*(?:as|als|en|comme|como)?\\s*)";
const START = "(?<![a-z0-9])";
const END = "(?![a-z0-9])";

/** Patterns on folded text, the longest first; a single letter counts only where nothing else can be meant (see `trailing`). */
const CONCENTRATION = new RegExp(`${START}(mg|ug|g|mmol|umol)\\s?(?:${FORM}\\s?)?(?:/|per |pro |por |par )\\s?(${LITRE}|kg)(?:${AS}${FORM})?${END}`, "g");
const CONCENTRATION_POWER = new RegExp(`${START}(mg|ug|mmol|umol)\\s?(${LITRE}|kg)\\s?\\^?-1(?:${AS}${FORM})?${END}`, "g");
const PHOTON = new RegExp(`${START}umol\\s*(?:m-2\\s*s-1|/\\s*(?:m2\\s*/\\s*s|\\(?m2\\s*s\\)?))`, "g");
const PPM = new RegExp(`${START}(pp[mb])(?:${AS}${FORM})?${END}`, "g");

const WORDS: readonly (readonly [RegExp, UnitSort, string])[] = [
  [/us gal(?:lons?)?/, "volume", "US gal"],
  [/kilo(?:gram|gramm|gramme|gramo)?s?|kgs?/, "mass", "kg"],
  [/mg/, "mass", "mg"],
  [/gr(?:am|amm|amme|amo)?s?|grammes?/, "mass", "g"],
  [/lit(?:er|re|ro)s?|lts?/, "volume", "L"],
  [/ml|milliliter|millilitres?|mililitros?/, "volume", "mL"],
  [/m3|cbm/, "volume", "m3"],
  [/gal(?:lons?|ones|onen)?|imp gal/, "open", "gallons"],
  [/%|per ?cent|prozent|pour ?cent|por ciento|vol ?%/, "share", "%"],
  [/portion(?:s|en)?|racion(?:es)?/, "portions", "portions"],
  [/cubes?|wurfel|cubos?|blocks?|tabletten|tablets?|pinch(?:es)?|prisen?|pincees?|pizcas?|spoons?|scoops?|loffel|cuilleres?|cucharadas?|tsp|tbsp|cups?|tassen?|buckets?|eimer|seaux?|cubetas?/, "open", ""],
  [/deg(?:rees?)? ?c|celsius|grad ?c?|degres? ?c?|grados ?c?/, "celsius", "C"],
  [/deg(?:rees?)? ?f|fahrenheit/, "fahrenheit", "F"],
  [/h(?:ou)?rs?|std|stunden?|heures?|horas?|h\/(?:day|tag|jour|dia|d)/, "hours", "h"],
  [/min(?:utes?|uten|utos?)?/, "open", "minutes"],
  [/psu|ppt|g\/kg|permille/, "salinity", "ppt"],
  [/sg|ms\/cm|us\/cm|g\/cm3|oz|ounces?|lbs?|pounds?/, "open", ""],
];
const LETTERS: readonly (readonly [string, UnitSort, string])[] = [["g", "mass", "g"], ["l", "volume", "L"], ["h", "hours", "h"], ["c", "celsius", "C"], ["f", "fahrenheit", "F"]];

const asForm = (written: string | undefined): Form | null => {
  if (!written) return null;
  const turned = /^([np])-?((?:no|nh|po)\d)$/.exec(written);
  return formNamed(turned ? `${turned[2]}-${turned[1]}` : written);
};
const concentration = (amount: string, per: string): ConcentrationUnit | null => concentrationUnitNamed(`${amount}/${/^k/.test(per) ? "kg" : "l"}`);

/** The units in a text: a heading, a cell of a units row, or what stands behind a figure. */
export function unitsIn(text: string): WrittenUnit[] {
  const plain = folded(text);
  const found: WrittenUnit[] = [];
  const free = (from: number, to: number): boolean => found.every((one) => to <= one.from || from >= one.to);
  const add = (sort: UnitSort, unit: string, form: Form | null, from: number, to: number): void => {
    if (free(from, to)) found.push({ sort, unit, form, from, to });
  };
  for (const match of plain.matchAll(PHOTON)) {
    if (isPhotonFlux(match[0].replace(/[()]/g, "").replace("m2 s", "m2/s"))) add("photonFlux", "umol m-2 s-1", null, match.index, match.index + match[0].length);
  }
  for (const match of plain.matchAll(CONCENTRATION)) {
    const unit = concentration(match[1] ?? "", match[3] ?? "");
    if (unit) add("concentration", unit, asForm(match[2] ?? match[4]), match.index, match.index + match[0].length);
  }
  for (const match of plain.matchAll(CONCENTRATION_POWER)) {
    const unit = concentration(match[1] ?? "", match[2] ?? "");
    if (unit) add("concentration", unit, asForm(match[3]), match.index, match.index + match[0].length);
  }
  for (const match of plain.matchAll(PPM)) add("open", match[1] ?? "", asForm(match[2]), match.index, match.index + match[0].length);
  for (const match of plain.matchAll(/°\s?([cf])?(?![a-z])/g)) add(match[1] === "f" ? "fahrenheit" : match[1] ? "celsius" : "open", match[1] ? match[1].toUpperCase() : "°", null, match.index, match.index + match[0].length);
  for (const match of plain.matchAll(/‰/g)) add("salinity", "ppt", null, match.index, match.index + 1);
  for (const match of plain.matchAll(/%/g)) add("share", "%", null, match.index, match.index + 1);
  for (const [pattern, sort, unit] of WORDS) {
    for (const match of plain.matchAll(new RegExp(`${START}(?:${pattern.source})${END}`, "g"))) add(sort, unit || match[0], null, match.index, match.index + match[0].length);
  }
  for (const [letter, sort, unit] of LETTERS) {
    for (const from of trailing(plain, letter)) add(sort, unit, null, from, from + 1);
  }
  return found.sort((a, b) => a.from - b.from);
}

/** A single letter is a unit at the end of the text, first or last in brackets, before a comma, or behind "in". */
function trailing(plain: string, letter: string): number[] {
  const pattern = new RegExp(`(?:^|[\\s,;:/_([\\d]|\\bin |\\ben )(${letter})(?=\\s*$|\\s*[)\\],;])|[([]\\s*${letter}(?=[\\s.])`, "g");
  return [...plain.matchAll(pattern)].map((match) => match.index + match[0].length - 1);
}

/** Whether a text is nothing but a unit, as in a row of units: "mg/l", "(g)", "[°C]", "mg/L NO3", "TT.MM.JJJJ". */
export function isUnitText(text: string): boolean {
  const plain = folded(text).trim();
  if (plain === "" || /^[-/]+$/.test(plain)) return true;
  if (/^[([]?\s*(?:dd|tt|jj|mm|yyyy|jjjj|aaaa|yy|d|m)(?:[./\- ](?:dd|tt|jj|mm|yyyy|jjjj|aaaa|yy|aa|d|m|j)){1,2}\s*[)\]]?$/.test(plain)) return true;
  if (/^[([]?(?:name|text|date|datum|fecha|ja\/nein|yes\/no|unit|units|einheit|unite|unidad)[)\]]?$/.test(plain)) return true;
  const units = unitsIn(text);
  if (units.length === 0) return false;
  const rest = [...plain].filter((_, place) => !units.some((one) => place >= one.from && place < one.to)).join("");
  return /^[\s()[\]/,.]*(?:in|as|als|en)?[\s()[\]/,.]*$/.test(rest);
}
