import type { Setting } from "./algae";
import type { Constant } from "./constant";

/** What the sizing of a screen takes beside the tables of algae, light and flow. */
export const SIZING = {
  frozenWater: { name: "Water in frozen food", value: 80, low: 77, high: 90, unit: "g/100 g", mark: "judgement", source: "usda-sr26", note: "Dry food counts by its dry matter as frozen food of this water, so that the common-practice area can be told for it." },
  tallestSheet: { name: "Tallest sheet that one hand lifts out", value: 60, low: 40, high: 100, unit: "cm", mark: "judgement", source: "judgement", note: "A taller screen is told as several sheets side by side." },
} satisfies Record<string, Constant>;

/** Kinds of water by salinity. */
export type WaterKind = "fresh" | "brackish" | "marine";

/** What a form may begin with: a whole small tank, so that the first answer is one to look at. Common practice, no source. */
export interface SizingStart {
  readonly foods: readonly { readonly name: string; readonly gPerDay: number }[];
  readonly volumeL: number;
  readonly changedPercentAWeek: number;
  readonly targetNO3MgPerL: number;
  readonly targetPO4MgPerL: number;
  readonly temperatureC: number;
  readonly lightUmolPerM2S: number;
  readonly hoursPerDay: number;
  readonly setting: Setting;
  readonly sheetWidthCm: number;
}

const EVERYWHERE = { volumeL: 200, lightUmolPerM2S: 250, hoursPerDay: 14, setting: "ordinary", sheetWidthCm: 30 } as const;

export const SIZING_START: Readonly<Record<WaterKind, SizingStart>> = {
  fresh: { ...EVERYWHERE, foods: [{ name: "Dry pellets or flakes", gPerDay: 1 }], changedPercentAWeek: 20, targetNO3MgPerL: 20, targetPO4MgPerL: 0.5, temperatureC: 24 },
  brackish: { ...EVERYWHERE, foods: [{ name: "Dry pellets or flakes", gPerDay: 0.5 }, { name: "Mysids, frozen", gPerDay: 2 }], changedPercentAWeek: 15, targetNO3MgPerL: 10, targetPO4MgPerL: 0.3, temperatureC: 25 },
  marine: { ...EVERYWHERE, foods: [{ name: "Mysids, frozen", gPerDay: 3 }, { name: "Brine shrimp, adult, frozen", gPerDay: 2 }], changedPercentAWeek: 10, targetNO3MgPerL: 5, targetPO4MgPerL: 0.1, temperatureC: 25 },
};
