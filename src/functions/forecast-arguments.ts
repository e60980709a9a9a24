import { functions } from "../words/functions";
import { science } from "../words/science";
import { forecast as words } from "../words/forecast";
import { GROWTH_BAND, type Setting } from "../science/constants/algae";
import type { ForecastEvent } from "../science/forecast/model";
import { repeated, type Outlook } from "../science/forecast/range";
import { elementMgPerL, type Form } from "../science/nutrient-forms";
import { Problem } from "../science/problem";
import { parseReading } from "../science/reading";
import { exact, rectangular, type Uncertain } from "../science/uncertain";
import { cellsOf, choice, isBlank, numberIn, quantity, shareWithin, single, textIn, within, type Cell } from "./arguments";
import { isCellError } from "./cell-error";

/** The arguments that all forecasts share, as the host hands them over. */
export interface OutlookArguments {
  readonly no3: unknown;
  readonly po4: unknown;
  readonly volumeL: unknown;
  readonly loadN: unknown;
  readonly loadP: unknown;
  readonly litAreaM2: unknown;
  readonly light: unknown;
  readonly harvestEvery: unknown;
  readonly changeEvery: unknown;
  readonly changeShare: unknown;
  readonly events?: unknown;
  readonly temperatureC: unknown;
  readonly setting: unknown;
}

/** More screen than 50 m2 for a cubic metre of water is a slip of units (judgement). */
const MOST_M2_PER_L = 0.05;
/** Judgement: the load of a keeper is a mean of what was fed: it may be a fifth off. */
const LOAD_SHARE = 0.2;
/** Draws of a forecast: enough for its 10 and 90 % points. */
export const DRAWS = 300;
export const SEED = 20260301;
/** mg of the element in 1 mg of NO3 and of PO4. */
export const ION = { N: elementMgPerL({ unit: "mg/L", form: "NO3" }), P: elementMgPerL({ unit: "mg/L", form: "PO4" }) };
/** Where a reading goes, in words, when no figure can say it. */
export const restWords = (reading: number): string | null => (reading === Infinity ? words.withoutLimit : Number.isNaN(reading) ? words.staysAsItIs : null);
const SETTINGS = Object.keys(GROWTH_BAND) as Setting[];
/** A screen is harvested about so often where nothing is said (best interval of the usual curve, rounded). */
const USUAL_HARVEST_DAYS = 10;

/** A tank to look ahead in; null when one of the arguments that it needs is blank. */
export function outlookFrom(given: OutlookArguments, days: number): Outlook | null {
  const needed = [
    single(quantity("volume_l", given.volumeL, { open: true, unit: "L" })),
    single(quantity("load_n_g_day", given.loadN, { unit: functions.units.gramsADay })),
    single(quantity("load_p_g_day", given.loadP, { unit: functions.units.gramsADay })),
    single(quantity("lit_area_m2", given.litAreaM2, { unit: "m2" })),
    single(quantity("light_mol_m2_day", given.light, { most: 80, unit: "mol m-2 d-1" })),
  ];
  const [N, P] = [readingFrom("no3_mg_l", given.no3, "NO3"), readingFrom("po4_mg_l", given.po4, "PO4")];
  const [volumeL, loadN, loadP, litAreaM2, lightMolPerM2Day] = needed;
  if (volumeL === null || volumeL === undefined || loadN === null || loadN === undefined || loadP === null || loadP === undefined) return null;
  if (litAreaM2 === null || litAreaM2 === undefined || lightMolPerM2Day === null || lightMolPerM2Day === undefined || !N || !P) return null;
  if (litAreaM2 > MOST_M2_PER_L * volumeL) throw new Problem("value", words.areaTooLarge(litAreaM2, volumeL));
  const every = (name: string, cell: unknown, blank: number): number => {
    const days = single(quantity(name, cell, { most: 3650, unit: functions.units.days }, blank)) ?? blank;
    if (days > 0 && days < 1) throw new Problem("value", words.everyTooShort(name, days));
    return days;
  };
  const harvestEvery = every("harvest_every_days", given.harvestEvery, USUAL_HARVEST_DAYS);
  const changeEvery = every("change_every_days", given.changeEvery, 7);
  const share = single({ name: "change_share", cells: cellsOf(given.changeShare), read: (cell: Cell) => shareWithin("change_share", numberIn("change_share", cell), 1), blank: 0 }) ?? 0;
  return {
    volumeL,
    start: { N, P },
    incoming: { N: 0, P: 0 },
    loadGPerDay: { N: loadN, P: loadP },
    loadShare: LOAD_SHARE,
    litAreaM2,
    lightMolPerM2Day,
    temperatureC: single(quantity("temperature_c", given.temperatureC, { least: 5, most: 35, unit: functions.units.celsius }, 25)) ?? 25,
    setting: single(choice("setting", given.setting, SETTINGS, science.unknownSetting, "ordinary")) ?? "ordinary",
    daysSinceHarvest: 0,
    harvestEveryDays: harvestEvery,
    changes: share > 0 && changeEvery > 0 ? [{ share, everyDays: changeEvery }] : [],
    events: [
      ...repeated(harvestEvery, days, (day) => ({ day, kind: "harvest" })),
      ...(share > 0 ? repeated(changeEvery, days, (day) => ({ day, kind: "change", share })) : []),
      ...eventsFrom(given.events),
    ],
  };
}

/** A reading with its limits, mg of the element per litre: a number is taken as exact, a text such as <0.2 or 5-10 as a range. */
function readingFrom(name: string, given: unknown, form: Form): Uncertain | null {
  const factor = elementMgPerL({ unit: "mg/L", form });
  return single({
    name,
    cells: cellsOf(given),
    read: (cell: Cell): Uncertain => {
      if (isCellError(cell)) throw cell;
      if (typeof cell === "number") {
        // A 0 says: below what the kit can show.
        if (cell === 0) throw new Problem("value", words.zeroReading(name));
        return exact(within(name, cell, { most: 1000, unit: "mg/L" }) * factor);
      }
      const { low, high, censored } = parseReading(textIn(name, cell));
      if (censored === "above") throw new Problem("value", words.readingOpen(name));
      return rectangular(low * factor, high * factor);
    },
  });
}

const KINDS: Readonly<Record<string, ForecastEvent["kind"]>> = { harvest: "harvest", "water change": "change", change: "change", feed: "feed", light: "light" };

/** Dated events, a row each: day from the start, what, how much. Blank rows and a heading row are passed over. */
export function eventsFrom(given: unknown): ForecastEvent[] {
  const cells = cellsOf(given);
  if (cells.every((row) => row.every(isBlank))) return [];
  return cells.flatMap((row, place): ForecastEvent[] => {
    if (row.every(isBlank)) return [];
    if (row.length < 2) throw new Problem("value", words.eventsShape);
    if (place === 0 && typeof row[0] === "string" && /^day$/i.test(row[0].trim())) return [];
    try {
      return [eventOf(row, place + 1)];
    } catch (error) {
      if (error instanceof Problem && !error.message.startsWith("Events")) throw new Problem(error.kind, words.inEvents(place + 1, error.message));
      throw error;
    }
  });
}

function eventOf([dayCell, whatCell, amount]: readonly Cell[], row: number): ForecastEvent {
  const written = textIn("what", whatCell);
  const kind = KINDS[written.toLowerCase().replace(/\s+/g, " ")];
  if (!kind) throw new Problem("value", words.eventUnknown(row, written));
  const day = within("day", numberIn("day", dayCell), { most: 3650, unit: functions.units.days });
  if (kind === "harvest") return { day, kind };
  if (isBlank(amount)) throw new Problem("missing", words.eventNeeds(row, written));
  const value = numberIn("how much", amount);
  return kind === "change" ? { day, kind, share: shareWithin("share of the water", value, 1) } : { day, kind, factor: within("factor", value, { most: 100, unit: "" }) };
}
