/** Words of the screen-size functions. */
const perCent = (share: number): string => `${Math.round(100 * share)} %`;

export const sizing = {
  rules: (nitrogenShare: number) =>
    nitrogenShare >= 0.5 ? `Nitrogen rules in ${perCent(nitrogenShare)} of the draws.` : `Phosphorus rules in ${perCent(1 - nitrogenShare)} of the draws.`,
  input: {
    load: "the load",
    lightYield: "the light yield",
    band: "the growth of the setting",
    halfN: "how growth slows in water poor in nitrogen",
    halfP: "how growth slows in water poor in phosphorus",
    q10: "the effect of temperature",
    tissueN: "the tissue N",
    tissueP: "the tissue P",
  },
  drivers: (drivers: readonly { readonly what: string; readonly share: number }[]) => `The spread comes from ${drivers.map(({ what, share }) => `${what} (${perCent(share)})`).join(", ")}.`,
  habitNeedsLight: "Give the light sum of a day too, to see how much of the load that area carries.",
  habitCarries: (low: number, high: number) =>
    high < 0.95
      ? `By this account the common-practice area would carry ${perCent(low)} to ${perCent(high)} of the load: the rest must go with water changes, other sinks or better growth.`
      : `By this account the common-practice area would carry ${perCent(low)} to ${perCent(high)} of the load.`,
} as const;
