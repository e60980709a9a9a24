import { budgetView } from "../../words/budget-view";
import { useScreenStyles } from "../styles";
import type { AccountView } from "./account";
import { day, days } from "./chosen";
import { useBudgetStyles } from "./styles";

const words = budgetView.harvest;

/** When each screen is due, counted from the log and not from a clock. */
export function NextHarvest({ account }: { account: AccountView }) {
  const shared = useScreenStyles();
  const styles = useBudgetStyles();
  return (
    <section className={styles.section}>
      <h3 className={styles.sectionTitle}>{words.title}</h3>
      {account.harvests.map(({ screen, dates, sentence }) => {
        const cut = /^.*?[.!?](?=\s+[A-Z]|$)/s.exec(sentence)?.[0] ?? sentence;
        return (
          <div key={screen} className={styles.card}>
            {screen !== "" && <h4 className={styles.cardTitle}>{words.ofScreen(screen)}</h4>}
            {!dates && <p className={shared.text}>{words.none}</p>}
            {dates && (
              <>
                <p className={styles.lead}>{cut}</p>
                <p className={shared.text}>{dates.earliest === dates.latest ? words.only(day(account, dates.best)) : words.between(days(account, dates.earliest, dates.latest), day(account, dates.best))}</p>
                <p className={styles.note}>{words.counted(day(account, account.accounts.N.log.lastDay))}</p>
                <details>
                  <summary className={styles.summary}>{words.why}</summary>
                  <p className={styles.note}>{sentence.slice(cut.length).trim()}</p>
                </details>
              </>
            )}
          </div>
        );
      })}
    </section>
  );
}
