/** Screens side by side. */
export const compare = {
  headings: ["Screen", "Cycle", "Harvests", "Days", "Drained (g)", "Dry (g)", "Growth (g dry m-2 d-1)", "Growth, low", "Growth, high", "N out (g a day)", "P out (g a day)", "Light yield (g dry per mol)", "g dry per kWh", "Remark"],
  screen: "Screen",
  cycle: { first: "first harvest", later: "later harvests", neverWeighed: "never weighed" },
  remark: {
    first: "Start-up: do not judge the screen by it.",
    neverWeighed: "Weigh its next harvest: without it the account of the tank stays open.",
    noStart: "It is not known how long this growth stood: write a row Started in the set-up.",
    few: "One harvest only: two or three more show what is usual.",
    aboveCeiling: "More than light can make: check the weight, the draining, the lit area and the light.",
    unread: (count: number, first: string) => `${count === 1 ? "A cell" : `${count} cells`} of the log could not be used: ${first}`,
    needs: (rows: readonly string[]) => `For the missing figures the set-up needs ${rows.join(", ")}.`,
  },
  rows: { area: "Lit area (m2)", light: "Light (umol m-2 s-1)", hours: "Light hours (h)", watts: "Watts (W)" },
} as const;
