import { makeStyles, mergeClasses, tokens, typographyStyles } from "@fluentui/react-components";
import { useEffect, useState } from "react";
import { size as words } from "../../words/size";
import { useScreenStyles } from "../styles";

/** Typing makes an answer a key; a screen reader is told the one that stays. */
const SETTLED_MS = 900;
/** The box lies over the form: what takes the focus keeps this much free above it, and does not hide behind it. */
export const ANSWER_BOX_HEIGHT = "152px";

const useStyles = makeStyles({
  box: {
    position: "sticky",
    top: 0,
    zIndex: 1,
    margin: `${tokens.spacingVerticalM} calc(-1 * ${tokens.spacingHorizontalL}) 0`,
    padding: `${tokens.spacingVerticalS} ${tokens.spacingHorizontalL} ${tokens.spacingVerticalM}`,
    backgroundColor: tokens.colorNeutralBackground1,
    borderBottom: `${tokens.strokeWidthThin} solid ${tokens.colorNeutralStroke2}`,
    // In a window with little height the box would leave no room for the form.
    "@media (max-height: 480px)": { position: "static" },
  },
  inner: { borderLeft: `${tokens.strokeWidthThickest} solid ${tokens.colorBrandStroke1}`, paddingLeft: tokens.spacingHorizontalM },
  wrong: { borderLeftColor: tokens.colorStatusDangerBorder2 },
  label: { ...typographyStyles.caption1Strong, color: tokens.colorNeutralForeground2, margin: 0 },
  headline: { ...typographyStyles.title3, margin: 0, fontVariantNumeric: "tabular-nums" },
  likely: { ...typographyStyles.body1, margin: `${tokens.spacingVerticalXXS} 0 0` },
});

export interface Headline {
  readonly headline: string;
  readonly likely: string;
}

/** The answer in two lines, always in view; `wrong` when there is none because of what was typed. */
export function AnswerBox({ headline, likely, wrong, busy }: Headline & { wrong: boolean; busy: boolean }) {
  const styles = useStyles();
  const shared = useScreenStyles();
  const spoken = useSettled(words.answer.spoken(headline, likely));
  return (
    <div className={styles.box} aria-busy={busy}>
      <div className={mergeClasses(styles.inner, wrong && styles.wrong)}>
        <h3 className={styles.label}>{words.answer.title}</h3>
        <p className={styles.headline}>{headline}</p>
        <p className={styles.likely}>{likely}</p>
      </div>
      <div className={shared.spoken} role="status">
        {spoken}
      </div>
    </div>
  );
}

/** The text once it has not changed for a while; nothing before the first change, for a page that opens tells itself. */
function useSettled(text: string): string {
  const [first] = useState(text);
  const [settled, setSettled] = useState("");
  useEffect(() => {
    if (text === first && settled === "") return undefined;
    const timer = setTimeout(() => setSettled(text), SETTLED_MS);
    return () => clearTimeout(timer);
  }, [text, first, settled]);
  return settled;
}
