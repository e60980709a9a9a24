import { Button, makeStyles, MessageBar, MessageBarActions, MessageBarBody, Select, Spinner, tokens, useId } from "@fluentui/react-components";
import { useState } from "react";
import { budgetView as words } from "../../words/budget-view";
import { useScreenStyles } from "../styles";
import { NUTRIENTS, type AccountView } from "./account";
import { type Choice, choices, chosenPeriod } from "./chosen";
import { LookAhead } from "./look-ahead";
import { NextHarvest } from "./next-harvest";
import { useBudgetStyles } from "./styles";
import { useAccount, type Reckoner } from "./use-account";
import { type Looked, useBudgetSource } from "./use-budget-source";
import { Verdicts } from "./verdicts";
import { WarningList } from "./warning-list";
import { WhereItWent } from "./where-it-went";

const useStyles = makeStyles({
  steps: { margin: `${tokens.spacingVerticalS} 0 0`, paddingLeft: tokens.spacingHorizontalXL },
  bar: { marginTop: tokens.spacingVerticalM },
});

/** The screen "Budget": where the nutrients of the open workbook went, and what is next. */
export function Budget({ inFront }: { inFront: boolean }) {
  const [wanted, setWanted] = useState<string | null>(null);
  const looked = useBudgetSource(inFront, wanted);
  const reckoner = useAccount(looked.kind === "source" ? looked.source : null);
  return <BudgetScreen looked={looked} reckoner={reckoner} onLog={setWanted} />;
}

/** The same with what was found in the workbook and what was reckoned from it. */
export function BudgetScreen({ looked, reckoner, onLog }: { looked: Looked; reckoner: Reckoner; onLog: (name: string) => void }) {
  const shared = useScreenStyles();
  const styles = useBudgetStyles();
  const ids = useId("budget-");
  return (
    <section className={shared.screen}>
      <h2 className={shared.heading}>{words.title}</h2>
      {"names" in looked && looked.names.length > 1 && (
        <div className={styles.field}>
          <label htmlFor={`${ids}-log`} className={styles.label}>
            {words.whichLog}
          </label>
          <Select id={`${ids}-log`} value={looked.chosen} onChange={(_event, { value }) => onLog(value)}>
            {looked.names.map((name) => (
              <option key={name}>{name}</option>
            ))}
          </Select>
        </div>
      )}
      <Content looked={looked} reckoner={reckoner} />
    </section>
  );
}

function Content({ looked, reckoner: { reckoned, stop, again } }: { looked: Looked; reckoner: Reckoner }) {
  const shared = useScreenStyles();
  const own = useStyles();
  if (looked.kind === "none") return <NoBudget />;
  if (looked.kind === "looking") return <p className={shared.text}>{words.looking}</p>;
  if (looked.kind === "notRead") return <p className={shared.text}>{words.notLookedAt}</p>;
  if (looked.kind === "unreadable") return <NotReckoned sentence={looked.sentence} />;
  if (reckoned.kind === "problem") return <NotReckoned sentence={reckoned.sentence} />;
  if (reckoned.kind === "stopped") {
    return (
      <MessageBar intent="warning" layout="multiline" className={own.bar}>
        <MessageBarBody>{words.stopped}</MessageBarBody>
        <MessageBarActions>
          <Button onClick={again}>{words.again}</Button>
        </MessageBarActions>
      </MessageBar>
    );
  }
  const account = reckoned.kind === "ready" ? reckoned.account : reckoned.before;
  return (
    <>
      {reckoned.kind === "reckoning" && (reckoned.slow || !account) && (
        <MessageBar intent="info" layout="multiline" className={own.bar} icon={<Spinner size="tiny" />}>
          <MessageBarBody>{account ? words.reckoningAgain : words.reckoning}</MessageBarBody>
          {reckoned.slow && (
            <MessageBarActions>
              <Button onClick={stop}>{words.cancel}</Button>
            </MessageBarActions>
          )}
        </MessageBar>
      )}
      {account && <AccountScreen account={account} />}
    </>
  );
}

function NoBudget() {
  const shared = useScreenStyles();
  const styles = useBudgetStyles();
  const own = useStyles();
  return (
    <>
      <p className={styles.lead}>{words.none.answer}</p>
      <ol className={own.steps}>
        {words.none.steps.map((step) => (
          <li key={step} className={shared.text}>
            {step}
          </li>
        ))}
      </ol>
    </>
  );
}

function NotReckoned({ sentence }: { sentence: string }) {
  const own = useStyles();
  return (
    <MessageBar intent="error" layout="multiline" className={own.bar} role="alert">
      <MessageBarBody>
        <strong>{words.notReckoned}</strong> {sentence} {words.correctIt}
      </MessageBarBody>
    </MessageBar>
  );
}

/** One account: the answer first, then where it went, what to doubt, what is next and what is wrong. */
export function AccountScreen({ account }: { account: AccountView }) {
  const shared = useScreenStyles();
  const styles = useBudgetStyles();
  const ids = useId("account-");
  const [choice, setChoice] = useState<Choice>("latest");
  const offered = choices(account);
  const standing = offered.some(({ value }) => value === choice) ? choice : (offered[0]?.value ?? "whole");
  const chosen = chosenPeriod(account, standing);
  return (
    <>
      <div className={styles.field}>
        <label htmlFor={`${ids}-period`} className={styles.label}>
          {words.period.label}
        </label>
        <Select id={`${ids}-period`} value={standing} onChange={(_event, { value }) => setChoice(value as Choice)}>
          {offered.map(({ value, label }) => (
            <option key={value} value={value}>
              {label}
            </option>
          ))}
        </Select>
      </div>
      <Verdicts chosen={chosen} />
      <p className={styles.note}>{words.from(account.source.formulaAt)}</p>
      <section className={styles.section}>
        <h3 className={styles.sectionTitle}>{words.where.title}</h3>
        {NUTRIENTS.map((nutrient) => {
          const period = chosen.nutrients[nutrient];
          return period && <WhereItWent key={nutrient} nutrient={nutrient} period={period} />;
        })}
      </section>
      <section className={styles.section}>
        <h3 className={styles.sectionTitle}>{words.leastTitle}</h3>
        <p className={shared.text}>{chosen.believed}</p>
      </section>
      <NextHarvest account={account} />
      <LookAhead account={account} />
      <WarningList account={account} />
    </>
  );
}
