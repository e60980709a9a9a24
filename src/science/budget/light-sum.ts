import { lightDailyMolPerM2 } from "../light";
import type { LightEntry, Log, SetUp } from "./log";

/**
 * Light sum on a screen between two days, mol m-2: each change of light, hours or dimming holds until the next one.
 * Before the first logged change the set-up's lamps hold, at full light. `hours`: hours lit between the two days.
 * @returns null where the light or its hours are not known for the whole time
 */
export function lightSum({ light }: Pick<Log, "light">, { units }: Pick<SetUp, "units">, unit: number, from: number, to: number): { molPerM2: number; hours: number } | null {
  const screen = units[unit];
  if (!screen) return null;
  let lamps = { umolPerM2S: screen.umolPerM2S, hoursPerDay: screen.hoursPerDay, level: 1 };
  let [molPerM2, hours, since] = [0, 0, from];
  const hold = (until: number): boolean => {
    const days = until - since;
    if (days <= 0) return true;
    if (lamps.umolPerM2S === null || lamps.hoursPerDay === null) return false;
    molPerM2 += days * lightDailyMolPerM2(lamps.umolPerM2S * lamps.level, lamps.hoursPerDay);
    // Lamps dimmed to nothing are off, and dimmed lamps draw power in proportion.
    hours += days * lamps.hoursPerDay * lamps.level;
    since = until;
    return true;
  };
  for (const change of light) {
    if (change.unit !== null && change.unit !== unit) continue;
    if (change.day >= to) break;
    if (change.day > from && !hold(change.day)) return null;
    lamps = after(lamps, change);
  }
  return hold(to) ? { molPerM2, hours } : null;
}

const after = <L extends { umolPerM2S: number | null; hoursPerDay: number | null; level: number }>(lamps: L, change: LightEntry): L => ({
  ...lamps,
  umolPerM2S: change.umolPerM2S ?? lamps.umolPerM2S,
  hoursPerDay: change.hoursPerDay ?? lamps.hoursPerDay,
  level: change.level ?? lamps.level,
});
