import { makeStyles, tokens, typographyStyles } from "@fluentui/react-components";
import type { ReactNode } from "react";

const useStyles = makeStyles({
  step: { display: "flex", columnGap: tokens.spacingHorizontalM, marginTop: tokens.spacingVerticalL },
  number: {
    ...typographyStyles.subtitle2,
    flexShrink: 0,
    width: "32px",
    height: "32px",
    lineHeight: "30px",
    textAlign: "center",
    boxSizing: "border-box",
    color: tokens.colorBrandForeground1,
    border: `${tokens.strokeWidthThin} solid ${tokens.colorBrandStroke1}`,
    borderRadius: tokens.borderRadiusCircular,
  },
  content: { flexGrow: 1, minWidth: 0 },
  title: { ...typographyStyles.subtitle2, margin: `${tokens.spacingVerticalXS} 0 0` },
});

/** One step of the answer; the number is for the eye, the ordered list tells it to a screen reader. */
export function Step({ number, title, children }: { number: number; title: string; children: ReactNode }) {
  const styles = useStyles();
  return (
    <li className={styles.step}>
      <span className={styles.number} aria-hidden="true">
        {number}
      </span>
      <div className={styles.content}>
        <h3 className={styles.title}>{title}</h3>
        {children}
      </div>
    </li>
  );
}
