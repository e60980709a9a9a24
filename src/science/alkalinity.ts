import { ATOMIC_WEIGHT } from "./constants/atomic-weights";

/**
 * Change of total alkalinity, mol of charge per mol N.
 * @source Wolf-Gladrow et al. 2007, Mar. Chem. 106:287; nitrification read, the others from memory and confirmed by the closed loop
 */
export const ALKALINITY_PER_N = {
  ammonification: 1,
  nitrification: -2,
  "nitrate uptake": 1,
  "ammonium uptake": -1,
  denitrification: 1,
} as const;

export type NitrogenProcess = keyof typeof ALKALINITY_PER_N;

const { Ca, C, O, N } = ATOMIC_WEIGHT;

/** mg/L of CaCO3 and degrees of carbonate hardness (10 mg/L CaO) in one meq/L. */
export const ALKALINITY_UNITS = {
  "meq/L": 1,
  "mg/L CaCO3": (Ca.value + C.value + 3 * O.value) / 2,
  dKH: (Ca.value + O.value) / 2 / 10,
} as const;

export type AlkalinityUnit = keyof typeof ALKALINITY_UNITS;

/** Change of alkalinity when `nMgPerL` mg of N per litre goes through the process. */
export const alkalinityShift = (nMgPerL: number, process: NitrogenProcess, unit: AlkalinityUnit): number =>
  (nMgPerL / N.value) * ALKALINITY_PER_N[process] * ALKALINITY_UNITS[unit];
