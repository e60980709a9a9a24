import { Button, makeStyles, mergeClasses, MessageBar, MessageBarBody, tokens, typographyStyles } from "@fluentui/react-components";
import { useState } from "react";
import { workbook } from "../../words/workbook";
import { pane } from "../../words/pane";
import { showCell } from "../../workbook/problems";
import { WorkbookProblem } from "../../workbook/workbook-problem";
import { useScreenStyles } from "../styles";
import type { ListedProblem, ShownProblems } from "./problem-list";

const words = pane.problems;
const AT_ONCE = 100;

const useStyles = makeStyles({
  note: { marginTop: tokens.spacingVerticalM },
  list: { marginTop: tokens.spacingVerticalM, display: "flex", flexDirection: "column", rowGap: tokens.spacingVerticalS },
  problem: {
    display: "block",
    width: "100%",
    padding: `${tokens.spacingVerticalS} ${tokens.spacingHorizontalM}`,
    textAlign: "left",
    font: "inherit",
    color: tokens.colorNeutralForeground1,
    backgroundColor: tokens.colorNeutralBackground1,
    border: `${tokens.strokeWidthThin} solid ${tokens.colorNeutralStroke1}`,
    borderRadius: tokens.borderRadiusMedium,
    cursor: "pointer",
    ":hover": { backgroundColor: tokens.colorNeutralBackground1Hover },
    ":active": { backgroundColor: tokens.colorNeutralBackground1Pressed },
    ":focus-visible": { outline: `${tokens.strokeWidthThick} solid ${tokens.colorStrokeFocus2}`, outlineOffset: "1px" },
  },
  place: { display: "flex", flexWrap: "wrap", columnGap: tokens.spacingHorizontalM, alignItems: "baseline", justifyContent: "space-between" },
  address: { ...typographyStyles.body1Strong, color: tokens.colorBrandForegroundLink, overflowWrap: "anywhere" },
  functionName: { ...typographyStyles.caption1, fontFamily: tokens.fontFamilyMonospace, color: tokens.colorNeutralForeground2 },
  sentence: { ...typographyStyles.body1, display: "block", marginTop: tokens.spacingVerticalXXS, overflowWrap: "anywhere" },
});

/** The list "Problems": each entry goes to its cell. */
export function Problems({ shown }: { shown: ShownProblems }) {
  const styles = useStyles();
  const shared = useScreenStyles();
  const [notShown, setNotShown] = useState("");
  const [most, setMost] = useState(AT_ONCE);
  const { list, checked } = shown;

  const go = async (address: string): Promise<void> => {
    try {
      await showCell(address);
      setNotShown("");
    } catch (error) {
      setNotShown(error instanceof WorkbookProblem ? error.message : workbook.cellNotShown(address));
    }
  };

  return (
    <section className={shared.screen}>
      <h2 className={shared.heading}>{words.title}</h2>
      <p className={mergeClasses(shared.text, list.length > 0 && shared.quiet)}>{list.length === 0 ? words.none : words.explained}</p>
      {list.length === 0 && <p className={mergeClasses(shared.text, shared.quiet)}>{words.noneHint}</p>}
      {!checked && (
        <MessageBar intent="info" layout="multiline" className={styles.note}>
          <MessageBarBody>{words.notChecked}</MessageBarBody>
        </MessageBar>
      )}
      {notShown !== "" && (
        <MessageBar intent="warning" layout="multiline" className={styles.note} role="alert">
          <MessageBarBody>{notShown}</MessageBarBody>
        </MessageBar>
      )}
      {list.length > 0 && (
        <ul className={mergeClasses(shared.list, styles.list)}>
          {list.slice(0, most).map((problem) => (
            <li key={`${problem.origin} ${problem.address} ${problem.functionName} ${problem.sentence}`}>
              <Entry problem={problem} onGo={() => void go(problem.address)} />
            </li>
          ))}
        </ul>
      )}
      {list.length > most && (
        <Button className={styles.note} onClick={() => setMost(most + AT_ONCE)}>
          {words.more(most, list.length)}
        </Button>
      )}
    </section>
  );
}

function Entry({ problem: { address, functionName, sentence }, onGo }: { problem: ListedProblem; onGo: () => void }) {
  const styles = useStyles();
  return (
    <button type="button" className={styles.problem} onClick={onGo}>
      <span className={styles.place}>
        <span className={styles.address}>{address}</span> <span className={styles.functionName}>{functionName}</span>
      </span>{" "}
      <span className={styles.sentence}>{sentence}</span>
    </button>
  );
}
