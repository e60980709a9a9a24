/** Sentences of the science: why there is no answer, and the words of verdicts. Every one tells what to do next. */
const shown = (written: unknown): string => (typeof written === "string" ? `"${written}"` : String(written));

/** A figure with its unit, or alone. */
const withUnit = (value: number, unit: string): string => (unit === "" ? String(value) : `${value} ${unit}`);

export const science = {
  notANumber: (name: string, written: unknown) => `${name} should be a number, and ${shown(written)} is not one.`,
  ambiguousComma: (written: string) =>
    `${shown(written)} can mean two numbers: write it with a decimal point, or without the thousands sign.`,
  tooLow: (name: string, low: number, unit: string, got: number) => `${name} should be ${withUnit(low, unit)} or more, and is ${got}.`,
  notAbove: (name: string, low: number, unit: string, got: number) => `${name} should be more than ${withUnit(low, unit)}, and is ${got}.`,
  outOfRange: (name: string, low: number, high: number, unit: string, got: number) =>
    `${name} should be between ${low} and ${withUnit(high, unit)}, and is ${got}.`,
  notAShare: (name: string, high: number, got: number) =>
    `${name} should be a share between 0 and ${high}, and is ${got}. Write 5 per cent as 5% or 0.05.`,
  zeroDivisor: (name: string) => `${name} is zero, so nothing can be divided by it.`,
  tooLarge: (name: string) => `${name} is too large to calculate with.`,

  readingNotUnderstood: (written: unknown) =>
    `${shown(written)} is not understood as a reading. Write a number, a range such as 0.08-0.1, <0.2, >50 or nd.`,
  readingWithUnit: (written: string, unit: string) =>
    `${shown(written)} carries the unit "${unit}". Write the number alone and the unit in the heading.`,
  readingNegative: (written: unknown) => `A reading cannot be below zero, and this one is ${shown(written)}.`,
  readingBackwards: (written: string) => `The range ${shown(written)} runs from high to low: write the lower figure first.`,
  zeroWithoutSteps: "A test that shows 0 means: below what the kit can show. Give the kit's steps, or write <2 with the kit's smallest step.",
  aboveTheKit: (written: unknown) => `${shown(written)} is above what the kit can show. Dilute the sample, test again and multiply.`,
  stepsNotUnderstood: (written: unknown) =>
    `The kit's steps should be the numbers on its colour chart, such as 0 5 10 20 40, or one number for the smallest step of a meter; ${shown(written)} is neither.`,
  stepsNotRising: "The kit's steps should rise from one patch to the next.",
  offTheChart: (written: unknown, top: number) => `${shown(written)} is more than the chart's last patch, ${top}. Write >${top} if the colour was beyond it.`,

  unknownForm: (written: string) =>
    `"${written}" is not a known form of nitrogen or phosphorus. Known: N, NO3, NO3-N, NO2, NO2-N, NH3, NH3-N, NH4, NH4-N, P, PO4, PO4-P, P2O5.`,
  unknownUnit: (written: string) => `"${written}" is not a known unit of concentration. Known: g/L, mg/L, ug/L, mmol/L, umol/L, mg/kg, ug/kg, umol/kg.`,
  formMissing: (written: string) => `"${written}" does not say what is measured: write for example mg/L NO3 or mg/L NO3-N.`,
  ppmIsTwoThings: "ppm can mean mg per litre or mg per kg, 2.3 per cent apart in sea water. Write mg/L or mg/kg.",
  nitrogenIsNotPhosphorus: (from: string, to: string) => `${from} is counted as one element and ${to} as another: nitrogen does not turn into phosphorus.`,
  needsSalinity: "mg/kg and mg/L differ by the water's density: give the salinity and the temperature, or turn the figure into mg/L with ION_CONVERT first.",
  basisOpen: (written: string) =>
    `"${written}" does not say on which basis: write NO3 or NO3-N (4.43 times apart), PO4 or PO4-P (3.07 times apart).`,
  notNitrogen: (written: string) => `"${written}" is not a form of nitrogen.`,
  notPhosphorus: (written: string) => `"${written}" is not a form of phosphorus.`,

  foodWithout: (food: string, nutrient: string) => `"${food}" holds no ${nutrient}: no amount of it is worth a harvest.`,
  unknownFood: (written: string, near: readonly string[]) =>
    near.length > 0
      ? `"${written}" is not in the foods table. Nearest: ${near.join("; ")}.`
      : `"${written}" is not in the foods table: add a row for it to your Foods sheet.`,
  noPortion: (food: string) => `No portion mass is known for "${food}": weigh ten portions together, and enter the feed in grams.`,
  unknownAmountUnit: (written: string) => `The amount's unit should be g or portions, and is "${written}".`,
  unknownDraining: (written: string) => `How the harvest was weighed should be drained or pressed, and is "${written}".`,
  unknownNutrient: (written: string) => `The nutrient should be N or P, and is "${written}".`,
  unknownRatio: (written: string) => `The ratio is by mass or by moles, and "${written}" is neither.`,
  wholeChanges: (got: number) => `The number of changes should be a whole number, and is ${got}.`,
  unknownSetting: (written: string) => `The setting should be weak, ordinary, strong or outdoor, and is "${written}".`,

  fillingTooLarge: (net: number) => `The filling displaces more water than the tank holds: ${net} L would be left. Check the units (kg and L).`,
  targetNotReachable: (target: number, incoming: number) =>
    `The target of ${target} cannot be reached by changing water, because the new water itself carries ${incoming}.`,
  noLoad: "The load of nitrogen and of phosphorus is zero: there is nothing for a screen to take up.",
  gravityReference: (written: string) =>
    `"${written}" is not a reference temperature. Look on the instrument for 20/20, 25/25, 60/60F or 25/4: the wrong one costs 0.3 to 4 of salinity.`,
  gravityOutOfRange: (got: number) => `No water of salinity 0 to 42 has a specific gravity of ${got} at these temperatures.`,
  salinityScale: (got: number) => `The practical salinity scale runs from 2 to 42, and this would be ${got}: it says nothing about fresh water.`,
  unknownProcess: (written: string, known: readonly string[]) => `"${written}" is not a known process. Known: ${known.join(", ")}.`,
  unknownAlkalinityUnit: (written: string, known: readonly string[]) => `"${written}" is not a known unit of alkalinity. Known: ${known.join(", ")}.`,
  trendNeedsFour: "A trend needs readings on at least four different days.",
  trendTooLong: (most: number) => `A trend takes ${most} readings at most: choose a shorter time.`,
  noLight: "Without light nothing grows: give the light sum of a day.",
  targetZero: "At a reading of zero nothing grows: give a target above zero.",
} as const;
