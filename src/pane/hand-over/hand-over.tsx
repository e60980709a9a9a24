import { Field, makeStyles, MessageBar, MessageBarBody, Radio, RadioGroup, tokens } from "@fluentui/react-components";
import { useEffect, useState } from "react";
import { coverOf } from "../../files/hand-over/cover-lines";
import { frozenCopy } from "../../files/hand-over/frozen-copy";
import { nativeCopy } from "../../native/native-copy";
import { localDay } from "../../functions/dates";
import { Problem } from "../../science/problem";
import { handOver as words } from "../../words/hand-over";
import { ourFormulas, type OurFormulas } from "../../workbook/hand-over/our-formulas";
import { openCopy, workbookFile, workbookName } from "../../workbook/hand-over/workbook-file";
import { WorkbookProblem } from "../../workbook/workbook-problem";
import { ActionButton } from "../action-button";
import { useBudgetStyles } from "../budget/styles";
import { JourneyHead } from "../journey-head";
import { useScreenStyles } from "../styles";

const useStyles = makeStyles({
  list: { margin: `${tokens.spacingVerticalXS} 0 0`, paddingLeft: tokens.spacingHorizontalXL },
  bar: { marginTop: tokens.spacingVerticalM },
});

/** What stands in the place of our formulas in the copy. */
type How = "formulas" | "values";
type Looked = readonly OurFormulas[] | "looking" | { readonly refused: string };

/** The screen "Hand over": what leaves, what stays and what comes, and the copy. */
export default function HandOver({ onBack }: { onBack: () => void }) {
  const shared = useScreenStyles();
  const styles = useStyles();
  const [looked, setLooked] = useState<Looked>("looking");
  useEffect(() => {
    let ended = false;
    ourFormulas().then(
      (found) => ended || setLooked(found),
      (error: unknown) => ended || setLooked({ refused: error instanceof WorkbookProblem ? error.message : words.refused }),
    );
    return () => {
      ended = true;
    };
  }, []);
  return (
    <>
      <JourneyHead back={words.back} title={words.title} onBack={onBack} />
      {looked === "looking" ? (
        <p className={shared.text} role="status">
          {words.looking}
        </p>
      ) : "refused" in looked ? (
        <MessageBar intent="error" layout="multiline" className={styles.bar} role="alert">
          <MessageBarBody>{looked.refused}</MessageBarBody>
        </MessageBar>
      ) : (
        <WhatLeaves formulas={looked} />
      )}
    </>
  );
}

/** The same for formulas that were found. */
export function WhatLeaves({ formulas }: { formulas: readonly OurFormulas[] }) {
  const shared = useScreenStyles();
  const budget = useBudgetStyles();
  const styles = useStyles();
  const [how, setHow] = useState<How>("formulas");
  const total = formulas.reduce((sum, { cells }) => sum + cells, 0);
  const wrong = formulas.reduce((sum, one) => sum + one.wrong, 0);
  if (total === 0) return <p className={shared.text}>{words.nothing}</p>;
  return (
    <>
      <p className={budget.lead}>{words.openText}</p>
      <Field label={words.how} className={styles.bar}>
        <RadioGroup value={how} onChange={(_, { value }) => setHow(value as How)}>
          <Radio value="formulas" label={words.howFormulas} />
          <Radio value="values" label={words.howValues} />
        </RadioGroup>
      </Field>
      <h3 className={shared.subheading}>{words.leavesTitle}</h3>
      <p className={shared.text}>{words.leaves[how](total)}</p>
      <ul className={styles.list}>
        {formulas.map(({ sheet, cells }) => (
          <li key={sheet} className={shared.text}>
            {words.leavesSheet(sheet, cells)}
          </li>
        ))}
      </ul>
      {wrong > 0 && (
        <MessageBar intent="warning" layout="multiline" className={styles.bar}>
          <MessageBarBody>{words.waiting(wrong)}</MessageBarBody>
        </MessageBar>
      )}
      <h3 className={shared.subheading}>{words.staysTitle}</h3>
      <ul className={styles.list}>
        {words.stays.map((one) => (
          <li key={one} className={shared.text}>
            {one}
          </li>
        ))}
      </ul>
      <h3 className={shared.subheading}>{words.comesTitle}</h3>
      <p className={shared.text}>{words.comes[how]}</p>
      <ActionButton label={words.make} busy={words.making} refused={words.refused} act={how === "formulas" ? makeNativeCopy : makeCopy} primary stoppable />
    </>
  );
}

/** The copy with values. @throws WorkbookProblem with the reason */
const makeCopy = (signal: AbortSignal): Promise<string> =>
  copyOf(signal, async (original) => ({ file: (await frozenCopy(original, coverOf(workbookName(), localDay(new Date())))).file, done: words.done }));

/** The copy with plain formulas, each of them calculated before it leaves. @throws WorkbookProblem with the reason */
const makeNativeCopy = (signal: AbortSignal): Promise<string> =>
  copyOf(signal, async (original) => {
    const { calculating } = await import(/* webpackChunkName: "calculate" */ "./calculate");
    const { calculate, dispose } = calculating();
    try {
      const stoppable: typeof calculate = (book) => {
        if (signal.aborted) throw new WorkbookProblem(words.stopped);
        return calculate(book);
      };
      const { file, translated, frozen } = await nativeCopy(original, stoppable, { title: workbookName(), day: localDay(new Date()) });
      return { file, done: words.doneFormulas(translated, frozen.length) };
    } finally {
      dispose();
    }
  });

async function copyOf(signal: AbortSignal, make: (original: Uint8Array) => Promise<{ readonly file: Uint8Array; readonly done: string }>): Promise<string> {
  const original = await workbookFile(signal);
  try {
    const { file, done } = await make(original);
    if (signal.aborted) throw new WorkbookProblem(words.stopped);
    await openCopy(file);
    return done;
  } catch (error) {
    throw error instanceof Problem ? new WorkbookProblem(error.message) : error;
  }
}
