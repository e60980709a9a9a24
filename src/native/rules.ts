import { feedRules } from "./functions/feed";
import { harvestRules } from "./functions/harvest";
import type { Rule } from "./rule";

const frozen = (why: Extract<Rule, { kind: "frozen" }>["why"], ...names: string[]): [string, Rule][] => names.map((name) => [name, { kind: "frozen", why }]);

/** How each function becomes plain formulas, by its name without the namespace. */
export const RULES: ReadonlyMap<string, Rule> = new Map<string, Rule>([
  ...Object.entries(feedRules),
  ...Object.entries(harvestRules),
  ...frozen("fit", "HARVEST_FIT", "HARVEST_INTERVAL", "HARVEST_NEXT", "READING_SUMMARY"),
  ...frozen("draws", "SCRUBAREA_NEEDED", "FORECAST_READING", "FORECAST_WHATIF"),
  ...frozen("integration", "DAYS_TO_TARGET"),
  ...frozen("reconciliation", "BUDGET_BOTH"),
  ...frozen("texts", "LOG_READ", "LOG_ROWS", "LOG_MISSING", "READING_SERIES", "HARVEST_SERIES", "HARVEST_COMPARE"),
  ...frozen("slopes", "TREND_SLOPE", "TREND_RANGE"),
  ...frozen("warnings", "BUDGET_WARNINGS"),
]);
