import type { Constant } from "./constant";

/** What no alga can do. */
export const LIGHT_CEILING = {
  lightYieldMost: {
    name: "Highest possible light yield", value: 1.8, low: 1.5, high: 1.8, unit: "g dry / mol photons", mark: "from memory", source: "memory",
    note: "Theoretical, for absorbed light; light on the screen that is not absorbed lowers it further.",
  },
} satisfies Record<string, Constant>;
