/** Ids of the functions in `later.ts`, which the entry registers without loading them; a test holds the two together. */
export const LATER_IDS = [
  "BUDGET_WARNINGS",
  "DAYS_TO_TARGET",
  "FORECAST_READING",
  "FORECAST_WHATIF",
  "HARVEST_COMPARE",
  "HARVEST_FIT",
  "HARVEST_INTERVAL",
  "HARVEST_NEXT",
  "HARVEST_SERIES",
  "LOG_READ",
  "LOG_ROWS",
  "READING_SERIES",
  "READING_SUMMARY",
  "STEADY_READING",
  "TREND_RANGE",
  "TREND_SLOPE",
] as const;
