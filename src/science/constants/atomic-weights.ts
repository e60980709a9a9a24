import type { Constant } from "./constant";

const weight = (name: string, value: number, half: number): Constant => ({
  name: `Atomic weight of ${name}`,
  value,
  low: Number((value - half).toFixed(4)),
  high: Number((value + half).toFixed(4)),
  unit: "g/mol",
  mark: "from memory",
  source: "ciaaw-2013",
});

/** Abridged standard atomic weights. Phosphorus was read in the abstract of the 2016 report (30.973761998); the others are the well-known abridged figures. */
export const ATOMIC_WEIGHT = {
  H: weight("hydrogen", 1.008, 0.0002),
  C: weight("carbon", 12.011, 0.002),
  N: weight("nitrogen", 14.007, 0.001),
  O: weight("oxygen", 15.999, 0.001),
  Ca: weight("calcium", 40.078, 0.004),
  P: { ...weight("phosphorus", 30.974, 0.001), mark: "read" },
} satisfies Record<string, Constant>;
