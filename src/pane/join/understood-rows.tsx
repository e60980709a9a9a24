import { makeStyles, MessageBar, MessageBarBody, tokens, typographyStyles } from "@fluentui/react-components";
import { useMemo } from "react";
import { joinPane as words } from "../../words/join-pane";
import type { Look } from "../../workbook/join/look";
import { fiveRows } from "../../workbook/join/recognise/five-rows";
import { useScreenStyles } from "../styles";
import { type Answers, answeredColumns } from "./answers";

const useStyles = makeStyles({
  list: { margin: `${tokens.spacingVerticalXS} 0 0`, padding: 0, listStyleType: "none" },
  row: { ...typographyStyles.body1, padding: `${tokens.spacingVerticalXS} 0`, borderTop: `${tokens.strokeWidthThin} solid ${tokens.colorNeutralStroke2}`, overflowWrap: "anywhere" },
  number: { ...typographyStyles.caption1, color: tokens.colorNeutralForeground2, display: "block" },
  cell: { display: "inline-block", marginRight: tokens.spacingHorizontalM },
  name: { ...typographyStyles.caption1, color: tokens.colorNeutralForeground2 },
  bar: { marginTop: tokens.spacingVerticalS },
});

/** The first rows with an entry, each figure as it will be counted. */
export function UnderstoodRows({ look, answers }: { look: Look; answers: Answers }) {
  const shared = useScreenStyles();
  const styles = useStyles();
  const { rows, unread } = useMemo(() => fiveRows(look.grid, look.found, answeredColumns(look, answers), look.calendarOffset), [look, answers]);
  const names = answers.meanings.map((meaning) => (meaning ?? "").replace(/ \(.*/, ""));
  return (
    <>
      <p className={shared.text}>{words.rowsText}</p>
      <ul className={styles.list}>
        {rows.map(({ row, cells }) => (
          <li key={row} className={styles.row}>
            <span className={styles.number}>{words.row(row + 1)}</span>
            {cells.map(
              ({ understood }, place) =>
                understood !== null &&
                understood !== "" && (
                  <span key={place} className={styles.cell}>
                    <span className={styles.name}>{names[place]}</span> {understood}
                  </span>
                ),
            )}
          </li>
        ))}
      </ul>
      {unread.length > 0 && (
        <MessageBar intent="warning" layout="multiline" className={styles.bar}>
          <MessageBarBody>
            <strong>{words.unreadTitle}</strong>
            {unread.map((sentence) => (
              <p key={sentence} className={shared.text}>
                {sentence}
              </p>
            ))}
          </MessageBarBody>
        </MessageBar>
      )}
    </>
  );
}
