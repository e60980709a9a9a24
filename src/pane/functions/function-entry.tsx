import { AccordionHeader, AccordionItem, AccordionPanel, Link, makeStyles, mergeClasses, tokens, typographyStyles } from "@fluentui/react-components";
import { pane } from "../../words/pane";
import { useScreenStyles } from "../styles";
import type { FunctionHelp } from "./reference";

const words = pane.functions;

const useStyles = makeStyles({
  item: { borderBottom: `${tokens.strokeWidthThin} solid ${tokens.colorNeutralStroke2}` },
  header: {
    "& > button": {
      alignItems: "flex-start",
      padding: `${tokens.spacingVerticalS} 0`,
    },
  },
  name: { ...typographyStyles.body1Strong, fontFamily: tokens.fontFamilyMonospace, overflowWrap: "anywhere" },
  description: { ...typographyStyles.caption1, display: "block", overflowWrap: "anywhere", color: tokens.colorNeutralForeground2 },
  panel: { margin: `0 0 ${tokens.spacingVerticalM}` },
  label: { ...typographyStyles.caption1Strong, margin: `${tokens.spacingVerticalS} 0 0` },
  arguments: { margin: 0 },
  argument: { marginTop: tokens.spacingVerticalXS },
  argumentName: { fontFamily: tokens.fontFamilyMonospace, fontWeight: tokens.fontWeightSemibold },
  meaning: { ...typographyStyles.body1, margin: `0 0 0 ${tokens.spacingHorizontalM}` },
});

/** One function: its name and what it gives; opened, its arguments, an example and the way to its help page. */
export function FunctionEntry({ entry }: { entry: FunctionHelp }) {
  const styles = useStyles();
  const shared = useScreenStyles();
  return (
    <AccordionItem value={entry.name} className={styles.item}>
      <AccordionHeader as="h4" expandIconPosition="end" className={styles.header}>
        <span>
          <span className={styles.name}>{entry.name}</span> <span className={styles.description}>{entry.description}</span>
        </span>
      </AccordionHeader>
      <AccordionPanel className={styles.panel}>
        <p className={styles.label}>{words.argumentsTitle}</p>
        {entry.arguments.length === 0 ? <p className={shared.text}>{words.noArguments}</p> : <Arguments entry={entry} />}
        {entry.example !== undefined && (
          <>
            <p className={styles.label}>{words.example}</p>
            <p className={mergeClasses(shared.text, shared.code)}>{entry.example}</p>
          </>
        )}
        {entry.helpPage !== undefined && (
          <p className={shared.text}>
            <Link inline href={entry.helpPage} target="_blank" rel="noopener" aria-label={words.helpFor(entry.name)}>
              {words.help}
            </Link>
          </p>
        )}
      </AccordionPanel>
    </AccordionItem>
  );
}

function Arguments({ entry }: { entry: FunctionHelp }) {
  const styles = useStyles();
  return (
    <dl className={styles.arguments}>
      {entry.arguments.map(({ name, description, optional }) => (
        <div key={name} className={styles.argument}>
          <dt>
            <span className={styles.argumentName}>{name}</span>
            {optional && <em> {words.optional}</em>}
          </dt>
          <dd className={styles.meaning}>{description}</dd>
        </div>
      ))}
    </dl>
  );
}
