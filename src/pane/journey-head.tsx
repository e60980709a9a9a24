import { Button, makeStyles, tokens } from "@fluentui/react-components";
import { useEffect, useRef } from "react";
import { useScreenStyles } from "./styles";

const useStyles = makeStyles({ back: { marginBottom: tokens.spacingVerticalS, marginLeft: `calc(-1 * ${tokens.spacingHorizontalS})` } });

/** The way back and the title of a screen that is opened from another; the keyboard begins at the title. */
export function JourneyHead({ back, title, onBack }: { back: string; title: string; onBack: () => void }) {
  const shared = useScreenStyles();
  const styles = useStyles();
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  return (
    <>
      <Button appearance="subtle" size="small" className={styles.back} onClick={onBack}>
        {back}
      </Button>
      <h2 ref={heading} tabIndex={-1} className={shared.heading}>
        {title}
      </h2>
    </>
  );
}
