import { ATOMIC_WEIGHT } from "./atomic-weights";
import type { Constant } from "./constant";

const { N, O, P } = ATOMIC_WEIGHT;
const rounded = (value: number): number => Number(value.toFixed(4));

/** From where on a log is worth a warning. */
export const LIMITS = {
  basisStepN: {
    name: "NO3 over NO3-N: the step that a mixed-up basis makes", value: rounded((N.value + 3 * O.value) / N.value), low: 3.8, high: 5.1, unit: "1", mark: "computed", source: "ciaaw-2013",
    note: "The limits, within which a step is suspected, are judgement: about 15 % for the errors of two readings.",
  },
  basisStepP: {
    name: "PO4 over PO4-P: the step that a mixed-up basis makes", value: rounded((P.value + 4 * O.value) / P.value), low: 2.7, high: 3.5, unit: "1", mark: "computed", source: "ciaaw-2013",
    note: "The limits, within which a step is suspected, are judgement: about 15 % for the errors of two readings.",
  },
  uptakeRatio: { name: "N to P that algae take up, by mass", value: 10, low: 7, high: 14, unit: "g N / g P", mark: "judgement", source: "turf-studies", note: "Usual tissue N over usual tissue P." },
  ratioFactor: { name: "How many times off that ratio the water may be", value: 3, low: 2, high: 4, unit: "1", mark: "judgement", source: "judgement", note: "Tissue N and P each vary by a factor of two to three with the supply." },
  plentifulFactor: {
    name: "Reading that is plenty, over the one at which growth halves", value: 3, low: 2, high: 5, unit: "1", mark: "judgement", source: "judgement", note: "There growth is at three quarters of its most.",
  },
  repeatShare: { name: "How well a test repeats, half-width, whatever its steps", value: 0.1, low: 0.05, high: 0.25, unit: "share of the reading", mark: "judgement", source: "judgement", note: "Readings that differ by less are no rise." },
  unionisedCaution: {
    name: "Un-ionised ammonia that is harmful in the long run", value: 0.02, low: 0.01, high: 0.03, unit: "mg NH3-N/L", mark: "from memory", source: "memory", note: "As fish culture usually has it; animals differ by more than ten times.",
  },
  unionisedSerious: {
    name: "Un-ionised ammonia that harms soon", value: 0.05, low: 0.03, high: 0.1, unit: "mg NH3-N/L", mark: "from memory", source: "memory", note: "Gills of sensitive fish are hurt from about here; a kit is no diagnosis.",
  },
  changeShareMost: { name: "Water changed in one day", value: 0.5, low: 0.3, high: 0.5, unit: "share of the volume", mark: "judgement", source: "judgement" },
  gapDays: { name: "Days without a row that are a gap", value: 14, low: 7, high: 21, unit: "d", mark: "judgement", source: "judgement" },
  gapSteps: { name: "Usual steps without a row that are a gap", value: 3, low: 2, high: 4, unit: "1", mark: "judgement", source: "judgement" },
  fallenShare: { name: "Growth that is left when it counts as fallen", value: 0.7, low: 0.6, high: 0.8, unit: "share of the growth four harvests before", mark: "judgement", source: "judgement" },
  habitSlack: { name: "How far a keeper's own interval may be overrun", value: 1.25, low: 1.1, high: 1.5, unit: "1", mark: "judgement", source: "judgement" },
  loadDays: { name: "Days over which the feed load is averaged", value: 28, low: 14, high: 42, unit: "d", mark: "judgement", source: "judgement" },
} satisfies Record<string, Constant>;
