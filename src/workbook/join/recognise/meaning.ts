import { distance } from "../../../functions/log-headings";
import { formNamed, nutrientOf, substanceOf, type Form } from "../../../science/nutrient-forms";
import { folded } from "./cells";
import { unitsIn, type WrittenUnit } from "./units";
import { COMPUTED_WORDS, COUNTED_DAYS, DENSITY_WORDS, DRY_WORDS, FILLING_WORDS, FOOD_NAME_WORDS, FACTOR_WORDS, IGNORED_WORDS, KIND_WORDS, PRESSED_WORDS, QUALIFYING_WORDS, RATIO_WORDS, SLIP_WORDS, type Kind } from "./vocabulary";

/** What the words of a heading say, before any value is looked at. */
export interface HeadingMeaning {
  readonly kind: Kind | null;
  readonly weak: boolean;
  readonly ignored: string | null;
  readonly computed: boolean;
  readonly ratio: boolean;
  readonly dry: boolean;
  readonly pressed: boolean;
  readonly density: boolean;
  readonly foodName: boolean;
  /** Words that belong to none of these: the name of a screen or of a food, as the keeper wrote it. */
  readonly name: string;
  readonly units: readonly WrittenUnit[];
  /** A word that makes another thing of it, such as target or tap; null for none. */
  readonly qualified: string | null;
  /** N or P alone beside other words: the element in the figure, perhaps. */
  readonly element: "N" | "P" | null;
  readonly factor: boolean;
  /** How many different tests the words name. */
  readonly substances: number;
  /** Forms that the words state. */
  readonly forms: readonly Form[];
}

export const TEST_KINDS: ReadonlySet<Kind> = new Set(["nitrate", "nitrite", "ammonia", "phosphate", "totalNitrogen"]);
export const isTest = (kind: Kind | null): boolean => kind !== null && TEST_KINDS.has(kind);

/** Words run together with underscores, slashes or capitals (FeedAmount, NO3_mgL) are taken apart first. */
const spaced = (heading: string): string =>
  heading.normalize("NFC").replace(/(mg|ug|µg|μg|umol|µmol)_(?:per_)?(l|kg)(?![a-z])/gi, "$1/$2").replace(/_/g, " ").replace(/\b(temp)([CF])\b/i, "$1 $2").replace(/([\p{Ll}])([\p{Lu}])(?=\p{Ll})/gu, "$1 $2").replace(/\b(mg|ug|µg|μg|umol|µmol)(?=L\b)/g, "$1/").replace(/\s+/g, " ").trim();

export function headingMeaning(heading: string): HeadingMeaning {
  const written = spaced(heading);
  const plain = folded(written);
  const units = unitsIn(written);
  const withoutUnits = blanked(plain, units.map(({ from, to }) => [from, to]));
  const forms = formsIn(withoutUnits);
  const found = kindIn(withoutUnits, units);
  const nutrients = new Set(forms.map(nutrientOf));
  const substances = new Set([...withoutUnits.matchAll(/nitrat|no3|phos|po4/g)].map((match) => (/nitrat|no3/.test(match[0]) ? "N" : "P")));
  const qualified = QUALIFYING_WORDS.exec(withoutUnits);
  const ignored = IGNORED_WORDS.exec(withoutUnits);
  return {
    kind: found?.kind ?? null,
    weak: found?.weak === true,
    ignored: ignored ? written.slice(ignored.index, ignored.index + ignored[0].length) : null,
    computed: COMPUTED_WORDS.test(withoutUnits) && found?.kind !== "totalNitrogen" && found?.kind !== "ammonia" && !(found?.kind === "otherOut" && forms.length > 0),
    ratio: RATIO_WORDS.test(plain) || substances.size > 1 || nutrients.size > 1,
    dry: DRY_WORDS.test(withoutUnits),
    pressed: PRESSED_WORDS.test(withoutUnits),
    density: DENSITY_WORDS.test(plain),
    foodName: FOOD_NAME_WORDS.test(withoutUnits),
    qualified: qualified ? written.slice(qualified.index, qualified.index + qualified[0].length) : null,
    element: found === null || found.kind === "otherIn" || found.kind === "otherOut" ? null : elementIn(written, withoutUnits),
    factor: FACTOR_WORDS.test(plain),
    substances: KIND_WORDS.filter(({ kind, words }) => TEST_KINDS.has(kind) && kind !== "totalNitrogen" && words.test(withoutUnits)).length,
    name: nameIn(written, withoutUnits),
    units,
    forms,
  };
}

function kindIn(plain: string, units: readonly WrittenUnit[]): { kind: Kind; weak?: true } | null {
  if (COUNTED_DAYS.test(plain)) return null;
  const met = KIND_WORDS.find(({ words }) => words.test(plain));
  // A concentration belongs to a test, also where the heading names a water change or a harvest beside it.
  const hasConcentration = units.some((one) => one.sort === "concentration");
  const test = hasConcentration && met && met.kind !== "otherIn" && met.kind !== "otherOut" ? KIND_WORDS.find(({ kind, words }) => TEST_KINDS.has(kind) && words.test(plain)) : undefined;
  if (test) return test;
  if (met) return met;
  // A bare N or P, or a form that stands only in the unit ("mg/L NO3" over nothing), still says which test it is.
  const form = units.map((one) => one.form).find((one) => one !== null) ?? formNamed(plain.replace(/[^a-z0-9-]/g, ""));
  return form ? { kind: kindOfForm(form) } : null;
}

export const kindOfForm = (form: Form): Kind => (substanceOf(form) === "total nitrogen" ? "totalNitrogen" : (substanceOf(form) as Kind));

const FORM_PATTERNS: readonly (readonly [RegExp, Form])[] = [
  [/\b(?:no3[- ]?n|n[- ]no3|nitrat\w*[- ]n|nitrat\w* (?:nitrogen|stickstoff)|nitratstickstoff|nitrat-stickstoff|azote nitrique|nitrogeno nitrico|n de nitrato)\b|\b(?:nitrat\w*|no3) \(?(?:as|als|en|comme|como) n\b/, "NO3-N"],
  [/\b(?:no2[- ]?n|n[- ]no2|nitrit\w*[- ]n|nitrit\w* (?:nitrogen|stickstoff)|nitritstickstoff)\b|\b(?:nitrit\w*|no2) \(?(?:as|als|en|comme|como) n\b/, "NO2-N"],
  [/\b(?:nh4[- ]?n|n[- ]nh4|ammonium[- ]n|ammoniumstickstoff|tan)\b|\b(?:ammoni\w*|nh4) \(?(?:as|als|en|comme|como) n\b/, "NH4-N"],
  [/\b(?:nh3[- ]?n|n[- ]nh3)\b|\bnh3 \(?(?:as|als|en|comme|como) n\b/, "NH3-N"],
  [/\b(?:po4[- ]?p|p[- ]po4|phosphat\w*[- ]p|phosphatphosphor|srp)\b|\b(?:(?:ph|f)os(?:ph|f)at\w*|po4) \(?(?:as|als|en|comme|como) p\b/, "PO4-P"],
  [/\bno3\b/, "NO3"],
  [/\bno2\b/, "NO2"],
  [/\bnh4\b/, "NH4"],
  [/\bnh3\b/, "NH3"],
  [/\bpo4\b/, "PO4"],
  [/\bp2o5\b/, "P2O5"],
  [/\b(?:total nitrogen|total n|tn|gesamtstickstoff|azote total|nitrogeno total)\b/, "N"],
];

/** The forms that stand in a text, each stretch of it read once: NO3-N is not also NO3, but NO3-N/NO3 is both. */
export function formsIn(plain: string): Form[] {
  let rest = plain;
  const forms: Form[] = [];
  for (const [pattern, form] of FORM_PATTERNS) {
    const matches = [...rest.matchAll(new RegExp(pattern.source, "g"))];
    if (matches.length === 0) continue;
    forms.push(form);
    rest = blanked(rest, matches.map((match) => [match.index, match.index + match[0].length]));
  }
  return forms;
}

/** N or P as a word of its own outside of the forms: "NO3 mg/L (N)", "Harvest N (g)". */
function elementIn(written: string, plain: string): "N" | "P" | null {
  let rest = plain;
  for (const [pattern] of FORM_PATTERNS) rest = rest.replace(new RegExp(pattern.source, "g"), (match) => " ".repeat(match.length));
  const match = /(?<![a-z0-9:/'-])[np](?![a-z0-9:/'-])/.exec(rest);
  const sign = match ? written[match.index] : undefined;
  return sign === "N" || sign === "P" ? sign : null;
}

function nameIn(written: string, plain: string): string {
  let rest = plain;
  for (const { words } of KIND_WORDS) rest = rest.replace(new RegExp(words.source, "g"), (match) => " ".repeat(match.length));
  for (const words of [FILLING_WORDS, PRESSED_WORDS, DRY_WORDS, COMPUTED_WORDS]) rest = rest.replace(new RegExp(words.source, "g"), (match) => " ".repeat(match.length));
  const kept = [...written].map((sign, place) => (/[\p{L}\p{N}]/u.test(rest[place] ?? " ") ? sign : " ")).join("");
  return kept.trim().replace(/\s+/g, " ");
}

function blanked(text: string, stretches: readonly (readonly [number, number])[]): string {
  return [...text].map((sign, place) => (stretches.some(([from, to]) => place >= from && place < to) ? " " : sign)).join("");
}

/** The kind that a mistyped or shortened word may mean: worth a question, never an answer. */
export function nearKind(heading: string): Kind | null {
  const parts = folded(heading.normalize("NFC")).split(/[^a-z.]+/).filter((part) => part.replace(".", "").length >= 3);
  const near = (part: string, word: string): boolean => {
    const bare = part.replace(/\./g, "");
    if (part.endsWith(".") && word.startsWith(bare)) return true;
    return bare[0] === word[0] && bare.length >= 4 && distance(bare, word) <= (word.length <= 6 ? 1 : 2);
  };
  return SLIP_WORDS.find(([word]) => parts.some((part) => near(part, word)))?.[1] ?? null;
}
