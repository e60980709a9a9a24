import { science as words } from "../words/science";
import { Problem } from "./problem";

/**
 * Reading after `times` equal water changes of `share` of the volume, well mixed: Cin + (C - Cin) (1 - f)^n.
 * Any concentration unit, the same for all; exact mass balance of a mixed tank.
 */
export const readingAfterChanges = (reading: number, share: number, incoming: number, times: number): number =>
  incoming + (reading - incoming) * (1 - share) ** times;

/**
 * How many changes of `share` bring `reading` to `target` or below: the smallest n with Cin + (C - Cin)(1 - f)^n <= target.
 * @throws Problem when the new water itself carries the target or more
 */
export function changesToTarget(reading: number, target: number, share: number, incoming: number): number {
  if (reading <= target) return 0;
  if (share >= 1 && target >= incoming) return 1;
  if (target <= incoming) throw new Problem("number", words.targetNotReachable(target, incoming));
  const steps = Math.log((target - incoming) / (reading - incoming)) / Math.log1p(-share);
  // A whole number of changes may come out a hair above itself: 40 to 10 by halves is exactly 2.
  return Math.ceil(steps - 1e-9);
}
