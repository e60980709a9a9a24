import type { Log, SetUp } from "../budget/log";
import type { Nutrient, Substance } from "../nutrient-forms";

export type Severity = "serious" | "caution" | "note";
export const SEVERITIES: readonly Severity[] = ["serious", "caution", "note"];

/** Every code, and what its sentence needs to know. `screen`: its name, "" for a single one. `test`: the heading of the readings. */
export interface FactsByCode {
  BELOW_DETECTION: { readonly test: string };
  READING_RISING: { readonly test: string; readonly risePercent: number; readonly days: number };
  NP_RATIO: { readonly ratio: number; readonly low: number; readonly high: number };
  NUTRIENT_SHORT: { readonly short: string; readonly plentiful: string };
  /** `factor`: how many times the reading is more (or less) than those beside it. */
  BASIS_STEP: { readonly test: string; readonly factor: number; readonly higher: boolean; readonly nutrient: Nutrient };
  FEED_ABOVE_CAPACITY: { readonly loadG: number; readonly capacityG: number; readonly days: number };
  HARVEST_OVERDUE: { readonly screen: string; readonly since: number; readonly longest: number; readonly ownCurve: boolean };
  GROWTH_FALLING: { readonly screen: string; readonly from: number; readonly to: number };
  FIRST_HARVEST: { readonly screen: string };
  HARVEST_ABOVE_LIGHT: { readonly screen: string; readonly gPerMol: number; readonly most: number };
  GROWTH_TOO_HIGH: { readonly screen: string; readonly growth: number; readonly most: number };
  FED_BACK: { readonly grams: number; readonly harvests: number };
  /** Shares of dry mass; `stated`: written in the set-up, else what the budget of the period would need. */
  TISSUE_IMPLIED: { readonly nutrient: Nutrient; readonly share: number; readonly most: number; readonly stated: boolean };
  DATE_ORDER: { readonly rowBefore: number };
  DUPLICATE_ROW: { readonly sameAs: number };
  LOG_GAP: { readonly days: number; readonly usual: number };
  /** Grams between which the unexplained part lies; `days`: length of the period; `whole`: it is the whole log. */
  UNEXPLAINED_SOURCE: { readonly nutrient: Nutrient; readonly low: number; readonly high: number; readonly days: number; readonly whole: boolean };
  UNEXPLAINED_SINK: { readonly nutrient: Nutrient; readonly low: number; readonly high: number; readonly days: number; readonly whole: boolean };
  LARGE_CHANGE: { readonly share: number };
  AMMONIA_HARMFUL: { readonly test: string; readonly mgPerL: number; readonly limit: number };
  /** pH or temperature is missing, so that the harmful part is not known. */
  AMMONIA_OPEN: { readonly test: string; readonly missing: "pH" | "temperature" };
  BAD_CELL: { readonly sentence: string };
}

export type WarningCode = keyof FactsByCode;

interface Place {
  readonly severity: Severity;
  /** Row of the keeper's range, the heading row being 1; null where the whole log or the set-up is meant. */
  readonly row: number | null;
  readonly day: number | null;
  /** How many earlier ones of the same kind are not listed. */
  readonly alike: number;
}

export type WarningOf<C extends WarningCode> = Place & { readonly code: C; readonly facts: FactsByCode[C] };
export type Warning = { [C in WarningCode]: WarningOf<C> }[WarningCode];

/** A log read for one nutrient. `substances`: what each series of the log measures. */
export interface Account {
  readonly log: Log;
  readonly setUp: SetUp;
  readonly substances: readonly (Substance | null)[];
}

export interface Accounts {
  readonly N: Account;
  readonly P: Account;
}

export const warning = <C extends WarningCode>(code: C, severity: Severity, at: { readonly row: number; readonly day: number } | null, facts: FactsByCode[C]): WarningOf<C> => ({
  code,
  severity,
  row: at ? at.row : null,
  day: at ? at.day : null,
  alike: 0,
  facts,
});

/** The last `most` of each severity, from a list in order of day; the latest of them says how many more there are. */
export function latestOf<C extends WarningCode>(all: readonly WarningOf<C>[], most: number): WarningOf<C>[] {
  return SEVERITIES.flatMap((severity) => {
    const same = all.filter((one) => one.severity === severity);
    const kept = same.slice(-most);
    return kept.map((one, place) => (place === kept.length - 1 ? { ...one, alike: same.length - kept.length } : one));
  });
}

/** Serious first; then in the order of the sheet, with those of the whole log at the end. */
export const bySeverityAndRow = (a: Warning, b: Warning): number =>
  SEVERITIES.indexOf(a.severity) - SEVERITIES.indexOf(b.severity) || (a.row ?? Infinity) - (b.row ?? Infinity) || 0;
