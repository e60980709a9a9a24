import { usualRegrowthGPerM2 } from "../growth";
import type { HarvestEntry, ScreenUnit } from "./log";
import { lowerBound } from "./concentration";

/**
 * What stands on one screen at a moment beyond its stubble. Either grams drained that a later harvest weighed in part
 * (`of`: all weighings of that moment), or an estimate from the usual curve.
 */
export type StandingCrop =
  | { readonly kind: "none" }
  /** Share of the next harvest that had grown by then, with its standard uncertainty. */
  | { readonly kind: "share"; readonly of: readonly HarvestEntry[]; readonly share: number; readonly u: number }
  /** Scaled from the harvest before, when no later one is logged yet. */
  | { readonly kind: "scaled"; readonly of: readonly HarvestEntry[]; readonly share: number }
  /** Nothing of this screen was ever weighed: the usual curve over its lit area, g dry. */
  | { readonly kind: "usual"; readonly dryG: number };

/**
 * Standing crop of a screen just before or just after the harvests of that moment.
 * `harvests`: this screen's, in order of day. `startDay`: when it began clean.
 */
export function standingCrop(unit: ScreenUnit, harvests: readonly HarvestEntry[], startDay: number, day: number, side: "before" | "after"): StandingCrop {
  const nextPlace = lowerBound(harvests, (harvest) => (side === "after" ? harvest.day > day : harvest.day >= day));
  const next = harvests[nextPlace];
  // All that is about to be harvested stands there, also at the start of a log that begins with a harvest.
  if (next?.day === day) return { kind: "share", of: sameMoment(harvests, day), share: 1, u: 0 };
  const last = harvests[nextPlace - 1];
  const since = last ? last.day : startDay;
  const grown = usualRegrowthGPerM2(Math.max(0, day - since));
  if (grown <= 0) return { kind: "none" };
  if (next) {
    const share = grown / usualRegrowthGPerM2(next.day - since);
    // The curve's shape is a guess: half of its distance from the worst case at mid-way, none at both ends.
    return { kind: "share", of: sameMoment(harvests, next.day), share, u: (share * (1 - share)) / Math.sqrt(3) };
  }
  if (last) {
    const before = harvests[lowerBound(harvests, (harvest) => harvest.day >= last.day) - 1];
    const interval = last.day - (before ? before.day : startDay);
    return interval > 0 ? { kind: "scaled", of: sameMoment(harvests, last.day), share: grown / usualRegrowthGPerM2(interval) } : { kind: "none" };
  }
  return unit.litAreaM2 === null ? { kind: "none" } : { kind: "usual", dryG: grown * unit.litAreaM2 };
}

/** Drained and pressed algae of one screen may be weighed at one moment. */
const sameMoment = (harvests: readonly HarvestEntry[], day: number): readonly HarvestEntry[] =>
  harvests.slice(lowerBound(harvests, (harvest) => harvest.day >= day), lowerBound(harvests, (harvest) => harvest.day > day));
