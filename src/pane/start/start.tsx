import { makeStyles, mergeClasses, tokens, typographyStyles } from "@fluentui/react-components";
import { lazy, type ReactNode, Suspense, useEffect, useRef, useState } from "react";
import { pane } from "../../words/pane";
import type { BudgetFormulas } from "../../workbook/budget-formulas";
import { useScreenStyles } from "../styles";
import { Begin, type Journey } from "./begin";
import { FormulaLine } from "./formula-line";
import { Step } from "./step";

const words = pane.start;

/** Recognising a log takes a vocabulary of four languages, and a copy a writer of files: each is loaded when it is first wanted. */
const Join = lazy(() => import(/* webpackChunkName: "join" */ "../join/join"));

const HandOver = lazy(() => import(/* webpackChunkName: "hand-over" */ "../hand-over/hand-over"));

const useStyles = makeStyles({
  answer: { ...typographyStyles.body2, margin: `${tokens.spacingVerticalXS} 0 0` },
  list: { margin: `${tokens.spacingVerticalXS} 0 0`, paddingLeft: tokens.spacingHorizontalL, listStyleType: "disc" },
  item: { ...typographyStyles.body1, marginTop: tokens.spacingVerticalXS },
});

/** "What now?": the answer first, then the cautions. */
export function Start({ formulas, onSize, onBudget }: { formulas: BudgetFormulas; onSize: () => void; onBudget: () => void }) {
  const shared = useScreenStyles();
  const [journey, setJourney] = useState<Journey | null>(null);
  const buttons = { join: useRef<HTMLButtonElement>(null), handOver: useRef<HTMLButtonElement>(null) };
  const before = useRef<Journey | null>(null);
  useEffect(() => {
    // Who comes back is where they left.
    if (before.current && !journey) buttons[before.current].current?.focus();
    before.current = journey;
  });
  const back = (): void => setJourney(null);
  return (
    <section className={shared.screen}>
      {journey ? (
        <Suspense
          fallback={
            <p className={shared.text} role="status">
              {pane.loading}
            </p>
          }
        >
          {journey === "join" ? <Join onBack={back} onBudget={onBudget} /> : <HandOver onBack={back} />}
        </Suspense>
      ) : (
        <WhatNow formulas={formulas} begin={<Begin onJourney={setJourney} onSize={onSize} buttons={buttons} />} />
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
