import type { Constant } from "./constant";

/** Harvest, tissue and growth of attached algae. The keeper's own measurement replaces each of them. */
export const ALGAE = {
  dryFractionDrained: {
    name: "Dry fraction, drained by gravity", value: 0.08, low: 0.05, high: 0.12, unit: "g dry / g drained", mark: "from memory", source: "memory",
    note: "The largest single error of most budgets: dry one weighed sample once and use your own figure.",
  },
  dryFractionPressed: {
    name: "Dry fraction, pressed by hand", value: 0.15, low: 0.1, high: 0.2, unit: "g dry / g pressed", mark: "from memory", source: "memory",
  },
  tissueN: {
    name: "Tissue N", value: 0.035, low: 0.02, high: 0.06, unit: "g N / g dry", mark: "judgement", source: "turf-studies",
    note: "Rises with the nutrient supply: lean water 2.5 to 3.8 %, rich water 5 to 7 %.",
  },
  tissueP: {
    name: "Tissue P", value: 0.0035, low: 0.0015, high: 0.01, unit: "g P / g dry", mark: "judgement", source: "turf-studies",
    note: "Lean water 0.2 to 0.4 %, rich water 0.8 to 1.8 %.",
  },
  tissueNMost: { name: "Highest believable tissue N", value: 0.08, low: 0.07, high: 0.08, unit: "g N / g dry", mark: "judgement", source: "turf-studies" },
  tissuePMost: { name: "Highest believable tissue P", value: 0.025, low: 0.018, high: 0.025, unit: "g P / g dry", mark: "judgement", source: "turf-studies" },
  growthMost: { name: "Highest believable growth", value: 40, low: 35, high: 40, unit: "g dry m-2 d-1", mark: "judgement", source: "turf-studies" },
  lightYield: {
    name: "Light yield", value: 0.4, low: 0.2, high: 0.8, unit: "g dry / mol photons", mark: "from memory", source: "memory",
    note: "Incident light on the lit area; the physical ceiling is near 1.5 to 1.8 g per mol absorbed.",
  },
  standingCropMost: { name: "Standing crop a screen can hold", value: 200, low: 80, high: 400, unit: "g dry / m2", mark: "judgement", source: "judgement" },
  regrowthRate: { name: "Regrowth rate after a harvest (logistic)", value: 0.3, low: 0.15, high: 0.5, unit: "1/d", mark: "judgement", source: "judgement" },
  stubbleShare: { name: "Stubble left by a harvest, share of the standing crop", value: 0.1, low: 0.05, high: 0.15, unit: "1", mark: "judgement", source: "judgement" },
  halfSaturationN: {
    name: "Nitrogen reading at which growth halves", value: 0.196, low: 0.05, high: 0.4, unit: "mg N/L", mark: "computed", source: "zollmann-2021",
    note: "14 umol/L of dissolved inorganic nitrogen for Ulva.",
  },
  halfSaturationP: { name: "Phosphorus reading at which growth halves", value: 0.031, low: 0.006, high: 0.062, unit: "mg P/L", mark: "from memory", source: "memory", note: "0.2 to 2 umol/L." },
  q10: { name: "Growth factor for 10 degrees C", value: 1.6, low: 1.4, high: 1.9, unit: "1", mark: "judgement", source: "judgement", note: "Reference 25 degrees C, for use between 18 and 28." },
} satisfies Record<string, Constant>;

/** Growth bands by setting, g dry m-2 d-1: judgement from the published turf studies. */
export const GROWTH_BAND = {
  weak: { name: "Growth, weak light indoors", value: 3.5, low: 2, high: 5, unit: "g dry m-2 d-1", mark: "judgement", source: "turf-studies" },
  ordinary: { name: "Growth, ordinary indoors, lit and fed", value: 7.5, low: 5, high: 10, unit: "g dry m-2 d-1", mark: "judgement", source: "turf-studies" },
  strong: { name: "Growth, strong light, surge and feed", value: 15, low: 10, high: 20, unit: "g dry m-2 d-1", mark: "judgement", source: "turf-studies" },
  outdoor: { name: "Growth, outdoor optimum", value: 27.5, low: 20, high: 35, unit: "g dry m-2 d-1", mark: "judgement", source: "turf-studies" },
} satisfies Record<string, Constant>;

export type Setting = keyof typeof GROWTH_BAND;
