import { budgetRule } from "./budget/account";
import { basisRules } from "./functions/basis";
import { feedRules } from "./functions/feed";
import { harvestRules } from "./functions/harvest";
import { hydraulicsRules } from "./functions/hydraulics";
import { lightRules } from "./functions/light";
import { readingRules } from "./functions/reading";
import { seawaterRules } from "./functions/seawater";
import { sizingRules } from "./functions/sizing";
import { steadyRules } from "./functions/steady";
import { waterRules } from "./functions/water";
import type { Rule } from "./rule";

const frozen = (why: Extract<Rule, { kind: "frozen" }>["why"], ...names: string[]): [string, Rule][] => names.map((name) => [name, { kind: "frozen", why }]);

/** How each function becomes plain formulas, by its name without the namespace. */
export const RULES: ReadonlyMap<string, Rule> = new Map<string, Rule>([
  ["BUDGET_N", budgetRule("N")],
  ["BUDGET_P", budgetRule("P")],
  ...[feedRules, harvestRules, readingRules, basisRules, waterRules, lightRules, hydraulicsRules, seawaterRules, sizingRules, steadyRules].flatMap((topic) => Object.entries(topic)),
  ...frozen("fit", "HARVEST_FIT", "HARVEST_INTERVAL", "HARVEST_NEXT", "READING_SUMMARY"),
  ...frozen("draws", "SCRUBAREA_NEEDED", "FORECAST_READING", "FORECAST_WHATIF"),
  ...frozen("halving", "SALINITY_FROM_SG"),
  ...frozen("integration", "DAYS_TO_TARGET"),
  ...frozen("reconciliation", "BUDGET_BOTH"),
  ...frozen("texts", "LOG_READ", "LOG_ROWS", "LOG_MISSING", "READING_SERIES", "HARVEST_SERIES", "HARVEST_COMPARE"),
  ...frozen("slopes", "TREND_SLOPE", "TREND_RANGE"),
  ...frozen("warnings", "BUDGET_WARNINGS"),
]);
