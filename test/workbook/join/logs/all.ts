import { AWKWARD } from "./awkward";
import { ENGLISH } from "./english";
import { GERMAN } from "./german";
import type { InventedLog } from "./invented";
import { LAST } from "./last";
import { LATER } from "./later";
import { ROMANCE } from "./romance";

/** Every invented log. */
export const LOGS: readonly InventedLog[] = [...ENGLISH, ...GERMAN, ...ROMANCE, ...AWKWARD, ...LATER, ...LAST];
