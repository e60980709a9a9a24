import { Button, makeStyles, mergeClasses, Spinner, tokens, typographyStyles } from "@fluentui/react-components";
import { useEffect, useRef, useState } from "react";
import { pane } from "../words/pane";
import { WorkbookProblem } from "../workbook/workbook-problem";
import { useScreenStyles } from "./styles";

const useStyles = makeStyles({
  button: { marginTop: tokens.spacingVerticalM, width: "100%", maxWidth: "none" },
  outcome: { ...typographyStyles.body1Strong, margin: `${tokens.spacingVerticalS} 0 0` },
  refused: { color: tokens.colorStatusDangerForeground1 },
  stop: { marginTop: tokens.spacingVerticalS },
});

/** After this long a thing that is done says so and can be stopped. */
const SLOW_MS = 500;

type Outcome = { readonly kind: "none" | "busy" } | { readonly kind: "done" | "refused"; readonly text: string };

interface ActionButtonProps {
  readonly label: string;
  readonly busy: string;
  readonly refused: string;
  readonly primary?: boolean;
  /** Does it, and gives the sentence that says what was done. */
  readonly act: (signal: AbortSignal) => Promise<string>;
  /** Whether `act` heeds its signal. */
  readonly stoppable?: boolean;
  readonly onRefused?: () => void;
  /** When this changes, what was said of the action before is taken back. */
  readonly about?: unknown;
}

/** A button that does one thing in the workbook, and says below it what came of it. Pressed twice it does it once. */
export function ActionButton({ label, busy, refused, primary = false, act, stoppable = false, onRefused, about = null }: ActionButtonProps) {
  const styles = useStyles();
  const shared = useScreenStyles();
  const [outcome, setOutcome] = useState<Outcome>({ kind: "none" });
  useEffect(() => setOutcome((before) => (before.kind === "busy" ? before : { kind: "none" })), [about]);

  const stop = useRef<AbortController | null>(null);
  const [slow, setSlow] = useState<"no" | "slow" | "stopping">("no");

  const press = async (): Promise<void> => {
    if (outcome.kind === "busy") return;
    setOutcome({ kind: "busy" });
    stop.current = new AbortController();
    const timer = setTimeout(() => setSlow("slow"), SLOW_MS);
    try {
      setOutcome({ kind: "done", text: await act(stop.current.signal) });
    } catch (error) {
      if (!(error instanceof WorkbookProblem)) console.error(error);
      setOutcome({ kind: "refused", text: error instanceof WorkbookProblem ? error.message : refused });
      onRefused?.();
    } finally {
      clearTimeout(timer);
      setSlow("no");
    }
  };

  return (
    <>
      <Button appearance={primary ? "primary" : "secondary"} icon={slow === "no" ? undefined : <Spinner size="tiny" />} className={styles.button} onClick={() => void press()}>
        {outcome.kind === "busy" ? busy : label}
      </Button>
      {stoppable && slow !== "no" && (
        <Button
          size="small"
          className={styles.stop}
          disabledFocusable={slow === "stopping"}
          onClick={() => {
            stop.current?.abort();
            setSlow("stopping");
          }}
        >
          {slow === "stopping" ? pane.stopping : pane.stop}
        </Button>
      )}
      <p className={mergeClasses(styles.outcome, outcome.kind === "refused" && styles.refused, !("text" in outcome) && shared.spoken)} role="status">
        {"text" in outcome && outcome.text}
      </p>
    </>
  );
}
