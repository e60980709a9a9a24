import { Button, makeStyles, tokens } from "@fluentui/react-components";
import { pane } from "../../words/pane";
import { weekly } from "../../words/weekly";
import { insertWeekly } from "../../workbook/weekly/insert-weekly";
import { ActionButton } from "../action-button";
import { useScreenStyles } from "../styles";

const words = pane.start.begin;

const useStyles = makeStyles({ button: { marginTop: tokens.spacingVerticalM, width: "100%", maxWidth: "none" } });

/** The ways in for somebody who has no account yet: sheets to fill, or a screen to size. */
export function Begin({ onSize }: { onSize: () => void }) {
  const styles = useStyles();
  const shared = useScreenStyles();
  const { insert } = weekly;
  return (
    <>
      <h3 className={shared.subheading}>{words.noLog}</h3>
      <p className={shared.text}>{insert.text}</p>
      <ActionButton label={insert.button} busy={insert.busy} refused={insert.refused} act={async () => insert.done(await insertWeekly())} primary />
      <h3 className={shared.subheading}>{words.noScreen}</h3>
      <p className={shared.text}>{words.noScreenText}</p>
      <Button className={styles.button} onClick={onSize}>
        {words.size}
      </Button>
      <h3 className={shared.subheading}>{words.ownLog}</h3>
    </>
  );
}
