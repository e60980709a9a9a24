/** Tables for charts: readings with their limits, growth by harvest. */
export const series = {
  readings: (form: string) => ["Date", `${form}, lowest (mg/L)`, `${form} (mg/L)`, `${form}, highest (mg/L)`],
  harvests: ["Date", "Screen", "Days", "Drained (g)", "Dry (g)", "Growth (g dry m-2 d-1)", "Growth, low", "Growth, high", "Remark"],
  firstHarvest: "First harvest: start-up.",
  totalNitrogen: (heading: string) => `"${heading}" is total nitrogen, which is more than nitrate: there is no series of nitrate in this log.`,
} as const;
