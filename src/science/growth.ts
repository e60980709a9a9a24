import { ALGAE } from "./constants/algae";

/** Standing crop t days after a harvest, K / (1 + (K/B0 - 1) e^(-r t)) (logistic), in the unit of K. */
export const logistic = (days: number, most: number, stubble: number, ratePerDay: number): number =>
  most / (1 + (most / stubble - 1) * Math.exp(-ratePerDay * days));

/** Growth since the harvest on the usual curve, g dry per m2: what is there less the stubble. */
export function usualRegrowthGPerM2(days: number): number {
  const most = ALGAE.standingCropMost.value;
  const stubble = most * ALGAE.stubbleShare.value;
  return logistic(days, most, stubble, ALGAE.regrowthRate.value) - stubble;
}
