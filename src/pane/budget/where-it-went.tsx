import { makeStyles, mergeClasses, tokens, useId } from "@fluentui/react-components";
import type { Nutrient } from "../../science/nutrient-forms";
import type { Part } from "../../science/budget/terms";
import { budgetView } from "../../words/budget-view";
import { useScreenStyles } from "../styles";
import type { PeriodView } from "./account";
import { FlowPicture } from "./flow-picture";
import { type Flow, flowsOf } from "./flows";
import { Swatch } from "./patterns";
import { useBudgetStyles } from "./styles";

const words = budgetView.where;
const PARTS = Object.keys(words.partTitle) as Part[];

const useStyles = makeStyles({
  swatch: { flexShrink: 0, marginTop: "3px" },
  name: { display: "flex", columnGap: tokens.spacingHorizontalS },
  bar: { paddingTop: tokens.spacingVerticalS, fontWeight: tokens.fontWeightSemibold, textAlign: "left" },
});

/** One nutrient of the chosen period: the picture, and the same in a table. */
export function WhereItWent({ nutrient, period }: { nutrient: Nutrient; period: PeriodView }) {
  const shared = useScreenStyles();
  const styles = useBudgetStyles();
  const ids = useId(`where-${nutrient}-`);
  const flows = flowsOf(period);
  return (
    <div className={styles.card}>
      <h4 className={styles.cardTitle}>{budgetView.element[nutrient]}</h4>
      {!flows && <Known nutrient={nutrient} period={period} />}
      {flows && flows.totalG === 0 && <p className={shared.text}>{words.nothing}</p>}
      {flows && flows.totalG > 0 && (
        <>
          <FlowPicture flows={flows} nutrient={nutrient} ids={ids} />
          <table className={styles.table}>
            <caption className={shared.spoken}>{words.heading(nutrient)}</caption>
            <Head nutrient={nutrient} columns={3} />
            <Bar title={words.cameIn} flows={flows.cameIn} ids={ids} />
            <Bar title={words.went} flows={flows.went} ids={ids} />
          </table>
          <p className={styles.note}>{words.range(flows.whisker.lowG, flows.whisker.highG)}</p>
        </>
      )}
    </div>
  );
}

function Head({ nutrient, columns }: { nutrient: Nutrient; columns: number }) {
  const styles = useBudgetStyles();
  return (
    <thead>
      <tr>
        {words.columns(nutrient).slice(0, columns).map((column, place) => (
          <th key={column} scope="col" className={mergeClasses(styles.headCell, place > 0 && styles.number)}>
            {column}
          </th>
        ))}
      </tr>
    </thead>
  );
}

function Bar({ title, flows, ids }: { title: string; flows: readonly Flow[]; ids: string }) {
  const styles = useBudgetStyles();
  const own = useStyles();
  return (
    <tbody>
      <tr>
        <th scope="rowgroup" colSpan={3} className={own.bar}>
          {title}
        </th>
      </tr>
      {flows.map(({ name, grams, share }) => (
        <tr key={name}>
          <th scope="row" className={styles.cell}>
            <span className={own.name}>
              <Swatch ids={ids} name={name} className={own.swatch} />
              {words.flow[name]}
            </span>
          </th>
          <td className={mergeClasses(styles.cell, styles.number)}>{budgetView.part(grams)}</td>
          <td className={mergeClasses(styles.cell, styles.number)}>{budgetView.perCent(share)}</td>
        </tr>
      ))}
    </tbody>
  );
}

/** What is known of a period that cannot be closed. */
function Known({ nutrient, period: { parts } }: { nutrient: Nutrient; period: PeriodView }) {
  const shared = useScreenStyles();
  const styles = useBudgetStyles();
  if (PARTS.every((part) => parts[part] === null)) return <p className={shared.text}>{words.cannotReckon}</p>;
  return (
    <>
      <p className={shared.text}>{words.notDrawn}</p>
      <table className={styles.table}>
        <caption className={shared.spoken}>{words.heading(nutrient)}</caption>
        <Head nutrient={nutrient} columns={2} />
        <tbody>
          {PARTS.map((part) => {
            const grams = parts[part];
            return (
              <tr key={part}>
                <th scope="row" className={styles.cell}>
                  {words.partTitle[part]}
                </th>
                <td className={mergeClasses(styles.cell, styles.number)}>{grams === null ? words.notKnown : budgetView.part(grams)}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </>
  );
}
