/** Light sum of a day, mol m-2 d-1: light x 3600 s/h x hours / 1,000,000 (definition). */
export const lightDailyMolPerM2 = (lightUmolPerM2S: number, hoursPerDay: number): number => (lightUmolPerM2S * 3600 * hoursPerDay) / 1e6;

/** Light on the screen, umol m-2 s-1: watts x umol/J x the share that reaches the screen / lit area. */
export const lightFromWatts = (watts: number, litAreaM2: number, efficacyUmolPerJ: number, reachingShare: number): number =>
  (watts * efficacyUmolPerJ * reachingShare) / litAreaM2;
