import { makeStyles, mergeClasses, tokens, typographyStyles } from "@fluentui/react-components";
import { lazy, type ReactNode, Suspense, useEffect, useRef, useState } from "react";
import { pane } from "../../words/pane";
import type { BudgetFormulas } from "../../workbook/budget-formulas";
import { useScreenStyles } from "../styles";
import { Begin } from "./begin";
import { FormulaLine } from "./formula-line";
import { Step } from "./step";

const words = pane.start;

/** Recognising a log takes a vocabulary of four languages, which is loaded when it is first wanted. */
const Join = lazy(() => import("../join/join"));

const useStyles = makeStyles({
  answer: { ...typographyStyles.body2, margin: `${tokens.spacingVerticalXS} 0 0` },
  list: { margin: `${tokens.spacingVerticalXS} 0 0`, paddingLeft: tokens.spacingHorizontalL, listStyleType: "disc" },
  item: { ...typographyStyles.body1, marginTop: tokens.spacingVerticalXS },
});

/** "What now?": the answer first, then the cautions. */
export function Start({ formulas, onSize, onBudget }: { formulas: BudgetFormulas; onSize: () => void; onBudget: () => void }) {
  const shared = useScreenStyles();
  const [joining, setJoining] = useState(false);
  const joinButton = useRef<HTMLButtonElement>(null);
  const wasJoining = useRef(false);
  useEffect(() => {
    if (wasJoining.current && !joining) joinButton.current?.focus();
    wasJoining.current = joining;
  }, [joining]);
  return (
    <section className={shared.screen}>
      {joining ? (
        <Suspense
          fallback={
            <p className={shared.text} role="status">
              {pane.loading}
            </p>
          }
        >
          <Join onBack={() => setJoining(false)} onBudget={onBudget} />
        </Suspense>
      ) : (
        <WhatNow formulas={formulas} begin={<Begin onJoin={() => setJoining(true)} onSize={onSize} joinButton={joinButton} />} />
      )}
    </section>
  );
}

function WhatNow({ formulas, begin }: { formulas: BudgetFormulas; begin: ReactNode }) {
  const styles = useStyles();
  const shared = useScreenStyles();
  const { log, formula, verdict } = words.steps;
  return (
    <>
      <h2 className={shared.heading}>{words.title}</h2>
      <p className={styles.answer}>{words.answer}</p>
      {begin}
      <h3 className={shared.subheading}>{words.byHand}</h3>
      <p className={shared.text}>{words.byHandText}</p>
      <ol className={shared.list}>
        <Step number={1} title={log.title}>
          <Lines of={log.lines} />
        </Step>
        <Step number={2} title={formula.title}>
          <Lines of={formula.lines} />
          <Formulas formulas={formulas} />
        </Step>
        <Step number={3} title={verdict.title}>
          <Lines of={verdict.lines} />
          <Named of={verdict.meanings.map(({ verdict: name, meaning }) => ({ name: `${name}:`, text: meaning }))} />
          <Lines of={[verdict.dates]} />
        </Step>
      </ol>
      <h3 className={shared.subheading}>{words.cautionsTitle}</h3>
      <Named of={words.cautions.map(({ title, text }) => ({ name: title, text }))} />
      <h3 className={shared.subheading}>{words.privacyTitle}</h3>
      <p className={shared.text}>{words.privacy}</p>
    </>
  );
}

function Lines({ of }: { of: readonly string[] }) {
  const shared = useScreenStyles();
  return of.map((line) => (
    <p key={line} className={shared.text}>
      {line}
    </p>
  ));
}

function Named({ of }: { of: readonly { name: string; text: string }[] }) {
  const styles = useStyles();
  return (
    <ul className={styles.list}>
      {of.map(({ name, text }) => (
        <li key={name} className={styles.item}>
          <strong>{name}</strong> {text}
        </li>
      ))}
    </ul>
  );
}

function Formulas({ formulas: { N, P } }: { formulas: BudgetFormulas }) {
  const shared = useScreenStyles();
  const { formula: formulaWords } = words.steps;
  const sheets = [N, P].flatMap((found) => (found ? [found.sheet] : []));
  return (
    <>
      <FormulaLine nutrient={formulaWords.nitrogen} formula={N?.formula ?? formulaWords.generic("N")} />
      <FormulaLine nutrient={formulaWords.phosphorus} formula={P?.formula ?? formulaWords.generic("P")} />
      <p className={mergeClasses(shared.text, shared.quiet)}>
        {sheets.length > 0 ? formulaWords.asOnSheets([...new Set(sheets)]) : formulaWords.ofAnyWorkbook}
      </p>
    </>
  );
}
