import { Button, makeStyles, MessageBar, MessageBarBody, tokens } from "@fluentui/react-components";
import { useMemo, useState } from "react";
import { joinPane as words } from "../../words/join-pane";
import { ActionButton } from "../action-button";
import { useBudgetStyles } from "../budget/styles";
import { JourneyHead } from "../journey-head";
import { useScreenStyles } from "../styles";
import { foodsToAsk, openQuestions, readSetUp } from "./answers";
import { FoodQuestions } from "./food-questions";
import { JoinedLogs } from "./joined-logs";
import { Questions } from "./questions";
import { SetUpBoxes } from "./set-up-boxes";
import { Settled } from "./settled";
import { UnderstoodRows } from "./understood-rows";
import { type JoinDesk, type JoinState, useJoin } from "./use-join";

const useStyles = makeStyles({
  wide: { marginTop: tokens.spacingVerticalM, width: "100%", maxWidth: "none" },
  bar: { marginTop: tokens.spacingVerticalM },
});

/** The screen "Join your log": find it, ask what is doubtful, show it as understood, and add the account beside it. */
export default function Join({ onBack, onBudget }: { onBack: () => void; onBudget: () => void }) {
  const desk = useJoin();
  return (
    <>
      <JourneyHead back={words.back} title={words.title} onBack={onBack} />
      <Content desk={desk} onBudget={onBudget} />
      <JoinedLogs joins={desk.joins} onAgain={desk.again} onRemoved={desk.removed} />
    </>
  );
}

function Content({ desk, onBudget }: { desk: JoinDesk; onBudget: () => void }) {
  const shared = useScreenStyles();
  const styles = useStyles();
  const { state, look } = desk;
  const lookButton = (label: string, primary: boolean) => (
    <Button appearance={primary ? "primary" : "secondary"} className={styles.wide} onClick={() => void look()}>
      {label}
    </Button>
  );
  switch (state.kind) {
    case "looking":
      return (
        <p className={shared.text} role="status">
          {words.looking}
        </p>
      );
    case "none":
      return (
        <>
          <MessageBar intent="warning" layout="multiline" className={styles.bar} role="status">
            <MessageBarBody>{state.sentence}</MessageBarBody>
          </MessageBar>
          <p className={shared.text}>{words.select}</p>
          {lookButton(words.look, true)}
        </>
      );
    case "joined":
      return (
        <>
          <p className={shared.text} role="status">
            {words.joinedAlready}
          </p>
          <Button appearance="primary" className={styles.wide} onClick={onBudget}>
            {words.seeAccount}
          </Button>
          {lookButton(words.look, false)}
        </>
      );
    case "done":
      return (
        <>
          <MessageBar intent="success" layout="multiline" className={styles.bar} role="status">
            <MessageBarBody>{state.sentence}</MessageBarBody>
          </MessageBar>
          {state.isJoined && (
            <Button appearance="primary" className={styles.wide} onClick={onBudget}>
              {words.seeAccount}
            </Button>
          )}
          {lookButton(words.look, false)}
        </>
      );
    case "found":
      return <Found state={state} desk={desk} />;
  }
}

function Found({ state: { look, answers, again }, desk }: { state: Extract<JoinState, { kind: "found" }>; desk: JoinDesk }) {
  const shared = useScreenStyles();
  const budget = useBudgetStyles();
  const styles = useStyles();
  const [onNewSheet, setOnNewSheet] = useState(false);
  const { found, sheet, table } = look;
  const read = readSetUp(answers);
  const open = openQuestions(answers);
  const isNew = again === null;
  const foods = useMemo(() => foodsToAsk(look, answers), [look, answers]);
  const openFoods = foods.asked.filter((name) => answers.foods[name] === undefined).length;
  const missing = open > 0 ? words.answerFirst(open) : isNew && openFoods > 0 ? words.foodFirst(openFoods) : isNew && Object.keys(read.wrong).length > 0 ? words.putRightFirst : isNew && read.needsVolume ? words.volumeFirst : null;
  return (
    <>
      <p className={budget.lead}>{table === null ? words.found(sheet, found.firstDataRow + 1, found.bottom + 1) : words.foundTable(table, sheet)}</p>
      <h3 className={shared.subheading}>{words.columnsTitle}</h3>
      <Questions look={look} answers={answers} onMeaning={desk.answerMeaning} onDateOrder={desk.answerDateOrder} />
      <Settled look={look} />
      <h3 className={shared.subheading}>{words.rowsTitle}</h3>
      <UnderstoodRows look={look} answers={answers} />
      {isNew && foods.asked.length > 0 && (
        <>
          <h3 className={shared.subheading}>{words.foodTitle}</h3>
          <FoodQuestions names={foods.asked} answers={answers} onFood={desk.answerFood} />
          {foods.told.length > 0 && <p className={shared.text}>{words.moreFoods(foods.told)}</p>}
        </>
      )}
      {isNew && (
        <>
          <h3 className={shared.subheading}>{words.setUpTitle}</h3>
          <SetUpBoxes answers={answers} read={read} onText={desk.answerSetUp} />
        </>
      )}
      {missing === null ? (
        <>
          <ActionButton label={isNew ? words.add : words.again} busy={words.adding} refused={words.refused} act={(signal) => desk.add(false, signal)} onRefused={() => setOnNewSheet(true)} primary stoppable />
          {isNew && onNewSheet && <ActionButton label={words.addToSheet} busy={words.adding} refused={words.refused} act={(signal) => desk.add(true, signal)} stoppable />}
        </>
      ) : (
        <>
          <Button appearance="primary" className={styles.wide} disabled>
            {isNew ? words.add : words.again}
          </Button>
          <p className={shared.text}>{missing}</p>
        </>
      )}
      <Button className={styles.wide} onClick={() => void desk.look()}>
        {words.lookAgain}
      </Button>
    </>
  );
}
