import { Button, makeStyles, tokens } from "@fluentui/react-components";
import type { RefObject } from "react";
import { joinPane } from "../../words/join-pane";
import { handOver } from "../../words/hand-over";
import { pane } from "../../words/pane";
import { weekly } from "../../words/weekly";
import { insertWeekly } from "../../workbook/weekly/insert-weekly";
import { ActionButton } from "../action-button";
import { useScreenStyles } from "../styles";

const words = pane.start.begin;

/** The ways that take a screen of their own. */
export type Journey = "join" | "handOver";

const useStyles = makeStyles({ button: { marginTop: tokens.spacingVerticalM, width: "100%", maxWidth: "none" } });

/** The ways in: a log of one's own, sheets to fill, a screen to size, a copy to share, or a sample to play with. */
export function Begin({ onJourney, onSize, buttons }: { onJourney: (journey: Journey) => void; onSize: () => void; buttons: Readonly<Record<Journey, RefObject<HTMLButtonElement | null>>> }) {
  const styles = useStyles();
  const shared = useScreenStyles();
  const { insert } = weekly;
  const { sample } = joinPane;
  return (
    <>
      <h3 className={shared.subheading}>{words.ownLog}</h3>
      <p className={shared.text}>{joinPane.openText}</p>
      <Button ref={buttons.join} appearance="primary" className={styles.button} onClick={() => onJourney("join")}>
        {joinPane.open}
      </Button>
      <h3 className={shared.subheading}>{words.noLog}</h3>
      <p className={shared.text}>{insert.text}</p>
      <ActionButton label={insert.button} busy={insert.busy} refused={insert.refused} act={async (signal) => insert.done(await insertWeekly(signal))} stoppable />
      <h3 className={shared.subheading}>{words.noScreen}</h3>
      <p className={shared.text}>{words.noScreenText}</p>
      <Button className={styles.button} onClick={onSize}>
        {words.size}
      </Button>
      <h3 className={shared.subheading}>{handOver.openTitle}</h3>
      <p className={shared.text}>{handOver.openText}</p>
      <Button ref={buttons.handOver} className={styles.button} onClick={() => onJourney("handOver")}>
        {handOver.open}
      </Button>
      <h3 className={shared.subheading}>{words.looking}</h3>
      <p className={shared.text}>{words.lookingText}</p>
      <ActionButton label={sample.button} busy={sample.busy} refused={joinPane.refused} act={putSampleNow} stoppable />
    </>
  );
}

/** The code that recognises logs is loaded when it is first wanted. */
async function putSampleNow(signal: AbortSignal): Promise<string> {
  const { putSample } = await import(/* webpackChunkName: "join" */ "../../workbook/join/put-sample");
  const now = new Date();
  const { sheet } = await putSample(Date.UTC(now.getFullYear(), now.getMonth(), now.getDate()), signal);
  return joinPane.sample.done(sheet);
}
