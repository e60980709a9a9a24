import type { ConditionEntry, ReadingEntry, SetUp, VolumeEntry } from "../budget/log";
import { LIMITS } from "../constants/limits";
import { unionisedShare } from "../gases";
import { latestOf, warning, type Account, type Accounts, type Warning, type WarningOf } from "./warning";

const LISTED = 5;
/** The least favourable water in which the share is asked for where pH or temperature are not stated. */
const WORST = { ph: 8.5, temperatureC: 30, salinity: 0 } as const;
/** The formulas of the share hold from 0 to 30 degrees C and pH 5 to 10. */
const held = (value: number, least: number, most: number): number => Math.min(most, Math.max(least, value));

/** Warnings about the water that the animals live in: large changes, harmful ammonia. */
export function waterWarnings({ N }: Accounts): Warning[] {
  return [...largeChanges(N.log.changes, N.setUp), ...ammonia(N)];
}

/** All that was changed within one calendar day, against the volume. */
function largeChanges(changes: readonly VolumeEntry[], { volumeL }: SetUp): WarningOf<"LARGE_CHANGE">[] {
  const days = new Map<number, { litres: number; last: VolumeEntry }>();
  for (const change of changes) {
    const day = Math.floor(change.day);
    days.set(day, { litres: (days.get(day)?.litres ?? 0) + change.litres, last: change });
  }
  const large = [...days.values()].filter(({ litres }) => litres / volumeL.value > LIMITS.changeShareMost.value + 1e-9);
  return latestOf(large.map(({ litres, last }) => warning("LARGE_CHANGE", "caution", last, { share: litres / volumeL.value })), LISTED);
}

/** The un-ionised part of each ammonia reading by the pH, temperature and salinity of its row, or the usual ones of the set-up. */
function ammonia({ log, setUp, substances }: Account): (WarningOf<"AMMONIA_HARMFUL"> | WarningOf<"AMMONIA_OPEN">)[] {
  const conditions = new Map<number, ConditionEntry>(log.conditions.map((entry) => [entry.row, entry]));
  const harmful: WarningOf<"AMMONIA_HARMFUL">[] = [];
  const open: WarningOf<"AMMONIA_OPEN">[] = [];
  log.series.forEach((series, place) => {
    if (substances[place] !== "ammonia") return;
    for (const entry of series.entries) {
      if (entry.reading.censored === "below") continue;
      const said = conditions.get(entry.row);
      const ph = said?.ph ?? setUp.usual.ph;
      const temperatureC = said?.temperatureC ?? setUp.usual.temperatureC;
      // Without salinity the water is taken as fresh, where the harmful share is larger.
      const salinity = said?.salinity ?? setUp.usual.salinity ?? 0;
      if (ph === null || temperatureC === null) {
        const most = unionised(entry, ph ?? WORST.ph, temperatureC ?? WORST.temperatureC, salinity);
        if (most >= LIMITS.unionisedCaution.value) open.push(warning("AMMONIA_OPEN", "caution", entry, { test: series.name, missing: ph === null ? "pH" : "temperature" }));
        continue;
      }
      const mgPerL = unionised(entry, ph, temperatureC, salinity);
      const { unionisedCaution: caution, unionisedSerious: serious } = LIMITS;
      const limit = mgPerL >= serious.value ? serious.value : caution.value;
      if (mgPerL >= caution.value) harmful.push(warning("AMMONIA_HARMFUL", mgPerL >= serious.value ? "serious" : "caution", entry, { test: series.name, mgPerL, limit }));
    }
  });
  return [...latestOf(harmful, LISTED), ...latestOf(open, 1)];
}

const unionised = ({ reading }: ReadingEntry, ph: number, temperatureC: number, salinity: number): number =>
  reading.value * unionisedShare(held(ph, 5, 10), held(temperatureC, 0, 30), salinity);
