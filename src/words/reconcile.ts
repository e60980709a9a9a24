/** The reconciled budget of nitrogen and phosphorus: its headings and its one sentence a period. */
const figure = (value: number): string => String(Number(value.toPrecision(2)));
const chance = (p: number): string => (p < 0.001 ? "less than 0.1 %" : p >= 0.1 ? `${Math.round(100 * p)} %` : `${Number((100 * p).toPrecision(1))} %`);
const inRow = (row: number | null): string => (row === null ? "" : ` in row ${row}`);
const of = (name: string): string => (name === "" ? "" : ` of ${name}`);
const PARTS = ["Feed in", "Other in", "Harvest out", "Water change out", "Other out", "Change in store"];
const inSentence = { feedIn: "the feed", otherIn: "what else came in", harvestOut: "the harvest", changeOut: "the water changed", otherOut: "what else went out", storeChange: "the change in the water" };

export const reconcile = {
  headings: ["From", "To", "Nutrient", ...PARTS.map((part) => `${part}, adjusted (g)`), "Unexplained before (g)", ...PARTS.map((part) => `${part}, moved by (standard uncertainties)`), "Chance of such a misfit", "Verdict"],
  needsAReading: "Nothing can be closed without a test: the log needs a column NO3 (mg/L) or PO4 (mg/L) with a reading.",
  fits: (p: number) => `The figures fit together: chance alone brings such a misfit in ${chance(p)} of cases.`,
  moved: (nutrient: string, part: keyof typeof inSentence, score: number) =>
    Math.abs(score) < 0.05 ? "Nothing had to move." : `The one that had to move most is ${inSentence[part]} (${nutrient}), by ${Number(Math.abs(score).toPrecision(2))} times its standard uncertainty.`,
  misfit: (p: number) => `The figures do not fit together: chance alone brings such a misfit in ${chance(p)} of cases.`,
  oneNutrientOnly: (nutrient: string) => `Only ${nutrient} was tested, so nothing checks it.`,
  /** `logged` and `fits`: the figure and what it would have to be, in its own unit. */
  suspect: {
    harvest: (row: number | null, name: string, logged: number, fits: number) =>
      `Least believable: the harvest${of(name)}${inRow(row)}, ${figure(logged)} g; about ${figure(fits)} g would fit. ${fits < logged ? "Check that it was drained as usual and weighed without the tray." : "Check whether some of it was lost or not weighed."}`,
    feed: (row: number | null, name: string, logged: number, fits: number) =>
      `Least believable: the feed${of(name)}${inRow(row)}, ${figure(logged)} g; about ${figure(fits)} g would fit. Check the figure and its unit.`,
    allFeed: (_: number | null, __: string, logged: number, fits: number) =>
      `Least believable: the feed of the whole period, ${figure(logged)} g; about ${figure(fits)} g would fit. Check the portions, and feed that was not logged.`,
    change: (row: number | null, _: string, logged: number, fits: number) =>
      `Least believable: the water change${inRow(row)}, ${figure(logged)} L; about ${figure(fits)} L would fit. Check the volume.`,
    reading: (row: number | null, name: string, _: number, factor: number, form: string | null) =>
      `Least believable: the reading ${name}${inRow(row)}; ${figure(factor)} times as much would fit. ${form ?? "Test again, with a second kit if there is one."}`,
  },
  formOfN: "That is about the step between NO3 and NO3-N: check which of the two the kit shows.",
  formOfP: "That is about the step between PO4 and PO4-P: check which of the two the kit shows.",
  noOneFigure: "No single figure explains it.",
  orNotLogged: (more: boolean) => (more ? "A sink that is not logged would look the same." : "A source that is not logged would look the same."),
  open: "Cannot be closed.",
  aboveScale: "A reading was above the kit's scale: dilute the sample and test again.",
  negative: "An adjusted figure is below zero, so the figures cannot all be near the truth.",
} as const;
