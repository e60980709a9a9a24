/** Words of the screen-size functions. */
const perCent = (share: number): string => `${Math.round(100 * share)} %`;

export const sizing = {
  rules: (nitrogenShare: number) =>
    nitrogenShare >= 0.5 ? `Nitrogen rules in ${perCent(nitrogenShare)} of the draws.` : `Phosphorus rules in ${perCent(1 - nitrogenShare)} of the draws.`,
} as const;
