import { makeStyles, tokens, typographyStyles } from "@fluentui/react-components";
import { joinPane as words } from "../../words/join-pane";
import type { Look } from "../../workbook/join/look";
import { letters } from "../../workbook/places";
import { useScreenStyles } from "../styles";
import { useBudgetStyles } from "../budget/styles";
import { asksMeaning } from "./answers";

const useStyles = makeStyles({
  list: { margin: `${tokens.spacingVerticalXS} 0 0`, padding: 0, listStyleType: "none" },
  item: { ...typographyStyles.body1, padding: `${tokens.spacingVerticalXS} 0`, borderTop: `${tokens.strokeWidthThin} solid ${tokens.colorNeutralStroke2}`, overflowWrap: "anywhere" },
  likely: { ...typographyStyles.caption1, color: tokens.colorNeutralForeground2, whiteSpace: "nowrap" },
  why: { ...typographyStyles.caption1, color: tokens.colorNeutralForeground2, display: "block" },
});

/** The columns that were recognised: what each is, how sure that is and why. */
export function Settled({ look }: { look: Look }) {
  const shared = useScreenStyles();
  const budget = useBudgetStyles();
  const styles = useStyles();
  const settled = look.columns.flatMap((column, place) => (asksMeaning(column) ? [] : [{ ...column, name: column.heading === "" ? words.noHeading(letters(look.found.left + place)) : column.heading, place }]));
  const read = settled.filter(({ meaning }) => meaning !== null);
  const left = settled.filter(({ meaning }) => meaning === null);
  return (
    <>
      {read.length > 0 && (
        <ul className={styles.list}>
          {read.map(({ place, name, meaning, sureness, why }) => (
            <li key={place} className={styles.item}>
              {name} <span aria-hidden="true">→</span> <strong>{meaning}</strong> <span className={styles.likely}>({words.sureness[sureness]})</span>
              <span className={styles.why}>{why}</span>
            </li>
          ))}
        </ul>
      )}
      {left.length > 0 && (
        <details>
          <summary className={budget.summary}>{words.leftAlone(left.map(({ name }) => name))}</summary>
          <ul className={styles.list}>
            {left.map(({ place, name, why }) => (
              <li key={place} className={styles.item}>
                {name}
                <span className={styles.why}>{why}</span>
              </li>
            ))}
          </ul>
        </details>
      )}
      <p className={shared.text}>{words.putRight}</p>
    </>
  );
}
