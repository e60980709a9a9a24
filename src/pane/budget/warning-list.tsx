import { Button, makeStyles, MessageBar, MessageBarBody, tokens, typographyStyles } from "@fluentui/react-components";
import { useMemo, useState } from "react";
import { budgetView } from "../../words/budget-view";
import { warnings as warningWords } from "../../words/warnings";
import { workbook } from "../../words/workbook";
import { rowAddress } from "../../workbook/budget-source";
import { showCell } from "../../workbook/problems";
import { WorkbookProblem } from "../../workbook/workbook-problem";
import { useScreenStyles } from "../styles";
import type { AccountView, WarningView } from "./account";
import { alikeTogether } from "./alike";
import { useBudgetStyles } from "./styles";

const words = budgetView.warnings;
const AT_ONCE = 20;

const useStyles = makeStyles({
  item: { marginTop: tokens.spacingVerticalS },
  severity: { ...typographyStyles.caption1Strong },
  go: { marginTop: tokens.spacingVerticalS },
  other: { display: "block", marginTop: tokens.spacingVerticalXS },
  mark: { display: "inline-block", marginRight: tokens.spacingHorizontalXS },
});

/** Severity is a word; the mark before it is for the eye. */
const MARKS: Readonly<Record<string, string>> = { [warningWords.severity.serious]: "!!", [warningWords.severity.caution]: "!", [warningWords.severity.note]: "i" };

/** What looks wrong, the most serious first, with what to check and a way to its row. */
export function WarningList({ account: { warnings, source } }: { account: AccountView }) {
  const shared = useScreenStyles();
  const styles = useBudgetStyles();
  const own = useStyles();
  const [most, setMost] = useState(AT_ONCE);
  const [notShown, setNotShown] = useState("");
  const go = async (address: string): Promise<void> => {
    try {
      await showCell(address);
      setNotShown("");
    } catch (error) {
      setNotShown(error instanceof WorkbookProblem ? error.message : workbook.cellNotShown(address));
    }
  };
  const addressOf = ({ row }: WarningView): string | null => (row !== null && source.logPlace ? rowAddress(source.logPlace, row) : null);
  const groups = useMemo(() => alikeTogether(warnings), [warnings]);
  return (
    <section className={styles.section}>
      <h3 className={styles.sectionTitle}>{words.title}</h3>
      {warnings.length === 0 && <p className={shared.text}>{`${warningWords.none} ${warningWords.noneCheck}`}</p>}
      {notShown !== "" && (
        <MessageBar intent="warning" layout="multiline" role="alert" className={own.item}>
          <MessageBarBody>{notShown}</MessageBarBody>
        </MessageBar>
      )}
      <ul className={shared.list}>
        {groups.slice(0, most).map(({ warning, sentence, alike }, place) => {
          const address = addressOf(warning);
          const others = alike.slice(1).flatMap((one) => addressOf(one) ?? []);
          return (
            <li key={`${place} ${warning.code}`} className={styles.card}>
              <span className={own.severity}>
                <span aria-hidden="true" className={own.mark}>
                  {MARKS[warning.severity] ?? ""}
                </span>
                {warning.severity}
              </span>
              <p className={shared.text}>{sentence}</p>
              <p className={styles.note}>
                <strong>{words.checkFirst}</strong> {warning.check}
              </p>
              {address !== null && (
                <Button size="small" className={own.go} onClick={() => void go(address)}>
                  {words.go(address)}
                </Button>
              )}
              {others.length > 0 && (
                <details>
                  <summary className={styles.summary}>{words.others(others.length)}</summary>
                  {others.map((other) => (
                    <Button key={other} size="small" className={own.other} onClick={() => void go(other)}>
                      {words.go(other)}
                    </Button>
                  ))}
                </details>
              )}
            </li>
          );
        })}
      </ul>
      {groups.length > most && (
        <Button className={own.item} onClick={() => setMost(most + AT_ONCE)}>
          {words.more(most, groups.length)}
        </Button>
      )}
    </section>
  );
}
