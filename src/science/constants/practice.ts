import type { Constant } from "./constant";

/** Light hardware, the trade's rule of screen area, tank fillings. */
export const PRACTICE = {
  lampEfficacy: { name: "Light from a watt of LED", value: 2.2, low: 1.2, high: 3, unit: "umol/J", mark: "from memory", source: "memory", note: "Published ceiling of a fixture 3.4 to 4.1 umol/J (Kusuma et al. 2020)." },
  lightReaching: { name: "Share of the light that reaches the screen", value: 0.65, low: 0.5, high: 0.8, unit: "1", mark: "from memory", source: "memory" },
  habitAreaPerPortion: {
    name: "Two-sided screen for one small daily portion of frozen food", value: 0.00875, low: 0.0075, high: 0.01, unit: "m2 of sheet, lit on both sides", mark: "common practice", source: "trade",
    note: "75 to 100 cm2 of sheet; the lit area is twice that.",
  },
  habitPortion: { name: "A small daily portion of frozen food", value: 3, low: 2, high: 4, unit: "g", mark: "common practice", source: "trade" },
  rockDensity: { name: "Density of reef rock without its open pores", value: 2.8, low: 2.6, high: 2.93, unit: "kg/L", mark: "from memory", source: "memory", note: "Calcite 2.71, aragonite 2.93." },
  sandDensity: { name: "Density of sand grains", value: 2.7, low: 2.65, high: 2.93, unit: "kg/L", mark: "from memory", source: "memory", note: "Quartz 2.65, aragonite 2.93." },
} satisfies Record<string, Constant>;

/** What the budget takes for a figure that the set-up does not give. */
export const BUDGET_DEFAULT = {
  retained: { name: "Share of the feed kept by the animals", value: 0.05, low: 0, high: 0.15, unit: "1", mark: "judgement", source: "judgement", note: "A display tank with steady stock; growing stock keeps 12 to 44 %." },
  volumeShare: { name: "Half-width of the water volume", value: 0.05, low: 0.02, high: 0.15, unit: "1", mark: "judgement", source: "judgement" },
  feedShare: { name: "Half-width of one weighed feed", value: 0.1, low: 0.02, high: 0.3, unit: "1", mark: "judgement", source: "judgement" },
  foodShare: { name: "Half-width of a food's N or P content", value: 0.2, low: 0.1, high: 0.5, unit: "1", mark: "judgement", source: "usda-sr26", note: "Two rows of one animal, treated and untreated, differ by 35 to 50 %." },
  harvestShare: { name: "Half-width of one drained weight", value: 0.05, low: 0.02, high: 0.2, unit: "1", mark: "judgement", source: "judgement" },
  changeShare: { name: "Half-width of one water change's volume", value: 0.05, low: 0.02, high: 0.1, unit: "1", mark: "judgement", source: "judgement" },
  measuredShare: { name: "Half-width of a keeper's own dry fraction or tissue content", value: 0.15, low: 0.05, high: 0.3, unit: "1", mark: "judgement", source: "judgement" },
  kitShare: { name: "Half-width of a test whose steps are not given", value: 0.1, low: 0.05, high: 0.25, unit: "1", mark: "judgement", source: "judgement" },
  kitScale: { name: "Half-width of a kit's own scale, the same in all its readings", value: 0.05, low: 0, high: 0.2, unit: "1", mark: "judgement", source: "judgement" },
} satisfies Record<string, Constant>;
