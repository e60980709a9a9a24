import { Button, makeStyles, mergeClasses, tokens, typographyStyles } from "@fluentui/react-components";
import { useEffect, useState } from "react";
import { WorkbookProblem } from "../workbook/workbook-problem";
import { useScreenStyles } from "./styles";

const useStyles = makeStyles({
  button: { marginTop: tokens.spacingVerticalM, width: "100%", maxWidth: "none" },
  outcome: { ...typographyStyles.body1Strong, margin: `${tokens.spacingVerticalS} 0 0` },
  refused: { color: tokens.colorStatusDangerForeground1 },
});

type Outcome = { readonly kind: "none" | "busy" } | { readonly kind: "done" | "refused"; readonly text: string };

interface ActionButtonProps {
  readonly label: string;
  readonly busy: string;
  readonly refused: string;
  readonly primary?: boolean;
  /** Does it, and gives the sentence that says what was done. */
  readonly act: () => Promise<string>;
  /** When this changes, what was said of the action before is taken back. */
  readonly about?: unknown;
}

/** A button that does one thing in the workbook, and says below it what came of it. Pressed twice it does it once. */
export function ActionButton({ label, busy, refused, primary = false, act, about = null }: ActionButtonProps) {
  const styles = useStyles();
  const shared = useScreenStyles();
  const [outcome, setOutcome] = useState<Outcome>({ kind: "none" });
  useEffect(() => setOutcome((before) => (before.kind === "busy" ? before : { kind: "none" })), [about]);

  const press = async (): Promise<void> => {
    if (outcome.kind === "busy") return;
    setOutcome({ kind: "busy" });
    try {
      setOutcome({ kind: "done", text: await act() });
    } catch (error) {
      if (!(error instanceof WorkbookProblem)) console.error(error);
      setOutcome({ kind: "refused", text: error instanceof WorkbookProblem ? error.message : refused });
    }
  };

  return (
    <>
      <Button appearance={primary ? "primary" : "secondary"} className={styles.button} onClick={() => void press()}>
        {outcome.kind === "busy" ? busy : label}
      </Button>
      <p className={mergeClasses(styles.outcome, outcome.kind === "refused" && styles.refused, !("text" in outcome) && shared.spoken)} role="status">
        {"text" in outcome && outcome.text}
      </p>
    </>
  );
}
