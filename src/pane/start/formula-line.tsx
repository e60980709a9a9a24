import { Button, makeStyles, mergeClasses, tokens, typographyStyles } from "@fluentui/react-components";
import { useEffect, useRef, useState } from "react";
import { pane } from "../../words/pane";
import { useScreenStyles } from "../styles";

const words = pane.start;
const SHOWN_MS = 2500;

const useStyles = makeStyles({
  line: {
    display: "flex",
    alignItems: "center",
    columnGap: tokens.spacingHorizontalS,
    marginTop: tokens.spacingVerticalXS,
    padding: `${tokens.spacingVerticalXS} ${tokens.spacingHorizontalXS} ${tokens.spacingVerticalXS} ${tokens.spacingHorizontalM}`,
    backgroundColor: tokens.colorNeutralBackground3,
    border: `${tokens.strokeWidthThin} solid ${tokens.colorNeutralStroke2}`,
    borderRadius: tokens.borderRadiusMedium,
  },
  text: { flexGrow: 1, minWidth: 0 },
  nutrient: { ...typographyStyles.caption1, display: "block", color: tokens.colorNeutralForeground2 },
  formula: { ...typographyStyles.body1, userSelect: "all" },
  button: { flexShrink: 0, minWidth: "64px" },
  done: { ...typographyStyles.caption1, margin: `${tokens.spacingVerticalXXS} 0 0` },
});

type Outcome = "none" | "copied" | "selected";

/** A formula as text, with a button that copies it. Where the clipboard is closed to a pane, the text is selected instead. */
export function FormulaLine({ nutrient, formula }: { nutrient: string; formula: string }) {
  const styles = useStyles();
  const shared = useScreenStyles();
  const text = useRef<HTMLElement>(null);
  const [outcome, setOutcome] = useState<Outcome>("none");

  useEffect(() => {
    if (outcome !== "copied") return undefined;
    const timer = setTimeout(() => setOutcome("none"), SHOWN_MS);
    return () => clearTimeout(timer);
  }, [outcome]);

  const copy = async (): Promise<void> => {
    if (text.current) setOutcome((await copyText(formula, text.current)) ? "copied" : "selected");
  };

  return (
    <>
      <div className={styles.line}>
        <div className={styles.text}>
          <span className={styles.nutrient}>{nutrient}</span>
          <code ref={text} className={mergeClasses(shared.code, styles.formula)}>
            {formula}
          </code>
        </div>
        <Button size="small" className={styles.button} aria-label={words.copyFormula(nutrient)} onClick={() => void copy()}>
          {outcome === "copied" ? words.copied : words.copy}
        </Button>
      </div>
      <p className={outcome === "selected" ? styles.done : shared.spoken} role="status">
        {outcome === "copied" && words.copied}
        {outcome === "selected" && words.selectedInstead}
      </p>
    </>
  );
}

/** @returns false when the text could only be selected */
async function copyText(formula: string, element: HTMLElement): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(formula);
    return true;
  } catch {
    window.getSelection()?.selectAllChildren(element);
    // The older way still works in some editions of Excel, where a pane may not write to the clipboard by itself.
    return document.execCommand("copy");
  }
}
