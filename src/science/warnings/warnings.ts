import { accountWarnings } from "./account";
import { basisWarnings } from "./basis-step";
import { harvestWarnings } from "./harvests";
import { logWarnings } from "./log-order";
import { readingWarnings } from "./readings";
import { loadWarnings } from "./screen-load";
import { waterWarnings } from "./water";
import { bySeverityAndRow, type Accounts, type Warning } from "./warning";

/** All warnings of a log that was read for nitrogen and for phosphorus, the most serious first. */
export function warningsOf(accounts: Accounts): Warning[] {
  const found: Warning[] = [
    ...logWarnings(accounts),
    ...basisWarnings(accounts.N),
    ...basisWarnings(accounts.P),
    ...readingWarnings(accounts),
    ...waterWarnings(accounts),
    ...harvestWarnings(accounts),
    ...loadWarnings(accounts),
    ...accountWarnings(accounts),
  ];
  return found.sort(bySeverityAndRow);
}
