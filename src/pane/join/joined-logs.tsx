import { Button, makeStyles, tokens } from "@fluentui/react-components";
import { useState } from "react";
import { joinPane as words } from "../../words/join-pane";
import { removeJoin } from "../../workbook/join/take-back";
import { ActionButton } from "../action-button";
import { useBudgetStyles } from "../budget/styles";
import { useScreenStyles } from "../styles";
import type { KnownJoin } from "./use-join";

const useStyles = makeStyles({
  buttons: { display: "flex", flexDirection: "column", rowGap: tokens.spacingVerticalS, marginTop: tokens.spacingVerticalS },
  wide: { width: "100%", maxWidth: "none" },
});

interface JoinedLogsProps {
  readonly joins: readonly KnownJoin[];
  /** Reads a log again, or asks first. */
  readonly onAgain: (id: number, signal?: AbortSignal) => Promise<string>;
  readonly onRemoved: (sentence: string) => Promise<void>;
}

/** The logs that were joined earlier: read one again, or take out what was added. */
export function JoinedLogs({ joins, onAgain, onRemoved }: JoinedLogsProps) {
  const shared = useScreenStyles();
  if (joins.length === 0) return null;
  return (
    <>
      <h3 className={shared.subheading}>{words.joinedTitle}</h3>
      {joins.map((join) => (
        <JoinedLog key={join.joined.record.id} join={join} onAgain={onAgain} onRemoved={onRemoved} />
      ))}
    </>
  );
}

function JoinedLog({ join: { joined, sheets }, onAgain, onRemoved }: Omit<JoinedLogsProps, "joins"> & { join: KnownJoin }) {
  const shared = useScreenStyles();
  const budget = useBudgetStyles();
  const styles = useStyles();
  const [asking, setAsking] = useState(false);
  const { id } = joined.record;
  const names = Object.values(sheets);
  const remove = (keep: boolean) => async (signal: AbortSignal): Promise<string> => {
    const left = await removeJoin(id, keep, signal);
    const sentence = [keep ? words.removedKept : words.removed, left === null ? "" : words.typedOver(left)].filter(Boolean).join(" ");
    await onRemoved(sentence);
    return sentence;
  };
  return (
    <div className={budget.card}>
      <p className={budget.lead}>{joined.log ? words.joined(joined.log.sheet) : words.gone}</p>
      {joined.log && <ActionButton label={words.again} busy={words.againBusy} refused={words.refused} act={(signal) => onAgain(id, signal)} stoppable />}
      {asking ? (
        <>
          <p className={shared.text}>{names.length > 0 ? words.removeAsk(names) : words.removeAskColumns}</p>
          <ActionButton label={words.removeYes} busy={words.removeBusy} refused={words.refused} act={remove(false)} stoppable />
          {names.length > 0 && <ActionButton label={words.removeKeep} busy={words.removeBusy} refused={words.refused} act={remove(true)} stoppable />}
          <div className={styles.buttons}>
            <Button className={styles.wide} onClick={() => setAsking(false)}>
              {words.removeNo}
            </Button>
          </div>
        </>
      ) : (
        <div className={styles.buttons}>
          <Button className={styles.wide} onClick={() => setAsking(true)}>
            {words.remove}
          </Button>
        </div>
      )}
    </div>
  );
}
