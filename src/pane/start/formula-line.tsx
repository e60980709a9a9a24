import { Button, makeStyles, tokens, typographyStyles } from "@fluentui/react-components";
import { useEffect, useRef, useState } from "react";
import { pane } from "../../words/pane";
import { useScreenStyles } from "../styles";

const words = pane.start;
const SHOWN_MS = 2500;

const useStyles = makeStyles({
  box: {
    marginTop: tokens.spacingVerticalS,
    padding: `${tokens.spacingVerticalXS} ${tokens.spacingHorizontalS} ${tokens.spacingVerticalS}`,
    backgroundColor: tokens.colorNeutralBackground3,
    border: `${tokens.strokeWidthThin} solid ${tokens.colorNeutralStroke2}`,
    borderRadius: tokens.borderRadiusMedium,
  },
  head: { display: "flex", alignItems: "center", justifyContent: "space-between" },
  nutrient: { ...typographyStyles.caption1Strong, color: tokens.colorNeutralForeground2 },
  formula: { ...typographyStyles.body1, display: "block", fontFamily: tokens.fontFamilyMonospace, fontSize: tokens.fontSizeBase200, overflowWrap: "anywhere", userSelect: "all" },
  /** A formula breaks between its arguments where it can. */
  argument: { display: "inline-block", maxWidth: "100%", whiteSpace: "pre-wrap" },
  button: { minWidth: "64px" },
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
      <div className={styles.box}>
        <div className={styles.head}>
          <span className={styles.nutrient}>{nutrient}</span>
          <Button size="small" className={styles.button} aria-label={words.copyFormula(nutrient)} onClick={() => void copy()}>
            {outcome === "copied" ? words.copied : words.copy}
          </Button>
        </div>
        <code ref={text} className={styles.formula}>
          {formula.split(/(?<=[,;] ?)(?! )/).map((argument, place) => (
            <span key={place} className={styles.argument}>
              {argument}
            </span>
          ))}
        </code>
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
