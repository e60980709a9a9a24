import { budgetView as words } from "../../words/budget-view";
import { NUTRIENTS } from "./account";
import type { ChosenPeriod } from "./chosen";
import { useBudgetStyles } from "./styles";

/** The answer first: one sentence for nitrogen and one for phosphorus, and what else the cell of the worksheet says. */
export function Verdicts({ chosen: { nutrients } }: { chosen: ChosenPeriod }) {
  const styles = useBudgetStyles();
  return NUTRIENTS.map((nutrient) => {
    const period = nutrients[nutrient];
    // A verdict that only says that it cannot tell is nothing without its reason.
    const reasonFirst = period !== null && period.unexplained === null;
    return (
      <div key={nutrient} className={styles.card}>
        <h3 className={styles.cardTitle}>{words.element[nutrient]}</h3>
        <p className={styles.lead}>{period ? period.headline : words.period.none(nutrient)}</p>
        {period && reasonFirst && <p className={styles.note}>{period.rest}</p>}
        {period && !reasonFirst && period.rest !== "" && (
          <details>
            <summary className={styles.summary}>{words.moreOf(nutrient)}</summary>
            <p className={styles.note}>{period.rest}</p>
          </details>
        )}
      </div>
    );
  });
}
