import type { Constant } from "./constant";

/** Water over a screen. */
export const HYDRAULICS = {
  flowPerWidth: {
    name: "Flow over a screen for 1 cm of its width", value: 45, low: 30, high: 60, unit: "L/h per cm", mark: "common practice", source: "trade",
    note: "For each slot, whether the water runs down one face of the sheet or both; more does no harm. The value is the middle of the range.",
  },
} satisfies Record<string, Constant>;
